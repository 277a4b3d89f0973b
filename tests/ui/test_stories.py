"""What people do with the window, from the first page on."""

from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent, QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QPushButton

from firing_review.firing.cones import ConeNumber
from firing_review.firing.results import Light
from firing_review.firing.schedule import Schedule, Segment
from firing_review.firing.units import TemperatureUnit
from firing_review.ui.app import make_window
from firing_review.ui.firing_place.panel import Beside
from firing_review.ui.preferences import TimeShown
from firing_review.ui.sitting import unfinished_in


def drop(window, *paths: Path) -> None:
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    copy, button, keys = (
        Qt.DropAction.CopyAction,
        Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
    )
    window.dropEvent(QDropEvent(QPointF(50, 50), copy, data, button, keys))


def type_cell(qtbot, table, row: int, column: int, text: str) -> None:
    """Type into a cell as a person does, and leave it with Enter."""
    table.setCurrentIndex(table.model().index(row, column))
    qtbot.keyClicks(table, text[:1])
    editor = table.viewport().findChildren(QLineEdit)[-1]
    qtbot.keyClicks(editor, text[1:])
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    QCoreApplication.processEvents()


def at_work(window) -> bool:
    return window.pages.currentWidget() is window.work


def test_a_dropped_log_opens_and_the_schedule_is_asked_for(window, log_file):
    assert not at_work(window)
    drop(window, log_file)
    assert at_work(window)
    assert window.sitting.review.given.log.source == "night.csv"
    assert window.top_bar.view.title.text() == "night.csv"
    assert window.verdict.view.sentence.text()
    if not window.sitting.review.findings:
        assert window.firing.view.pages.seen is window.firing.schedule


def test_a_schedule_typed_beside_the_log_changes_the_review_at_once(qtbot, window, log_file):
    window.open_path(log_file)
    before = window.sitting.review
    window.firing.show_beside(Beside.SCHEDULE)
    table = window.firing.schedule.view.table
    type_cell(qtbot, table, 0, 0, "150")
    assert window.sitting.review is before
    type_cell(qtbot, table, 0, 1, "1240")
    after = window.sitting.review
    assert after.given.intended == Schedule((Segment(150.0, 1240.0, 0.0),))
    assert after.firing.plan_c is not None
    qtbot.waitUntil(lambda: window.top_bar.view.kept.text() == "kept")


def test_a_bad_cell_is_marked_and_neither_text_nor_review_is_lost(qtbot, window, log_file):
    window.open_path(log_file)
    editor = window.firing.schedule
    window.firing.show_beside(Beside.SCHEDULE)
    editor.model.put(0, 0, [["150", "1240", "10"]])
    good = window.sitting.review.given.intended
    type_cell(qtbot, editor.view.table, 0, 1, "12x0")
    assert window.sitting.review.given.intended is good
    assert editor.model.rows == [("150", "12x0", "10")]
    assert editor.view.message.isVisible()
    assert editor.view.message.text().startswith("Row 1, target: expected a temperature")
    window.top_bar.goalChosen.emit(ConeNumber("6"))
    assert editor.model.rows == [("150", "12x0", "10")]
    type_cell(qtbot, editor.view.table, 0, 1, "1230")
    assert window.sitting.review.given.intended.segments[0].target_c == 1230.0
    assert not editor.view.message.isVisible()


def test_rows_pasted_with_a_header_in_fahrenheit_are_one_edit(window, log_file):
    window.open_path(log_file)
    QGuiApplication.clipboard().setText("rate_f_per_h\ttarget_f\thold_min\n270\t2192\t10\n")
    window.firing.schedule.view.table.paste()
    (segment,) = window.sitting.review.given.intended.segments
    assert segment.target_c == pytest.approx(1200.0)
    window.sitting.undo()
    assert window.sitting.review.given.intended is None
    assert window.firing.schedule.model.rows == []


def test_bare_rows_pasted_are_read_in_the_unit_of_the_screen(window, log_file):
    window.open_path(log_file)
    window.showing.choose_unit(TemperatureUnit.FAHRENHEIT)
    QGuiApplication.clipboard().setText("270\t2192\t10\nfull\t2228\t0:15\n")
    window.firing.schedule.view.table.paste()
    first, second = window.sitting.review.given.intended.segments
    assert first.target_c == pytest.approx(1200.0)
    assert second == Segment(None, pytest.approx(1220.0), 15.0)


def test_a_change_of_unit_shows_the_schedule_in_it_and_is_no_edit(window, log_file):
    window.open_path(log_file)
    window.firing.schedule.model.put(0, 0, [["100", "1000", "10"]])
    given = window.sitting.review.given
    window.showing.choose_unit(TemperatureUnit.FAHRENHEIT)
    assert window.firing.schedule.model.rows == [("180", "1832", "10")]
    window.showing.choose_unit(TemperatureUnit.CELSIUS)
    assert window.firing.schedule.model.rows == [("100", "1000", "10")]
    assert window.sitting.review.given is given


def test_a_schedule_is_kept_under_a_name_and_taken_again(window, log_file):
    window.open_path(log_file)
    editor = window.firing.schedule
    editor.model.put(0, 0, [["150", "1220", "10"]])
    editor.view.name.setText("Tuesday glaze")
    editor.view.keep.click()
    window.open_path(log_file)
    assert editor.model.rows == []
    assert editor.view.kept.itemText(1) == "Tuesday glaze"
    editor.view.kept.activated.emit(1)
    assert window.sitting.review.given.intended == Schedule(
        (Segment(150.0, 1220.0, 10.0),), "Tuesday glaze"
    )


def test_the_kiln_form_goes_into_the_review_entry_by_entry(qtbot, window, log_file):
    window.open_path(log_file)
    window.firing.show_beside(Beside.KILN)
    form = window.firing.kiln.view
    qtbot.keyClicks(form.entries["name"], "Marten")
    qtbot.keyClick(form.entries["name"], Qt.Key.Key_Return)
    qtbot.keyClicks(form.entries["rated_kw"], "7,2")
    qtbot.keyClick(form.entries["rated_kw"], Qt.Key.Key_Return)
    kiln = window.sitting.review.given.kiln
    assert (kiln.name, kiln.rated_kw) == ("Marten", 7.2)
    assert window.top_bar.view.title.text() == "night.csv · Marten"
    qtbot.keyClicks(form.entries["rated_volts"], "many")
    qtbot.keyClick(form.entries["rated_volts"], Qt.Key.Key_Return)
    assert form.message.text().startswith("Rated voltage: expected a number")
    assert form.entries["rated_volts"].text() == "many"
    assert window.sitting.review.given.kiln is kiln


def test_undo_and_redo_go_through_every_edit_by_its_name(window, log_file):
    window.open_path(log_file)
    reviews = [window.sitting.review]
    steps = (
        lambda: window.firing.schedule.model.put(0, 0, [["150", "1220", "10"]]),
        lambda: window.top_bar.goalChosen.emit(ConeNumber("6")),
        lambda: window.firing.kilnEdited.emit(None),
        window.firing.safety.view.none.click,
    )
    for step in steps:
        step()
        reviews.append(window.sitting.review)
    names = []
    while window.actions["undo"].isEnabled():
        names.append(window.actions["undo"].text())
        window.actions["undo"].trigger()
    assert names == ["Undo: answers", "Undo: kiln", "Undo: goal cone", "Undo: schedule"]
    assert window.sitting.review is reviews[0]
    assert window.actions["redo"].text() == "Redo: schedule"
    while window.actions["redo"].isEnabled():
        window.actions["redo"].trigger()
    assert window.sitting.review is reviews[-1]


def test_undo_works_with_the_cursor_still_in_the_entry(qtbot, window, log_file):
    window.open_path(log_file)
    window.firing.show_beside(Beside.KILN)
    entry = window.firing.kiln.view.entries["name"]
    entry.setFocus()
    QTest.keyClicks(entry, "Marten")
    QTest.keyClick(entry, Qt.Key.Key_Return)
    QTest.keyClick(entry, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert window.sitting.review.given.kiln is None
    assert entry.text() == ""


def test_a_goal_cone_is_always_chosen_with_its_temperature(window, log_file):
    window.open_path(log_file)
    goal = window.top_bar.view.goal
    texts = [goal.itemText(place) for place in range(goal.count())]
    assert "cone 06, about 998 °C" in texts
    assert "cone 6, about 1222 °C" in texts
    goal.setCurrentIndex(texts.index("cone 06, about 998 °C"))
    goal.activated.emit(texts.index("cone 06, about 998 °C"))
    assert window.sitting.review.given.goal_cone == ConeNumber("06")
    window.showing.choose_unit(TemperatureUnit.FAHRENHEIT)
    assert goal.currentText() == "cone 06, about 1828 °F"


def test_safety_is_not_asked_yet_until_it_is_answered(window, log_file):
    window.open_path(log_file)
    assert window.verdict.view.safety.text.text() == "<b>Safety:</b> not asked yet"
    window.verdict.view.answer.click()
    assert window.firing.view.pages.seen is window.firing.safety
    window.firing.safety.view.signs["hot_plug"].click()
    assert window.sitting.review.verdict.lights.safety is Light.STOP
    assert window.firing.safety.view.stop.isVisible()
    assert "Switch off at the breaker" in window.verdict.view.sentence.text()
    window.sitting.undo()
    assert window.sitting.review.verdict.lights.safety is Light.NOT_ASKED


def test_a_finding_chosen_in_the_list_is_framed_in_the_chart_and_back(window, make_review):
    window.sitting.reviewChanged.emit(make_review())
    rows = window.firing.findings.view.rows
    rows.setCurrentIndex(window.firing.findings.model.index(1))
    assert window.firing.chart.view.strip._chosen == 1
    window.firing.chart.pick_at(3.2)
    assert rows.currentIndex().row() == 2
    window.firing.chart.pick_at(11.5)
    assert rows.selectionModel().selectedIndexes() == []


def test_a_segment_puts_the_cursor_at_its_beginning(window, make_review):
    window.sitting.reviewChanged.emit(make_review())
    window.firing.segments.fold.click()
    assert not window.firing.segments.view.isHidden()
    window.firing.segments.view.selectRow(0)
    assert window.firing.chart.cursor.at_h == 0.0


def test_hours_and_clock_change_at_once(window, make_review):
    from datetime import datetime  # noqa: PLC0415

    started = datetime(2026, 3, 3, 21, 40)  # noqa: DTZ001 - a logger knows no zone
    window.sitting.reviewChanged.emit(make_review(started=started))
    window.showing.switch_time()
    assert window.showing.time_shown is TimeShown.CLOCK
    window.firing.chart.move_cursor(2.5)
    assert "Wed 12:10 AM" in window.firing.chart.view.readout.text()


def test_a_file_that_is_no_log_is_refused_and_what_was_open_stays(window, log_file, tmp_path):
    window.open_path(log_file)
    open_before = window.sitting.review
    picture = tmp_path / "pots.png"
    picture.write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(200))
    drop(window, picture)
    assert window.message.isVisible()
    assert "a picture (PNG)" in window.message.heading.text()
    assert window.sitting.review is open_before
    assert at_work(window)


def test_the_refusal_offers_the_next_step(window, log_file, tmp_path, answers):
    answers.file = log_file
    window.open_path(tmp_path / "not there.csv")
    (another,) = window.message.buttons
    assert another.text() == "Open another file…"
    another.click()
    assert not window.message.isVisible()
    assert window.sitting.review.given.log.source == "night.csv"


def test_a_schedule_without_a_log_says_what_is_needed(window, tmp_path):
    lone = tmp_path / "schedule.csv"
    lone.write_text("rate_c_per_h,target_c,hold_min\n100,1000,10\n", encoding="utf-8")
    drop(window, lone)
    assert "expected the log of a firing first" in window.message.heading.text()


def test_log_and_schedule_dropped_together_belong_together(window, log_file, tmp_path):
    beside = tmp_path / "schedule.csv"
    beside.write_text("rate_c_per_h,target_c,hold_min\n150,1220,10\n", encoding="utf-8")
    drop(window, beside, log_file)
    assert window.sitting.review.given.intended.segments == (Segment(150.0, 1220.0, 10.0),)


def test_a_folder_without_a_sheet_is_opened_like_its_files_dropped_together(
    window, answers, log_file, tmp_path
):
    folder = tmp_path / "Tuesday"
    folder.mkdir()
    (folder / "a schedule.csv").write_text("rate_c_per_h,target_c,hold_min\n150,1220,10\n")
    (folder / "night.csv").write_bytes(log_file.read_bytes())
    (folder / "kiln.jpg").write_bytes(b"no text")
    answers.folder = folder
    window.arrivals.ask_folder()
    assert window.sitting.review.given.log.source == "night.csv"
    assert window.sitting.review.given.intended.segments == (Segment(150.0, 1220.0, 10.0),)


def test_a_folder_of_several_logs_is_refused_for_nothing_says_which(window, log_file, tmp_path):
    folder = tmp_path / "nights"
    folder.mkdir()
    for name in ("a.csv", "b.csv"):
        (folder / name).write_bytes(log_file.read_bytes())
    drop(window, folder)
    told = window.message.heading.text() + window.message.text.text()
    assert "found 2 logs" in told
    assert "Open one of them, or bring the folder into a kiln book." in told
    assert "Open another file…" in [one.text() for one in window.message.findChildren(QPushButton)]
    assert window.pages.is_at_start


def test_a_folder_that_cannot_be_looked_into_is_refused(window, tmp_path, monkeypatch):
    folder = tmp_path / "locked"
    folder.mkdir()

    def iterdir(_path):
        raise PermissionError("locked")

    monkeypatch.setattr(Path, "iterdir", iterdir)
    window.arrivals.open_path(folder)
    assert "expected a folder with a firing.toml" in window.message.heading.text()


def test_edits_are_kept_and_offered_at_the_next_start(window, home, answers, log_file):
    window.open_path(log_file)
    window.firing.schedule.model.put(0, 0, [["150", "1220", "10"]])
    window.close()
    again = make_window(home, answers.questions())
    (unfinished,) = unfinished_in(home / "recovery")
    assert unfinished.title == "night.csv"
    again.arrivals.pick_up(unfinished)
    assert again.sitting.review.given.intended.segments == (Segment(150.0, 1220.0, 10.0),)
    again.firing.safety.view.none.click()
    assert len(unfinished_in(home / "recovery")) == 1
    again.close()
    again.deleteLater()


def test_unfinished_work_can_be_let_go(window, home, log_file):
    window.open_path(log_file)
    window.firing.safety.view.none.click()
    window.go_to_start()
    (unfinished,) = unfinished_in(home / "recovery")
    window.let_go(unfinished)
    assert unfinished_in(home / "recovery") == []


def test_saved_as_a_folder_it_opens_again_and_nothing_is_left_to_recover(
    window, home, answers, log_file, tmp_path
):
    window.open_path(log_file)
    window.firing.schedule.model.put(0, 0, [["150", "1220", "10"]])
    answers.save = tmp_path / "Tuesday glaze"
    window.actions["save"].trigger()
    assert window.top_bar.view.kept.text() == "saved"
    assert unfinished_in(home / "recovery") == []
    window.open_path(answers.save)
    assert window.sitting.review.given.intended.segments == (Segment(150.0, 1220.0, 10.0),)


def test_a_folder_that_holds_something_is_never_written_over(window, answers, log_file, tmp_path):
    answers.save = tmp_path / "full"
    answers.save.mkdir()
    (answers.save / "pots.txt").write_text("mine", encoding="utf-8")
    window.open_path(log_file)
    window.save_as_folder()
    assert window.message.isVisible()
    assert [path.name for path in answers.save.iterdir()] == ["pots.txt"]


def test_opened_files_are_never_written(window, log_file):
    before = (log_file.read_bytes(), log_file.stat().st_mtime_ns)
    window.open_path(log_file)
    window.firing.schedule.model.put(0, 0, [["150", "1220", "10"]])
    window.sitting.undo()
    assert (log_file.read_bytes(), log_file.stat().st_mtime_ns) == before


def test_what_was_opened_is_on_the_start_page_next_time(window, log_file):
    window.open_path(log_file)
    window.go_to_start()
    names = [
        window.start.view.recent.itemAt(n).widget().accessibleName()
        for n in range(window.start.view.recent.count())
    ]
    assert names == ["night.csv"]


def test_a_disk_that_is_full_stops_nothing(qtbot, window, home, log_file):
    window.open_path(log_file)
    (home / "recovery").write_text("a file where the folder should be", encoding="utf-8")
    window.firing.schedule.model.put(0, 0, [["150", "1220", "10"]])
    assert window.sitting.review.given.intended is not None
    qtbot.waitUntil(lambda: window.top_bar.view.kept.text() == "not kept")
    assert window.message.isVisible()


def test_a_misread_unit_is_put_right_from_the_menu_and_undone(window, log_file):
    window.open_path(log_file)
    assert window.firing.chart.view.tools.notes.text().startswith(
        "Read as °C: 700 rows over 11 h 39 min"
    )
    window.actions["reread"].trigger()
    assert window.sitting.review.given.log.unit_read is TemperatureUnit.FAHRENHEIT
    assert window.firing.chart.view.tools.notes.text().startswith("Read as °F")
    assert window.actions["undo"].text() == "Undo: how the log is read"
    window.actions["undo"].trigger()
    assert window.sitting.review.given.log.unit_read is TemperatureUnit.CELSIUS
