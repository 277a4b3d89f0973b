"""Where the keyboard goes and what it does there: seen first in a window with real keys."""

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QKeyEvent, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QPushButton, QVBoxLayout, QWidget
from shiboken6 import isValid

from firing_review.firing.units import TemperatureUnit
from firing_review.io.resource_path import demo_logs
from firing_review.review.edits import set_title
from firing_review.review.recovery import read_recovery
from firing_review.ui.chooser import Chooser
from firing_review.ui.entry import Entry
from firing_review.ui.firing_place.panel import Beside
from firing_review.ui.in_sight import KeyPage
from firing_review.ui.preferences import TimeShown
from firing_review.ui.schedule_editor.rows import cells_of
from firing_review.ui.scrolled import Scrolled
from firing_review.ui.shelves_place.cone_shape import tip_of
from firing_review.ui.sitting import unfinished_in
from firing_review.ui.switch import Switch
from firing_review.ui.text_table.model import TextTableModel
from firing_review.ui.text_table.view import TextTableView

TAB, RIGHT = Qt.Key.Key_Tab, Qt.Key.Key_Right


@pytest.fixture
def at_work(window):
    window.open_path(demo_logs() / "4_low_supply")
    return window


def in_sight(widget: QWidget, area: Scrolled) -> bool:
    """Tell whether all of a widget lies within what an area shows."""
    top = widget.mapTo(area.viewport(), widget.rect().topLeft()).y()
    return top >= 0 and top + widget.height() <= area.viewport().height()


def held(key: Qt.Key, repeats: int) -> list[QKeyEvent]:
    """Return what a key sends that is held down, up to before it is let go."""
    kinds, none = QEvent.Type, Qt.KeyboardModifier.NoModifier
    return [QKeyEvent(kinds.KeyPress, key, none, "", place > 0) for place in range(repeats)]


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space])
def test_enter_opens_a_demo_firing_as_space_does(window, key):
    card = window.start.view.demos.itemAt(0).widget()
    card.setFocus()
    QTest.keyClick(card, key)
    assert window.sitting.review is not None


def test_enter_held_down_presses_once(window):
    presses = []
    button = window.start.view.open_file
    button.clicked.disconnect()
    button.clicked.connect(lambda: presses.append(1))
    button.setFocus()
    for event in held(Qt.Key.Key_Return, 5):
        QApplication.sendEvent(button, event)
    assert len(presses) == 1


def test_the_menu_with_language_and_preferences_is_on_the_first_page_too(window):
    assert window.start.view.menu.isVisibleTo(window)
    assert window.start.view.menu.menu() is window.top_bar.view.menu.menu()


def test_tab_stops_at_the_half_of_a_switch_that_is_pressed(qtbot):
    units = [(TemperatureUnit.CELSIUS, "°C"), (TemperatureUnit.FAHRENHEIT, "°F")]
    page, switch, after = QWidget(), Switch("Temperatures in", units), QPushButton("after")
    layout = QVBoxLayout(page)
    layout.addWidget(switch)
    layout.addWidget(after)
    qtbot.addWidget(page)
    page.show()
    for value in (TemperatureUnit.CELSIUS, TemperatureUnit.FAHRENHEIT, TemperatureUnit.CELSIUS):
        switch.show_value(value)
        after.setFocus()
        QTest.keyClick(after, TAB)
        assert page.focusWidget() is switch.button(value)


def test_tab_brings_what_it_goes_to_into_sight_from_one_part_to_another(qtbot):
    page, column = KeyPage(), QWidget()
    inside, entries = QVBoxLayout(column), [Entry() for _ in range(30)]
    for entry in entries:
        inside.addWidget(entry)
    area, before = Scrolled(column), QPushButton("before")
    layout = QVBoxLayout(page)
    layout.addWidget(before)
    layout.addWidget(area)
    qtbot.addWidget(page)
    page.resize(300, 300)
    page.show()
    area.verticalScrollBar().setValue(area.verticalScrollBar().maximum())
    assert not in_sight(entries[0], area)
    before.setFocus()
    QTest.keyClick(before, TAB)
    assert page.focusWidget() is entries[0]
    assert in_sight(entries[0], area)
    QTest.keyClick(entries[0], Qt.Key.Key_Backtab)
    QTest.keyClick(before, Qt.Key.Key_Backtab)
    assert page.focusWidget() is entries[-1]
    assert in_sight(entries[-1], area)


def test_the_cell_that_has_the_keyboard_is_in_sight_of_a_page_that_scrolls(qtbot, appearance):
    column, model = QWidget(), TextTableModel(("a", "b"))
    table, above = TextTableView(appearance), QLabel("above")
    model.set_rows([("1", "2")] * 8)
    table.setModel(model)
    table.setMinimumHeight(500)
    above.setMinimumHeight(200)
    inside = QVBoxLayout(column)
    inside.addWidget(above)
    inside.addWidget(table)
    area = Scrolled(column)
    qtbot.addWidget(area)
    area.resize(300, 300)
    area.show()
    qtbot.waitExposed(area)
    table.setFocus()
    for row in (7, 0):
        table.setCurrentIndex(model.index(row, 0))
        cell = table.visualRect(table.currentIndex())
        top = table.viewport().mapTo(area.viewport(), cell.topLeft()).y()
        assert 0 <= top <= area.viewport().height() - cell.height()


def test_undo_keeps_the_cell_that_has_the_keyboard(at_work):
    editor = at_work.work.panel("firing").schedule
    table = editor.view.table
    table.setCurrentIndex(editor.model.index(2, 1))
    editor.model.setData(editor.model.index(2, 1), "2000")
    at_work.sitting.undo()
    assert editor.model.rows[2][1] == "2048"
    assert (table.currentIndex().row(), table.currentIndex().column()) == (2, 1)


def test_rows_set_by_the_program_are_more_fewer_or_others_without_losing_the_place(qtbot):
    model = TextTableModel(("a", "b"))
    model.set_rows([("1", ""), ("2", "")])
    assert (model.rows, model.rowCount()) == ([("1", ""), ("2", "")], 3)
    model.set_rows([("1", ""), ("2", ""), ("3", ""), ("4", "")])
    assert (len(model.rows), model.rowCount()) == (4, 5)
    model.set_rows([("9", "9")])
    assert (model.rows, model.rowCount()) == ([("9", "9")], 2)
    assert model.headerData(1, Qt.Orientation.Vertical) == ""


def test_an_open_cell_leaves_undo_to_the_program_until_something_is_typed(at_work):
    editor = at_work.work.panel("firing").schedule
    at_work.work.panel("firing").show_beside(Beside.SCHEDULE)
    table = editor.view.table
    table.setCurrentIndex(editor.model.index(0, 0))
    table.edit(table.currentIndex())
    cell = next(one for one in table.findChildren(Entry) if one.isVisible())
    assert not cell.isModified()
    QTest.keyClicks(cell, "1")
    assert cell.isModified()


def test_what_stands_in_an_open_cell_is_kept_when_the_window_is_closed(at_work):
    at_work.firing.show_beside(Beside.SCHEDULE)
    table = at_work.firing.schedule.view.table
    table.setFocus()
    table.setCurrentIndex(at_work.firing.schedule.model.index(2, 1))
    QTest.keyClicks(table, "2")
    cell = next(one for one in table.findChildren(Entry) if one.isVisible())
    QTest.keyClicks(cell, "000")
    at_work.close()
    (left,) = unfinished_in(at_work.tools.home / "recovery")
    kept = read_recovery(left.path)
    assert cells_of(kept.intended.segments[2], TemperatureUnit.FAHRENHEIT)[1] == "2000"


def test_the_list_of_keys_is_scrolled_with_keys(window):
    window.show_keys()
    dialog = window.dialog
    QTest.keyClick(dialog.close_button, TAB)
    area = dialog.focusWidget()
    assert isinstance(area, Scrolled)
    QTest.keyClick(area, Qt.Key.Key_PageDown)
    assert area.verticalScrollBar().value() > 0
    dialog.close_button.click()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)


def chamber_of(window):
    window.work.go_to("shelves")
    place = window.work.panel("shelves")
    place.view.within.choice.setFocus()
    return place, place.view.chamber


def test_tab_goes_from_cone_to_cone_and_out_of_the_chamber_after_the_last(at_work):
    place, chamber = chamber_of(at_work)
    QTest.keyClick(place.view.within.choice, TAB)
    told = []
    while at_work.focusWidget() is chamber:
        told.append((chamber.accessibleName(), place.view.table.currentIndex().row()))
        QTest.keyClick(chamber, TAB)
    assert len(told) == 9
    assert told[0] == ("cone 5 on bottom, bent 130 degrees of 90", 0)
    assert told[8] == ("cone 7 on top, bent 25 degrees of 90", 8)
    assert at_work.focusWidget() is place.view.add_shelf
    QTest.keyClick(place.view.add_shelf, Qt.Key.Key_Backtab)
    assert chamber.accessibleName() == "cone 7 on top, bent 25 degrees of 90"


def bent_with_a_key_held(window, times):
    """Return the chamber with its third cone bent as far as a held key goes, not let go yet."""
    place, chamber = chamber_of(window)
    QTest.keyClick(place.view.within.choice, TAB)
    for _ in range(2):
        QTest.keyClick(chamber, TAB)
    for event in held(RIGHT, times):
        QApplication.sendEvent(chamber, event)
    return chamber


def test_a_key_held_down_bends_a_cone_in_one_edit(at_work):
    chamber = bent_with_a_key_held(at_work, 12)
    assert at_work.sitting.undo_label is None
    QTest.keyRelease(chamber, RIGHT)
    QCoreApplication.processEvents()
    assert at_work.sitting.review.given.cones[2].bend_deg == 32.0
    at_work.sitting.undo()
    assert at_work.sitting.undo_label is None
    assert at_work.sitting.review.given.cones[2].bend_deg == 20.0


def test_a_bend_counts_when_the_keyboard_goes_on_before_the_key_is_let_go(at_work):
    chamber = bent_with_a_key_held(at_work, 5)
    QTest.keyClick(chamber, TAB)
    QCoreApplication.processEvents()
    assert at_work.sitting.review.given.cones[2].bend_deg == 25.0
    assert chamber.accessibleName() == "cone 5 on middle, bent 130 degrees of 90"


def test_a_bend_counts_when_the_window_is_closed_before_the_key_is_let_go(at_work):
    bent_with_a_key_held(at_work, 5)
    at_work.close()
    (left,) = unfinished_in(at_work.tools.home / "recovery")
    assert read_recovery(left.path).cones[2].bend_deg == 25.0


def taken_by_its_tip(chamber, cone):
    """Return where a cone's tip was taken hold of and pulled from, not let go yet."""
    tip = chamber.mapFromScene(cone.mapToScene(tip_of(cone.bend_deg, cone.length)))
    QTest.mousePress(chamber.viewport(), Qt.MouseButton.LeftButton, pos=tip)
    QTest.mouseMove(chamber.viewport(), tip + QPoint(40, 30))
    cone.bend(80.0, done=False)
    return tip


def key_let_go(chamber, _cone):
    for event in held(RIGHT, 2):
        QApplication.sendEvent(chamber, event)
    QTest.keyRelease(chamber, RIGHT)


def drawing_chosen(chamber, _cone):
    QTest.keyPress(chamber, Qt.Key.Key_5)


def drag_ended(chamber, cone):
    tip = taken_by_its_tip(chamber, cone)
    QTest.mouseRelease(chamber.viewport(), Qt.MouseButton.LeftButton, pos=tip)


@pytest.mark.parametrize("bent", [key_let_go, drawing_chosen, drag_ended])
def test_a_cone_lives_until_the_event_that_bent_it_is_over(at_work, bent):
    _, chamber = chamber_of(at_work)
    cone = chamber.scene().cones[2]
    cone.setFocus()
    bent(chamber, cone)
    assert isValid(cone)
    QCoreApplication.processEvents()
    assert not isValid(cone)
    assert at_work.sitting.review.given.cones[2].bend_deg != 20.0


def test_volts_that_are_no_number_are_marked_where_they_are_typed(at_work):
    at_work.work.go_to("elements")
    view = at_work.work.panel("elements").view
    view.at_load.setFocus()
    view.at_load.selectAll()
    QTest.keyClicks(view.at_load, "2,1e")
    QTest.keyClick(view.at_load, TAB)
    assert view.at_load.property("wrong")
    assert not view.at_rest.property("wrong")
    assert view.message.isVisible()
    assert at_work.sitting.undo_label is None
    view.at_load.setFocus()
    view.at_load.selectAll()
    QTest.keyClicks(view.at_load, "211,5")
    QTest.keyClick(view.at_load, TAB)
    assert not view.at_load.property("wrong")
    assert view.message.isHidden()
    assert at_work.sitting.review.given.readings.volts_full_load == 211.5


def test_a_note_is_written_in_sight_where_all_of_the_window_scrolls(qtbot, at_work):
    at_work.tools.appearance.rescale(2.0)
    at_work.resize(1000, 560)
    for _ in range(12):
        QApplication.processEvents()
    chart = at_work.firing.chart
    QTest.keyClick(chart.view.lanes, Qt.Key.Key_N)
    words = chart.view.note_line.text
    assert at_work.focusWidget() is words
    qtbot.waitUntil(lambda: not words.visibleRegion().isEmpty())
    at_work.tools.appearance.rescale(1.0)


def test_a_log_pasted_into_the_schedule_is_refused_with_the_next_step(at_work):
    schedule = at_work.firing.schedule
    QApplication.clipboard().setText("\n".join(f"{n}\t{20 + n % 900}" for n in range(10_000)))
    schedule.view.table.paste()
    assert "10000 rows" in at_work.message.heading.text()
    assert at_work.sitting.undo_label is None
    assert len(schedule.model.rows) == 4
    QApplication.clipboard().clear()


def turn(widget: QWidget) -> None:
    """Turn the wheel one notch over a widget."""
    at, none = QPointF(widget.rect().center()), Qt.KeyboardModifier.NoModifier
    event = QWheelEvent(
        at, widget.mapToGlobal(at), QPoint(), QPoint(0, -120),
        Qt.MouseButton.NoButton, none, Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    QApplication.sendEvent(widget, event)


def test_a_wheel_that_scrolls_past_answers_nothing(at_work):
    at_work.work.go_to("causes")
    before = at_work.sitting.review.given
    turn(at_work.top_bar.view.goal)
    for chooser in at_work.causes.findChildren(Chooser):
        turn(chooser)
    at_work.work.go_to("next")
    held = at_work.next.view.hold
    was = held.value()
    turn(held)
    assert at_work.sitting.review.given is before
    assert held.value() == was


def test_escape_ends_the_drag_of_a_cone_and_leaves_it_as_it_stood(qtbot, at_work):
    place, chamber = chamber_of(at_work)
    cone = place.scene.cones[2]
    tip = taken_by_its_tip(chamber, cone)
    QTest.keyClick(chamber, Qt.Key.Key_Escape)
    QTest.mouseMove(chamber.viewport(), tip + QPoint(60, 50))
    QTest.mouseRelease(chamber.viewport(), Qt.MouseButton.LeftButton, pos=tip + QPoint(60, 50))
    assert at_work.sitting.review.given.cones[2].bend_deg == 20.0
    assert at_work.sitting.undo_label is None


def test_from_the_first_page_a_button_leads_back_to_the_firing_with_its_undo(qtbot, at_work):
    editor = at_work.firing.schedule
    editor.model.setData(editor.model.index(2, 1), "2000")
    at_work.go_to_start()
    assert not at_work.actions["undo"].isEnabled()
    qtbot.mouseClick(at_work.start.view.back, Qt.MouseButton.LeftButton)
    assert at_work.work.isVisible()
    assert at_work.focusWidget() is at_work.work.list
    assert at_work.actions["undo"].isEnabled()
    at_work.actions["undo"].trigger()
    assert editor.model.rows[2][1] == "2048"


def test_with_no_firing_open_there_is_nothing_to_go_back_to(window):
    assert window.start.view.back.isHidden()


def test_a_log_without_a_clock_is_told_in_hours_whatever_key_is_pressed(window, log_file):
    window.open_path(log_file)
    window.showing.switch_time()
    times = window.top_bar.view.times
    assert times.button(TimeShown.ELAPSED).isChecked()
    assert not times.button(TimeShown.CLOCK).isEnabled()
    window.open_path(demo_logs() / "4_low_supply")
    assert times.button(TimeShown.CLOCK).isChecked()


def test_undo_takes_back_a_wrong_cell_alone_and_then_the_last_edit(at_work):
    at_work.sitting.edit(set_title("Tuesday"))
    at_work.firing.show_beside(Beside.SCHEDULE)
    schedule = at_work.firing.schedule
    table, before = schedule.view.table, schedule.model.rows
    at_work.activateWindow()
    table.setFocus()
    for typed in ("12x", "5y"):
        table.setCurrentIndex(schedule.model.index(1, 0))
        schedule.model.put(1, 0, [[typed]])
        assert schedule.model.is_wrong
    QTest.keyClick(table, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert schedule.model.rows == before
    assert not schedule.model.is_wrong
    assert at_work.sitting.review.given.title == "Tuesday"
    QTest.keyClick(table, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert at_work.sitting.review.given.title != "Tuesday"
    assert at_work.sitting.undo_label is None
