"""For people who see little, use no mouse, or listen."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QComboBox, QLineEdit, QWidget

from firing_review.ui.firing_place.panel import Beside
from firing_review.ui.tab_order import stops_of

SPOKEN = (QAbstractButton, QComboBox, QLineEdit)


def is_part_of_another(widget: QWidget) -> bool:
    return widget.objectName().startswith("qt_") or widget.window() is not widget.topLevelWidget()


def controls(window) -> list[QWidget]:
    found = [w for kind in SPOKEN for w in window.findChildren(kind)]
    return [w for w in found if not is_part_of_another(w) and w.focusPolicy() != Qt.NoFocus]


def test_every_control_has_a_name_to_be_read_out(window, log_file):
    window.open_path(log_file)
    nameless = [
        w
        for w in controls(window)
        if not w.accessibleName() and not (isinstance(w, QAbstractButton) and w.text())
    ]
    assert nameless == []


@pytest.mark.parametrize("beside", list(Beside))
def test_every_target_is_36_pixels_high_and_no_text_below_14(window, log_file, beside):
    window.open_path(log_file)
    window.firing.show_beside(beside)
    low = [
        (type(w).__name__, w.accessibleName(), w.height())
        for w in controls(window)
        if w.isVisible() and w.height() < 36
    ]
    assert low == []
    small = [w for w in window.findChildren(QWidget) if 0 < w.font().pixelSize() < 14]
    assert small == []


def test_tab_goes_from_the_bar_over_verdict_and_places_to_the_chart(window, log_file):
    window.open_path(log_file)
    order, widget = [], window.top_bar.view.goal
    for _ in range(200):
        order.append(widget)
        widget = widget.nextInFocusChain()
        if widget is window.top_bar.view.goal:
            break
    marks = [
        window.top_bar.view.menu,
        window.verdict.view.answer,
        window.work.list,
        window.firing.chart.view.lanes,
        window.firing.segments.fold,
        window.firing.tabs.button(Beside.FINDINGS),
        window.firing.schedule.view.table,
        window.firing.kiln.view.entries["name"],
    ]
    places = [order.index(mark) for mark in marks]
    assert places == sorted(places)


def test_the_keyboard_is_never_caught(window, log_file):
    window.open_path(log_file)
    for stop in stops_of(window.firing.schedule):
        if stop.isVisible():
            stop.setFocus()
            assert not getattr(stop, "tabKeyNavigation", bool)()


def test_larger_text_makes_everything_larger_up_to_twice(window, log_file):
    window.open_path(log_file)
    before = window.top_bar.view.undo.height()
    for _ in range(9):
        window.tools.appearance.enlarge()
    assert window.top_bar.view.undo.sizeHint().height() >= 1.9 * before
    for _ in range(9):
        window.tools.appearance.reduce()
    assert window.top_bar.view.undo.sizeHint().height() == before


@pytest.mark.parametrize(("width", "height"), [(1366, 768), (1366, 700), (1920, 1080)])
def test_nothing_scrolls_away_on_an_old_laptop(qtbot, window, log_file, width, height):
    window.open_path(log_file)
    window.resize(width, height)
    assert window.width() == width
    qtbot.waitUntil(lambda: not window.firing.view.verticalScrollBar().isVisible())


@pytest.mark.parametrize(("width", "height"), [(683, 384), (960, 540)])
def test_at_twice_the_size_all_of_it_can_be_scrolled_to(window, log_file, width, height):
    window.open_path(log_file)
    window.resize(width, height)
    assert window.width() == width
    view = window.firing.view
    assert view.widget().width() <= view.viewport().width()
