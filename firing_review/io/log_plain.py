"""The rows of the plainest logs, read without pandas, which takes longer to load than they do.

Plain is a short table of one stamp with the year first and of numbers, every line alike. What it
says is what the general reader would say; whatever is not plain is left to that one.
"""

import re
from dataclasses import dataclass

import numpy as np

from firing_review.firing.errors import DoubtError
from firing_review.firing.log import ReadingNote
from firing_review.firing.units import Floats
from firing_review.io.log_clock import Clock, mend_clock
from firing_review.io.log_layout import Layout
from firing_review.io.log_tenths import Numbers
from firing_review.io.log_text import LogText

MOST_BYTES = 2_000_000
"""A longer file takes longer cell by cell than pandas takes to load."""
LEAST_ROWS = 3
DELIMITERS = ("\t", ";", ",")
_STAMP = r"\d{4}-\d\d-\d\d[ T]\d\d:\d\d(?::\d\d)?"
_NUMBER = r"(?:[+-]?\d{1,12}(?:\.\d{0,9})?)?"
MOST_SENSORS = 64
"""A column of fewer values may name probes, and the table be one row a probe and moment."""
COUNTING = 0.95
"""A column that mostly goes up by one counts rows."""
HOUR_S = 3600.0


@dataclass(frozen=True, eq=False)
class Rows:
    """A log as a table: a clock, columns of numbers, and what was said on the way.

    Attributes
    ----------
    unit_row, unit_words : tuple of str
        Units that stand below the names, and as a word in a column of their own.
    """

    names: tuple[str, ...]
    clock: Clock
    numbers: Numbers
    unit_row: tuple[str, ...]
    unit_words: tuple[str, ...] = ()
    notes: tuple[ReadingNote, ...] = ()
    dropped: int = 0
    doubts: tuple[DoubtError, ...] = ()


def plain_rows(text: LogText, layout: Layout) -> Rows | None:
    """Return the rows of a plain log; None for any other."""
    if not _may_be_plain(text, layout):
        return None
    lines = text.data.decode("utf-8", errors="replace").split("\n")[layout.first :]
    while lines and not lines[-1]:
        lines.pop()
    stamp = _stamp_column(lines, layout)
    if stamp is None:
        return None
    cells = list(zip(*(line.split(layout.delimiter) for line in lines), strict=True))
    clock = _clock(cells[stamp], stamp)
    if clock is None:
        return None
    columns = {i: _numbers(column) for i, column in enumerate(cells) if i != stamp}
    if _in_long_form(columns):
        return None
    known = {i: column for i, column in columns.items() if np.isfinite(column).any()}
    return Rows(layout.names, mend_clock(clock), Numbers(known), layout.units)


def _may_be_plain(text: LogText, layout: Layout) -> bool:
    names = layout.names
    named = len(names) == layout.cells and all(names) and len(set(names)) == len(names)
    parted = layout.delimiter in DELIMITERS and layout.decimal == "."
    plain = named and parted and all(name == name.strip(' "') for name in names)
    return plain and len(text.data) <= MOST_BYTES


def _stamp_column(lines: list[str], layout: Layout) -> int | None:
    """Return the one column of stamps if all others are numbers or blank, in every line."""
    first = lines[0].split(layout.delimiter) if len(lines) >= LEAST_ROWS else []
    stamped = [i for i, cell in enumerate(first) if re.fullmatch(_STAMP, cell, re.ASCII)]
    if len(stamped) != 1:
        return None
    forms = [_STAMP if i in stamped else _NUMBER for i in range(layout.cells)]
    line = re.compile(re.escape(layout.delimiter).join(forms), re.ASCII)
    return stamped[0] if all(map(line.fullmatch, lines)) else None


def _clock(stamps: tuple[str, ...], column: int) -> Clock | None:
    """Return the clock of stamps that all have one form; None if one is no date or comes again."""
    if any(len(stamp) != len(stamps[0]) or stamp[10] != stamps[0][10] for stamp in stamps):
        return None
    try:
        moments = np.array(stamps, dtype="datetime64[s]")
    except ValueError:
        return None
    seconds = (moments - moments[0]).astype(np.int64)
    if np.count_nonzero(seconds == 0) > 1:
        return None
    started = moments[0].item()
    return Clock(seconds / HOUR_S, started, (column,), "date, year first")


def _numbers(cells: tuple[str, ...]) -> Floats:
    return np.array([float(cell) if cell else np.nan for cell in cells])


def _in_long_form(columns: dict[int, Floats]) -> bool:
    """Tell whether the table may be one row a probe and moment: one column of values only."""
    values = [c for c in columns.values() if not _counts_or_names(c)]
    return len(values) == 1 and len(columns) > 1


def _counts_or_names(column: Floats) -> bool:
    counts = float(np.mean(np.diff(column) == 1.0)) > COUNTING
    return counts or len(np.unique(column[np.isfinite(column)])) <= MOST_SENSORS
