"""Enter presses the button that has the keyboard, as Space does, on every system."""

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractButton, QMainWindow

ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


class EnterKey(QObject):
    """Sees the keys that nothing in a window has used; held keys press once only."""

    def __init__(self, window: QMainWindow) -> None:
        super().__init__(window)
        self._window = window
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Press the focused button when Enter comes to the window unused."""
        if event.type() != QEvent.Type.KeyPress or not isinstance(event, QKeyEvent):
            return False
        focused = self._window.focusWidget()
        if event.key() not in ENTER or not isinstance(focused, QAbstractButton):
            return super().eventFilter(watched, event)
        if not event.isAutoRepeat():
            focused.click()
        return True
