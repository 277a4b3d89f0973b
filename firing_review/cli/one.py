"""One firing from its files to its results; runs in any process."""

from dataclasses import replace
from functools import cache
from pathlib import Path

from firing_review.cli.inputs import Input
from firing_review.cli.options import Options
from firing_review.cli.results import PdfWriter, write_results
from firing_review.cli.row import Row, refused_row, row_of
from firing_review.firing.cones import parse_cone
from firing_review.firing.errors import FiringReviewError, InputError
from firing_review.firing.sheet import Given
from firing_review.firing.tables import Tables
from firing_review.firing.units import TemperatureUnit
from firing_review.firing.wording import language, tr
from firing_review.io.languages import speak
from firing_review.io.open_any import gather
from firing_review.io.tables import load_tables
from firing_review.report.shown_text import shown
from firing_review.report.text import review_text
from firing_review.review.pipeline import review_firing
from firing_review.review.review import Review


def check_one(
    one: Input, options: Options, *, several: bool, write_pdf: PdfWriter | None = None
) -> Row:
    """Review a firing and write its results; what cannot be read becomes a row that says so."""
    if language() is not options.language:
        speak(options.language)
    try:
        review = _review(one, options)
        write_results(review, one, options, write_pdf, several=several)
    except (FiringReviewError, OSError) as error:
        return refused_row(one, error_line(error))
    except Exception as error:
        if not several:
            raise
        text = tr("{file}: a fault of this program: {error}")
        return refused_row(one, shown(text.format(file=one.name, error=repr(error))))
    row = row_of(one, review, options.show)
    return row if several else replace(row, text=review_text(review, options.show))


def error_line(error: Exception) -> str:
    """Return an error as the one line that is shown."""
    text = str(error)
    if isinstance(error, OSError):
        place, reason = error.filename or tr("file"), error.strerror or error
        text = tr("{place}: {reason}. Check the path and the rights.").format(
            place=place, reason=reason
        )
    return shown(text)


@cache
def _tables() -> Tables:
    """Return the published tables, read once in each process."""
    return load_tables()


def _review(one: Input, options: Options) -> Review:
    if one.firing_id is None:
        return review_firing(_gather(one.path, options), _tables())
    from firing_review.book.book import Book  # noqa: PLC0415 - only where there is a book

    _refuse_parts(one, options)
    with Book.open(one.path) as book:
        given, past = book.given(one.firing_id), book.cone_checks(one.firing_id)
    if options.goal_cone:
        given = replace(given, goal_cone=parse_cone(options.goal_cone, "--goal-cone"))
    return review_firing(given, _tables(), past=past)


def _refuse_parts(one: Input, options: Options) -> None:
    """Refuse files beside a book: its firings have their own."""
    named = {
        "--schedule": options.schedule,
        "--cones": options.cones,
        "--kiln": options.kiln,
        "--earlier": options.earlier,
        "--unit": options.unit,
    }
    for option, value in named.items():
        if value:
            remedy = tr("Leave the option out; what belongs to a firing is kept in the book.")
            raise InputError(
                str(one.path),
                tr("a kiln book without {option}").format(option=option),
                option,
                remedy,
            )


def _gather(path: Path, options: Options) -> Given:
    return gather(
        path,
        schedule=_path(options.schedule),
        cones=_path(options.cones),
        kiln=_path(options.kiln),
        goal_cone=parse_cone(options.goal_cone, "--goal-cone") if options.goal_cone else None,
        earlier=tuple(Path(e) for e in options.earlier),
        unit=TemperatureUnit(options.unit) if options.unit else None,
    )


def _path(name: str | None) -> Path | None:
    return Path(name) if name else None
