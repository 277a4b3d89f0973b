"""Firings for the tests of the kiln book: small logs with bytes, as a logger writes them."""

from dataclasses import replace
from datetime import date, datetime, timedelta

import numpy as np

from firing_review.book.book import Book
from firing_review.firing.cones import ConeKind, ConeNumber, ShelfCone
from firing_review.firing.kiln import Kiln, Section, Shelf
from firing_review.firing.schedule import Schedule, Segment
from firing_review.firing.sheet import Answers, Given, Picture, Readings, TimeNote
from firing_review.io.log_csv import read_log_bytes

OVAL = Kiln(name="Oval", volume_l=140.0, sections=(Section("low"), Section("high")))
BEGUN = datetime.fromisoformat("2026-03-01T07:00")
TO_1000 = Schedule((Segment(150.0, 1000.0, 10.0),), "plain bisque")


def log_bytes(begun: datetime | None = BEGUN, top_c: float = 1000.0, hours: float = 7.0) -> bytes:
    """Return a log of a firing that climbs evenly and cools, a row every five minutes."""
    lines = ["time,chamber_C"] if begun else ["elapsed_min,chamber_C"]
    for minute in np.arange(0, 60 * (hours + 8), 5):
        hour = minute / 60.0
        heated_c = 20.0 + (top_c - 20.0) * min(hour / hours, 1.0)
        value = (
            heated_c if hour <= hours else 20.0 + (top_c - 20.0) * np.exp(-0.2 * (hour - hours))
        )
        stamp = str(begun + timedelta(minutes=int(minute))) if begun else str(minute)
        lines.append(f"{stamp},{value:.1f}")
    return ("\r\n".join(lines) + "\r\n").encode()


def firing(raw: bytes | None = None, name: str = "log.csv", **entered: object) -> Given:
    return Given(read_log_bytes(log_bytes() if raw is None else raw, name), **entered)


def add_dated(book: Book, given: Given, day: date) -> int:
    """Put in a firing as it comes from a book in which its day was entered; return its number."""
    undated = book.firing(book.add(given).firing_id)
    book.remove_firing(undated.id)
    return book.add_kept(given, replace(undated, fired_on=day)).firing_id


def full_firing(**changed: object) -> Given:
    """Return a firing with everything entered that can be."""
    oval = Kiln(name="Oval", sections=OVAL.sections, shelves=(Shelf("floor", "low", 10.0),))
    entered = {
        "title": "March bisque",
        "intended": TO_1000,
        "cones": (ShelfCone("floor", "left", ConeNumber("06"), ConeKind.LARGE, 40.0, 9.0),),
        "kiln": oval,
        "goal_cone": ConeNumber("06"),
        "earlier": (firing(log_bytes(BEGUN - timedelta(days=3)), "before.csv"),),
        "answers": Answers(safety=("none",), load="usual", ware="mugs"),
        "readings": Readings(240.0, 236.0, {"low": 12.5}, {"low": 18.0, "high": float("inf")}),
        "tolerance_cones": 1.0,
        "notes": (TimeNote(7.25, "=opened the top plug"),),
        "pictures": (Picture("shelf.png", b"\x89PNG not really"),),
    }
    return firing(**{**entered, **changed})


ENTERED = (
    "title",
    "intended",
    "cones",
    "kiln",
    "goal_cone",
    "answers",
    "readings",
    "tolerance_cones",
    "pictures",
    "notes",
)


def assert_same(back: Given, kept: Given) -> None:
    """Check that a firing reads back as it was kept, its log byte for byte."""
    assert back.log.raw == kept.log.raw
    assert back.log.source == kept.log.source
    assert np.array_equal(back.log.elapsed_h, kept.log.elapsed_h)
    for name in ENTERED:
        assert getattr(back, name) == getattr(kept, name), name
    assert [one.log.raw for one in back.earlier] == [one.log.raw for one in kept.earlier]
