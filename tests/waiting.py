"""Waiting for what a window does beside itself, as a person waits for it."""

import time

from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from firing_review.ui.main_window import MainWindow

LOOK_MS, MOST_S = 5, 60.0


def is_busy(window: MainWindow) -> bool:
    """Tell whether something is on its way."""
    sitting = window.sitting
    working = (window.arrivals.background, sitting.background, sitting.errands, window.books.work)
    return any(one.is_busy for one in working)


def until_done(window: MainWindow) -> None:
    """Return when nothing is on its way any more."""
    ends_s = time.monotonic() + MOST_S
    while is_busy(window):
        assert time.monotonic() < ends_s
        QTest.qWait(LOOK_MS)


def until_all_done() -> None:
    """Return when no window has anything on its way."""
    for window in QApplication.topLevelWidgets():
        if isinstance(window, MainWindow):
            until_done(window)
