"""Long work beside the window: its end, its errors, and nothing left of it."""

import multiprocessing
import os
import threading
import time
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QObject
from PySide6.QtGui import QGuiApplication
from side_work import count_to, give_back, niceness, read_anew, refuse, sleep_long
from waiting import until_done

from firing_review.firing.cones import ConeNumber
from firing_review.firing.log import Channel, ChannelRole, FiringLog
from firing_review.firing.said import Said
from firing_review.firing.schedule import Segment
from firing_review.firing.sheet import Given
from firing_review.firing.units import TemperatureUnit
from firing_review.firing.wording import Language
from firing_review.io.open_any import gather
from firing_review.io.resource_path import demo_logs
from firing_review.review import edits
from firing_review.ui import side_process
from firing_review.ui.app import make_window
from firing_review.ui.background import Background, Work
from firing_review.ui.book_work import BookTask
from firing_review.ui.busy_line.panel import BusyLine
from firing_review.ui.firing_chart.data_text import table_text
from firing_review.ui.sitting import unfinished_in

LONG_MS = 60_000


@pytest.fixture
def background(qtbot):
    made = Background()
    yield made
    made.stop()


class Watch(QObject):
    """Notes each event of a kind."""

    def __init__(self, parent, kind, seen):
        super().__init__(parent)
        self.kind, self.seen = kind, seen

    def eventFilter(self, watched, event):
        if event.type() == self.kind:
            self.seen.append(event.type())
        return super().eventFilter(watched, event)


@pytest.fixture
def heard():
    return []


def work_for(heard, do, *arguments, is_long=True):
    return Work(
        "working", do, arguments, lambda r: heard.append(("done", r)),
        lambda e: heard.append(("refused", e)), lambda: heard.append(("canceled", None)),
        is_long=is_long,
    )  # fmt: skip


def test_work_tells_how_far_it_is_and_then_its_result(qtbot, background, heard):
    words = []
    background.progressed.connect(lambda share, text: words.append((share, text)))
    background.run(work_for(heard, count_to, 2))
    assert background.is_busy
    qtbot.waitUntil(lambda: heard != [], timeout=LONG_MS)
    assert words == [(0.0, "Counting, 0"), (0.5, "Counting, 1")]
    ((kind, result),) = heard
    assert kind == "done"
    assert result.tolist() == [0.0, 1.0]
    assert result.flags.writeable
    assert not background.is_busy


@pytest.mark.skipif(not hasattr(os, "nice"), reason="this system has no such number")
def test_work_in_a_process_of_its_own_lets_the_window_go_first(qtbot, background, heard):
    background.run(work_for(heard, niceness))
    qtbot.waitUntil(lambda: heard != [], timeout=LONG_MS)
    assert heard == [("done", os.nice(0) + side_process.NICE)]


def test_a_large_file_that_went_over_comes_back_as_the_very_same(qtbot, background, heard):
    file, other = b"a" * 100_000, b"b" * 100_000
    background.run(work_for(heard, read_anew, file, other))
    qtbot.waitUntil(lambda: heard != [], timeout=LONG_MS)
    ((_, (same, log)),) = heard
    assert same is other
    assert log.raw is file


def test_a_refusal_comes_back_as_it_was_raised(qtbot, background, heard):
    background.run(work_for(heard, refuse, "shelf.csv"))
    qtbot.waitUntil(lambda: heard != [], timeout=LONG_MS)
    ((kind, error),) = heard
    assert kind == "refused"
    assert str(error) == "shelf.csv, line 3: expected a jug, found a bowl. Throw again."


def test_what_went_over_comes_back_as_the_very_same_log(qtbot, background, heard):
    hours = np.arange(3.0)
    log = FiringLog("a.csv", hours, (Channel("T", ChannelRole.CHAMBER, hours),), raw=b"x" * 99)
    given = Given(log, goal_cone=ConeNumber("6"))
    background.run(work_for(heard, give_back, given))
    qtbot.waitUntil(lambda: heard != [], timeout=LONG_MS)
    ((_, (same, same_log)),) = heard
    assert same is given
    assert same_log is log


def test_canceled_work_ends_at_once_and_says_so(qtbot, background, heard):
    background.run(work_for(heard, sleep_long))
    qtbot.wait(50)
    began = time.monotonic()
    background.cancel()
    assert heard == [("canceled", None)]
    assert not background.is_busy
    assert time.monotonic() - began < 30.0


def test_newer_work_ends_the_older(qtbot, background, heard):
    background.run(work_for(heard, sleep_long))
    background.run(work_for(heard, count_to, 1))
    qtbot.waitUntil(lambda: heard != [], timeout=LONG_MS)
    assert [kind for kind, _ in heard] == ["done"]


def test_work_that_was_killed_is_refused_in_plain_words(qtbot, background, heard):
    background.run(work_for(heard, sleep_long))
    qtbot.waitUntil(lambda: background._talk._process is not None, timeout=LONG_MS)
    background._talk._process.kill()
    qtbot.waitUntil(lambda: heard != [], timeout=LONG_MS)
    assert "ended from outside" in str(heard[0][1])


@pytest.fixture
def long_log(log_file, monkeypatch) -> Path:
    """Return a log that counts as long, so that it is read and reviewed beside the window."""
    monkeypatch.setattr("firing_review.ui.open_log.wanted.LONG_BYTES", 1000)
    monkeypatch.setattr("firing_review.ui.sitting.LONG_BYTES", 1000)
    monkeypatch.setattr("firing_review.ui.sitting.LONG_ROWS", 100)
    return log_file


def test_a_long_log_opens_beside_the_window_and_edits_of_it_are_caught_up(
    qtbot, window, home, long_log
):
    window.open_path(long_log)
    assert window.sitting.review is None
    assert "night.csv" in window.busy[0].text.text()
    qtbot.waitUntil(lambda: window.sitting.review is not None, timeout=LONG_MS)
    assert not window.busy[0].isVisible()
    opened = window.sitting.review
    for cone in ("6", "5"):
        window.sitting.edit(edits.set_goal_cone(ConeNumber(cone)))
    assert window.sitting.is_behind
    assert window.sitting.background.is_busy
    qtbot.waitUntil(lambda: not window.sitting.is_behind, timeout=LONG_MS)
    review = window.sitting.review
    assert review.given.goal_cone == ConeNumber("5")
    assert review.heat_work[0].goal_fraction is not None
    assert review.given.log is opened.given.log
    window.busy[1].cancel.click()
    window.sitting.undo()
    assert window.sitting.review.given.goal_cone == ConeNumber("6")
    assert window.sitting.is_behind
    window.sitting.undo()
    assert window.sitting.review is opened
    assert not window.sitting.is_behind
    window.close()
    assert len(unfinished_in(home / "recovery")) == 1


def test_a_canceled_opening_leaves_what_was_open(qtbot, window, log_file, request):
    window.open_path(log_file)
    before = window.sitting.review
    window.open_path(request.getfixturevalue("long_log"))
    window.sitting.edit(edits.set_goal_cone(ConeNumber("6")))
    window.busy[0].cancel.click()
    assert not window.busy[0].isVisible()
    assert window.sitting.review.given.log is before.given.log
    assert window.sitting.review.given.goal_cone == ConeNumber("6")


def test_an_edit_made_while_closing_is_kept(qtbot, window, home, answers, long_log):
    window.open_path(long_log)
    qtbot.waitUntil(lambda: window.sitting.review is not None, timeout=LONG_MS)
    window.sitting.edit(edits.set_goal_cone(ConeNumber("6")))
    window.close()
    (unfinished,) = unfinished_in(home / "recovery")
    assert unfinished.is_long
    again = make_window(home, answers.questions())
    again.arrivals.pick_up(unfinished)
    qtbot.waitUntil(lambda: again.sitting.review is not None, timeout=LONG_MS)
    assert again.sitting.review.given.goal_cone == ConeNumber("6")
    again.close()
    again.deleteLater()


def test_how_a_long_log_is_read_is_looked_at_and_corrected_beside_the_window(
    qtbot, window, long_log
):
    window.open_path(long_log)
    qtbot.waitUntil(lambda: window.sitting.review is not None, timeout=LONG_MS)
    window.arrivals.ask_how_read()
    page, view = window.open_log, window.open_log.view
    assert not page.isVisible()
    assert window.arrivals.background.is_busy
    qtbot.waitUntil(page.isVisible, timeout=LONG_MS)
    assert view.unit.currentText() == "°C"
    view.unit.setCurrentIndex(1)
    view.unit.activated.emit(1)
    assert not view.use.isEnabled()
    window.busy[0].cancel.click()
    assert (view.unit.currentText(), view.use.isEnabled()) == ("°C", True)
    view.unit.setCurrentIndex(1)
    view.unit.activated.emit(1)
    qtbot.waitUntil(view.use.isEnabled, timeout=LONG_MS)
    view.use.click()
    qtbot.waitUntil(lambda: not window.arrivals.background.is_busy, timeout=LONG_MS)
    assert window.sitting.review.given.log.unit_read is TemperatureUnit.FAHRENHEIT


def test_a_long_log_is_read_in_the_other_unit_beside_the_window(qtbot, window, long_log):
    window.open_path(long_log)
    qtbot.waitUntil(lambda: window.sitting.review is not None, timeout=LONG_MS)
    window.arrivals.read_in_other_unit()
    assert window.sitting.review.given.log.unit_read is TemperatureUnit.CELSIUS
    assert window.arrivals.background.is_busy
    qtbot.waitUntil(lambda: not window.arrivals.background.is_busy, timeout=LONG_MS)
    assert window.sitting.review.given.log.unit_read is TemperatureUnit.FAHRENHEIT


def test_a_file_goes_to_another_process_and_back_as_it_was_and_only_once():
    here, there = multiprocessing.Pipe()
    file = bytes(range(256)) * 1000
    sender = threading.Thread(target=side_process.send, args=(here, [file, b"a", file], []))
    sender.start()
    first, second, third = side_process.receive(there, [])
    sender.join()
    assert (first, second) == (file, b"a")
    assert third is first


def test_what_cannot_be_prepared_is_told_as_a_fault_of_the_program(qtbot, background, heard):
    def prepare(_result):
        raise ValueError("glaze")

    with qtbot.capture_exceptions() as caught:
        background.run(replace(work_for(heard, count_to, 1), prepare=prepare))
        qtbot.waitUntil(lambda: caught != [], timeout=LONG_MS)
    assert "ValueError: glaze" in str(caught[0][1])
    assert not background.is_busy
    assert heard == []


def test_a_long_log_is_saved_as_a_folder_beside_the_window(
    qtbot, window, home, answers, long_log, tmp_path
):
    window.open_path(long_log)
    qtbot.waitUntil(lambda: window.sitting.review is not None, timeout=LONG_MS)
    window.sitting.edit(edits.set_title("Tuesday"))
    answers.save = tmp_path / "Tuesday"
    window.save_as_folder()
    assert window.sitting.errands.is_busy
    qtbot.waitUntil(lambda: window.sitting.kept_word == "saved", timeout=LONG_MS)
    assert unfinished_in(home / "recovery") == []
    assert gather(answers.save).title == "Tuesday"


def test_what_is_edited_while_a_folder_is_written_is_still_kept(
    qtbot, window, home, answers, long_log, tmp_path
):
    window.open_path(long_log)
    qtbot.waitUntil(lambda: window.sitting.review is not None, timeout=LONG_MS)
    answers.save = tmp_path / "Tuesday"
    window.save_as_folder()
    window.sitting.edit(edits.set_title("Wednesday"))
    qtbot.waitUntil(lambda: not window.sitting.errands.is_busy, timeout=LONG_MS)
    window.sitting.keep_now()
    assert window.sitting.kept_word == "kept"
    assert [one.title for one in unfinished_in(home / "recovery")] == ["Wednesday"]


def test_very_many_figures_are_copied_beside_the_window(qtbot, window, log_file, monkeypatch):
    monkeypatch.setattr("firing_review.ui.firing_chart.extras.AT_ONCE_ROWS", 100)
    window.open_path(log_file)
    chart = window.firing.chart
    chart.extras.copy_data()
    assert window.sitting.errands.is_busy
    qtbot.waitUntil(lambda: not window.sitting.errands.is_busy, timeout=LONG_MS)
    assert len(QGuiApplication.clipboard().text().splitlines()) == 1 + 700
    assert chart.view.readout.text() == "700 rows are on the clipboard."


def test_a_process_that_cannot_be_started_is_refused_in_plain_words(
    qtbot, background, heard, monkeypatch
):
    def begin():
        raise BlockingIOError("no more processes")

    monkeypatch.setattr(side_process, "begin", begin)
    background.run(work_for(heard, count_to, 1))
    qtbot.waitUntil(lambda: heard != [], timeout=LONG_MS)
    assert "ended from outside" in str(heard[0][1])
    assert not background.is_busy


def test_short_work_goes_on_in_a_thread_and_tells_its_end(qtbot, background, heard, as_it_comes):
    words = []
    background.progressed.connect(lambda share, text: words.append((share, text)))
    background.run(work_for(heard, count_to, 2, is_long=False))
    assert heard == []
    assert background.is_busy
    qtbot.waitUntil(lambda: heard != [], timeout=LONG_MS)
    assert words == [(0.0, "Counting, 0"), (0.5, "Counting, 1")]
    assert [kind for kind, _ in heard] == ["done"]
    background.run(work_for(heard, refuse, "shelf.csv", is_long=False))
    qtbot.waitUntil(lambda: len(heard) == 2, timeout=LONG_MS)
    assert str(heard[1][1]) == "shelf.csv, line 3: expected a jug, found a bowl. Throw again."


def test_short_work_that_is_ended_goes_no_further_than_to_its_next_step(
    qtbot, background, heard, as_it_comes
):
    reached, told = threading.Event(), []

    def two_steps(tell):
        reached.set()
        while not background_is_stopping.wait(0.001):
            pass
        tell(0.5, Said("half"))
        told.append("went on")

    background_is_stopping = threading.Event()
    background.run(work_for(heard, two_steps, is_long=False))
    assert reached.wait(LONG_MS / 1000)
    background._talk.requestInterruption()
    background_is_stopping.set()
    background.cancel()
    assert told == []
    assert heard == [("canceled", None)]
    assert not background.is_busy


def test_a_fault_in_short_work_is_told_as_a_fault_of_the_program(
    qtbot, background, heard, as_it_comes
):
    def fail(_tell):
        raise ValueError("glaze")

    with qtbot.capture_exceptions() as caught:
        background.run(work_for(heard, fail, is_long=False))
        qtbot.waitUntil(lambda: caught != [], timeout=LONG_MS)
    assert "ValueError: glaze" in str(caught[0][1])


def test_a_firing_stays_open_with_its_edits_and_undo_until_another_has_arrived(
    qtbot, window, log_file, as_it_comes
):
    window.open_path(log_file)
    assert window.pages.is_at_start
    until_done(window)
    before = window.sitting.review
    window.open_path(demo_logs() / "3_dead_section")
    assert window.sitting.review is before
    window.sitting.edit(edits.set_title("meanwhile"))
    window.sitting.undo()
    window.sitting.redo()
    assert window.sitting.review.given.title == "meanwhile"
    until_done(window)
    assert window.sitting.review.given.title != "meanwhile"
    assert [one.title for one in unfinished_in(window._recovery)] == ["meanwhile"]


def test_of_two_opened_one_after_the_other_the_second_stays(qtbot, window, log_file, as_it_comes):
    window.open_path(demo_logs() / "3_dead_section")
    window.open_path(log_file)
    until_done(window)
    assert window.sitting.review.given.log.source == "night.csv"


def test_another_language_chosen_on_the_way_leaves_what_was_open(
    qtbot, window, log_file, as_it_comes
):
    window.open_path(log_file)
    until_done(window)
    window.open_path(demo_logs() / "3_dead_section")
    window.choose_language(Language.GERMAN)
    until_done(window)
    assert window.sitting.review.given.log.source == "night.csv"
    assert window.pages.is_at_work
    assert (
        window.message.heading.text()
        == "Was im Gange war, ist beendet; was bis dahin fertig war, bleibt."
    )


def test_another_language_ends_long_work_on_a_book_after_the_step_it_is_at(
    qtbot, window, as_it_comes
):
    steps = []

    def step_by_step(_progress, is_canceled):
        while not is_canceled():
            steps.append(1)
            time.sleep(0.01)

    done = []
    window.books.work.run(BookTask("Bringing in firings", step_by_step, done.append, done.append))
    qtbot.waitUntil(lambda: steps != [])
    window.choose_language(Language.GERMAN)
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    counted = len(steps)
    time.sleep(0.05)
    assert len(steps) == counted
    assert done == []
    assert not window.books.work.is_busy
    assert not window.message.isHidden()


def test_what_is_soon_over_needs_no_word(qtbot, background, heard, as_it_comes, monkeypatch):
    monkeypatch.setattr("firing_review.ui.busy_line.panel.WORTH_A_WORD_MS", LONG_MS)
    line = BusyLine(background)
    qtbot.addWidget(line)
    shown = []
    line.installEventFilter(Watch(line, QEvent.Type.Show, shown))
    background.run(work_for(heard, count_to, 1, is_long=False))
    qtbot.waitUntil(lambda: heard != [], timeout=LONG_MS)
    assert not line._late.isActive()
    assert shown == []


def test_what_takes_its_time_is_worth_a_word_until_it_is_ended(qtbot, background, heard):
    line = BusyLine(background)
    qtbot.addWidget(line)
    background.run(work_for(heard, sleep_long))
    qtbot.waitUntil(line.isVisible, timeout=LONG_MS)
    background.cancel()
    assert not line.isVisible()


def test_what_is_asked_for_while_an_errand_goes_on_is_done_after_it(qtbot, window, heard):
    window.sitting.run_errand(work_for(heard, count_to, 1))
    window.sitting.run_errand(work_for(heard, count_to, 2))
    qtbot.waitUntil(lambda: len(heard) == 2, timeout=LONG_MS)
    assert [len(result) for _, result in heard] == [1, 2]
    window.sitting.run_errand(work_for(heard, sleep_long))
    window.sitting.run_errand(work_for(heard, count_to, 3))
    window.close()
    assert not window.sitting.errands.is_busy
    assert len(heard) == 2


def test_many_figures_go_on_the_clipboard_in_pieces_and_are_pasted_whole(
    qtbot, window, log_file, monkeypatch
):
    monkeypatch.setattr("firing_review.ui.firing_chart.data_text.PIECE_BYTES", 100)
    window.open_path(log_file)
    window.firing.chart.extras.copy_data()
    pasted = QGuiApplication.clipboard().text()
    assert len(pasted) > 1000
    assert pasted == window_table(window)


def window_table(window) -> str:
    review, (low_h, high_h) = window.sitting.review, window.firing.chart.time.range_h
    return table_text(review, TemperatureUnit.CELSIUS, low_h, high_h)


def test_very_many_files_dropped_are_told_apart_beside_the_window_and_can_be_left(
    qtbot, window, log_file, tmp_path, as_it_comes
):
    window.open_path(log_file)
    until_done(window)
    before, told = window.sitting.review, []

    def leave_it(share: float) -> None:
        told.append(share)
        window.busy[0].cancel.click()

    window.arrivals.background.progressed.connect(leave_it)
    paths = [tmp_path / f"{number}.csv" for number in range(40)]
    for path in paths:
        path.write_bytes(log_file.read_bytes())
    window.arrivals.open_paths(paths)
    assert window.arrivals.background.words == "Opening 40 files"
    qtbot.waitUntil(lambda: told != [], timeout=LONG_MS)
    assert not window.arrivals.background.is_busy
    until_done(window)
    assert told == [0.0]
    assert window.sitting.review is before


def test_a_schedule_dropped_beside_its_log_is_taken_in_when_the_log_has_arrived(
    qtbot, window, log_file, tmp_path, as_it_comes
):
    schedule = tmp_path / "glaze.csv"
    schedule.write_text("rate_c_per_h,target_c,hold_min\n150,1200,10\n", encoding="utf-8")
    window.arrivals.open_paths([schedule, log_file])
    until_done(window)
    assert window.sitting.review.given.intended.segments == (Segment(150.0, 1200.0, 10.0),)


def test_nobody_waits_for_work_that_newer_work_has_ended(qtbot, background, heard, as_it_comes):
    may_end = threading.Event()
    background.run(work_for(heard, lambda _tell: may_end.wait(LONG_MS / 1000), is_long=False))
    background.run(work_for(heard, lambda _tell: "newer", is_long=False))
    qtbot.waitUntil(lambda: heard != [], timeout=LONG_MS)
    assert not may_end.is_set()
    may_end.set()
    background.stop()
    QCoreApplication.processEvents()
    assert heard == [("done", "newer")]
