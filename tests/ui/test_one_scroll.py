"""A page has one way to scroll, the answer stands at its top, and the places stay in sight."""

import pytest
from every_place import every_place
from PySide6.QtCore import QPoint, QPointF, QSize, Qt
from PySide6.QtGui import QResizeEvent, QWheelEvent
from PySide6.QtWidgets import (
    QAbstractScrollArea,
    QApplication,
    QFrame,
    QLabel,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from firing_review.firing.wording import Language
from firing_review.io.resource_path import demo_logs
from firing_review.ui.chooser import Chooser
from firing_review.ui.layouts import fill
from firing_review.ui.scrolled import Scrolled
from firing_review.ui.seen_stack import SeenStack

LAPTOP, LAPTOP_AT_200, LOW_LAPTOP = (1366, 768), (683, 384), (1366, 620)
LOG = demo_logs() / "3_dead_section" / "firing.toml"


def settle():
    for _ in range(12):
        QApplication.processEvents()


@pytest.fixture
def low(window):
    """Return the window with a firing open, on a laptop that doubles everything."""
    window.open_path(LOG)
    settle()
    window.resize(*LAPTOP_AT_200)
    settle()
    return window


def bar(window):
    return window.work._scrolled.verticalScrollBar()


def nested(window) -> list[str]:
    """Return what scrolls up and down within something that does."""
    areas = [
        area
        for area in window.findChildren(QAbstractScrollArea)
        if area.isVisible() and area.verticalScrollBar().maximum() > 0
    ]
    return [
        f"{type(inner).__name__} {inner.accessibleName()}"
        for inner in areas
        if any(outer is not inner and outer.isAncestorOf(inner) for outer in areas)
    ]


def test_what_scrolls_within_what_scrolls_is_found(qtbot):
    window, middle = QWidget(), QWidget()
    qtbot.addWidget(window)
    inner, outer = QScrollArea(), QScrollArea(window)
    inner.setWidget(QLabel("a line\n" * 20))
    inner.setFixedHeight(60)
    layout = QVBoxLayout(middle)
    for part in (inner, QLabel("a line\n" * 20)):
        layout.addWidget(part)
    outer.setWidget(middle)
    outer.resize(200, 100)
    window.show()
    settle()
    assert nested(window) == ["QScrollArea "]


@pytest.mark.parametrize("language", [Language.ENGLISH_US, Language.GERMAN])
@pytest.mark.parametrize("size", [LAPTOP, LAPTOP_AT_200, LOW_LAPTOP])
def test_nothing_that_scrolls_stands_within_something_that_scrolls(window, language, size):
    window.choose_language(language)
    window.open_path(LOG)
    settle()
    window.resize(*size)
    found = {}

    def look(where: str) -> None:
        settle()
        found[where] = nested(window)

    for where in every_place(window):
        look(where)
    window.firing.segments.fold.setChecked(True)
    look("segments")
    assert {where: what for where, what in found.items() if what} == {}


def test_the_answer_is_in_sight_first_and_again_with_another_firing(low):
    assert bar(low).value() == 0
    sentence = low.work.verdict.view.sentence
    bottom = sentence.mapTo(low, QPoint(0, sentence.height())).y()
    assert bottom < LAPTOP_AT_200[1]
    bar(low).setValue(bar(low).maximum())
    low.open_path(demo_logs() / "1_good_glaze_firing" / "firing.toml")
    settle()
    assert bar(low).value() == 0


def test_an_edit_leaves_the_page_where_it_is(low):
    bar(low).setValue(300)
    low.top_bar.titleEdited.emit("Another title")
    settle()
    assert bar(low).value() == 300


def test_the_places_stay_in_sight_however_far_the_page_is_scrolled(low):
    for value in (400, 700, bar(low).maximum()):
        bar(low).setValue(value)
        top = low.work.list.mapTo(low.work._scrolled.viewport(), QPoint(0, 0)).y()
        assert top == 0
        assert low.work.list.height() == low.work._scrolled.viewport().height()


def test_another_place_begins_at_its_top(low):
    bar(low).setValue(bar(low).maximum())
    low.work.go_to("causes")
    settle()
    place = low.work.panel("causes")
    assert place.mapTo(low.work._scrolled.viewport(), QPoint(0, 0)).y() == 0
    bar(low).setValue(20)
    low.work.go_to("shelves")
    settle()
    assert bar(low).value() == 20, "the answer was in sight and stays so"


def test_a_page_is_only_as_high_as_the_place_in_sight(low):
    low.work.go_to("causes")
    settle()
    long = bar(low).maximum()
    low.work.go_to("next")
    settle()
    assert bar(low).maximum() < long


def test_a_book_that_is_not_open_asks_for_no_room_of_a_full_one(low):
    low.work.go_to("book")
    settle()
    assert low.work._stack.height() == low.work._scrolled.viewport().height()


def test_with_height_again_the_parts_scroll_by_themselves_again(low):
    low.resize(*LAPTOP)
    low.work.go_to("causes")
    settle()
    assert bar(low).maximum() == 0
    scrolling = [
        area for area in low.findChildren(Scrolled)
        if area.isVisible() and area.verticalScrollBar().maximum() > 0
    ]  # fmt: skip
    assert len(scrolling) == 2


def turn(widget: QWidget, keys: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier):
    """Turn the wheel by a notch towards the person; return whether the widget took it."""
    target = widget.viewport() if isinstance(widget, QAbstractScrollArea) else widget
    where = QPointF(target.rect().center())
    event = QWheelEvent(
        where, target.mapToGlobal(where), QPoint(), QPoint(0, -120),
        Qt.MouseButton.NoButton, keys, Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    widget.wheelEvent(event)
    return event.isAccepted()


def test_the_wheel_over_the_chart_scrolls_a_page_that_scrolls_and_zooms_with_ctrl(low):
    lanes = low.firing.chart.view.lanes
    assert not turn(lanes)
    assert turn(lanes, Qt.KeyboardModifier.ControlModifier)
    low.resize(*LAPTOP)
    settle()
    assert turn(lanes)


def test_only_one_page_of_a_stack_is_in_sight_and_takes_the_keyboard_over(qtbot):
    stack, pages = SeenStack(), [Chooser(), Chooser()]
    for page in pages:
        stack.add_page(page)
    qtbot.addWidget(stack)
    stack.show()
    assert [page.isVisible() for page in pages] == [True, False]
    pages[0].setFocus()
    stack.show_page(pages[1])
    assert [page.isVisible() for page in pages] == [False, True]
    assert stack.seen is pages[1]
    assert stack.focusWidget() is pages[1]


class Sheet(QWidget):
    """Is the higher the wider it is, like a page of paper."""

    turned = 0

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return round(width * 1.3)

    def minimumSizeHint(self) -> QSize:
        return QSize(100, self.heightForWidth(self.width()))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.updateGeometry()
        self.turned += 1
        assert self.turned < 100


def test_a_bar_that_makes_itself_needless_stays_instead_of_coming_and_going(qtbot):
    page, sheet = QWidget(), Sheet()
    fill(page, sheet)
    area = Scrolled(page)
    area.setFrameShape(QFrame.Shape.NoFrame)
    qtbot.addWidget(area)
    area.show()
    with_bar = 400 - area.verticalScrollBar().sizeHint().width()
    for height in range(round(with_bar * 1.3) - 3, 524):
        area.resize(400, height)
        settle()
        sheet.turned = 0
        assert area.verticalScrollBar().isVisible() is (height < 520)
    area.resize(400, 1000)
    settle()
    assert not area.verticalScrollBar().isVisible()


@pytest.mark.parametrize("language", [Language.ENGLISH_US, Language.GERMAN])
def test_how_the_shelves_are_arranged_does_not_decide_how_they_are_arranged(window, language):
    window.open_path(LOG)
    window.choose_language(language)
    view = window.work.panel("shelves").view
    for scale in (1.0, 1.3, 2.0):
        window.tools.appearance.rescale(scale)
        view._lay_out_for(narrow=True)
        settle()
        one_under_the_other = view._least_beside()
        view._lay_out_for(narrow=False)
        settle()
        assert view._least_beside() == one_under_the_other
        assert one_under_the_other > 300
