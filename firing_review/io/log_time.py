"""Which columns of a log are its clock, and what that clock counts."""

import re

import numpy as np
import pandas as pd

from firing_review.firing.errors import InputError
from firing_review.firing.log import ReadingChoices, ReadingNote
from firing_review.firing.said import N_, Said
from firing_review.firing.units import Floats, TimeUnit
from firing_review.firing.wording import tr
from firing_review.io.log_clock import TIME_FORMS, Clock
from firing_review.io.log_columns import ROW_NAMES, said_by_name
from firing_review.io.log_dates import date_order, is_stamps, parse
from firing_review.io.log_day import read_time_of_day
from firing_review.io.log_forms import DATED, MONTH_NAMED, ODD_STAMP
from firing_review.io.log_parts import clock_of_parts
from firing_review.io.log_stamps import night_times, usual_dates, usual_stamps, usual_times

DAY_H = 24.0
LOOKED_AT, MOST = 400, 0.8
"""Cells of a column looked at to tell what it is, and the share that must be alike."""
TIME_NAMES = re.compile(
    r"elapsed|time|date|stamp|clock|zeit|datum|uhr|millis|epoch|unix|hora|heure|tiempo|^temps\b"
    r"|^t\s*($|[\[(])",
    re.IGNORECASE,
)
_CLOCK_ONLY = re.compile(
    r"^\s*-?(\d+\s*(?:days?|d),?\s*|\d+\.(?=\d{1,2}:\d{2}:))?\d{1,4}:\d{2}(:\d{2}([.,:]\d+)?)?"
    r"\s*([AaPp]\.?[Mm]\.?)?\s*$"
    r"|^\s*\d{1,3}\s*h(\s*\d{1,2}(\s*m(in)?)?)?(\s*\d{1,2}\s*s(ec)?)?\s*$"
    r"|^\s*\d{1,2}\s*[AaPp]\.?[Mm]\.?\s*$"
)
_HALVES = re.compile(r"^\s*[AaPp]\.?[Mm]\.?\s*$")
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


def read_clock(
    frame: pd.DataFrame,
    names: list[str],
    units: tuple[str, ...],
    preamble: tuple[str, ...],
    source: str,
    choices: ReadingChoices,
) -> Clock:
    """Find and read the time of each row, by what a person settled about dates and unit of time.

    Raises
    ------
    InputError, DoubtError
        If no column is a time, or its dates can be read in two ways.
    """
    dated = _date_and_time(frame, names)
    if dated is None:
        stamped = next((c for c in range(frame.shape[1]) if is_stamps(frame[c])), None)
        if stamped is not None:
            return _clock_of(frame[stamped], (stamped,), "year first", source)
        dated = _stamp(frame)
    if dated is not None:
        text, columns = dated
        return _stamps(text, columns, preamble, source, choices.day_first)
    timed = _time_of_day(frame, names)
    if timed is not None:
        text, columns = timed
        return read_time_of_day(text, columns, names[columns[0]], source)
    parted = clock_of_parts(frame, names)
    if parted is not None:
        return parted
    numeric = _elapsed(frame, names, units, preamble, choices.time_unit)
    if numeric is not None:
        return numeric
    raise InputError(
        source,
        tr("a column with the time of each reading"),
        tr("none"),
        tr("Export the log with date and time, or with elapsed time."),
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


def _worded(frame: pd.DataFrame) -> list[int]:
    return [c for c in range(frame.shape[1]) if not pd.api.types.is_numeric_dtype(frame[c])]


def _time_of_day(
    frame: pd.DataFrame, names: list[str]
) -> tuple[pd.Series, tuple[int, ...]] | None:
    """Return times without a date as text, and the columns they came from."""
    for column in _worded(frame):
        if _share(frame[column], _CLOCK_ONLY) > MOST:
            return _with_halves(frame, column)
    for column in range(frame.shape[1]):
        times = night_times(frame[column], names[column])
        if times is not None:
            return times, (column,)
    return None


def _date_and_time(
    frame: pd.DataFrame, names: list[str]
) -> tuple[pd.Series, tuple[int, ...]] | None:
    """Return date and time that stand in two columns as one text, and the columns."""
    for column in range(frame.shape[1]):
        dates = usual_dates(frame[column], names[column])
        if dates is None:
            continue
        time = _time_beside(frame, names, column)
        if time is not None:
            dates = dates.where(frame[column].notna()).ffill()
            return dates.astype(str) + " " + time[0], (column, *time[1])
    return None


def _stamp(frame: pd.DataFrame) -> tuple[pd.Series, tuple[int, ...]] | None:
    """Return date and time of one column as text, and the column."""
    for column in _worded(frame):
        named = _some(frame[column]).str.contains(MONTH_NAMED).mean() > MOST
        if named or _share(frame[column], DATED) > MOST:
            timed = _some(frame[column]).str.contains(":").mean() > MOST
            if timed and not _share(frame[column], ODD_STAMP) > MOST:
                return frame[column].astype(str), (column,)
    for column in range(frame.shape[1]):
        stamps = usual_stamps(frame[column])
        if stamps is not None:
            return stamps, (column,)
    return None


def _time_beside(
    frame: pd.DataFrame, names: list[str], date: int
) -> tuple[pd.Series, tuple[int, ...]] | None:
    """Return the time of day that stands in another column than the date."""
    rest = [c for c in range(frame.shape[1]) if c != date]
    for column in rest:
        if column in _worded(frame) and _share(frame[column], _CLOCK_ONLY) > MOST:
            return _with_halves(frame, column)
    for column in rest:
        times = usual_times(frame[column], names[column])
        if times is not None:
            return times, (column,)
    return None


def _with_halves(frame: pd.DataFrame, time: int) -> tuple[pd.Series, tuple[int, ...]]:
    """Join AM and PM to the time when they stand in a column of their own."""
    after = time + 1
    if after < frame.shape[1] and _share(frame[after], _HALVES) > MOST:
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
    order = N_("month named") if worded else date_order(text, preamble, day_first, source)
    return _clock_of(parse(text, order), columns, order, source)


def _clock_of(stamps: pd.Series, columns: tuple[int, ...], order: str, source: str) -> Clock:
    known = stamps.dropna()
    if not len(known):
        raise InputError(source, tr("dates and times"), tr("none"), tr("Check the time column."))
    first = known.iloc[0]
    hours = ((stamps - first) / pd.Timedelta(hours=1)).to_numpy(dtype=np.float64, copy=True)
    notes = (
        ReadingNote("date_order", Said(N_("Dates read as {order_word}."), {"order_word": order})),
    )
    sure = order in {"year first", "month named"}
    return Clock(
        hours, first.to_pydatetime(), columns, f"{N_('date')}, {order}", () if sure else notes
    )


def _elapsed(
    frame: pd.DataFrame,
    names: list[str],
    units: tuple[str, ...],
    preamble: tuple[str, ...],
    chosen: TimeUnit | None,
) -> Clock | None:
    candidates = [
        c
        for c in range(frame.shape[1])
        if pd.api.types.is_numeric_dtype(frame[c]) and frame[c].notna().any()
    ]
    named = [c for c in candidates if TIME_NAMES.search(names[c]) or _is_unit(names[c])]
    first = [c for c in candidates[:2] if not said_by_name(names[c]) or _is_epoch(frame[c])]
    for column in named or first:
        values = frame[column].to_numpy(dtype=float)
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
    values: Floats, column: int, label: str, preamble: tuple[str, ...], chosen: TimeUnit | None
) -> Clock:
    values = np.where(np.isfinite(values), values, np.nan)
    first = float(values[np.isfinite(values)][0])
    said = _said_unit(label)
    epoch = _epoch(first)
    if epoch is not None and (said is not TimeUnit.MILLISECONDS or epoch[0] > 1.0):
        started = pd.Timestamp(0) + pd.Timedelta(seconds=first / epoch[0])
        begun = started.round("ms").to_pydatetime()
        return Clock((values - first) / (epoch[0] * HOUR_S), begun, (column,), epoch[1])
    if said is None and _serial_days(values):
        started = pd.Timestamp("1899-12-30") + pd.Timedelta(days=first)
        hours = (values - first) * DAY_H
        form = N_("days of a spreadsheet")
        return Clock(hours, started.round("s").to_pydatetime(), (column,), form)
    settled = chosen or said
    if settled is not None:
        hours = values / _PER_HOUR[settled]
        return Clock(hours, None, (column,), TIME_FORMS[settled], unit=settled)
    unit = _unit_by_length(values, preamble)
    form = TIME_FORMS[unit]
    text = Said(N_("Time taken as {form_word}; the file does not say."), {"form_word": form})
    notes = (ReadingNote("time_unit", text),)
    return Clock(values / _PER_HOUR[unit], None, (column,), form, notes, UNNAMED_UNIT_SURE, unit)


def _is_epoch(column: pd.Series) -> bool:
    given = column.dropna()
    return len(given) > 0 and _epoch(float(given.min())) is not None


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


def _unit_by_length(values: Floats, preamble: tuple[str, ...]) -> TimeUnit:
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


def _counts_in_minutes(preamble: tuple[str, ...]) -> bool:
    text = " ".join(preamble)
    minutes = re.search(r"\d\s*min\b|/\s*min\b", text, re.IGNORECASE)
    hours = re.search(r"\d\s*(h|hrs?|hours?)\b|/\s*h", text, re.IGNORECASE)
    return minutes is not None and hours is None
