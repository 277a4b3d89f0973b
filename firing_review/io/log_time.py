"""The clock of a log: stamps, date and time, elapsed, epoch; mended where it must be."""

import re
from dataclasses import dataclass, replace
from datetime import datetime
from itertools import pairwise

import numpy as np
import pandas as pd

from firing_review.firing.errors import DoubtError, InputError
from firing_review.firing.log import ReadingNote
from firing_review.firing.said import N_, Said
from firing_review.firing.units import Floats

DAY_H = 24.0
RESTART_SHARE = 0.9
"""A clock that falls back by this share of its span starts another record."""
TIME_NAMES = re.compile(
    r"^(date|clock|zeit|datum|uhrzeit|t$|t\b|stamp)|elapsed|time", re.IGNORECASE
)
_HOUR = re.compile(r"(^|[_\s(\[])(h|hr|hrs|hours?)([)\]\s]|$)", re.IGNORECASE)
_MINUTE = re.compile(r"(^|[_\s(\[])(m|min|mins|minutes?)([)\]\s]|$)", re.IGNORECASE)
_SECOND = re.compile(r"(^|[_\s(\[])(s|sec|secs|seconds?)([)\]\s]|$)", re.IGNORECASE)
_MILLI = re.compile(r"(^|[_\s(\[])(ms|msec|milliseconds?)([)\]\s]|$)", re.IGNORECASE)
_PER_MINUTE = re.compile(r"°?\s?[CFK]/\s?min\b|\ufffdC/min", re.IGNORECASE)
_CLOCK_ONLY = re.compile(r"^\s*\d{1,3}:\d{2}(:\d{2}([.,]\d+)?)?\s*([AaPp]\.?[Mm]\.?)?\s*$")
_DATE_ONLY = re.compile(r"^\s*\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}\s*$")
_DATED = re.compile(r"^\s*(\d{1,4})[-/.](\d{1,2})[-/.](\d{1,4})[T\s]*(.*)$")
_MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"]


@dataclass(frozen=True, eq=False)
class Clock:
    """Hours of every row from an arbitrary zero, NaN where a row has no time."""

    hours: Floats
    started_at: datetime | None
    columns: tuple[int, ...]
    form: str
    notes: tuple[ReadingNote, ...] = ()


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
    text_columns: list[int] = [
        int(c) for c in frame.columns if not pd.api.types.is_numeric_dtype(frame[c])
    ]
    dated = _dated_clock(frame, text_columns, preamble, source, day_first)
    if dated is not None:
        return dated
    clock_only = next((c for c in text_columns if _share(frame[c], _CLOCK_ONLY) > 0.8), None)
    if clock_only is not None:
        return _time_of_day(frame[clock_only], clock_only)
    numeric = _elapsed(frame, names, units, preamble)
    if numeric is not None:
        return numeric
    raise InputError(
        source,
        "a column with the time of each reading",
        "none",
        "Export the log with date and time, or with elapsed time.",
    )


def _share(column: pd.Series, pattern: re.Pattern[str]) -> float:
    head = column.dropna().astype(str).head(200)
    return float(head.str.match(pattern).mean()) if len(head) else 0.0


def _dated_clock(
    frame: pd.DataFrame,
    text_columns: list[int],
    preamble: tuple[str, ...],
    source: str,
    day_first: bool | None,
) -> Clock | None:
    for column in text_columns:
        if _share(frame[column], _DATE_ONLY) > 0.8:
            time = next(
                (c for c in text_columns if c != column and _share(frame[c], _CLOCK_ONLY) > 0.8),
                None,
            )
            if time is not None:
                both = frame[column].astype(str) + " " + frame[time].astype(str)
                return _stamps(both, (column, time), preamble, source, day_first)
    for column in text_columns:
        dated = _share(frame[column], _DATED)
        timed = float(frame[column].dropna().astype(str).head(50).str.contains(":").mean())
        if dated > 0.8 and timed > 0.8:
            return _stamps(frame[column].astype(str), (column,), preamble, source, day_first)
    return None


def _stamps(
    text: pd.Series,
    columns: tuple[int, ...],
    preamble: tuple[str, ...],
    source: str,
    day_first: bool | None,
) -> Clock:
    order = _date_order(text, preamble, day_first, source)
    stamps = _parse(text, order)
    if stamps.notna().sum() < 1:
        raise InputError(source, "dates and times", repr(text.iloc[0]), "Check the time column.")
    first = stamps.dropna().iloc[0]
    hours = ((stamps - first) / pd.Timedelta(hours=1)).to_numpy(dtype=float)
    notes = (ReadingNote("date_order", Said(N_("Dates read as {order}."), {"order": order})),)
    return Clock(
        hours, first.to_pydatetime(), columns, order, notes if order != "year first" else ()
    )


def _date_order(
    text: pd.Series, preamble: tuple[str, ...], day_first: bool | None, source: str
) -> str:
    """Tell the order of day and month from the column as a whole, then from the preamble."""
    parts = text.str.extract(_DATED)
    first, second = (pd.to_numeric(parts[i], errors="coerce") for i in (0, 1))
    if first.max() > 31:
        return "year first"
    if day_first is not None:
        return "day first" if day_first else "month first"
    if first.max() > 12:
        return "day first"
    if second.max() > 12:
        return "month first"
    if "." in str(text.iloc[0])[:6]:
        return "day first"
    hint = _from_preamble(preamble, int(first.iloc[0]), int(second.iloc[0]))
    if hint is not None:
        return hint
    if _constant(first) and _constant(second) and first.iloc[0] != second.iloc[0]:
        return "month first"  # one day: the order changes the date, never the curve
    if _moves_daily(text, "month first") == _moves_daily(text, "day first"):
        raise DoubtError(
            source,
            "dates that can be read in one way",
            f"{text.iloc[0]!r}: day and month could be swapped",
            "Say which comes first: choose the order of day and month when opening the log.",
        )
    return "month first" if _moves_daily(text, "month first") else "day first"


def _constant(values: pd.Series) -> bool:
    return bool((values == values.iloc[0]).all())


def _from_preamble(preamble: tuple[str, ...], first: int, second: int) -> str | None:
    for line in preamble:
        words = re.findall(r"[A-Za-z]{3}", line.lower())
        months = [_MONTHS.index(w) + 1 for w in words if w in _MONTHS]
        if months and first != second:
            if months[0] == first:
                return "month first"
            if months[0] == second:
                return "day first"
    return None


def _moves_daily(text: pd.Series, order: str) -> bool:
    """Tell whether the stamps then stay within a firing's length."""
    stamps = _parse(text.iloc[[0, len(text) // 2, -1]], order).dropna()
    return len(stamps) > 1 and (stamps.max() - stamps.min()) < pd.Timedelta(days=8)


def _parse(text: pd.Series, order: str) -> pd.Series:
    plain = text.str.strip()
    if "," in str(plain.iloc[0]):
        plain = plain.str.replace(",", " ", n=1, regex=False)
    form = _form(str(plain.iloc[0]), order)
    if form:
        parsed = pd.to_datetime(plain, format=form, errors="coerce")
        if parsed.notna().mean() > 0.9:
            return _without_zone(parsed)
    slow = pd.to_datetime(
        plain, dayfirst=order == "day first", errors="coerce", format="mixed", utc=False
    )
    return _without_zone(slow)


def _without_zone(stamps: pd.Series) -> pd.Series:
    return stamps.dt.tz_localize(None) if getattr(stamps.dt, "tz", None) is not None else stamps


def _form(example: str, order: str) -> str | None:
    """Return the strptime form of a stamp, or None if it is an unusual one."""
    match = _DATED.match(example)
    if not match:
        return None
    a, _middle, c, clock = match.groups()
    sign = example[len(a) + len(example) - len(example.lstrip())]
    year = "%Y" if len(a if order == "year first" else c) == 4 else "%y"
    date = {
        "year first": f"{year}{sign}%m{sign}%d",
        "day first": f"%d{sign}%m{sign}{year}",
        "month first": f"%m{sign}%d{sign}{year}",
    }[order]
    between = example[match.end(3) : match.start(4)]
    half = re.search(r"\s*[AaPp][Mm]\s*$", clock)
    zone = re.search(r"(Z|[+-]\d{2}:?\d{2})\s*$", clock)
    digits = clock.count(":")
    time = (
        ("%I" if half else "%H")
        + (":%M" if digits else "")
        + (":%S" if digits > 1 and not zone else "")
    )
    if zone:
        return None
    if "." in clock:
        time += ".%f"
    return date + between + time + (" %p" if half and " " in half[0] else "%p" if half else "")


def _time_of_day(column: pd.Series, index: int) -> Clock:
    """Read clock times or elapsed h:mm:ss without a date; midnight may pass many times."""
    text = column.astype(str).str.strip()
    half = text.str.extract(r"([AaPp])\.?[Mm]", expand=False).str.lower()
    parts = text.str.extract(r"^(\d+):(\d+)(?::(\d+(?:[.,]\d+)?))?")
    hour, minute = (pd.to_numeric(parts[i], errors="coerce") for i in (0, 1))
    second = pd.to_numeric(parts[2].str.replace(",", "."), errors="coerce").fillna(0.0)
    if half.notna().any():
        hour = hour % 12 + 12 * (half == "p")
    hours = (hour + minute / 60.0 + second / 3600.0).to_numpy(dtype=float)
    wraps = np.cumsum(np.concatenate(([0.0], np.where(np.diff(hours) < -12.0, DAY_H, 0.0))))
    notes: tuple[ReadingNote, ...] = ()
    if wraps[-1] > 0:
        said = Said(
            N_("The clock passed midnight {count} times."), {"count": int(wraps[-1] // DAY_H)}
        )
        notes = (ReadingNote("midnight", said),)
    return Clock(hours + wraps, None, (index,), "time of day", notes)


def _elapsed(
    frame: pd.DataFrame, names: list[str], units: tuple[str, ...], preamble: tuple[str, ...]
) -> Clock | None:
    candidates = [int(c) for c in frame.columns if pd.api.types.is_numeric_dtype(frame[c])]
    named = [c for c in candidates if TIME_NAMES.search(names[c])]
    for column in named + [c for c in candidates[:2] if c not in named]:
        values = frame[column].to_numpy(dtype=float)
        if not _mostly_rising(values):
            continue
        if column not in named and re.search(
            r"^(no|index|nr|row|rsum|#|sample)", names[column], re.IGNORECASE
        ):
            continue
        unit = units[column] if column < len(units) else ""
        # a rate per minute in the lines above means that the time is in minutes too
        hint = " min" if any(_PER_MINUTE.search(line) for line in preamble) else ""
        return _numeric_clock(values, column, f"{names[column]} {unit}{hint}")
    return None


def _mostly_rising(values: Floats) -> bool:
    """Tell whether values rise like a clock; a clock may start again a few times."""
    good = values[np.isfinite(values)]
    if len(good) < 2:
        return False
    steps = np.diff(good)
    starts = int(np.count_nonzero(steps < 0.0)) + 1
    return float(np.mean(steps > 0)) > 0.9 and len(np.unique(good)) * starts > 0.9 * len(good)


def longest_run(clock: Clock) -> tuple[int, int]:
    """Return first and open end of the longest record in a file whose clock starts again.

    A reset in the middle of a firing goes on from the last reading; a new record begins anew.
    """
    hours = clock.hours
    starts = np.flatnonzero(np.diff(hours) < -RESTART_SHARE * (np.nanmax(hours) - hours[0])) + 1
    if clock.form == "time of day" or clock.started_at is not None or not len(starts):
        return 0, len(hours)
    bounds = [0, *starts.tolist(), len(hours)]
    return max(pairwise(bounds), key=lambda run: run[1] - run[0])


def _numeric_clock(values: Floats, column: int, label: str) -> Clock:
    first = float(values[np.isfinite(values)][0])
    for limit, per_hour, form in (
        (1e17, 3.6e12, "nanoseconds since 1970"),
        (1e11, 3.6e6, "milliseconds since 1970"),
        (5e8, 3.6e3, "seconds since 1970"),
    ):
        if first > limit:
            started = _epoch(first, per_hour)
            return Clock((values - first) / per_hour, started, (column,), form)
    divisor, form, sure = _elapsed_unit(values, label)
    notes = (
        ()
        if sure
        else (
            ReadingNote(
                "time_unit",
                Said(N_("Time taken as {form}; the file does not say."), {"form": form}),
            ),
        )
    )
    return Clock(values / divisor, None, (column,), form, notes)


def _epoch(first: float, per_hour: float) -> datetime:
    stamp: pd.Timestamp = pd.Timestamp(0) + pd.Timedelta(hours=first / per_hour)
    return stamp.to_pydatetime()


def _elapsed_unit(values: Floats, label: str) -> tuple[float, str, bool]:
    """Return the divisor to hours, its name, and whether the file says so."""
    for pattern, divisor, form in (
        (_MILLI, 3.6e6, "elapsed milliseconds"),
        (_SECOND, 3600.0, "elapsed seconds"),
        (_MINUTE, 60.0, "elapsed minutes"),
        (_HOUR, 1.0, "elapsed hours"),
    ):
        if pattern.search(label):
            return divisor, form, True
    span = float(np.nanmax(values) - np.nanmin(values))
    if span > 1.5e6:
        return 3.6e6, "elapsed milliseconds", False
    if span > 4000.0 or (float(np.nanmedian(np.diff(values))) >= 1.0 and span > 300.0):
        return 3600.0, "elapsed seconds", False
    return (60.0, "elapsed minutes", False) if span > 60.0 else (1.0, "elapsed hours", False)


def mend_clock(clock: Clock) -> Clock:
    """Mend a clock that steps back: a summer-time hour, or a reset to zero."""
    hours = clock.hours.copy()
    notes = list(clock.notes)
    steps = np.diff(hours)
    usual = float(np.nanmedian(steps[steps > 0])) if (steps > 0).any() else 0.0
    for index in np.flatnonzero(steps < -5.0 * max(usual, 1e-6)).tolist():
        back = float(hours[index + 1] - hours[index])
        hours[index + 1 :] += usual - back
        one_hour = abs(back + 1.0) < 0.05
        text = (
            N_("The clock went back one hour (summer time) and was carried on.")
            if one_hour
            else N_("The clock was set back by {back_h} and was carried on.")
        )
        notes.append(ReadingNote("clock_mended", Said(text, {"back_h": -back}), 1))
    forward = np.flatnonzero(np.abs(np.diff(hours) - 1.0 - usual) < 0.2 * usual)
    if clock.started_at is not None and usual < 0.2 and len(forward) == 1:
        notes += _spring(clock, hours, int(forward[0]))
    return replace(clock, hours=hours, notes=tuple(notes))


def _spring(clock: Clock, hours: Floats, index: int) -> list[ReadingNote]:
    """Name a jump of one hour at two in the morning; whether it is a gap cannot be told."""
    at = pd.Timestamp(clock.started_at or 0) + pd.Timedelta(hours=float(hours[index]))
    if at.hour != 1:
        return []
    return [
        ReadingNote(
            "clock_jump",
            Said(N_("One hour is missing at two in the morning: a gap, or summer time.")),
        )
    ]
