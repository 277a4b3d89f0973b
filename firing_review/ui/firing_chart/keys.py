"""The keys of the chart."""

from typing import Protocol

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from firing_review.ui.firing_chart.cursor import Cursor
from firing_review.ui.firing_chart.time_view import TimeView

SMALL_STEP, LARGE_STEP, PAN_STEP = 1 / 240, 1 / 20, 1 / 10
"""Share of the view that the cursor, or the view, moves for one press of a key."""
ZOOM = 0.7
KEY = Qt.Key


class Keyed(Protocol):
    """What the keys act on."""

    time: TimeView
    cursor: Cursor

    def pick_under_cursor(self) -> None:
        """Select the finding under the cursor."""

    def write_note(self) -> None:
        """Open a new note where the cursor stands."""


def press(chart: Keyed, event: QKeyEvent) -> None:
    """Do what a key is for; one that means nothing here is passed on."""
    if _step(chart, event) or _act(chart, event):
        event.accept()


def _step(chart: Keyed, event: QKeyEvent) -> bool:
    """Move the cursor, which takes the view along; with Shift move the view itself."""
    ways = {KEY.Key_Left: -1, KEY.Key_Right: 1, KEY.Key_PageUp: -1, KEY.Key_PageDown: 1}
    way = ways.get(event.key())
    if way is None:
        return False
    held = event.modifiers()
    if held & Qt.KeyboardModifier.ShiftModifier:
        chart.time.pan(way * PAN_STEP)
        return True
    is_large = event.key() in (KEY.Key_PageUp, KEY.Key_PageDown)
    is_large = is_large or bool(held & Qt.KeyboardModifier.ControlModifier)
    low, high = chart.time.range_h
    start = chart.cursor.at_h if chart.cursor.at_h is not None else (low + high) / 2
    chart.cursor.move(start + way * (LARGE_STEP if is_large else SMALL_STEP) * (high - low))
    if chart.cursor.at_h is not None:
        chart.time.follow(chart.cursor.at_h)
    return True


def _act(chart: Keyed, event: QKeyEvent) -> bool:
    key, cursor, time = event.key(), chart.cursor, chart.time
    low, high = time.range_h
    with_control = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
    if key in (KEY.Key_Plus, KEY.Key_Equal):
        time.zoom(ZOOM, cursor.at_h)
    elif key == KEY.Key_Minus:
        time.zoom(1 / ZOOM, cursor.at_h)
    elif key == KEY.Key_Home and with_control:
        cursor.move(low)
    elif key in (KEY.Key_0, KEY.Key_Home):
        time.fit()
    elif key == KEY.Key_End:
        cursor.move(high)
    elif key == KEY.Key_M:
        cursor.measure(not cursor.is_measuring)
    elif key == KEY.Key_N:
        chart.write_note()
    elif key == KEY.Key_Escape:
        _leave(cursor)
    elif key in (KEY.Key_Return, KEY.Key_Enter, KEY.Key_Space):
        _choose(chart)
    else:
        return False
    return True


def _leave(cursor: Cursor) -> None:
    if cursor.is_measuring:
        cursor.measure(is_on=False)
    else:
        cursor.move(None)


def _choose(chart: Keyed) -> None:
    if chart.cursor.is_measuring:
        chart.cursor.set_point()
    else:
        chart.pick_under_cursor()
