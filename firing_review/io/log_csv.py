"""The story of reading a log: bytes, text, table, time, columns, units, log."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from pathlib import Path

import numpy as np
import pandas as pd

from firing_review.firing.errors import InputError
from firing_review.firing.log import Channel, ChannelRole, FiringLog, ReadingNote
from firing_review.firing.said import N_, Said
from firing_review.firing.units import (
    Floats,
    TemperatureUnit,
    celsius_from_fahrenheit,
)
from firing_review.io import log_columns, log_gaps, log_units
from firing_review.io.log_table import RawTable, column_names, find_layout, read_table
from firing_review.io.log_time import Clock, longest_run, mend_clock, read_clock
from firing_review.io.plain_text import decode, read_file, refuse_what_is_no_text

EXPECTED = "a log with a time and a temperature in each row"
REMEDY = "Name the logger's CSV export."
SPLIT_GAP_H = 6.0
"""A pause this long between rows parts two firings in one file, if the kiln was cool [h]."""


@dataclass(frozen=True)
class ReadingChoices:
    """What a person settled about a file; None or absent is left to the reader."""

    unit: TemperatureUnit | None = None
    day_first: bool | None = None
    roles: Mapping[str, ChannelRole] = field(default_factory=dict)


def read_log(
    path: Path, unit: TemperatureUnit | None = None, choices: ReadingChoices | None = None
) -> FiringLog:
    """Read a log file; the file itself is never changed.

    Raises
    ------
    InputError
        If it cannot be read as a log.
    DoubtError
        If it can be read in two ways; the remedy names what settles it.
    """
    raw = read_file(path, EXPECTED)
    return read_log_bytes(raw, path.name, unit, choices)


def read_log_bytes(
    raw: bytes,
    source: str,
    unit: TemperatureUnit | None = None,
    choices: ReadingChoices | None = None,
) -> FiringLog:
    """Read a log from the bytes of a file; see :func:`read_log`."""
    settled = choices or ReadingChoices()
    if unit is not None:
        settled = replace(settled, unit=unit)
    refuse_what_is_no_text(raw, source, EXPECTED, REMEDY)
    text = decode(raw).replace("\r\n", "\n").replace("\r", "\n").replace("\x00", "")
    layout = find_layout(text.split("\n", 2000)[:2000], source)
    table = read_table(text, layout)
    names = column_names(layout, table.frame.shape[1])
    clock = read_clock(
        table.frame, names, layout.units, layout.preamble, source, settled.day_first
    )
    table, clock = _one_record(table, clock)
    return _log(table, names, mend_clock(clock), settled, raw, source)


def _one_record(table: RawTable, clock: Clock) -> tuple[RawTable, Clock]:
    """Keep the longest of several records in one file, and say so."""
    first, end = longest_run(clock)
    left = len(clock.hours) - (end - first)
    if not left:
        return table, clock
    text = N_("The file holds several records; the longest is shown, {count} rows are left out.")
    note = ReadingNote("runs", Said(text, {"count": left}), left)
    frame = table.frame.iloc[first:end].reset_index(drop=True)
    kept = replace(table, frame=frame, dropped=table.dropped + left, notes=(*table.notes, note))
    return kept, replace(clock, hours=clock.hours[first:end])


def _log(
    table: RawTable,
    names: list[str],
    clock: Clock,
    settled: ReadingChoices,
    raw: bytes,
    source: str,
) -> FiringLog:
    columns, stuck = _numeric_columns(table.frame, clock)
    units = table.layout.units
    roles = log_columns.find_roles(columns, names, units, settled.roles)
    unit, sure, unit_notes = _unit(roles, columns, table, stuck, settled, source)
    order, order_notes = _in_order(clock.hours)
    channels, gap_notes = _channels(roles, columns, unit, order)
    if not channels:
        raise InputError(source, EXPECTED, "no column of numbers beside the time", REMEDY)
    hours = clock.hours[order]
    return FiringLog(
        source=source,
        elapsed_h=hours - hours[0],
        channels=channels,
        started_at=_started(clock, hours),
        rows_dropped=table.dropped + len(clock.hours) - len(order),
        unit_read=unit,
        notes=(*table.notes, *clock.notes, *order_notes, *unit_notes, *gap_notes),
        confidence=min([sure, *(r.confidence for r in roles if r.role in _BELIEVED)]),
        raw=raw,
    )


_BELIEVED = frozenset({ChannelRole.CHAMBER, ChannelRole.SECTION})


def _started(clock: Clock, hours: Floats) -> datetime | None:
    if clock.started_at is None:
        return None
    return clock.started_at + timedelta(hours=float(hours[0]))


def _numeric_columns(
    frame: pd.DataFrame, clock: Clock
) -> tuple[dict[int, Floats], dict[int, str]]:
    """Return the number columns, and the unit that is stuck to the values of some."""
    columns: dict[int, Floats] = {}
    stuck: dict[int, str] = {}
    for index in range(frame.shape[1]):
        if index in clock.columns:
            continue
        column = frame[index]
        if pd.api.types.is_numeric_dtype(column):
            columns[index] = column.to_numpy(dtype=float)
            continue
        numbers, unit = _numbers_in_text(column)
        if numbers is not None:
            columns[index] = numbers
            if unit:
                stuck[index] = unit
    return columns, stuck


def _numbers_in_text(column: pd.Series) -> tuple[Floats | None, str]:
    parts = column.astype(str).str.extract(r"^\s*([+-]?\d+(?:[.,]\d+)?)\s*°?\s*([CFK%AV]?)\s*$")
    numbers = pd.to_numeric(parts[0].str.replace(",", "."), errors="coerce")
    if numbers.notna().mean() < 0.5:
        return None, ""
    letters = parts[1].replace("", np.nan).dropna()
    return numbers.to_numpy(dtype=float), str(letters.mode().iloc[0]) if len(letters) else ""


def _unit(
    roles: tuple[log_columns.ColumnRole, ...],
    columns: dict[int, Floats],
    table: RawTable,
    stuck: dict[int, str],
    settled: ReadingChoices,
    source: str,
) -> tuple[TemperatureUnit, float, tuple[ReadingNote, ...]]:
    if settled.unit is not None:
        return settled.unit, 1.0, ()
    temperatures = [r for r in roles if r.role in _BELIEVED]
    labels = [r.name for r in temperatures] + [r.unit for r in temperatures]
    labels += [stuck[r.index] for r in temperatures if r.index in stuck]
    preamble = (*table.layout.preamble, *_unit_columns(table.frame))
    said = log_units.unit_said(labels, preamble)
    if said is not None:
        return said, 1.0, ()
    if not temperatures:
        return TemperatureUnit.CELSIUS, 0.5, ()
    unit, sure = log_units.unit_by_values([columns[r.index] for r in temperatures], source)
    text = N_("The file names no unit; read as °{unit} by its start and its peak.")
    return unit, sure, (ReadingNote("unit_read", Said(text, {"unit": unit.value})),)


def _unit_columns(frame: pd.DataFrame) -> list[str]:
    """Return the text of columns that hold one word only, such as a unit beside each value."""
    words = []
    for index in frame.columns:
        if not pd.api.types.is_numeric_dtype(frame[index]):
            seen = frame[index].dropna().astype(str).str.strip().unique()[:3]
            words += [f"°{w}" for w in seen if w in {"C", "F"} and len(seen) == 1]
    return words


def _in_order(hours: Floats) -> tuple[np.ndarray, tuple[ReadingNote, ...]]:
    """Return the rows in the order of time, each time once."""
    timed = np.flatnonzero(np.isfinite(hours))
    order = timed[np.argsort(hours[timed], kind="stable")]
    keep = np.concatenate(([True], np.diff(hours[order]) > 1e-9))[: len(order)]
    kept = order[keep]
    lost = len(hours) - len(kept)
    if not len(kept):
        raise InputError("log", "rows with a time", "none", REMEDY)
    if not lost:
        return kept, ()
    said = Said(N_("{count} rows without a time of their own were left out."), {"count": lost})
    return kept, (ReadingNote("rows_dropped", said, lost),)


def _channels(
    roles: tuple[log_columns.ColumnRole, ...],
    columns: dict[int, Floats],
    unit: TemperatureUnit,
    order: np.ndarray,
) -> tuple[tuple[Channel, ...], tuple[ReadingNote, ...]]:
    channels: list[Channel] = []
    notes: list[ReadingNote] = []
    hottest = log_gaps.HOTTEST_F if unit is TemperatureUnit.FAHRENHEIT else log_gaps.HOTTEST_C
    for role in roles:
        values = columns[role.index][order]
        if role.role in _BELIEVED or role.role is ChannelRole.SET_POINT:
            values, found = log_gaps.open_probe_gaps(values, role.name, hottest)
            notes += found if role.role in _BELIEVED else ()
            if unit is TemperatureUnit.FAHRENHEIT:
                values = celsius_from_fahrenheit(values)
        elif role.role is ChannelRole.OUTPUT and np.nanmax(values, initial=0.0) <= 1.0:
            values = 100.0 * values
        values.setflags(write=False)
        channels.append(Channel(role.name, role.role, values, role.confidence))
    return tuple(channels), tuple(notes)
