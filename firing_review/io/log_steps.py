"""A log between bytes and noun: text, table, clock, numbers, roles, unit, each step on its own."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

import numpy as np

from firing_review.firing.errors import DoubtError
from firing_review.firing.log import TEMPERATURE_ROLES, ReadingChoices, ReadingNote
from firing_review.firing.said import N_, Said
from firing_review.firing.units import Floats, TemperatureUnit
from firing_review.firing.wording import tr
from firing_review.io import log_gaps, log_units
from firing_review.io.log_clock import Clock
from firing_review.io.log_columns import ColumnRole, find_roles
from firing_review.io.log_journal import table_text
from firing_review.io.log_layout import Layout, find_layout
from firing_review.io.log_plain import plain_rows
from firing_review.io.log_tenths import Numbers, counts_tenths, said_in_tenths
from firing_review.io.log_text import without_zero_tail
from firing_review.io.log_workbook import as_text
from firing_review.io.plain_text import refuse_what_is_no_text

EXPECTED = N_("a log with a time and a temperature in each row")
REMEDY = N_("Name the logger's CSV export.")
KELVIN = 273.15
COLD_KELVIN = (255.0, 330.0)
"""A cold kiln in Kelvin."""


@dataclass(frozen=True)
class Units:
    """The unit of a log, how sure it is, and the units of columns that tell their own."""

    unit: TemperatureUnit
    sure: float = 1.0
    own: Mapping[int, TemperatureUnit] = field(default_factory=dict)
    notes: tuple[ReadingNote, ...] = ()
    doubt: DoubtError | None = None

    def of(self, column: int) -> TemperatureUnit:
        """Return the unit of one column."""
        return self.own.get(column, self.unit)


@dataclass(frozen=True, eq=False)
class Reading:
    """A log as far as its file goes: rows in the order of the file, values in its own unit."""

    layout: Layout
    names: tuple[str, ...]
    clock: Clock
    columns: dict[int, Floats]
    roles: tuple[ColumnRole, ...]
    units: Units
    notes: tuple[ReadingNote, ...]
    dropped: int = 0
    doubts: tuple[DoubtError, ...] = ()


def take_apart(raw: bytes, source: str, choices: ReadingChoices, ask: bool = True) -> Reading:
    """Read a file up to its columns, clock and unit.

    Parameters
    ----------
    ask : bool
        Whether a doubt is raised; else the likelier reading goes on and the doubt is kept.

    Raises
    ------
    InputError
        If it cannot be read as a log.
    DoubtError
        If it can be read in two ways and ``ask`` is set.
    """
    raw = without_zero_tail(as_text(raw, source))
    refuse_what_is_no_text(raw, source, tr(EXPECTED), tr(REMEDY))
    text = table_text(raw)
    layout = find_layout(text.head, text.tail, source, choices.delimiter, choices.decimal)
    rows = plain_rows(text, layout, choices.time_unit)
    if rows is None:
        from firing_review.io.log_rows import rows_of  # noqa: PLC0415 - pandas is slow to load

        rows = rows_of(text, layout, source, choices, ask=ask)
    numbers, value_notes = _mended_values(rows.numbers, rows.names, rows.unit_row)
    roles = find_roles(_without_marks(numbers), list(rows.names), rows.unit_row, choices.roles)
    columns, kelvin = _from_kelvin(roles, numbers)
    words = (*layout.preamble, *rows.unit_words)
    units = _unit(roles, columns, numbers, words, choices, rows.clock.hours, source)
    if units.doubt is not None and ask:
        raise units.doubt
    notes = (*rows.notes, *rows.clock.notes, *value_notes, *kelvin, *units.notes)
    every = (*rows.doubts, *([units.doubt] if units.doubt else []))
    return Reading(
        layout, rows.names, rows.clock, columns, roles, units, notes, rows.dropped, every
    )


def _mended_values(
    numbers: Numbers, names: tuple[str, ...], units: tuple[str, ...]
) -> tuple[Numbers, tuple[ReadingNote, ...]]:
    """Divide columns that count tenths of a degree, as they say or show."""
    labels = {i: f"{names[i]} {units[i] if i < len(units) else ''}" for i in numbers.columns}
    tenths = [
        i
        for i, column in numbers.columns.items()
        if said_in_tenths(labels[i]) or counts_tenths(column)
    ]
    if not tenths:
        return numbers, ()
    columns = {i: c / 10.0 if i in tenths else c for i, c in numbers.columns.items()}
    text = N_("Columns that count tenths of a degree, divided by ten: {count}.")
    note = ReadingNote("tenths", Said(text, {"count": len(tenths)}), len(tenths))
    return replace(numbers, columns=columns), (note,)


def _without_marks(numbers: Numbers) -> dict[int, Floats]:
    """Return the columns as roles are told from: without what no kiln reads."""
    marks = {i: log_gaps.impossible(c, log_gaps.HOTTEST_F) for i, c in numbers.columns.items()}
    return {
        i: np.where(marks[i], np.nan, c) if marks[i].any() else c
        for i, c in numbers.columns.items()
    }


def _from_kelvin(
    roles: tuple[ColumnRole, ...], numbers: Numbers
) -> tuple[dict[int, Floats], tuple[ReadingNote, ...]]:
    """Return the columns with those in Kelvin, by unit and by a cold start, in °C."""
    columns, found = dict(numbers.columns), 0
    for r in roles:
        unit = r.unit.strip("[]() ") or numbers.stuck.get(r.index, "")
        if unit != "K" and not r.name.endswith(("[K]", "(K)", "_K")):
            continue
        good = columns[r.index][np.isfinite(columns[r.index])]
        if len(good) and COLD_KELVIN[0] < good[:3].min() < COLD_KELVIN[1]:
            columns[r.index] = columns[r.index] - KELVIN
            found += 1
    if not found:
        return columns, ()
    said = Said(N_("Columns in Kelvin, turned into °C: {count}."), {"count": found})
    return columns, (ReadingNote("kelvin", said, found),)


def _unit(
    roles: tuple[ColumnRole, ...],
    columns: dict[int, Floats],
    numbers: Numbers,
    words: tuple[str, ...],
    choices: ReadingChoices,
    hours: Floats,
    source: str,
) -> Units:
    """Tell the unit of each temperature, and of those that do not say it, by all together."""
    if choices.unit is not None:
        return Units(choices.unit)
    own = {
        r.index: log_units.own_unit(r.name, r.unit, numbers.stuck.get(r.index, ""))
        for r in roles
        if r.degrees
    }
    temperatures = [r.index for r in roles if r.role in TEMPERATURE_ROLES]
    told = {index: unit for index, unit in own.items() if unit is not None}
    named = next((told[i] for i in (*temperatures, *told) if i in told), None)
    named = named or log_units.unit_above(words)
    if named is not None:
        celsius = [i for i in temperatures if told.get(i, named) is TemperatureUnit.CELSIUS]
        doubts = (log_units.doubt_of_celsius(columns[i], hours, source) for i in celsius)
        doubted = next((doubt for doubt in doubts if doubt is not None), None)
        if doubted is not None:
            return Units(TemperatureUnit.FAHRENHEIT, 0.3, doubt=doubted)
        return Units(named, 1.0, told)
    if not temperatures:
        return Units(TemperatureUnit.CELSIUS, 0.5)
    curves = [log_units.reading_of(columns[index], hours) for index in temperatures]
    try:
        unit, sure = log_units.unit_by_values(curves, source)
    except DoubtError as doubt:
        return Units(TemperatureUnit.CELSIUS, 0.3, doubt=doubt)
    text = N_("The file names no unit; read as °{unit} by its start and its peak.")
    note = ReadingNote("unit_read", Said(text, {"unit": unit.value}))
    return Units(unit, sure, notes=(note,))
