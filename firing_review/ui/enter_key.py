"""Enter presses the button that has the keyboard, as Space does, on every system."""

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractButton, QMainWindow, QWidget

ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


class EnterKey(QObject):
    """Sees the keys that nothing in a window has used; held keys press once only.

    Enter in a line may hand the keyboard to a button; that button was not meant by it, so what
    counts is who had the keyboard when the key came.
    """

    def __init__(self, window: QMainWindow) -> None:
        super().__init__(window)
        self._window = window
        self._meant: QWidget | None = None
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Press the focused button when Enter comes to the window unused."""
        if event.type() == QEvent.Type.ShortcutOverride:
            self._meant = self._window.focusWidget()
        if event.type() != QEvent.Type.KeyPress or not isinstance(event, QKeyEvent):
            return False
        focused = self._window.focusWidget()
        if event.key() not in ENTER or not isinstance(focused, QAbstractButton):
            return super().eventFilter(watched, event)
        if focused is self._meant and not event.isAutoRepeat():
            focused.click()
        return True
