"""One firing from its files to its results; runs in any process."""

from dataclasses import replace
from functools import cache
from pathlib import Path

from firing_review.cli.inputs import Input
from firing_review.cli.options import Options
from firing_review.cli.results import PdfWriter, write_results
from firing_review.cli.row import Row, refused_row, row_of
from firing_review.firing.cones import parse_cone
from firing_review.firing.errors import FiringReviewError
from firing_review.firing.sheet import Given
from firing_review.firing.tables import Tables
from firing_review.firing.units import TemperatureUnit
from firing_review.firing.wording import language
from firing_review.io.languages import speak
from firing_review.io.open_any import gather
from firing_review.io.tables import load_tables
from firing_review.report.shown_text import shown
from firing_review.report.text import review_text
from firing_review.review.pipeline import review_firing


def check_one(
    one: Input, options: Options, *, several: bool, write_pdf: PdfWriter | None = None
) -> Row:
    """Review a firing and write its results; what cannot be read becomes a row that says so."""
    if language() is not options.language:
        speak(options.language)
    try:
        review = review_firing(_gather(one.path, options), _tables())
        write_results(review, one, options, write_pdf, several=several)
    except (FiringReviewError, OSError) as error:
        return refused_row(one, error_line(error))
    except Exception as error:
        if not several:
            raise
        return refused_row(one, shown(f"{one.name}: a fault of this program: {error!r}"))
    row = row_of(one, review, options.show)
    return row if several else replace(row, text=review_text(review, options.show))


def error_line(error: Exception) -> str:
    """Return an error as the one line that is shown."""
    text = str(error)
    if isinstance(error, OSError):
        place, reason = error.filename or "file", error.strerror or error
        text = f"{place}: {reason}. Check the path and the rights."
    return shown(text)


@cache
def _tables() -> Tables:
    """Return the published tables, read once in each process."""
    return load_tables()


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
