"""Keeping an edit in the book or, where that fails, in a recovery file, so that it is not lost."""

from dataclasses import replace
from pathlib import Path

from firing_review.book.book import Book
from firing_review.book.trouble import STILL_HERE
from firing_review.firing.errors import InputError
from firing_review.firing.sheet import Given
from firing_review.firing.wording import tr
from firing_review.review.recovery import write_recovery
from firing_review.review.review import Review


def keep_or_recover(
    book: Book, firing_id: int, given: Given, review: Review | None, recovery: Path
) -> InputError | None:
    """Keep a firing in the book, else write the recovery file; return what to show.

    Returns
    -------
    InputError or None
        None where it is in the book and the recovery file, no longer needed, is gone. Otherwise
        what went wrong and where the edit is now.
    """
    try:
        book.keep(firing_id, given, review)
    except InputError as error:
        return _aside(error, given, recovery)
    try:
        recovery.unlink(missing_ok=True)
    except OSError:
        return None
    return None


def _aside(error: InputError, given: Given, recovery: Path) -> InputError:
    """Write the recovery file and say so; if that fails too, say that nothing holds the edit."""
    first = error.remedy.removesuffix(tr(STILL_HERE))
    try:
        write_recovery(given, recovery)
    except InputError:
        after = tr("What was changed last could not be put aside either: do not close the window.")
    else:
        after = tr(
            "What was changed last is put aside and will be offered when the program starts."
        )
    return replace(error, remedy=f"{first}{after}")
