"""Pages that scroll: when they are measured."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from firing_review.ui.layouts import fill
from firing_review.ui.scrolled import Scrolled

STYLED = Qt.WidgetAttribute.WA_WState_Polished


def nested() -> tuple[QWidget, QLabel]:
    """Return a place with a page that scrolls inside another, and the label in the innermost."""
    label, inner, outer, place = QLabel("Cone 6"), QWidget(), QWidget(), QWidget()
    label.setMinimumSize(333, 44)
    fill(inner, label)
    fill(outer, Scrolled(inner))
    fill(place, Scrolled(outer))
    return place, label


def test_what_scrolls_is_styled_only_once_it_stands_in_its_place(qtbot, appearance):
    place, label = nested()
    window = QWidget()
    qtbot.addWidget(window)
    QVBoxLayout(window).addWidget(place)
    assert not label.testAttribute(STYLED)
    window.show()
    assert label.testAttribute(STYLED)
    assert label.isVisible()


def test_a_page_that_scrolls_is_as_large_as_what_is_in_it(qtbot, appearance):
    place, _label = nested()
    qtbot.addWidget(place)
    assert place.sizeHint().width() >= 333


def test_the_page_can_be_asked_for_before_it_is_seen(qtbot, appearance):
    page = QWidget()
    scrolled = Scrolled(page)
    qtbot.addWidget(scrolled)
    assert scrolled.widget() is page
    assert scrolled.widget() is page
