"""Notes pinned to the time axis: by mouse and by keys, each change an edit with its name."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, Qt

from firing_review.firing.cones import ConeNumber
from firing_review.firing.sheet import TimeNote
from firing_review.io.resource_path import demo_logs
from firing_review.io.tables import load_tables
from firing_review.review import edits
from firing_review.ui.firing_chart.earlier import LaidOver
from firing_review.ui.firing_chart.panel import FiringChart

PLUG, BED = TimeNote(2.0, "plug <b>out</b>"), TimeNote(6.0, "went to bed")


@pytest.fixture
def noted(review):
    return replace(review, given=replace(review.given, notes=(PLUG, BED)))


@pytest.fixture
def chart(qtbot, appearance, showing, noted) -> FiringChart:
    panel = FiringChart(appearance, showing)
    qtbot.addWidget(panel)
    panel.resize(900, 600)
    panel.show_review(noted)
    panel.show()
    qtbot.waitExposed(panel)
    return panel


@pytest.fixture
def made(chart, noted):
    """Return the names of the edits made, and what becomes of the notes; the chart follows."""
    done = []

    def follow(edit):
        review = edit(chart._review, load_tables())
        done.append((edit.label.text, review.given.notes))
        chart.show_review(review)

    chart.edited.connect(follow)
    return done


def test_a_note_is_written_at_the_cursor_by_keys_alone(qtbot, chart, made):
    chart.move_cursor(4.5)
    qtbot.keyClick(chart.view.lanes, Qt.Key.Key_N)
    line = chart.view.note_line
    assert line.moment.text() == "Note at 4 h 30 min"
    assert not chart.view.tools.isVisible()
    qtbot.keyClicks(line.text, "smell of wax")
    qtbot.keyClick(line.text, Qt.Key.Key_Return)
    assert made == [("note added", (PLUG, TimeNote(4.5, "smell of wax"), BED))]
    assert not line.isVisible()
    assert chart.view.tools.isVisible()


def test_escape_writes_nothing_and_so_do_blanks(qtbot, chart, made):
    for keys in ("draft", "   "):
        chart.write_note()
        qtbot.keyClicks(chart.view.note_line.text, keys)
        key = Qt.Key.Key_Escape if keys == "draft" else Qt.Key.Key_Return
        qtbot.keyClick(chart.view.note_line.text, key)
    assert made == []


def test_a_click_on_a_tag_opens_its_note_and_its_words_can_be_changed(qtbot, chart, made):
    strip = chart.view.note_strip
    middle = strip.box_of(1).center().toPoint()
    qtbot.mouseClick(strip, Qt.MouseButton.LeftButton, pos=middle)
    assert chart.view.note_line.text.text() == "went to bed"
    chart.view.note_line.text.setText("slept")
    chart.view.note_line.keep.click()
    assert made == [("note changed", (PLUG, TimeNote(6.0, "slept")))]


def test_keeping_a_note_as_it_is_makes_no_edit(chart, made):
    chart.notes.change(BED)
    chart.view.note_line.keep.click()
    assert made == []


def test_a_tag_is_dragged_to_another_moment_and_stays_inside_the_record(qtbot, chart, made):
    strip = chart.view.note_strip
    start = QPoint(round(strip.box_of(1).left()) + 5, 18)
    qtbot.mousePress(strip, Qt.MouseButton.LeftButton, pos=start)
    qtbot.mouseMove(strip, start + QPoint(60, 0))
    qtbot.mouseMove(strip, start + QPoint(2000, 0))
    qtbot.mouseRelease(strip, Qt.MouseButton.LeftButton, pos=start + QPoint(2000, 0))
    ((label, notes),) = made
    assert label == "note moved"
    assert notes[1] == TimeNote(12.0, "went to bed")


def test_a_note_is_moved_by_buttons_a_minute_at_a_time(chart, made):
    chart.notes.change(BED)
    for _ in range(3):
        chart.view.note_line.later.click()
    chart.view.note_line.sooner.click()
    assert chart.view.note_line.moment.text() == "Note at 6 h 02 min"
    chart.view.note_line.keep.click()
    ((label, notes),) = made
    assert label == "note moved"
    assert notes[1].at_h == pytest.approx(6 + 2 / 60, abs=1e-3)


def test_delete_removes_the_chosen_note_and_enter_opens_it(qtbot, chart, made):
    strip = chart.view.note_strip
    qtbot.keyClick(strip, Qt.Key.Key_Right)
    assert strip.accessibleDescription() == "2 of 2, 6 h 00 min: went to bed"
    qtbot.keyClick(strip, Qt.Key.Key_Return)
    assert chart.view.note_line.text.text() == "went to bed"
    chart.view.note_line.cancel.click()
    qtbot.keyClick(strip, Qt.Key.Key_Delete)
    assert made == [("note removed", (PLUG,))]


def test_the_last_note_takes_its_strip_with_it(chart, made):
    for note in (PLUG, BED):
        chart.notes.change(note)
        chart.view.note_line.remove.click()
    assert [label for label, _ in made] == ["note removed", "note removed"]
    assert not chart.view.note_strip.isVisible()
    assert chart.view.lanes.temperature.foreground.pins_h == []


def test_every_lane_has_a_line_where_a_note_is(chart):
    for lane in chart.view.lanes.all:
        assert lane.foreground.pins_h == [2.0, 6.0]


def test_a_strangers_note_is_never_markup(chart):
    chart.notes.change(PLUG)
    assert chart.view.note_line.moment.textFormat() is Qt.TextFormat.PlainText
    assert chart.view.note_line.text.text() == "plug <b>out</b>"


def test_a_long_note_from_a_file_is_not_cut(chart, made, noted):
    long = TimeNote(3.0, "word " * 200 + "end")
    chart.show_review(replace(noted, given=replace(noted.given, notes=(long,))))
    chart.notes.change(long)
    chart.view.note_line.keep.click()
    assert made == []
    assert chart.view.note_line.text.text() == long.text


def test_a_note_out_of_view_has_no_tag(chart):
    chart.time.show(5.0, 7.0)
    assert chart.view.note_strip.box_of(0).isEmpty()
    assert not chart.view.note_strip.box_of(1).isEmpty()


def test_in_the_window_a_note_is_undone_under_its_name(qtbot, window, log_file):
    window.open_path(log_file)
    chart = window.findChild(FiringChart)
    chart.move_cursor(2.0)
    chart.write_note()
    qtbot.keyClicks(chart.view.note_line.text, "plug out")
    qtbot.keyClick(chart.view.note_line.text, Qt.Key.Key_Return)
    assert window.sitting.review.given.notes == (TimeNote(2.0, "plug out"),)
    assert window.sitting.undo_label.text == "note added"
    window.sitting.undo()
    assert window.sitting.review.given.notes == ()
    assert not chart.view.note_strip.isVisible()


def test_a_note_written_in_the_window_is_seen_at_once_and_gone_with_undo(qtbot, window, log_file):
    window.open_path(log_file)
    chart = window.firing.chart
    chart.move_cursor(4.5)
    qtbot.keyClick(chart.view.lanes, Qt.Key.Key_N)
    qtbot.keyClicks(chart.view.note_line.text, "smell of wax")
    qtbot.keyClick(chart.view.note_line.text, Qt.Key.Key_Return)
    assert chart.view.note_strip.isVisible()
    assert "smell of wax" in chart.view.note_strip.accessibleDescription()
    window.sitting.undo()
    assert chart.view.note_strip.isHidden()


def test_an_earlier_firing_that_is_taken_away_is_taken_off_the_chart(window):
    window.open_path(demo_logs() / "2_worn_heating_elements")
    chart = window.firing.chart
    chart.extras.lay_over(LaidOver.START)
    before = len(chart._lines.temperature)
    window.sitting.edit(edits.set_earlier(()))
    assert len(chart._lines.temperature) == before - 1
    window.sitting.undo()
    assert len(chart._lines.temperature) == before


def test_curves_are_not_drawn_again_for_an_edit_that_leaves_them_alone(window, log_file):
    window.open_path(log_file)
    lines = window.firing.chart._lines
    window.sitting.edit(edits.set_title("Tuesday"))
    assert window.firing.chart._lines is lines
    assert window.firing.chart._review is window.sitting.review


def test_another_goal_cone_is_read_at_the_line_at_once(window, log_file):
    window.open_path(log_file)
    window.firing.chart.move_cursor(5.0)
    assert "goal cone" not in window.firing.chart.view.readout.text()
    window.sitting.edit(edits.set_goal_cone(ConeNumber("6")))
    assert "goal cone" in window.firing.chart.view.readout.text()
