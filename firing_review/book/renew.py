"""Figures of a book worked out anew, where they were never or by another version."""

from collections.abc import Callable

from firing_review.book.book import Book
from firing_review.book.nouns import FiringKept
from firing_review.book.plain_files import Progress, never, silent
from firing_review.book.summary import program_version
from firing_review.firing.errors import InputError
from firing_review.firing.tables import Tables
from firing_review.review.pipeline import review_firing


def outdated(book: Book) -> tuple[FiringKept, ...]:
    """Return the firings whose figures were never worked out, or by another version."""
    version = program_version()
    return tuple(
        kept
        for kept in book.list_firings()
        if not kept.summary.reviewed or kept.summary.version != version
    )


def renew_figures(
    book: Book,
    tables: Tables,
    progress: Progress = silent,
    cancelled: Callable[[], bool] = never,
) -> tuple[InputError, ...]:
    """Review every outdated firing again and keep its figures; return what could not be read.

    Raises
    ------
    InputError
        If the book cannot be written.
    """
    refused = []
    waiting = outdated(book)
    for number, kept in enumerate(waiting, start=1):
        if cancelled():
            break
        try:
            given = book.given(kept.id)
        except InputError as error:
            refused.append(error)
            continue
        review = review_firing(given, tables, past=book.cone_checks(kept.id))
        book.keep_figures(kept, review)
        progress(number, len(waiting))
    return tuple(refused)
