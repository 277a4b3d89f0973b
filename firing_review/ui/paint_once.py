"""Painting a part of the window once, when all of it stands."""

from PySide6.QtCore import QTimer, Slot
from PySide6.QtWidgets import QWidget


def paint_once(part: QWidget) -> None:
    """Paint a part when what now begins in it is laid out, and not before.

    A chart has all of the window painted at once whenever something in it moves, and Qt has each
    part painted again that comes into sight: a page that was turned to was painted three times.
    """
    if part.updatesEnabled():
        _Unpainted(part)


class _Unpainted(QTimer):
    """Holds painting back; its turn comes after all that is laid out in this one.

    The part owns it and is not named in it, or each would keep the other.
    """

    def __init__(self, part: QWidget) -> None:
        super().__init__(part, singleShot=True, interval=0)
        part.setUpdatesEnabled(False)
        self.timeout.connect(self._on_standing)
        self.start()

    @Slot()
    def _on_standing(self) -> None:
        self.parent().setUpdatesEnabled(True)
        self.deleteLater()
