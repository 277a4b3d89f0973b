"""Whatever happens to the disk, nothing that was confirmed is lost and nothing is left unsaid."""

import os
import shutil
import sqlite3
from contextlib import closing

import pytest
from book_firings import assert_same, firing, full_firing, log_bytes
from book_trouble import as_nobody, folder_of_nobody, in_another_process, write_and_kill

from firing_review.book import schema
from firing_review.book.book import Book
from firing_review.book.recover import keep_or_recover
from firing_review.book.renew import outdated, renew_figures
from firing_review.firing.errors import InputError
from firing_review.firing.sheet import Picture
from firing_review.io.tables import load_tables
from firing_review.review.recovery import read_recovery

on_posix = pytest.mark.skipif(os.name != "posix", reason="needs fork and rights of a file")


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "workshop") as opened:
        yield opened


# Killed


@on_posix
def test_a_writer_killed_at_any_moment_loses_no_edit_that_was_confirmed(tmp_path):
    for seed in range(5):
        written = write_and_kill(tmp_path / f"{seed}.kilnbook", seed)
        assert written.confirmed > 0
        assert written.sound
        assert written.lost == []


# Two windows


def test_a_second_window_reads_the_book_and_says_why_it_does_not_write(book):
    added = book.add(full_firing())
    with Book.open(book.path) as second:
        assert "open in another window" in second.read_only.text
        assert_same(second.given(added.firing_id), full_firing())
        with pytest.raises(InputError, match="another window is writing"):
            second.keep(added.firing_id, firing())
        book.keep(added.firing_id, firing(title="later"))
        assert second.firing(added.firing_id).title == "later"
    with Book.open(book.path) as third:
        assert third.read_only is not None


def test_once_the_first_window_is_closed_the_next_may_write(book):
    book.close()
    with Book.open(book.path) as second:
        assert second.read_only is None
        second.add(firing())
    assert [p.name for p in book.path.parent.iterdir()] == ["workshop.kilnbook"]


def test_another_program_that_writes_is_waited_for_and_then_named(book, monkeypatch):
    book._store._db.execute("PRAGMA busy_timeout = 50")
    with closing(sqlite3.connect(book.path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(InputError, match="no other program is writing"):
            book.add(firing())
        other.execute("ROLLBACK")
    book.add(firing())


# No room


def test_a_full_disk_is_said_and_the_book_stays_as_it_was(book):
    added = book.add(firing(title="before"))
    pages = book._store.rows("PRAGMA page_count")[0][0]
    book._store._db.execute(f"PRAGMA max_page_count = {pages}")
    big = os.urandom(50_000)
    with pytest.raises(InputError, match="room for it on the disk") as refused:
        book.attach("photo.jpg", big, firing_id=added.firing_id)
    assert "still open" in refused.value.remedy
    assert book.firing(added.firing_id).title == "before"
    assert book.attachments() == ()
    book._store._db.execute("PRAGMA max_page_count = 1000000")
    book.attach("photo.jpg", big, firing_id=added.firing_id)


@on_posix
def test_a_file_that_may_grow_no_further_keeps_what_it_had(book):
    """As on a small stick: the write fails in the middle, not at a page that was counted."""
    resource = pytest.importorskip("resource")
    added = book.add(firing(title="before"))
    book.close()

    def fill() -> None:
        with Book.open(book.path) as opened:
            limit = book.path.stat().st_size + 100_000
            resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))
            picture = Picture("big.png", os.urandom(300_000))
            with pytest.raises(InputError, match="disk"):
                opened.keep(added.firing_id, firing(title="after", pictures=(picture,)))
            assert opened.firing(added.firing_id).title == "before"
            opened.keep(added.firing_id, firing(title="small"))

    in_another_process(fill)
    with Book.open(book.path) as opened:
        assert opened.firing(added.firing_id).title == "small"
        assert opened._store.rows("PRAGMA integrity_check") == [("ok",)]


# Gone, read only, damaged


@on_posix
def test_a_book_on_a_stick_pulled_out_is_missed_and_the_edit_is_put_aside(book, tmp_path):
    added = book.add(firing(title="before"))
    away = shutil.move(book.path, tmp_path / "elsewhere.kilnbook")
    edited = full_firing(title="after")
    with pytest.raises(InputError, match="stick pulled out"):
        book.keep(added.firing_id, edited)
    recovery = tmp_path / "recovery.json"
    said = keep_or_recover(book, added.firing_id, edited, None, recovery)
    assert "offered when the program starts" in said.remedy
    assert_same(read_recovery(recovery), edited)
    shutil.move(away, book.path)
    assert keep_or_recover(book, added.firing_id, edited, None, recovery) is None
    assert not recovery.exists()
    assert book.firing(added.firing_id).title == "after"


@on_posix
def test_when_nothing_can_be_put_aside_either_that_is_said(book, tmp_path):
    added = book.add(firing())
    book.path.unlink()
    nowhere = tmp_path / "file"
    nowhere.write_text("in the way")
    said = keep_or_recover(book, added.firing_id, firing(), None, nowhere / "recovery.json")
    assert "do not close the window" in said.remedy


@on_posix
def test_a_book_where_nothing_may_be_written_can_be_read():
    with folder_of_nobody() as folder:
        with Book.create(folder / "workshop") as book:
            added = book.add(full_firing())
        book.path.chmod(0o444)
        folder.chmod(0o555)

        def look() -> None:
            with Book.open(book.path) as opened:
                assert "nothing may be written" in opened.read_only.text
                assert_same(opened.given(added.firing_id), full_firing())
                with pytest.raises(InputError, match="read only"):
                    opened.keep(added.firing_id, firing())

        as_nobody(look)
        folder.chmod(0o755)


@on_posix
def test_edits_not_yet_in_the_main_file_are_read_where_nothing_may_be_written():
    """A book that was copied while it was open has its newest edits in a file beside it."""
    with folder_of_nobody() as folder, Book.create(folder / "workshop") as book:
        added = book.add(firing(title="newest"))
        below = folder / "copy"
        below.mkdir()
        for path in (book.path, book.path.with_name(book.path.name + "-wal")):
            shutil.copy(path, below)
        below.chmod(0o555)

        def look() -> None:
            with Book.open(below / book.path.name) as opened:
                assert opened.firing(added.firing_id).title == "newest"

        as_nobody(look)
        below.chmod(0o755)


@on_posix
def test_a_folder_where_nothing_may_be_made_is_said():
    with folder_of_nobody() as folder:
        folder.chmod(0o555)

        def make() -> None:
            with pytest.raises(InputError, match="Permission denied"):
                Book.create(folder / "workshop")

        as_nobody(make)
        folder.chmod(0o755)


@pytest.mark.parametrize(
    ("content", "found"),
    [
        (b"", "an empty file"),
        (b"time,chamber\n1,20\n" * 9, "another kind of file"),
        (b"SQLite format 3\x00" + b"\x01" * 200, "another kind of file"),
    ],
)
def test_what_is_no_book_is_refused_in_one_line(tmp_path, content, found):
    path = tmp_path / "x.kilnbook"
    path.write_bytes(content)
    with pytest.raises(InputError, match=found):
        Book.open(path)
    assert path.read_bytes() == content


def test_another_database_is_not_taken_for_a_book(tmp_path):
    path = tmp_path / "x.kilnbook"
    with closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TABLE birds (name)")
    before = path.read_bytes()
    with pytest.raises(InputError, match="another database"):
        Book.open(path)
    assert path.read_bytes() == before


def test_a_book_that_is_not_there_or_a_folder_is_named(tmp_path):
    with pytest.raises(InputError, match="no such file"):
        Book.open(tmp_path / "none.kilnbook")
    with pytest.raises(InputError, match="a folder"):
        Book.open(tmp_path)
    (tmp_path / "taken.kilnbook").touch()
    with pytest.raises(InputError, match="a name that is free"):
        Book.create(tmp_path / "taken")


def test_bytes_that_were_damaged_are_said_to_be_and_the_rest_is_read(book):
    damaged, whole = book.add(firing()), book.add(firing(log_bytes(top_c=900.0)))
    book._store._db.execute("UPDATE blobs SET data = x'00' WHERE id = 1")
    with pytest.raises(InputError, match="damaged bytes"):
        book.given(damaged.firing_id)
    assert book.given(whole.firing_id).log.raw == log_bytes(top_c=900.0)


@pytest.mark.parametrize("damaged", [b"\x00", "{}", b"x\x9c\x03\x00\x00\x00\x00\x01"])
def test_figures_that_were_damaged_are_as_if_never_worked_out(book, damaged):
    added = book.add(full_firing())
    book._store._db.execute("UPDATE firings SET summary = ?", (damaged,))
    (kept,) = outdated(book)
    assert (kept.id, kept.title) == (added.firing_id, "log.csv")
    assert_same(book.given(added.firing_id), full_firing())
    assert renew_figures(book, load_tables()) == ()
    assert book.firing(added.firing_id).title == "March bisque"


def test_a_book_cut_short_is_said_to_be_damaged(tmp_path):
    with Book.create(tmp_path / "workshop") as book:
        added = book.add(firing(log_bytes() * 3))
    whole = book.path.read_bytes()
    book.path.write_bytes(whole[: len(whole) // 2])
    with pytest.raises(InputError, match="damaged"), Book.open(book.path) as opened:
        opened.given(added.firing_id)


# Versions


def test_an_older_book_is_brought_on_and_a_copy_of_it_kept(book, monkeypatch):
    added = book.add(full_firing())
    book.close()
    monkeypatch.setattr(schema, "STEPS", (*schema.STEPS, "ALTER TABLE kilns ADD COLUMN place;"))
    with Book.open(book.path) as opened:
        assert opened.copied_to.name == "workshop.before-version-2.kilnbook"
        assert_same(opened.given(added.firing_id), full_firing())
    monkeypatch.undo()
    with Book.open(opened.copied_to) as copy:
        assert copy.read_only is None
        assert_same(copy.given(added.firing_id), full_firing())
    with Book.open(book.path) as newer:
        assert "newer version" in newer.read_only.text
        assert_same(newer.given(added.firing_id), full_firing())
        with pytest.raises(InputError, match="newer version"):
            newer.keep(added.firing_id, firing())


def test_a_step_that_fails_leaves_the_book_as_it_was(book, monkeypatch):
    added = book.add(firing())
    book.close()
    broken = "ALTER TABLE kilns ADD COLUMN place; DROP TABLE no_such_table;"
    monkeypatch.setattr(schema, "STEPS", (*schema.STEPS, broken))
    with pytest.raises(InputError):
        Book.open(book.path)
    monkeypatch.undo()
    with Book.open(book.path) as opened:
        assert opened.read_only is None
        assert opened.given(added.firing_id).log.raw == log_bytes()
