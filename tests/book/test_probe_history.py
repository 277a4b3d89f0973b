"""Cones of earlier firings speak for the probe, from sheets and from the book."""

from dataclasses import replace
from datetime import timedelta

import pytest
from book_firings import BEGUN, firing, log_bytes

from firing_review.analysis.probe_against_cones import ConeCheck
from firing_review.book.book import Book
from firing_review.firing.cones import ConeKind, ConeNumber, ShelfCone
from firing_review.firing.kiln import Kiln, Section
from firing_review.firing.results import ShelfHeat
from firing_review.io.tables import load_tables
from firing_review.review.edits import set_title
from firing_review.review.pipeline import review_firing

KILN = Kiln(name="Oval", sections=(Section("low"), Section("high")))
ONE_OFFSET = "One offset of the probe would correct that"


def with_cones(days_ago: int, bend_deg: float, top_c: float = 1000.0):
    """Return a firing whose cones 05 stand as bent on both shelves; 1000 °C is too little."""
    cones = tuple(
        ShelfCone(shelf, "", ConeNumber("05"), ConeKind.SELF_SUPPORTING, bend_deg)
        for shelf in ("low", "high")
    )
    return firing(
        log_bytes(BEGUN - timedelta(days=days_ago), top_c),
        cones=cones,
        kiln=KILN,
        goal_cone=ConeNumber("05"),
    )


def said_of_next(review) -> str:
    return " ".join(s.text for s in review.next_firing.said)


@pytest.fixture(scope="module")
def tonight():
    return with_cones(0, 95.0)


def test_two_firings_of_a_sheet_that_agree_suggest_one_offset(tonight):
    alone = review_firing(tonight, load_tables())
    both = review_firing(replace(tonight, earlier=(with_cones(7, 90.0),)), load_tables())
    assert ONE_OFFSET not in said_of_next(alone)
    assert ONE_OFFSET in said_of_next(both)


def test_an_earlier_firing_without_cones_suggests_nothing(tonight):
    plain = firing(log_bytes(BEGUN - timedelta(days=7)))
    review = review_firing(replace(tonight, earlier=(plain,)), load_tables())
    assert ONE_OFFSET not in said_of_next(review)


def test_the_book_gives_what_its_cones_said_and_edits_keep_it(tonight, tmp_path):
    with Book.create(tmp_path / "workshop") as book:
        for days in (14, 7):
            review = review_firing(with_cones(days, 92.0), load_tables())
            book.add(review.given, review)
        added = book.add(tonight)
        past = book.cone_checks(added.firing_id)
    assert len(past) == 2
    review = review_firing(tonight, load_tables(), past=past)
    assert ONE_OFFSET in said_of_next(review)
    assert ONE_OFFSET in said_of_next(set_title("again")(review, load_tables()))


def shelves_off_by(offset_c: float) -> tuple[ShelfHeat, ...]:
    return tuple(
        ShelfHeat(name, offset_c, offset_c - 4.0, offset_c + 4.0, None, None, "hot")
        for name in ("low", "high")
    )


def test_an_error_that_changes_with_heat_is_never_cured_by_one_offset(tonight):
    past = (ConeCheck(800.0, shelves_off_by(8.0)), ConeCheck(1060.0, shelves_off_by(40.0)))
    review = review_firing(tonight, load_tables(), past=past)
    assert ONE_OFFSET not in said_of_next(review)
    assert "changes with heat" in said_of_next(review)


def test_firings_that_disagree_leave_the_offset_as_it_is(tonight):
    past = (ConeCheck(1000.0, shelves_off_by(-40.0)),)
    review = review_firing(tonight, load_tables(), past=past)
    assert ONE_OFFSET not in said_of_next(review)
    assert "do not agree on one offset" in said_of_next(review)
