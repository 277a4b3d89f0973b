"""What comes into sight is painted once, whole, however often something in it moves."""

import pytest
from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QApplication, QWidget

from firing_review.ui.paint_once import paint_once


class Paints(QObject):
    """Counts how often a part is painted."""

    def __init__(self, part: QWidget):
        super().__init__(part)
        self.count = 0
        part.installEventFilter(self)

    def eventFilter(self, watched, event):
        self.count += event.type() == QEvent.Type.Paint
        return super().eventFilter(watched, event)


def settle():
    for _ in range(12):
        QApplication.processEvents()


@pytest.fixture
def opened(window, log_file):
    window.open_path(log_file)
    settle()
    return window


def test_a_page_that_is_turned_to_is_painted_once(opened):
    opened.go_to_start()
    settle()
    paints = Paints(opened.work)
    opened.go_back()
    settle()
    assert paints.count == 1


def test_a_place_that_is_gone_to_is_painted_once(opened):
    opened.work.go_to("shelves")
    settle()
    paints = Paints(opened.firing)
    opened.work.go_to("firing")
    settle()
    assert paints.count == 1


def test_what_is_painted_once_is_painted_again_when_it_changes_later(qtbot):
    part = QWidget()
    qtbot.addWidget(part)
    part.show()
    settle()
    paint_once(part)
    settle()
    paints = Paints(part)
    part.update()
    settle()
    assert paints.count == 1
