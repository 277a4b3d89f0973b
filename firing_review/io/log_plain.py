"""The rows of the plainest logs, read without pandas, which takes longer to load than they do.

Plain is a table of numbers or gaps beside a stamp with the year first or a time that counts, every
line alike. What it says is what the general reader would say; what is not plain is left to that.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from firing_review.firing.errors import DoubtError
from firing_review.firing.log import ReadingNote
from firing_review.firing.units import Floats, TimeUnit
from firing_review.io.log_begin import with_begin
from firing_review.io.log_cells import Bytes, cells_of, numbers_of, seconds_of
from firing_review.io.log_clock import Clock, mend_clock
from firing_review.io.log_columns import LOOKED_AT, MOST_SENSORS, SENSOR_NAMES
from firing_review.io.log_elapsed import elapsed_clock
from firing_review.io.log_forms import CLOCK_NAMES, DATE_NAMES, EIGHT_DIGITS, parts_named
from firing_review.io.log_layout import Layout
from firing_review.io.log_tenths import Numbers
from firing_review.io.log_text import LogText, below, pieces

LEAST_ROWS = 3
DELIMITERS = ("\t", ";", ",")
_STAMP = re.compile(r"\d{4}-\d\d-\d\d[ T]\d\d:\d\d(?::\d\d)?", re.ASCII)
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


def plain_rows(text: LogText, layout: Layout, unit: TimeUnit | None = None) -> Rows | None:
    """Return the rows of a plain log; None for any other.

    ``unit`` is what a person settled that the time counts.
    """
    data, start, end = text.data, below(text.data, layout.first), len(text.data)
    while end > start and data[end - 1 : end] == b"\n":
        end -= 1
    first = data[start : data.find(b"\n", start)].decode("utf-8", errors="replace")
    stamps = {i: s for i, s in enumerate(first.split(layout.delimiter)) if _STAMP.fullmatch(s)}
    if not _may_be_plain(layout, len(stamps)):
        return None
    table = _table(data, start, end, layout, stamps)
    if table is None:
        return None
    known = {i: column for i, column in enumerate(table) if np.isfinite(column).any()}
    clock = _stamped(known, min(stamps)) if stamps else _counted(known, layout, unit)
    if clock is None or np.count_nonzero(clock.hours == clock.hours[0]) > 1:  # told twice
        return None
    columns = {i: column for i, column in known.items() if i not in clock.columns}
    if _in_long_form(columns, layout.names, clock):
        return None
    clock = with_begin(mend_clock(clock), layout.preamble)
    return Rows(layout.names, clock, Numbers(columns), layout.units)


def _may_be_plain(layout: Layout, stamps: int) -> bool:
    names = layout.names
    dated = any(map(DATE_NAMES.search, names)) or len(parts_named(names)) > 1
    if stamps > 1 or (not stamps and dated):
        return False
    named = len(names) == layout.cells and all(names) and len(set(names)) == len(names)
    parted = layout.delimiter in DELIMITERS and layout.decimal != layout.delimiter
    return named and parted and all(name == name.strip(' "') for name in names)


def _table(
    data: bytes, start: int, end: int, layout: Layout, stamps: dict[int, str]
) -> Floats | None:
    """Return all columns, stamps as seconds since 1970; None if a line is not plain."""
    last = max(start, data.rfind(b"\n", start, end) + 1)
    for line in pieces(data, last, end):  # often cut short, which is better seen at once
        if _columns(line, layout, stamps) is None:
            return None
    count = data.count(b"\n", start, end) + 1
    if count < LEAST_ROWS:
        return None
    table, row = np.empty((layout.cells, count)), 0
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


def _stamped(columns: dict[int, Floats], column: int) -> Clock | None:
    """Return the clock of stamps; None if it was never set."""
    seconds = columns[column]
    if seconds.min() < 0.0:
        return None
    started = np.datetime64(int(seconds[0]), "s").item()
    return Clock((seconds - seconds[0]) / HOUR_S, started, (column,), "date, year first")


def _counted(columns: dict[int, Floats], layout: Layout, unit: TimeUnit | None) -> Clock | None:
    """Return the clock that counts; None if there is none, or it may be of dates or of a day."""
    if any((column[:LOOKED_AT] >= EIGHT_DIGITS).any() for column in columns.values()):
        return None
    clock = elapsed_clock(columns, layout.names, layout.units, layout.preamble, unit)
    if clock is None:
        return None
    timed = [i for i in columns if i in clock.columns or CLOCK_NAMES.search(layout.names[i])]
    return clock if all((np.diff(columns[i]) >= 0.0).all() for i in timed) else None


def _in_long_form(columns: dict[int, Floats], names: Sequence[str], clock: Clock) -> bool:
    """Tell whether the table may be one row a probe and moment, or one probe after the other."""
    probes = {i for i, c in columns.items() if SENSOR_NAMES.search(names[i]) and _are_few(c)}
    values = [i for i, c in columns.items() if i not in probes and not _counts(c)]
    after = bool((np.diff(clock.hours) < 0.0).any())
    return len(values) <= 1 < len(columns) and (after or len(probes) > 0)


def _are_few(column: Floats) -> bool:
    first = column[:LOOKED_AT]
    return len(set(first[np.isfinite(first)].tolist())) <= MOST_SENSORS


def _counts(column: Floats) -> bool:
    return float(np.mean(np.diff(column[:LOOKED_AT]) == 1.0)) > COUNTING
