"""Which columns of a log are its clock, and what that clock counts."""

import re

import numpy as np
import pandas as pd

from firing_review.firing.errors import InputError
from firing_review.firing.log import ReadingNote
from firing_review.firing.said import N_, Said
from firing_review.firing.units import Floats
from firing_review.io.log_clock import Clock
from firing_review.io.log_columns import said_by_name
from firing_review.io.log_dates import DATED, MONTH_NAMED, date_order, is_stamps, parse

DAY_H = 24.0
LOOKED_AT = 400
"""Cells of a column looked at to tell what it is."""
TIME_NAMES = re.compile(
    r"elapsed|time|date|stamp|clock|zeit|datum|uhr|millis|epoch|^t$|^t\b", re.IGNORECASE
)
_ROW_NAMES = re.compile(r"^(no\b|index|nr\b|row|rsum|#|sample|segment|count|n$)", re.IGNORECASE)
_CLOCK_ONLY = re.compile(r"^\s*\d{1,4}:\d{2}(:\d{2}([.,]\d+)?)?\s*([AaPp]\.?[Mm]\.?)?\s*$")
_DATE_ONLY = re.compile(r"^\s*\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}\s*$")
_HALVES = re.compile(r"^\s*[AaPp]\.?[Mm]\.?\s*$")
_UNITS = (
    (r"ms|msec|millis?|milliseconds?", 3.6e6, "elapsed milliseconds"),
    (r"s|secs?|seconds?", 3600.0, "elapsed seconds"),
    (r"m|mins?|minutes?", 60.0, "elapsed minutes"),
    (r"h|hrs?|hours?|std", 1.0, "elapsed hours"),
    (r"d|days?", 1.0 / DAY_H, "elapsed days"),
)
_EPOCHS = (
    (1e17, 3.6e12, "nanoseconds since 1970"),
    (1e11, 3.6e6, "milliseconds since 1970"),
    (5e8, 3.6e3, "seconds since 1970"),
)
SERIAL_DAYS = (30_000.0, 80_000.0)
"""Days since 1899-12-30 as a spreadsheet writes a date, from 1982 to 2119."""


def read_clock(
    frame: pd.DataFrame,
    names: list[str],
    units: tuple[str, ...],
    preamble: tuple[str, ...],
    source: str,
    day_first: bool | None = None,
) -> Clock:
    """Find and read the time of each row.

    Raises
    ------
    InputError, DoubtError
        If no column is a time, or its dates can be read in two ways.
    """
    stamped = next((c for c in range(frame.shape[1]) if is_stamps(frame[c])), None)
    if stamped is not None:
        return _clock_of(frame[stamped], (stamped,), "year first", source)
    text_columns = [
        c for c in range(frame.shape[1]) if not pd.api.types.is_numeric_dtype(frame[c])
    ]
    dated = _dated(frame, text_columns)
    if dated is not None:
        text, columns = dated
        return _stamps(text, columns, preamble, source, day_first)
    clock = next((c for c in text_columns if _share(frame[c], _CLOCK_ONLY) > 0.8), None)
    if clock is not None:
        text, columns = _with_halves(frame, clock)
        return _time_of_day(text, columns, names[clock])
    numeric = _elapsed(frame, names, units, preamble)
    if numeric is not None:
        return numeric
    raise InputError(
        source,
        "a column with the time of each reading",
        "none",
        "Export the log with date and time, or with elapsed time.",
    )


def _some(column: pd.Series) -> pd.Series:
    """Return the first and last cells of a column, as text."""
    given = (
        column
        if len(column) <= LOOKED_AT
        else pd.concat([column.iloc[: LOOKED_AT // 2], column.iloc[-LOOKED_AT // 2 :]])
    )
    return given.dropna().astype(str)


def _share(column: pd.Series, pattern: re.Pattern[str]) -> float:
    given = _some(column)
    return float(given.str.match(pattern).mean()) if len(given) else 0.0


def _dated(
    frame: pd.DataFrame, text_columns: list[int]
) -> tuple[pd.Series, tuple[int, ...]] | None:
    """Return date and time of each row as one text, and the columns they came from."""
    for column in text_columns:
        if _share(frame[column], _DATE_ONLY) > 0.8:
            rest = (c for c in text_columns if c != column)
            time = next((c for c in rest if _share(frame[c], _CLOCK_ONLY) > 0.8), None)
            if time is not None:
                clock, columns = _with_halves(frame, time)
                return frame[column].astype(str) + " " + clock, (column, *columns)
    for column in text_columns:
        named = _some(frame[column]).str.contains(MONTH_NAMED).mean() > 0.8
        if named or _share(frame[column], DATED) > 0.8:
            timed = _some(frame[column]).str.contains(":").mean() > 0.8
            if timed:
                return frame[column].astype(str), (column,)
    return None


def _with_halves(frame: pd.DataFrame, time: int) -> tuple[pd.Series, tuple[int, ...]]:
    """Join AM and PM to the time when they stand in a column of their own."""
    after = time + 1
    if after < frame.shape[1] and _share(frame[after], _HALVES) > 0.8:
        return frame[time].astype(str) + " " + frame[after].astype(str), (time, after)
    return frame[time].astype(str), (time,)


def _stamps(
    text: pd.Series,
    columns: tuple[int, ...],
    preamble: tuple[str, ...],
    source: str,
    day_first: bool | None,
) -> Clock:
    worded = not bool(text.iloc[:50].str.match(DATED).any())
    order = "month named" if worded else date_order(text, preamble, day_first, source)
    return _clock_of(parse(text, order), columns, order, source)


def _clock_of(stamps: pd.Series, columns: tuple[int, ...], order: str, source: str) -> Clock:
    known = stamps.dropna()
    if not len(known):
        raise InputError(source, "dates and times", "none", "Check the time column.")
    first = known.iloc[0]
    hours = ((stamps - first) / pd.Timedelta(hours=1)).to_numpy(dtype=np.float64, copy=True)
    notes = (ReadingNote("date_order", Said(N_("Dates read as {order}."), {"order": order})),)
    sure = order in {"year first", "month named"}
    return Clock(hours, first.to_pydatetime(), columns, f"date, {order}", () if sure else notes)


def _time_of_day(text: pd.Series, columns: tuple[int, ...], name: str) -> Clock:
    """Read clock times or elapsed h:mm:ss without a date, past as many midnights as there are."""
    plain = text.str.strip()
    half = plain.str.extract(r"([AaPp])\.?\s*[Mm]", expand=False).str.lower()
    parts = plain.str.extract(r"^(\d+):(\d+)(?::(\d+(?:[.,]\d+)?))?")
    hour, minute = (pd.to_numeric(parts[i], errors="coerce") for i in (0, 1))
    second = pd.to_numeric(parts[2].str.replace(",", ".", regex=False), errors="coerce")
    if half.notna().any():
        hour = hour % 12 + 12 * (half == "p")
    hours = np.array(hour + minute / 60.0 + second.fillna(0.0) / 3600.0, dtype=np.float64)
    if re.search(r"mm:ss", name, re.IGNORECASE) and not re.search(r"h+:mm", name, re.IGNORECASE):
        hours = hours / 60.0
    good = np.isfinite(hours)
    wraps = np.where(np.diff(hours[good]) < -DAY_H / 2, DAY_H, 0.0)
    hours[good] += np.cumsum(np.concatenate(([0.0], wraps)))[: good.sum()]
    count = int(np.count_nonzero(wraps))
    said = Said(N_("The clock passed midnight {count} times."), {"count": count})
    form = "time of day" if count or half.notna().any() or hours[good][:1] > 1 else "elapsed h:mm"
    notes = (ReadingNote("midnight", said, count),) if count else ()
    return Clock(hours, None, columns, form, notes)


def _elapsed(
    frame: pd.DataFrame, names: list[str], units: tuple[str, ...], preamble: tuple[str, ...]
) -> Clock | None:
    candidates = [
        c
        for c in range(frame.shape[1])
        if pd.api.types.is_numeric_dtype(frame[c]) and frame[c].notna().any()
    ]
    named = [c for c in candidates if TIME_NAMES.search(names[c])]
    first = [c for c in candidates[:2] if not said_by_name(names[c])]
    for column in named or first:
        values = frame[column].to_numpy(dtype=float)
        if not _mostly_rising(values, named=column in named):
            continue
        if column not in named and _ROW_NAMES.search(names[column]) and len(candidates) > 2:
            continue
        unit = units[column] if column < len(units) else ""
        return _numeric_clock(values, column, f"{names[column]} {unit}", preamble)
    return None


def _mostly_rising(values: Floats, named: bool) -> bool:
    """Tell whether a column goes on as a clock does; one named a time may start anew."""
    good = values[np.isfinite(values)]
    if len(good) < 2 or good.max() <= good.min():
        return False
    steps = np.diff(good)
    if named:
        back = int(np.count_nonzero(steps < 0))
        return back <= 1 + 0.1 * len(good) or len(np.unique(good)) > 0.98 * len(good)
    return float(np.mean(steps > 0)) > 0.9 and len(np.unique(good)) > 0.9 * len(good)


def _numeric_clock(values: Floats, column: int, label: str, preamble: tuple[str, ...]) -> Clock:
    values = np.where(np.isfinite(values), values, np.nan)
    first = float(values[np.isfinite(values)][0])
    said = _said_unit(label)
    for limit, per_hour, form in _EPOCHS:
        if first > limit and (said is None or first > 1e9):
            started = pd.Timestamp(0) + pd.Timedelta(hours=min(first / per_hour, 2e6))
            return Clock((values - first) / per_hour, started.to_pydatetime(), (column,), form)
    if said is None and _serial_days(values):
        started = pd.Timestamp("1899-12-30") + pd.Timedelta(days=first)
        hours = (values - first) * DAY_H
        form = "days of a spreadsheet"
        return Clock(hours, started.round("s").to_pydatetime(), (column,), form)
    if said is not None:
        return Clock(values / said[0], None, (column,), said[1])
    divisor, form = _unit_by_length(values, preamble)
    text = Said(N_("Time taken as {form}; the file does not say."), {"form": form})
    notes = (ReadingNote("time_unit", text),)
    return Clock(values / divisor, None, (column,), form, notes)


def _serial_days(values: Floats) -> bool:
    good = values[np.isfinite(values)]
    inside = SERIAL_DAYS[0] < good.min() and good.max() < SERIAL_DAYS[1]
    return bool(inside and good.max() - good.min() < 60 and np.median(np.abs(np.diff(good))) < 0.2)


def _said_unit(label: str) -> tuple[float, str] | None:
    """Return the divisor to hours that the label names, and its form."""
    for words, divisor, form in _UNITS:
        if re.search(rf"(?<![A-Za-z])({words})(?![A-Za-z])", label, re.IGNORECASE):
            return divisor, form
    return None


def _unit_by_length(values: Floats, preamble: tuple[str, ...]) -> tuple[float, str]:
    """Return the divisor to hours, and the form, by the length of the record.

    A firing takes between half an hour and some days; lines above the data that count in
    minutes only ("40 °C/min", "hold 2 min") speak for minutes.
    """
    good = values[np.isfinite(values)]
    span = float(good.max() - good.min())
    steps = np.diff(good)
    step = float(np.median(steps[steps > 0])) if (steps > 0).any() else 0.0
    if span > 1.5e6:
        return 3.6e6, "elapsed milliseconds"
    if span > 4000.0 or (step >= 1.0 and span > 300.0):
        return 3600.0, "elapsed seconds"
    if span > 60.0 or (span > 2.0 and _counts_in_minutes(preamble)):
        return 60.0, "elapsed minutes"
    return 1.0, "elapsed hours"


def _counts_in_minutes(preamble: tuple[str, ...]) -> bool:
    text = " ".join(preamble)
    minutes = re.search(r"\d\s*min\b|/\s*min\b", text, re.IGNORECASE)
    hours = re.search(r"\d\s*(h|hrs?|hours?)\b|/\s*h", text, re.IGNORECASE)
    return minutes is not None and hours is None
