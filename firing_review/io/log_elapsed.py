"""A clock that counts: elapsed time, seconds since 1970, or days of a spreadsheet."""

import re
from collections.abc import Mapping, Sequence

import numpy as np

from firing_review.firing.log import ReadingNote
from firing_review.firing.said import N_, Said
from firing_review.firing.units import Floats, TimeUnit
from firing_review.io.log_clock import TIME_FORMS, Clock
from firing_review.io.log_columns import ROW_NAMES, said_by_name

DAY_H = 24.0
TIME_NAMES = re.compile(
    r"elapsed|time|date|stamp|clock|zeit|datum|uhr|millis|epoch|unix|hora|heure|tiempo|^temps\b"
    r"|^t\s*($|[\[(])",
    re.IGNORECASE,
)
_UNIT_WORDS = {
    TimeUnit.MILLISECONDS: r"ms|msec|millis?|milliseconds?",
    TimeUnit.SECONDS: r"s|secs?|seconds?",
    TimeUnit.MINUTES: r"m|mins?|minutes?",
    TimeUnit.HOURS: r"h|hrs?|hours?|std",
    TimeUnit.DAYS: r"d|days?",
}
_PER_HOUR = {
    TimeUnit.MILLISECONDS: 3.6e6,
    TimeUnit.SECONDS: 3600.0,
    TimeUnit.MINUTES: 60.0,
    TimeUnit.HOURS: 1.0,
    TimeUnit.DAYS: 1.0 / DAY_H,
}
_EPOCHS = (
    (1e9, N_("nanoseconds since 1970")),
    (1e6, N_("microseconds since 1970")),
    (1e3, N_("milliseconds since 1970")),
    (1.0, N_("seconds since 1970")),
)
EPOCH_S = (5e8, 4.1e9)
"""Seconds since 1970 in 1985 and in 2099; no logger's clock is set to another year."""
HOUR_S = 3600.0
SHORTEST_S = 1800.0
"""No firing is over sooner [s]; what counts no further counts in minutes or hours."""
UNNAMED_UNIT_SURE = 0.65
"""How sure a unit of time is that was told by the length of the record."""
SERIAL_DAYS = (30_000.0, 80_000.0)
"""Days since 1899-12-30 as a spreadsheet writes a date, from 1982 to 2119."""


def elapsed_clock(
    columns: Mapping[int, Floats],
    names: Sequence[str],
    units: Sequence[str],
    preamble: Sequence[str],
    chosen: TimeUnit | None,
) -> Clock | None:
    """Return the clock that one of these columns counts; None if none of them does.

    Parameters
    ----------
    columns : mapping
        Those that hold numbers, each with one at least.
    names, units, preamble : sequence of str
        Of all columns of the table, and the lines above it.
    chosen : TimeUnit or None
        What a person settled; it counts where the clock is no date.
    """
    candidates = list(columns)
    named = [c for c in candidates if TIME_NAMES.search(names[c]) or _is_unit(names[c])]
    first = [c for c in candidates[:2] if not said_by_name(names[c]) or _is_epoch(columns[c])]
    for column in named or first:
        values = columns[column]
        if not _mostly_rising(values, named=column in named):
            continue
        if column not in named and ROW_NAMES.search(names[column]) and len(candidates) > 2:
            continue
        unit = units[column] if column < len(units) else ""
        return _numeric_clock(values, column, f"{names[column]} {unit}", preamble, chosen)
    return None


def _mostly_rising(values: Floats, named: bool) -> bool:
    """Tell whether a column goes on as a clock does; one named a time may start anew."""
    good = values[np.isfinite(values)]
    if len(good) < 2 or good.max() <= good.min():
        return False
    steps = np.diff(good)
    if named:
        back = min(np.count_nonzero(steps < 0), np.count_nonzero(steps > 0))
        return bool(back <= 1 + 0.1 * len(good)) or len(np.unique(good)) > 0.98 * len(good)
    return float(np.mean(steps > 0)) > 0.9 and len(np.unique(good)) > 0.9 * len(good)


def _numeric_clock(
    values: Floats, column: int, label: str, preamble: Sequence[str], chosen: TimeUnit | None
) -> Clock:
    values = np.where(np.isfinite(values), values, np.nan)
    first = float(values[np.isfinite(values)][0])
    said = _said_unit(label)
    epoch = _epoch(first)
    if epoch is not None and (said is not TimeUnit.MILLISECONDS or epoch[0] > 1.0):
        return _since_1970(values, first, column, *epoch)
    if said is None and _serial_days(values):
        return _of_a_spreadsheet(values, first, column)
    settled = chosen or said
    if settled is not None:
        hours = values / _PER_HOUR[settled]
        return Clock(hours, None, (column,), TIME_FORMS[settled], unit=settled)
    unit = _unit_by_length(values, preamble)
    form = TIME_FORMS[unit]
    text = Said(N_("Time taken as {form_word}; the file does not say."), {"form_word": form})
    notes = (ReadingNote("time_unit", text),)
    return Clock(values / _PER_HOUR[unit], None, (column,), form, notes, UNNAMED_UNIT_SURE, unit)


def _since_1970(values: Floats, first: float, column: int, per_s: float, form: str) -> Clock:
    import pandas as pd  # noqa: PLC0415 - slow to load, and rarely needed

    started = pd.Timestamp(0) + pd.Timedelta(seconds=first / per_s)
    begun = started.round("ms").to_pydatetime()
    return Clock((values - first) / (per_s * HOUR_S), begun, (column,), form)


def _of_a_spreadsheet(values: Floats, first: float, column: int) -> Clock:
    import pandas as pd  # noqa: PLC0415 - slow to load, and rarely needed

    started = pd.Timestamp("1899-12-30") + pd.Timedelta(days=first)
    begun = started.round("s").to_pydatetime()
    return Clock((values - first) * DAY_H, begun, (column,), N_("days of a spreadsheet"))


def _is_epoch(column: Floats) -> bool:
    return _epoch(float(np.nanmin(column))) is not None


def _epoch(count: float) -> tuple[float, str] | None:
    """Return how many of its counts make a second, and the form, of a clock since 1970."""
    known = (e for e in _EPOCHS if EPOCH_S[0] < count / e[0] < EPOCH_S[1])
    return next(known, None)


def _serial_days(values: Floats) -> bool:
    good = values[np.isfinite(values)]
    inside = SERIAL_DAYS[0] < good.min() and good.max() < SERIAL_DAYS[1]
    return bool(inside and good.max() - good.min() < 60 and np.median(np.abs(np.diff(good))) < 0.2)


def _said_unit(label: str) -> TimeUnit | None:
    """Return the unit of time that the label names."""
    for unit, words in _UNIT_WORDS.items():
        if re.search(rf"(?<![A-Za-z])({words})(?![A-Za-z])", label, re.IGNORECASE):
            return unit
    return None


def _is_unit(name: str) -> bool:
    """Tell a column that is named by its unit of time only, such as ``min``."""
    return any(re.fullmatch(words, name.strip(), re.IGNORECASE) for words in _UNIT_WORDS.values())


def _unit_by_length(values: Floats, preamble: Sequence[str]) -> TimeUnit:
    """Return the unit of time by the length of the record.

    A firing takes between half an hour and some days; lines above the data that count in
    minutes only ("40 °C/min", "hold 2 min") speak for minutes.
    """
    good = values[np.isfinite(values)]
    span = float(good.max() - good.min())
    steps = np.diff(good)
    step = float(np.median(steps[steps > 0])) if (steps > 0).any() else 0.0
    if span > 1.5e6:
        return TimeUnit.MILLISECONDS
    if span > 4000.0 or (step >= 1.0 and span > SHORTEST_S):
        return TimeUnit.SECONDS
    if span > 60.0 or (span > 2.0 and _counts_in_minutes(preamble)):
        return TimeUnit.MINUTES
    return TimeUnit.HOURS


def _counts_in_minutes(preamble: Sequence[str]) -> bool:
    text = " ".join(preamble)
    minutes = re.search(r"\d\s*min\b|/\s*min\b", text, re.IGNORECASE)
    hours = re.search(r"\d\s*(h|hrs?|hours?)\b|/\s*h", text, re.IGNORECASE)
    return minutes is not None and hours is None
