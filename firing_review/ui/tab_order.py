"""The order in which the Tab key goes through the window: as the eye does."""

from itertools import pairwise

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from firing_review.ui.in_sight import bring


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


def go_to_part(parts: list[QWidget], step: int) -> None:
    """Put the keyboard on the first stop of the next part that has one, or of the one before."""
    stops = [[stop for stop in stops_of(part) if _takes_keys(stop)] for part in parts]
    stops = [found for found in stops if found]
    if not stops:
        return
    focused = parts[0].window().focusWidget()
    now = next((n for n, found in enumerate(stops) if focused in found), 0 if step < 0 else -1)
    stop = stops[(now + step) % len(stops)][0]
    stop.setFocus(Qt.FocusReason.TabFocusReason)
    bring(stop)


def _takes_keys(stop: QWidget) -> bool:
    return stop.isVisible() and stop.isEnabled()
