"""The kiln book in the window: firings kept as they are edited, found again, compared."""

from datetime import date, datetime, timedelta
from pathlib import Path

import pytest
from book_firings import OVAL, firing, log_bytes
from PySide6.QtCore import QDate, Qt
from PySide6.QtWidgets import QApplication
from waiting import until_done

from firing_review.book.book import Book
from firing_review.book.nouns import ChangeKind
from firing_review.firing.cones import ConeNumber
from firing_review.firing.kiln import Kiln
from firing_review.firing.wording import Language, tr
from firing_review.io.tables import load_tables
from firing_review.review import edits
from firing_review.review.pipeline import review_firing
from firing_review.ui.app import make_window
from firing_review.ui.book_place import panel
from firing_review.ui.book_place.contents import Contents
from firing_review.ui.book_place.head import BookHead
from firing_review.ui.book_place.model import (
    HOURS,
    ID_ROLE,
    LIGHT_COLUMNS,
    LIGHT_ROLE,
    LIGHT_WORDS,
    LOAD,
    VERDICT,
)
from firing_review.ui.sitting import unfinished_in
from firing_review.ui.start_page.demos import demo_firings

BEGUN = datetime.fromisoformat("2026-03-01T07:00")


@pytest.fixture
def book_path(tmp_path) -> Path:
    return tmp_path / "Oval.kilnbook"


@pytest.fixture
def kept(book_path) -> Path:
    """Return a book of three firings of one kiln, four days apart, the newest a glaze firing."""
    tables = load_tables()
    with Book.create(book_path) as book:
        for number, (title, top_c) in enumerate(
            (("March bisque", 1000.0), ("April bisque", 1000.0), ("April glaze", 1200.0))
        ):
            raw = log_bytes(BEGUN + timedelta(days=4 * number), top_c)
            given = firing(raw, f"{number}.csv", title=title, kiln=OVAL)
            book.add(given, review_firing(given, tables))
    return book_path


def place_of(window):
    window.go_to_book()
    return window.work.panel("book") if window.sitting.review else window.pages.alone["book"].place


def titles(place) -> list[str]:
    return [place.found.index(row, 1).data() for row in range(place.found.rowCount())]


def test_a_firing_put_into_a_new_book_is_kept_there_with_every_edit(
    qtbot, window, answers, book_path, log_file
):
    window.open_path(log_file)
    answers.book = book_path
    window.books.ask_new()
    place = place_of(window)
    qtbot.mouseClick(place.view.add, Qt.MouseButton.LeftButton)
    until_done(window)
    window.sitting.edit(edits.set_goal_cone(ConeNumber("06")))
    window.sitting.edit(edits.set_title("Tuesday"))
    window.sitting.undo()
    assert window.sitting.kept_word == "in the book"
    window.close()
    with Book.open(book_path) as book:
        (one,) = book.list_firings()
        given = book.given(one.id)
    assert (given.goal_cone, given.title) == (ConeNumber("06"), "")
    assert unfinished_in(window._recovery) == []


def test_a_book_opens_by_itself_with_the_newest_firing_first(window, kept):
    window.open_path(kept)
    place = place_of(window)
    assert window.pages.currentWidget() is window.pages.alone["book"]
    assert titles(place) == ["April glaze", "April bisque", "March bisque"]


def test_a_double_click_opens_a_firing_and_its_edits_stay_in_the_book(qtbot, window, kept):
    window.open_path(kept)
    table = place_of(window).view.table
    where = table.visualRect(table.model().index(1, 1)).center()
    qtbot.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=where)
    qtbot.mouseDClick(table.viewport(), Qt.MouseButton.LeftButton, pos=where)
    assert window.sitting.review.given.title == "April bisque"
    window.sitting.edit(edits.set_title("Late April bisque"))
    assert "Late April bisque" in titles(place_of(window))


def test_enter_opens_the_chosen_firing(qtbot, window, kept):
    window.open_path(kept)
    table = place_of(window).view.table
    table.setCurrentIndex(table.model().index(2, 0))
    qtbot.keyClick(table, Qt.Key.Key_Return)
    assert window.sitting.review.given.title == "March bisque"


def test_a_book_in_sight_is_read_once_when_a_firing_is_opened_from_it(
    window, kept, log_file, monkeypatch
):
    window.open_path(log_file)
    window.open_path(kept)
    place, read = place_of(window), []
    monkeypatch.setattr(panel, "Contents", lambda book: read.append(book) or Contents(book))
    window.books.show_firing(window.tools.book.book.list_firings()[0].id)
    assert place.isVisible()
    assert len(read) == 1
    assert not place.view.add.isVisible()


def test_a_firing_of_the_book_is_measured_by_the_one_like_it(window, kept):
    window.open_path(kept)
    second = next(f for f in window.tools.book.book.list_firings() if f.title == "April bisque")
    base = window.tools.book.book.base_for(second.id)
    window.books.show_firing(second.id)
    earlier = [one.title for one in window.sitting.review.given.earlier]
    assert earlier == ([] if base is None else [base.firing.title])


def test_the_list_keeps_what_is_looked_for(qtbot, window, kept):
    window.open_path(kept)
    place = place_of(window)
    qtbot.keyClicks(place.view.find, "bisque april")
    assert titles(place) == ["April bisque"]
    place.view.find.clear()
    place.view.table.sortByColumn(1, Qt.SortOrder.AscendingOrder)
    assert titles(place) == ["April bisque", "April glaze", "March bisque"]


def test_the_chosen_firing_tells_its_verdict_in_full(window, kept):
    window.open_path(kept)
    place = place_of(window)
    place.view.table.selectRow(0)
    index = place.found.index(0, VERDICT)
    assert index.data() != ""
    assert place.view.chosen.text().splitlines()[-1] == index.data()
    assert place.found.index(0, LOAD).data(LIGHT_ROLE) is not None


def test_a_change_at_the_kiln_is_kept_and_marked(qtbot, window, kept):
    window.open_path(kept)
    changes = place_of(window).view.changes
    changes.day.setDate(QDate(2026, 3, 3))
    qtbot.keyClicks(changes.sections, "low, high")
    qtbot.keyClicks(changes.words, "whole set")
    qtbot.mouseClick(changes.keep, Qt.MouseButton.LeftButton)
    book = window.tools.book.book
    (kiln,) = book.kilns()
    (change,) = book.changes(kiln.id)
    assert (change.kind, change.on) == (ChangeKind.ELEMENTS, date(2026, 3, 3))
    assert (change.sections, change.text) == (("low", "high"), "whole set")
    assert changes.kept_list.list.count() == 1
    assert [mark.number for mark in book.trends(kiln.id).marks] == [2]
    changes.kept_list.list.setCurrentRow(0)
    qtbot.mouseClick(changes.kept_list.remove, Qt.MouseButton.LeftButton)
    assert book.changes() == ()


def test_notes_and_files_are_kept_with_a_kiln_and_come_out_as_they_went_in(
    qtbot, window, answers, kept, tmp_path
):
    window.open_path(kept)
    notes = place_of(window).view.notes
    qtbot.keyClicks(notes.words, "lid hinge bent")
    qtbot.mouseClick(notes.keep, Qt.MouseButton.LeftButton)
    answers.file, answers.save = tmp_path / "wiring.jpg", tmp_path / "out.jpg"
    answers.file.write_bytes(b"\xff\xd8 a photo")
    with qtbot.waitSignal(window.books.work.ended):
        qtbot.mouseClick(notes.attach, Qt.MouseButton.LeftButton)
    listed = notes.kept_list.list
    lines = [listed.item(row).text() for row in range(listed.count())]
    assert any(line.endswith("lid hinge bent") for line in lines)
    photo = next(row for row, line in enumerate(lines) if line.endswith("file: wiring.jpg"))
    assert not notes.save.isVisible()
    listed.setCurrentRow(photo)
    qtbot.mouseClick(notes.save, Qt.MouseButton.LeftButton)
    assert answers.save.read_bytes() == b"\xff\xd8 a photo"
    qtbot.mouseClick(notes.kept_list.remove, Qt.MouseButton.LeftButton)
    book = window.tools.book.book
    assert book.attachments() == ()
    (note,) = book.notes()
    assert (note.text, note.kiln_id) == ("lid hinge bent", book.kilns()[0].id)


def test_notes_are_asked_for_at_one_kiln_only(window, kept):
    with Book.open(kept) as book:
        book.keep_kiln(Kiln("Second"))
    window.open_path(kept)
    view = place_of(window).view
    assert not view.notes.isVisibleTo(view)
    view.kiln.setCurrentIndex(1)
    view.kiln.activated.emit(1)
    assert view.notes.isVisibleTo(view)


def test_a_point_of_the_trend_chooses_its_firing(window, kept):
    window.open_path(kept)
    place = place_of(window)
    oldest = window.tools.book.book.list_firings()[0]
    place.view.chart.chosen.emit(oldest.id)
    assert place.view.table.currentIndex().siblingAtColumn(0).data(ID_ROLE) == oldest.id


def test_a_log_opened_beside_a_book_is_offered_to_it_but_a_demo_is_not(window, kept, log_file):
    window.open_path(kept)
    window.open_path(log_file)
    assert "Oval" in window.message.heading.text()
    window.message.buttons[0].click()
    until_done(window)
    assert window.sitting.kept_word == "in the book"
    assert len(window.tools.book.book.list_firings()) == 4
    window.open_path(demo_firings()[0].folder)
    assert window.message.isHidden()


def test_a_log_the_book_knows_is_opened_from_it(window, kept, tmp_path):
    log = tmp_path / "copy.csv"
    log.write_bytes(log_bytes(BEGUN, 1000.0))
    window.open_path(kept)
    window.open_path(log)
    window.message.buttons[0].click()
    assert window.sitting.review.given.title == "March bisque"


def test_an_edit_the_book_cannot_take_is_put_aside_and_said(window, kept):
    window.open_path(kept)
    window.books.show_firing(window.tools.book.book.list_firings()[0].id)
    kept.unlink()
    window.sitting.edit(edits.set_title("still here"))
    assert window.message.isVisible()
    assert window.sitting.review.given.title == "still here"
    assert [one.title for one in unfinished_in(window._recovery)] == ["still here"]


def test_a_book_that_another_window_writes_is_only_read_here(window, kept):
    with Book.open(kept):
        window.open_path(kept)
        place = place_of(window)
        assert "read" in place.view.message.text()
        assert not place.view.changes.keep.isEnabled()
        window.tools.book.release()


def test_the_book_of_the_last_time_is_there_again(window, kept, qtbot, home, answers):
    window.open_path(kept)
    window.close()
    again = make_window(home, answers.questions())
    qtbot.addWidget(again)
    assert again.tools.book.book.path == kept
    again.close()


def test_closing_the_book_leaves_the_firing_open_and_recoverable(qtbot, window, kept):
    window.open_path(kept)
    window.books.show_firing(window.tools.book.book.list_firings()[0].id)
    window.tools.book.close()
    window.sitting.edit(edits.set_title("alone"))
    qtbot.waitUntil(lambda: window.sitting.kept_word == "kept")
    assert window.tools.preferences.book is None


def test_a_file_that_is_no_book_is_refused_and_the_open_one_stays(window, kept, tmp_path):
    wrong = tmp_path / "wrong.kilnbook"
    wrong.write_text("not a book", encoding="utf-8")
    window.open_path(kept)
    window.open_path(wrong)
    assert window.message.isVisible()
    assert window.tools.book.book.path == kept


def test_without_a_book_the_place_says_how_to_begin(window, log_file):
    window.open_path(log_file)
    place = place_of(window)
    assert place.view.seen is place.view.empty
    assert place.view.create.isEnabled()


def bring_in(qtbot, window, answers, folder) -> None:
    answers.folder = folder
    with qtbot.waitSignal(window.books.told, timeout=30_000):
        place_of(window).commands["import"].trigger()


def test_a_folder_of_logs_is_brought_in_beside_the_window_and_a_bad_one_is_named(
    qtbot, window, answers, kept, tmp_path
):
    folder = tmp_path / "logs"
    folder.mkdir()
    (folder / "new.csv").write_bytes(log_bytes(BEGUN + timedelta(days=40), 1100.0))
    (folder / "known.csv").write_bytes(log_bytes(BEGUN, 1000.0))
    (folder / "bad.csv").write_text("no log at all", encoding="utf-8")
    window.open_path(kept)
    bring_in(qtbot, window, answers, folder)
    said = window.message.heading.text()
    assert "1 firing was brought in. 1 was known already." in said
    assert "bad.csv" in said
    assert len(titles(place_of(window))) == 4
    assert window.tools.book.book.kilns()[0].firings == 4


def test_firings_without_a_kiln_are_listed_beside_those_of_the_one_kiln(window, kept):
    with Book.open(kept) as book:
        book.add(firing(log_bytes(BEGUN - timedelta(days=9)), title="whose?"))
    window.open_path(kept)
    assert titles(place_of(window))[-1] == "whose?"


def test_a_book_written_out_is_read_back_by_another(qtbot, window, answers, kept, tmp_path):
    window.open_path(kept)
    answers.save = tmp_path / "plain"
    with qtbot.waitSignal(window.books.told, timeout=30_000):
        window.books.ask_export()
    assert str(tmp_path / "plain") in window.message.heading.text()
    answers.book = tmp_path / "second.kilnbook"
    window.books.ask_new()
    bring_in(qtbot, window, answers, tmp_path / "plain")
    assert sorted(titles(place_of(window))) == ["April bisque", "April glaze", "March bisque"]


def test_work_on_a_book_ends_when_the_window_closes(window, answers, kept, tmp_path):
    folder = tmp_path / "logs"
    folder.mkdir()
    for number in range(30):
        log = log_bytes(BEGUN + timedelta(days=100 + number), 900.0 + number)
        (folder / f"{number}.csv").write_bytes(log)
    window.open_path(kept)
    answers.folder = folder
    window.books.ask_import()
    assert window.books.work.is_busy
    window.close()
    assert not window.books.work.is_busy
    with Book.open(kept) as book:
        assert 3 <= len(book.list_firings()) < 33


def test_what_cannot_be_written_out_is_said(qtbot, window, answers, kept, tmp_path):
    window.open_path(kept)
    answers.save = tmp_path
    with qtbot.waitSignal(window.books.refused, timeout=30_000):
        window.books.ask_export()
    assert window.message.isVisible()


def test_figures_of_another_version_are_worked_out_anew_when_the_book_opens(
    qtbot, window, kept, monkeypatch
):
    monkeypatch.setattr("firing_review.book.renew.program_version", lambda: "another")
    with qtbot.waitSignal(window.books.work.ended, timeout=30_000):
        window.open_path(kept)
        assert window.books.work.is_busy
    assert titles(place_of(window)) == ["April glaze", "April bisque", "March bisque"]


@pytest.mark.parametrize("language", [Language.ENGLISH_US, Language.GERMAN])
def test_words_of_the_lights_are_never_cut(window, kept, language):
    window.open_path(kept)
    window.choose_language(language)
    window.resize(1366, 768)
    table = place_of(window).view.table
    assert not table.isColumnHidden(LOAD)
    for column in LIGHT_COLUMNS:
        if table.isColumnHidden(column):
            continue
        for words in (tr(word) for word in LIGHT_WORDS.values()):
            assert table.fontMetrics().horizontalAdvance(words) + 24 < table.columnWidth(column)
        assert table.columnWidth(column) >= table.horizontalHeader().sectionSizeHint(column)


@pytest.mark.parametrize("width", [1920, 1366, 960, 683])
def test_the_list_never_scrolls_sideways_and_tells_below_what_has_no_room(window, kept, width):
    window.open_path(kept)
    window.resize(width, 700)
    view = place_of(window).view
    QApplication.processEvents()
    assert view.table.horizontalScrollBar().maximum() == 0
    view.table.selectRow(0)
    for column in view.table.told_below:
        value = view.table.model().index(0, column).data()
        assert not value or value in view.chosen.text()
    assert (HOURS in view.table.told_below) == (width < 1400)


def test_the_book_that_is_open_stays_writable_when_it_is_opened_again(window, kept):
    window.open_path(kept)
    window.open_path(kept)
    assert window.tools.book.writable


def test_a_book_only_read_is_written_once_the_other_window_is_gone(window, kept):
    with Book.open(kept):
        window.open_path(kept)
        assert not window.tools.book.writable
    window.open_path(kept)
    assert window.tools.book.writable


@pytest.fixture
def all_is_long(monkeypatch):
    """Make every log count as long, so that the book is filled and read beside the window."""
    monkeypatch.setattr("firing_review.ui.book_arrivals.LONG_PACKED_BYTES", 100)


def test_a_long_log_goes_into_the_book_beside_the_window_with_what_is_edited_meanwhile(
    qtbot, window, answers, book_path, log_file, all_is_long
):
    window.open_path(log_file)
    answers.book = book_path
    window.books.ask_new()
    window.books.add_open()
    assert window.books.work.is_busy
    window.sitting.edit(edits.set_title("meanwhile"))
    qtbot.waitUntil(lambda: not window.books.work.is_busy, timeout=60_000)
    assert window.sitting.kept_word == "in the book"
    window.sitting.edit(edits.set_goal_cone(ConeNumber("06")))
    window.close()
    with Book.open(book_path) as book:
        (one,) = book.list_firings()
        given = book.given(one.id)
    assert (given.goal_cone, given.title) == (ConeNumber("06"), "meanwhile")
    assert unfinished_in(window._recovery) == []


def test_what_was_opened_while_a_firing_went_into_the_book_is_not_taken_for_it(
    qtbot, window, answers, book_path, log_file, tmp_path, all_is_long
):
    window.open_path(log_file)
    answers.book = book_path
    window.books.ask_new()
    window.books.add_open()
    other = tmp_path / "other.csv"
    other.write_bytes(log_bytes(BEGUN, 1000.0))
    window.open_path(other)
    qtbot.waitUntil(lambda: not window.books.work.is_busy, timeout=60_000)
    assert window.tools.book.firing_id is None
    window.sitting.edit(edits.set_title("other"))
    (one,) = window.tools.book.book.list_firings()
    assert one.title == "night.csv"


def test_a_firing_with_a_long_log_is_taken_out_of_the_book_beside_the_window(
    qtbot, window, kept, all_is_long
):
    window.open_path(kept)
    newest = window.tools.book.book.list_firings()[-1]
    window.books.show_firing(newest.id)
    assert window.sitting.review is None
    qtbot.waitUntil(lambda: window.sitting.review is not None, timeout=60_000)
    assert window.sitting.review.given.title == "April glaze"
    assert window.tools.book.firing_id == newest.id
    window.sitting.edit(edits.set_title("opened"))
    assert window.tools.book.book.firing(newest.id).title == "opened"


def test_the_line_over_the_list_is_filled_in_one_row_and_in_two(qtbot, appearance):
    head = BookHead(appearance)
    qtbot.addWidget(head)
    head.kiln.hide()
    head.name.setText("Heron")
    head.show()
    for width in (900, 360):
        head.resize(width, 100)
        QApplication.processEvents()
        assert head.more.geometry().right() == width - 1
    assert head.find.geometry().left() == 0
    assert head.find.geometry().right() > 360 / 2
