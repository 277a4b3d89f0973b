"""What has the keyboard is in sight, however deep in parts that scroll it stands."""

from PySide6.QtCore import QPoint, QRect
from PySide6.QtWidgets import QAbstractItemView, QScrollArea, QWidget

ROOM_PX = 8


class KeyPage(QWidget):
    """The page of a window or a dialog: where Tab goes to is scrolled into sight.

    Qt does so only where Tab stays within one part that scrolls, and for a table only for its
    first corner. What is pressed with the mouse stays where it is: it would slip from under the
    hand.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("page")

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Go on with Tab, and bring what has the keyboard then."""
        went = super().focusNextPrevChild(forward)
        focused = self.window().focusWidget()
        if went and focused is not None:
            bring(focused)
        return went


def bring(widget: QWidget, part: QRect | None = None) -> None:
    """Scroll what lies around a widget until it, or a part of it, is in sight."""
    wanted = part if part is not None else _of(widget)
    around = widget.parentWidget()
    while around is not None:
        page = around.widget() if isinstance(around, QScrollArea) else None
        if isinstance(around, QScrollArea) and page is not None and page.isAncestorOf(widget):
            _show(around, QRect(widget.mapTo(page, wanted.topLeft()), wanted.size()))
        if around.isWindow():
            return
        around = around.parentWidget()


def _of(widget: QWidget) -> QRect:
    """Return all of a widget, or of a table the cell that has the keyboard."""
    if isinstance(widget, QAbstractItemView) and widget.currentIndex().isValid():
        cell = widget.visualRect(widget.currentIndex())
        return cell.translated(widget.viewport().mapTo(widget, QPoint(0, 0)))
    return widget.rect()


def _show(area: QScrollArea, wanted: QRect) -> None:
    """Scroll an area as little as needed; of what is too large its beginning is shown."""
    for bar, first, length, room in (
        (area.verticalScrollBar(), wanted.top(), wanted.height(), area.viewport().height()),
        (area.horizontalScrollBar(), wanted.left(), wanted.width(), area.viewport().width()),
    ):
        if first + length + ROOM_PX > bar.value() + room:
            bar.setValue(first + length + ROOM_PX - room)
        if first - ROOM_PX < bar.value():
            bar.setValue(first - ROOM_PX)
