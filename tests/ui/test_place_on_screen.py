"""The window opens where it was left, and on another screen as if for the first time."""

import struct

from PySide6.QtCore import QByteArray, QRect
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QMainWindow

from firing_review.ui.place_on_screen import place_on_screen

WIDTH_AT = 46
"""Where the width of the screen stands in what Qt keeps of a window [bytes]."""


def left_at(qtbot, rect: QRect) -> QByteArray:
    window = QMainWindow()
    qtbot.addWidget(window)
    window.setGeometry(rect)
    return window.saveGeometry()


def test_the_window_opens_where_it_was_left(qtbot):
    window = QMainWindow()
    qtbot.addWidget(window)
    place_on_screen(window, left_at(qtbot, QRect(40, 60, 500, 400)))
    assert window.geometry() == QRect(40, 60, 500, 400)
    assert not window.isMaximized()


def test_on_a_screen_that_is_not_the_one_it_was_left_on_it_opens_as_if_for_the_first_time(qtbot):
    kept = bytearray(left_at(qtbot, QRect(40, 60, 500, 400)).data())
    width = QGuiApplication.primaryScreen().geometry().width()
    assert struct.unpack_from(">i", kept, WIDTH_AT) == (width,)
    struct.pack_into(">i", kept, WIDTH_AT, 3 * width)
    for left_as in (QByteArray(bytes(kept)), QByteArray(b"not from Qt"), QByteArray()):
        window = QMainWindow()
        qtbot.addWidget(window)
        place_on_screen(window, left_as)
        assert window.isMaximized()
