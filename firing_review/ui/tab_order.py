"""The order in which the Tab key goes through the window: as the eye does."""

from itertools import pairwise

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget


def set_tab_order(parts: list[QWidget]) -> None:
    """Make Tab go through the parts in this order, and inside each in the order it was laid."""
    stops = [stop for part in parts for stop in stops_of(part)]
    for before, after in pairwise(stops):
        QWidget.setTabOrder(before, after)


def parts_of(place: QWidget) -> list[QWidget]:
    """Return the parts of a place in the order it says, or the whole of it."""
    return list(getattr(place, "parts", None) or [place])


def stops_of(part: QWidget) -> list[QWidget]:
    """Return the widgets of a part that take the keyboard, shown or not.

    Of buttons that exclude each other only the pressed one is a stop, so all are put in order.
    """
    inside = [part, *part.findChildren(QWidget)]
    return [
        widget
        for widget in inside
        if widget.focusPolicy() != Qt.FocusPolicy.NoFocus and widget.window() is part.window()
    ]
