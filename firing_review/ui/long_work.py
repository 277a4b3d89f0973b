"""Work that takes long on a long log, as functions that can run in a process of their own."""

from pathlib import Path

from firing_review.analysis.probe_against_cones import ConeCheck
from firing_review.firing.said import N_, Said
from firing_review.firing.sheet import Given
from firing_review.io.tables import load_tables
from firing_review.report.curves import make_ready
from firing_review.review.pipeline import review_firing
from firing_review.review.recovery import read_recovery
from firing_review.review.review import Review
from firing_review.ui.side_process import Tell

AFTER_READING = 0.25
"""Share of the time that reading takes, of reading and review together."""


def review_beside(tell: Tell, given: Given, past: tuple[ConeCheck, ...]) -> Review:
    """Return the review of what was given, beside what cones said in the firings of a book."""
    tell(0.0, Said(N_("Working out what follows; shown is still what was found before")))
    return review_firing(given, load_tables(), past=past)


def pick_up(tell: Tell, path: Path) -> Review:
    """Return the review of an unfinished sitting; raises InputError if it cannot be used."""
    tell(0.0, Said(N_("Reading what was kept")))
    given = read_recovery(path)
    tell(AFTER_READING, Said(N_("Working out what happened")))
    return review_firing(given, load_tables())


def ready_to_draw(review: object) -> None:
    """Prepare a review for the window."""
    if isinstance(review, Review):
        make_ready(review)
