"""A book goes out as plain files that nothing takes for a formula, and comes back the same."""

import csv
from dataclasses import replace
from datetime import date

import pytest
from book_firings import BEGUN, OVAL, add_dated, assert_same, firing, full_firing, log_bytes
from hypothesis import given as for_any
from hypothesis import strategies as st

from firing_review.book.book import Book
from firing_review.book.bring_in import import_folder
from firing_review.book.nouns import Change, ChangeKind, Note
from firing_review.book.plain_files import export_book
from firing_review.firing.cones import ConeKind, ConeNumber, ShelfCone
from firing_review.firing.errors import InputError
from firing_review.firing.kiln import Kiln
from firing_review.firing.sheet import Readings
from firing_review.io.cones_file import cones_text, parse_cones_text
from firing_review.io.csv_cells import FORMULA_SIGNS, guarded, unguarded
from firing_review.io.sheets import write_firing_folder
from firing_review.io.tables import load_tables
from firing_review.review.pipeline import review_firing

STRANGER = '=cmd|"/c calc"!A1'


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "workshop") as opened:
        yield opened


@pytest.fixture
def other(tmp_path):
    with Book.create(tmp_path / "second") as opened:
        yield opened


def bring_in(book, folder, **asked):
    return import_folder(book, folder, load_tables(), **asked)


def fill(book) -> None:
    """Put in all that a book can hold, with a stranger's text wherever text may stand."""
    review = review_firing(full_firing(title=STRANGER), load_tables())
    first = book.add(review.given, review)
    add_dated(book, firing(log_bytes(top_c=900.0), name=f"{STRANGER}.csv"), date(2025, 5, 1))
    kiln_id = book.kilns()[0].id
    book.keep_kiln(replace(OVAL, name="+renamed", volume_l=150.0), kiln_id)
    readings = Readings(cold_ohms={"low": 18.5, "high": float("inf")})
    book.keep_change(
        Change(ChangeKind.ELEMENTS, date(2026, 1, 5), kiln_id, ("low",), "-new", readings)
    )
    book.keep_change(Change(ChangeKind.PROBE, None, None, (), "@home\n=2+3"))
    book.keep_note(Note(STRANGER, firing_id=first.firing_id))
    book.keep_note(Note("\t=1+1", kiln_id=kiln_id))
    book.attach("=photo.jpg", b"\xff\xd8\x00", firing_id=first.firing_id)
    book.attach("empty.txt", b"", kiln_id=kiln_id)


def held(book):
    """Return all a book holds, without the numbers that it gave."""
    kilns = {k.id: k.kiln for k in book.kilns()}
    firings = {f.id: f.title for f in book.list_firings()}
    return {
        "kilns": list(kilns.values()),
        "firings": [
            (replace(f, id=0, kiln_id=None), kilns.get(f.kiln_id)) for f in book.list_firings()
        ],
        "changes": [
            (replace(c, id=0, kiln_id=None), kilns.get(c.kiln_id)) for c in book.changes()
        ],
        "notes": [
            (n.text, n.written_at, firings.get(n.firing_id), kilns.get(n.kiln_id))
            for n in book.notes()
        ],
        "attachments": [
            (a.name, book.attachment_bytes(a.id), firings.get(a.firing_id), kilns.get(a.kiln_id))
            for a in book.attachments()
        ],
    }


def test_a_book_written_as_plain_files_comes_back_the_same(book, other, tmp_path):
    fill(book)
    assert export_book(book, tmp_path / "plain") == 2
    came = bring_in(other, tmp_path / "plain")
    assert (len(came.added), came.known, came.refused) == (2, (), ())
    assert held(other) == held(book)
    for back, kept in zip(other.list_firings(), book.list_firings(), strict=True):
        assert_same(other.given(back.id), book.given(kept.id))


def test_brought_in_twice_it_is_there_once(book, other, tmp_path):
    fill(book)
    export_book(book, tmp_path / "plain")
    bring_in(other, tmp_path / "plain")
    again = bring_in(other, tmp_path / "plain")
    assert (again.added, len(again.known)) == ((), 2)
    assert {k: len(v) for k, v in held(other).items()} == {
        k: len(v) for k, v in held(book).items()
    }


def test_no_cell_of_an_exported_book_begins_as_a_formula(book, tmp_path):
    fill(book)
    export_book(book, tmp_path / "plain")
    tables = [p for p in (tmp_path / "plain").rglob("*.csv") if "log" not in p.name]
    assert len(tables) >= 5
    for path in tables:
        if "cmd" in path.name or "before" in path.name:
            continue  # a stranger's log, byte for byte as it was
        for delimiter in ",;\t":
            with path.open(encoding="utf-8-sig", newline="") as file:
                cells = [c for row in csv.reader(file, delimiter=delimiter) for c in row]
            assert not [c for c in cells if c.strip()[:1] in tuple(FORMULA_SIGNS)], path.name


@for_any(st.text(alphabet=st.sampled_from("a'=+-@;,\t\r\n\" \u2003|＝"), max_size=8))
def test_a_guarded_text_reads_back_and_starts_no_formula_after_any_sign_that_parts(text):
    cell = guarded(text)
    assert unguarded(cell) == text
    for sign in ';,\t\r\n"|':
        for part in cell.split(sign):
            assert part.strip()[:1] not in tuple(FORMULA_SIGNS)


def test_a_shelf_named_by_a_stranger_is_no_formula_in_a_cones_file():
    cone = ShelfCone("=1+1", "@left", ConeNumber("06"), ConeKind.LARGE, 90.0)
    text = cones_text([cone])
    assert "'=1+1,'@left" in text
    assert parse_cones_text(text, "cones.csv", None) == (cone,)


def test_a_folder_with_files_in_it_is_not_written_into(book, tmp_path):
    with pytest.raises(InputError, match="new or empty folder"):
        export_book(book, tmp_path)


def test_an_export_that_is_ended_leaves_whole_firings(book, tmp_path):
    for top_c in (900.0, 950.0, 1000.0):
        book.add(firing(log_bytes(top_c=top_c)))
    done = []
    written = export_book(
        book, tmp_path / "plain", lambda n, _: done.append(n), lambda: len(done) == 2
    )
    assert written == 2
    assert len(list((tmp_path / "plain" / "firings").glob("*/firing.toml"))) == 2


# A folder of logs and sheets


@pytest.fixture
def folder(tmp_path):
    """Return a folder with a sheet, two loose logs (one a copy), a bad file and a broken sheet."""
    below = tmp_path / "logs"
    write_firing_folder(full_firing(), below / "march")
    (below / "april.csv").write_bytes(log_bytes(top_c=950.0))
    (below / "copy of april.csv").write_bytes(log_bytes(top_c=950.0))
    (below / "broken.csv").write_bytes(b"nothing to see here\n")
    (below / "slip.toml").write_text('log = "april.csv"\nkilm = "k.toml"\n')
    (below / "kiln.toml").write_text('name = "Oval"\n')
    (below / "photo.png").write_bytes(b"\x89PNG")
    return below


def test_a_folder_comes_in_whole_but_for_what_is_bad(book, folder):
    told = []
    came = bring_in(book, folder, progress=lambda done, all_: told.append((done, all_)))
    assert [f.title for f in book.list_firings()] == ["March bisque", "april.csv"]
    assert [path.name for path, _ in came.known] == ["copy of april.csv"]
    assert sorted(e.where.rsplit("/", 1)[-1] for e in came.refused) == ["broken.csv", "slip.toml"]
    assert told == [(1, 4), (2, 4), (3, 4), (4, 4)]
    assert all(f.summary.reviewed for f in book.list_firings())


def test_files_that_a_sheet_names_are_no_firings_of_their_own(book, tmp_path):
    write_firing_folder(full_firing(), tmp_path / "in" / "march")
    came = bring_in(book, tmp_path / "in")
    assert (len(came.added), came.refused) == (1, ())


def test_an_import_that_is_ended_keeps_what_went_in(book, folder):
    done = []
    came = bring_in(
        book, folder, progress=lambda n, _: done.append(n), cancelled=lambda: len(done) == 1
    )
    assert came.cancelled
    assert len(came.added) == len(book.list_firings()) == 1


def test_logs_without_a_sheet_can_be_put_to_a_kiln(book, tmp_path):
    kiln_id = book.keep_kiln(Kiln(name="Round"))
    (tmp_path / "in").mkdir()
    (tmp_path / "in" / "a.csv").write_bytes(log_bytes(BEGUN))
    bring_in(book, tmp_path / "in", kiln_id=kiln_id)
    assert [f.kiln_id for f in book.list_firings()] == [kiln_id]


def test_a_table_with_a_broken_row_says_which_and_the_rest_goes_on(book, other, tmp_path):
    fill(book)
    export_book(book, tmp_path / "plain")
    path = tmp_path / "plain" / "changes.csv"
    path.write_text(path.read_text(encoding="utf-8-sig").replace("elements", "elephants"))
    came = bring_in(other, tmp_path / "plain")
    assert "changes.csv, row 2" in came.refused[0].where
    assert len(other.changes()) == 1
    assert len(other.notes()) == 2
