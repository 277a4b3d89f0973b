"""What the reader makes of a file, before it is opened: for a person to confirm or correct."""

from collections.abc import Sequence
from dataclasses import dataclass

from firing_review.firing.errors import DoubtError, InputError
from firing_review.firing.log import TEMPERATURE_ROLES, ReadingChoices
from firing_review.firing.units import TemperatureUnit, TimeUnit
from firing_review.io.log_columns import ColumnRole
from firing_review.io.log_csv import read_runs_of
from firing_review.io.log_journal import table_text
from firing_review.io.log_layout import Layout, find_layout, split_line
from firing_review.io.log_steps import Reading, take_apart
from firing_review.io.log_text import LogText
from firing_review.io.log_workbook import as_text

PREVIEW_ROWS = 8
"""As many first rows as fit above the fold of a small window."""


@dataclass(frozen=True)
class LogPreview:
    """A file as the reader sees it.

    Attributes
    ----------
    names : tuple of str
        Name of every column, the clock's among them.
    first_rows : tuple of rows
        Cells of the first data rows as they stand in the file.
    time_columns : tuple of int
        Columns that together are the clock.
    time_form : str
        What the clock counts, in plain words.
    roles : tuple of ColumnRole
        Role of every column of numbers, with its confidence.
    confidence : float
        How sure the whole reading is, 0 to 1.
    doubts : tuple of DoubtError
        What could be read in two ways; to be asked about.
    layout_key : str
        The same for files of the same logger, to remember answers by.
    delimiter, decimal : str
        What parts the cells of a row, and the decimal sign.
    time_unit : TimeUnit, optional
        What the clock counts where it is plain elapsed numbers.
    as_written : bool
        Whether the signs are those of the file; not so in a workbook or a text of words.
    runs_h : tuple of float
        Length of every firing in the file [h].
    """

    source: str
    names: tuple[str, ...]
    first_rows: tuple[tuple[str, ...], ...]
    time_columns: tuple[int, ...]
    time_form: str
    roles: tuple[ColumnRole, ...]
    unit: TemperatureUnit
    confidence: float
    doubts: tuple[DoubtError, ...]
    layout_key: str
    delimiter: str
    decimal: str
    time_unit: TimeUnit | None
    as_written: bool
    runs_h: tuple[float, ...]


def preview_log(raw: bytes, source: str, choices: ReadingChoices | None = None) -> LogPreview:
    """Return how a file would be read under these choices; a doubt is told, not raised.

    Raises
    ------
    InputError
        If it cannot be read as a log at all.
    """
    reading = take_apart(raw, source, choices or ReadingChoices(), ask=False)
    runs = read_runs_of(reading, raw, source)
    layout = reading.layout
    plain = as_text(raw, source)
    text = table_text(plain)
    lines = text.head[layout.first :]
    return LogPreview(
        source=source,
        names=reading.names,
        first_rows=_first_rows(lines, layout.delimiter),
        time_columns=reading.clock.columns,
        time_form=reading.clock.form,
        roles=reading.roles,
        unit=reading.units.unit,
        confidence=_confidence(reading),
        doubts=reading.doubts,
        layout_key=_key(text, layout, source),
        delimiter=layout.delimiter,
        decimal=layout.decimal,
        time_unit=reading.clock.unit,
        as_written=text.as_written and plain == raw,
        runs_h=tuple(run.hours for run in runs),
    )


def _key(text: LogText, layout: Layout, source: str) -> str:
    """Return the key of the layout as the reader finds it alone, as it will in the next file."""
    try:
        return find_layout(text.head, text.tail, source).key
    except InputError:
        return layout.key


def _first_rows(lines: Sequence[str], delimiter: str) -> tuple[tuple[str, ...], ...]:
    filled = [line for line in lines[: 10 * PREVIEW_ROWS] if line.strip()]
    return tuple(tuple(split_line(line, delimiter)) for line in filled[:PREVIEW_ROWS])


def _confidence(reading: Reading) -> float:
    believed = [r.confidence for r in reading.roles if r.role in TEMPERATURE_ROLES]
    if reading.doubts or not believed:
        return min(0.3, reading.units.sure)
    return min(reading.units.sure, *believed)
