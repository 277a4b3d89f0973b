"""The rows of the plainest logs, read without pandas, which takes longer to load than they do.

Plain is a table of one stamp with the year first and of numbers or gaps, every line alike. What
it says is what the general reader would say; whatever is not plain is left to that one.
"""

import re
from dataclasses import dataclass

import numpy as np

from firing_review.firing.errors import DoubtError
from firing_review.firing.log import ReadingNote
from firing_review.firing.units import Floats
from firing_review.io.log_cells import Bytes, cells_of, numbers_of, seconds_of
from firing_review.io.log_clock import Clock, mend_clock
from firing_review.io.log_layout import Layout
from firing_review.io.log_tenths import Numbers
from firing_review.io.log_text import LogText, below, pieces

LEAST_ROWS = 3
DELIMITERS = ("\t", ";", ",")
_STAMP = re.compile(r"\d{4}-\d\d-\d\d[ T]\d\d:\d\d(?::\d\d)?", re.ASCII)
MOST_SENSORS = 64
"""A column of fewer values may name probes, and the table be one row a probe and moment."""
COUNTING = 0.95
"""A column that mostly goes up by one counts rows."""
LOOKED_AT = 20_000
"""Rows from the beginning that show whether a column counts rows or holds few values."""
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
    data, start, end = text.data, below(text.data, layout.first), len(text.data)
    while end > start and data[end - 1 : end] == b"\n":
        end -= 1
    first = data[start : data.find(b"\n", start)].decode("utf-8", errors="replace")
    stamps = {i: s for i, s in enumerate(first.split(layout.delimiter)) if _STAMP.fullmatch(s)}
    if not _may_be_plain(layout) or len(stamps) != 1:
        return None
    table = _table(data, start, end, layout, stamps)
    if table is None:
        return None
    stamp = min(stamps)
    clock = _clock(table[stamp], stamp)
    columns = {i: column for i, column in enumerate(table) if i != stamp}
    if clock is None or _in_long_form(columns):
        return None
    known = {i: column for i, column in columns.items() if np.isfinite(column).any()}
    return Rows(layout.names, mend_clock(clock), Numbers(known), layout.units)


def _may_be_plain(layout: Layout) -> bool:
    names = layout.names
    named = len(names) == layout.cells and all(names) and len(set(names)) == len(names)
    parted = layout.delimiter in DELIMITERS and layout.decimal != layout.delimiter
    return named and parted and all(name == name.strip(' "') for name in names)


def _table(
    data: bytes, start: int, end: int, layout: Layout, stamps: dict[int, str]
) -> Floats | None:
    """Return all columns, stamps as seconds since 1970; None if a line is not plain."""
    table = np.empty((layout.cells, data.count(b"\n", start, end) + 1))
    last = data.rfind(b"\n", start, end) + 1  # often cut short, which is better seen at once
    if (
        table.shape[1] < LEAST_ROWS
        or _columns(next(pieces(data, last, end)), layout, stamps) is None
    ):
        return None
    row = 0
    for piece in pieces(data, start, end):
        columns = _columns(piece, layout, stamps)
        if columns is None:
            return None
        rows = len(columns[0])
        table[:, row : row + rows] = columns
        row += rows
    return table


def _columns(lines: Bytes, layout: Layout, stamps: dict[int, str]) -> list[Floats] | None:
    """Return the columns of some lines; None if one is not plain."""
    cells = cells_of(lines, layout.delimiter, layout.cells)
    if cells is None:
        return None
    found: list[Floats] = []
    for i in range(layout.cells):
        like = stamps.get(i)
        column = seconds_of(cells, i, like) if like else numbers_of(cells, i, layout.decimal)
        if column is None:
            return None
        found.append(column)
    return found


def _clock(seconds: Floats, column: int) -> Clock | None:
    """Return the clock of stamps; None if the first comes again or the clock was never set."""
    if np.count_nonzero(seconds == seconds[0]) > 1 or seconds.min() < 0.0:
        return None
    started = np.datetime64(int(seconds[0]), "s").item()
    return Clock((seconds - seconds[0]) / HOUR_S, started, (column,), "date, year first")


def _in_long_form(columns: dict[int, Floats]) -> bool:
    """Tell whether the table may be one row a probe and moment: one column of values only."""
    values = [c for c in columns.values() if not _counts_or_names(c[:LOOKED_AT])]
    return len(values) == 1 and len(columns) > 1


def _counts_or_names(column: Floats) -> bool:
    counts = float(np.mean(np.diff(column) == 1.0)) > COUNTING
    return counts or len(set(column[np.isfinite(column)].tolist())) <= MOST_SENSORS
