"""Work that takes long on a long log, as functions that can run in a process of their own."""

from dataclasses import dataclass, replace
from pathlib import Path

from firing_review.analysis.probe_against_cones import ConeCheck
from firing_review.book.book import Book, read_kept
from firing_review.book.nouns import KeptFiles
from firing_review.book.packing import log_checksum
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.log import FiringLog
from firing_review.firing.said import N_, Said
from firing_review.firing.sheet import Given
from firing_review.firing.units import TemperatureUnit
from firing_review.io.firing_parts import load_earlier
from firing_review.io.sheets import write_firing_folder
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


def read_earlier(tell: Tell, path: Path, unit: TemperatureUnit) -> Given:
    """Return an earlier firing to compare with; raises InputError if it cannot be used."""
    tell(0.0, Said(N_("Reading the earlier firing")))
    return load_earlier(path, unit)


def write_folder(_tell: Tell, given: Given, folder: Path) -> Path:
    """Write a firing as a folder and return its sheet."""
    return write_firing_folder(given, folder)


@dataclass(frozen=True)
class TakenOut:
    """The files of a firing of a book and of a good one like it, and what cones said before."""

    firing: KeptFiles
    base: KeptFiles | None
    past: tuple[ConeCheck, ...]


def take_out(book: Book, firing_id: int) -> TakenOut:
    """Return what the review of a firing of a book needs."""
    firing = book.kept_files(firing_id)
    base = book.base_for(firing_id)
    base_files = None if base is None else book.kept_files(base.firing.id)
    return TakenOut(firing, base_files, book.cone_checks(firing_id))


def review_taken_out(tell: Tell, out: TakenOut) -> Review:
    """Return the review of a firing of a book, measured by the good one if it names no other."""
    tell(0.0, Said(N_("Reading what was kept")))
    given = read_kept(out.firing)
    if out.base is not None and not given.earlier:
        given = replace(given, earlier=(read_kept(out.base),))
    tell(AFTER_READING, Said(N_("Working out what happened")))
    return review_firing(given, load_tables(), past=out.past)


def review_out_of(tell: Tell, book: Book, firing_id: int) -> Review:
    """Return the review of a firing of a book; raises InputError if it cannot be read."""
    return review_taken_out(tell, take_out(book, firing_id))


def ready_for_window(review: object) -> None:
    """Prepare a review for the window."""
    if isinstance(review, Review):
        log_ready(review.given.log, review.firing)


def log_ready(log: FiringLog, firing: AlignedFiring | None = None) -> None:
    """Prepare a log for the window: its curves, and what a book knows it by."""
    make_ready(log, firing)
    log_checksum(log)
