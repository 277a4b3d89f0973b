"""The story of reading a log: bytes, text, table, time, columns, units, log."""

from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

import numpy as np

from firing_review.firing.errors import InputError
from firing_review.firing.log import (
    TEMPERATURE_ROLES,
    Channel,
    FiringLog,
    ReadingChoices,
    ReadingNote,
)
from firing_review.firing.said import N_, Said
from firing_review.firing.units import Floats, TemperatureUnit
from firing_review.firing.wording import tr
from firing_review.io.log_channels import channels_of, pauses, short_list
from firing_review.io.log_runs import find_runs
from firing_review.io.log_steps import EXPECTED, REMEDY, Reading, take_apart
from firing_review.io.plain_text import read_file

__all__ = ["ReadingChoices", "read_log", "read_log_bytes", "read_runs", "read_runs_of"]

SAME_TIME_H = 1e-9
"""Stamps nearer than this are one [h]."""
LONGEST_RECORD_H = 20.0 * 365.25 * 24.0
"""A row farther than this from the middle of its log has a damaged time: a logger that is left on
runs for months, and a clock that was never set is out by up to some decades [h]."""
SURE_ENOUGH = 0.6
"""Below it the log says which of its columns were taken for the chamber, to be checked."""


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
    raw = read_file(path, tr(EXPECTED))
    return read_log_bytes(raw, path.name, unit, choices)


def read_log_bytes(
    raw: bytes,
    source: str,
    unit: TemperatureUnit | None = None,
    choices: ReadingChoices | None = None,
) -> FiringLog:
    """Read a log from the bytes of a file; see :func:`read_log`.

    Of several firings in the file, the chosen one is read, else the last.
    """
    settled = choices or ReadingChoices()
    if unit is not None:
        settled = replace(settled, unit=unit)
    runs = read_runs(raw, source, settled)
    if len(runs) == 1:
        return replace(runs[0], choices=settled)
    if settled.run is not None and not 0 <= settled.run < len(runs):
        found = f"{settled.run + 1}"
        raise InputError(
            source,
            tr("a firing from 1 to {count}").format(count=len(runs)),
            found,
            tr("Choose one of them."),
        )
    number = settled.run if settled.run is not None else len(runs) - 1
    text = N_("The file holds {count} firings; this is number {number}.")
    note = ReadingNote("several_runs", Said(text, {"count": len(runs), "number": number + 1}))
    return replace(runs[number], notes=(*runs[number].notes, note), choices=settled)


def read_runs(
    raw: bytes, source: str, choices: ReadingChoices | None = None
) -> tuple[FiringLog, ...]:
    """Read every firing that a file holds, in the order of time; see :func:`read_log`."""
    return read_runs_of(take_apart(raw, source, choices or ReadingChoices()), raw, source)


def read_runs_of(reading: Reading, raw: bytes, source: str) -> tuple[FiringLog, ...]:
    """Return the firings of a file that is taken apart already."""
    whole = _log(reading, raw, source)
    if not whole.temperatures:
        return (whole,)
    curve = _mean(whole.temperatures)
    runs = find_runs(whole.elapsed_h, curve)
    if len(runs) == 1:
        return (whole,)
    return tuple(_part(whole, run.first, run.end) for run in runs)


def _mean(channels: tuple[Channel, ...]) -> Floats:
    """Return the mean of what was read at each moment; NaN where nothing was."""
    if all(np.isfinite(channel.values).all() for channel in channels):
        total = channels[0].values.copy()
        for channel in channels[1:]:
            total += channel.values
        total /= len(channels)
        return total
    rows = len(channels[0].values)
    total, count = np.zeros(rows), np.zeros(rows)
    for channel in channels:
        column = channel.values
        known = np.isfinite(column)
        total += column if known.all() else np.where(known, column, 0.0)
        count += known
    return np.where(count > 0, total / np.maximum(count, 1), np.nan)


def _part(whole: FiringLog, first: int, end: int) -> FiringLog:
    start = float(whole.elapsed_h[first])
    channels = tuple(replace(c, values=_frozen(c.values[first:end])) for c in whole.channels)
    return replace(
        whole,
        elapsed_h=_frozen(whole.elapsed_h[first:end] - start),
        channels=channels,
        started_at=_moment(whole.started_at, start),
    )


def _moment(start: datetime | None, hours: float) -> datetime | None:
    if start is None:
        return None
    try:
        return start + timedelta(hours=hours)
    except OverflowError:
        return None


def _frozen(values: Floats) -> Floats:
    values.setflags(write=False)
    return values


def _log(reading: Reading, raw: bytes, source: str) -> FiringLog:
    clock = reading.clock
    timed = _believed(clock.hours)
    order, order_notes = _in_order(timed, source)
    hours = timed if order is None else timed[order]
    channels, gap_notes = channels_of(reading, order, hours)
    if not channels:
        raise InputError(
            source, tr(EXPECTED), tr("no column of numbers beside the time"), tr(REMEDY)
        )
    believed = [r.confidence for r in reading.roles if r.role in TEMPERATURE_ROLES]
    sure = min([reading.units.sure, clock.sure, *believed])
    notes = (*reading.notes, *order_notes, *pauses(hours), *gap_notes, *_doubt_note(reading, sure))
    return FiringLog(
        source=source,
        elapsed_h=_frozen(hours - hours[0]),
        channels=channels,
        started_at=_moment(clock.started_at, float(hours[0])),
        rows_dropped=reading.dropped + len(clock.hours) - len(hours),
        unit_read=reading.units.unit,
        notes=notes,
        confidence=sure,
        raw=raw,
    )


def _doubt_note(reading: Reading, sure: float) -> tuple[ReadingNote, ...]:
    """Say which columns were taken for the kiln when their names do not tell."""
    names = [r.name for r in reading.roles if r.role in TEMPERATURE_ROLES]
    if sure >= SURE_ENOUGH or not names:
        return ()
    text = N_("{names}: taken for the temperature of the kiln; please check the columns.")
    return (ReadingNote("doubtful", Said(text, {"names": short_list(names)})),)


def _believed(hours: Floats) -> Floats:
    """Return the times without those that a damaged row put ages away from all others."""
    known = hours[np.isfinite(hours)]
    if not len(known) or np.ptp(known) <= LONGEST_RECORD_H:
        return hours
    far = np.abs(hours - np.median(known)) > LONGEST_RECORD_H
    return np.where(far, np.nan, hours)


def _in_order(hours: Floats, source: str) -> tuple[np.ndarray | None, tuple[ReadingNote, ...]]:
    """Return the rows in the order of time, each time once; None if they all are already."""
    if len(hours) and np.isfinite(hours).all() and (np.diff(hours) > SAME_TIME_H).all():
        return None, ()
    timed = np.flatnonzero(np.isfinite(hours))
    if not len(timed):
        raise InputError(source, tr("rows with a time"), tr("none"), tr(REMEDY))
    order = timed[np.argsort(hours[timed], kind="stable")]
    kept = order[np.concatenate(([True], np.diff(hours[order]) > SAME_TIME_H))]
    lost = len(hours) - len(kept)
    if not lost:
        return kept, ()
    said = Said(N_("Rows without a time of their own, left out: {count}."), {"count": lost})
    return kept, (ReadingNote("rows_dropped", said, lost),)
