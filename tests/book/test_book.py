"""The kiln book keeps every firing as it was, and every edit as it is made."""

from dataclasses import replace
from datetime import date, datetime

import pytest
from book_firings import OVAL, add_dated, assert_same, firing, full_firing, log_bytes

from firing_review.book.book import Book
from firing_review.book.nouns import Change, ChangeKind, Note
from firing_review.book.packing import checksum
from firing_review.book.renew import outdated, renew_figures
from firing_review.firing.errors import InputError
from firing_review.firing.sheet import Answers, Picture, Readings
from firing_review.io.tables import load_tables
from firing_review.review.pipeline import review_firing


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "workshop") as opened:
        yield opened


def again(book):
    book.close()
    return Book.open(book.path)


def test_a_firing_comes_back_as_it_was_kept(book):
    kept = full_firing()
    added = book.add(kept)
    with again(book) as opened:
        assert added.new
        assert_same(opened.given(added.firing_id), kept)


def test_an_edit_is_in_the_book_once_it_is_kept(book):
    added = book.add(full_firing())
    edited = full_firing(title="April", cones=(), answers=Answers(load="heavy"), pictures=())
    book.keep(added.firing_id, edited)
    with again(book) as opened:
        assert_same(opened.given(added.firing_id), edited)
        assert opened.firing(added.firing_id).summary.title == "April"
        assert opened.firing(added.firing_id).summary.load == "heavy"


def test_keeping_an_edit_reads_and_sums_no_log_again(book, monkeypatch):
    given = full_firing()
    added = book.add(given)

    def refuse(*_args, **_named):
        raise AssertionError("a log was read or summed again")

    def sum_of_small(data):
        return refuse() if data == given.log.raw else checksum(data)

    monkeypatch.setattr("firing_review.io.sheets.read_log_bytes", refuse)
    monkeypatch.setattr("firing_review.book.store.checksum", sum_of_small)
    monkeypatch.setattr("firing_review.book.packing.checksum", sum_of_small)
    edited = replace(given, title="April bisque")
    book.keep(added.firing_id, edited)
    monkeypatch.undo()
    assert_same(book.given(added.firing_id), edited)


def test_the_same_log_is_recognized_and_not_added_twice(book):
    first = book.add(firing())
    second = book.add(firing(name="copy of it.csv", title="again"))
    assert (second.firing_id, second.new) == (first.firing_id, False)
    assert len(book.list_firings()) == 1


def test_firings_without_date_kiln_or_firing_are_kept_as_well(book):
    undated = book.add(firing(log_bytes(begun=None)))
    cold = b"time,chamber_C\n" + b"".join(b"2026-03-01 07:%02d,21.5\n" % m for m in range(60))
    nothing = book.add(firing(cold))
    assert book.firing(undated.firing_id).when is None
    review = review_firing(book.given(nothing.firing_id), load_tables())
    book.keep(nothing.firing_id, review.given, review)
    summary = book.firing(nothing.firing_id).summary
    assert (summary.reviewed, summary.firing) == (True, False)
    assert {f.kiln_id for f in book.list_firings()} == {None}


def test_a_day_given_by_hand_goes_before_the_clock_of_the_log(book):
    by_clock = book.firing(book.add(firing()).firing_id)
    assert by_clock.when == datetime.fromisoformat("2026-03-01T07:00")
    by_hand = book.firing(add_dated(book, firing(), date(2025, 12, 24)))
    assert by_hand.when == datetime.fromisoformat("2025-12-24T00:00")


def test_firings_of_one_kiln_name_share_a_kiln(book):
    book.add(firing(kiln=OVAL))
    book.add(firing(log_bytes(top_c=900.0), kiln=replace(OVAL, name=" oval ", volume_l=141.0)))
    (kiln,) = book.kilns()
    assert kiln.firings == 2
    assert kiln.kiln.volume_l == 141.0


def test_a_kiln_of_one_firing_is_renamed_and_leaves_no_old_one_behind(book):
    added = book.add(firing(kiln=OVAL))
    book.keep(added.firing_id, firing(kiln=replace(OVAL, name="Round")))
    assert [k.kiln.name for k in book.kilns()] == ["Round"]


def test_changes_notes_and_photos_come_back(book):
    kiln_id = book.keep_kiln(OVAL)
    added = book.add(firing(kiln=OVAL))
    readings = Readings(cold_ohms={"low": 18.2, "high": float("inf")})
    change = Change(ChangeKind.ELEMENTS, date(2026, 2, 1), kiln_id, ("low",), "=new set", readings)
    note = Note("opened the top plug", firing_id=added.firing_id)
    change_id, note_id = book.keep_change(change), book.keep_note(note)
    photo = book.attach("wiring.jpg", b"\xff\xd8 bytes", kiln_id=kiln_id)
    with again(book) as opened:
        assert opened.changes(kiln_id) == (replace(change, id=change_id),)
        (back,) = opened.notes(firing_id=added.firing_id)
        assert replace(back, written_at=None) == replace(note, id=note_id)
        assert [a.name for a in opened.attachments(kiln_id=kiln_id)] == ["wiring.jpg"]
        assert opened.attachment_bytes(photo) == b"\xff\xd8 bytes"
        opened.remove_change(change_id)
        opened.remove_note(note_id)
        opened.detach(photo)
        assert (opened.changes(), opened.notes(), opened.attachments()) == ((), (), ())


def test_a_firing_taken_out_leaves_nothing_behind_but_what_others_use(book):
    shared = Picture("a.png", b"x" * 500)
    first = book.add(firing(pictures=(shared,)))
    second = book.add(firing(log_bytes(top_c=900.0), pictures=(shared,)))
    book.remove_firing(first.firing_id)
    assert book.given(second.firing_id).pictures == (shared,)
    book.remove_firing(second.firing_id)
    assert book._store.rows("SELECT count(*) FROM blobs") == [(0,)]


def test_figures_of_a_review_are_kept_with_the_firing(book):
    review = review_firing(full_firing(), load_tables())
    added = book.add(review.given, review)
    with again(book) as opened:
        summary = opened.firing(added.firing_id).summary
    assert summary.reviewed
    assert summary.peak_c == 1000.0
    assert summary.verdict == review.verdict.sentences
    assert summary.lights == review.verdict.lights
    assert [s.shelf for s in summary.shelves] == ["floor"]
    assert summary.planned == ((150.0, 1000.0, 10.0),)


def test_a_firing_that_is_not_there_is_named(book):
    with pytest.raises(InputError, match="firing 7"):
        book.given(7)
    with pytest.raises(InputError, match="firing 7"):
        book.keep(7, firing())


def test_a_kiln_renamed_in_the_book_keeps_its_firings_when_they_are_edited(book):
    added = [book.add(firing(log_bytes(top_c=t), kiln=OVAL)).firing_id for t in (900.0, 950.0)]
    (kiln,) = book.kilns()
    book.keep_kiln(replace(OVAL, name="Round"), kiln.id)
    book.keep(added[0], replace(book.given(added[0]), title="edited"))
    assert [(k.kiln.name, k.firings) for k in book.kilns()] == [("Round", 2)]


def test_another_name_on_one_of_several_firings_is_another_kiln(book):
    added = [book.add(firing(log_bytes(top_c=t), kiln=OVAL)).firing_id for t in (900.0, 950.0)]
    book.keep(added[0], firing(kiln=replace(OVAL, name="Round")))
    assert [(k.kiln.name, k.firings) for k in book.kilns()] == [("Oval", 1), ("Round", 1)]
    book.keep(added[0], firing(kiln=OVAL))
    assert [(k.kiln.name, k.firings) for k in book.kilns()] == [("Oval", 2)]


def test_a_kiln_with_notes_stays_when_its_last_firing_goes_to_another(book):
    round_id = book.keep_kiln(replace(OVAL, name="Round"))
    added = book.add(firing(kiln=OVAL))
    book.keep_note(Note("bought used", kiln_id=book.kilns()[0].id))
    book.keep(added.firing_id, firing(kiln=replace(OVAL, name="Round")))
    assert [(k.kiln.name, k.firings) for k in book.kilns()] == [("Oval", 0), ("Round", 1)]
    assert book.firing(added.firing_id).kiln_id == round_id


def test_figures_never_worked_out_are_worked_out_when_asked(book):
    added = book.add(full_firing())
    assert [kept.id for kept in outdated(book)] == [added.firing_id]
    assert renew_figures(book, load_tables()) == ()
    assert outdated(book) == ()
    assert book.firing(added.firing_id).summary.peak_c == 1000.0
    assert_same(book.given(added.firing_id), full_firing())


def test_an_edit_without_a_review_keeps_the_figures_and_brings_on_what_was_entered(book):
    review = review_firing(full_firing(), load_tables())
    added = book.add(review.given, review)
    book.keep(added.firing_id, full_firing(title="renamed"))
    summary = book.firing(added.firing_id).summary
    assert (summary.title, summary.peak_c) == ("renamed", 1000.0)


def test_firings_stand_in_the_order_of_their_days(book):
    days = ["2026-03-03T07:00", "2026-03-01T07:00", "2026-03-02T07:00"]
    for day in days:
        book.add(firing(log_bytes(datetime.fromisoformat(day)), name=f"{day[:10]}.csv"))
    titles = [f.title for f in book.list_firings()]
    assert titles == ["2026-03-01.csv", "2026-03-02.csv", "2026-03-03.csv"]


def test_a_copy_made_while_the_book_is_open_holds_every_edit(book, tmp_path):
    added = book.add(full_firing())
    book.keep(added.firing_id, full_firing(title="newest"))
    book.copy_to(tmp_path / "copy.kilnbook")
    with Book.open(tmp_path / "copy.kilnbook") as copy:
        assert copy.read_only is None
        assert_same(copy.given(added.firing_id), full_firing(title="newest"))
    with pytest.raises(InputError, match="a name that is free"):
        book.copy_to(tmp_path / "copy.kilnbook")


def test_figures_worked_out_anew_never_take_an_edit_back(book):
    added = book.add(full_firing())
    listed = book.firing(added.firing_id)
    review = review_firing(book.given(added.firing_id), load_tables())
    book.keep(added.firing_id, full_firing(title="April"))
    assert not book.keep_figures(listed, review)
    assert book.firing(added.firing_id).summary.title == "April"
    assert book.keep_figures(book.firing(added.firing_id), review)
    assert book.given(added.firing_id).title == "April"
