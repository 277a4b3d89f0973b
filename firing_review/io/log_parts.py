"""A time that stands in several columns of numbers: year, month, day, day of the year, hour."""

import numpy as np
import pandas as pd

from firing_review.firing.said import N_
from firing_review.firing.units import Floats
from firing_review.io.log_clock import Clock
from firing_review.io.log_forms import parts_named

DAY_H = 24.0
YEAR_DAYS = 365.0


def clock_of_parts(frame: pd.DataFrame, names: list[str]) -> Clock | None:
    """Return the clock that several columns of numbers make together, or None."""
    found = _found(frame, names)
    try:
        return _clock_of(frame, found)
    except (ValueError, OverflowError):  # a year no clock can show
        return None


def _clock_of(frame: pd.DataFrame, found: dict[str, int]) -> Clock | None:
    if "hhmm" in found and "doy" in found:
        return _by_day_of_year(frame, found, _hours_of_hhmm(frame, found))
    if not {"hour", "minute"} <= set(found) or not _are_minutes(frame, found):
        return None
    hours = _hours_of_parts(frame, found)
    if "doy" in found:
        return _by_day_of_year(frame, found, hours)
    if {"year", "month", "day"} <= set(found):
        return _by_date(frame, found, hours)
    if not _is_whole(frame[found["hour"]]):
        return None
    midnights = np.cumsum(np.concatenate(([0.0], np.diff(hours) < -DAY_H / 2)))
    columns = tuple(found[p] for p in ("hour", "minute", "second") if p in found)
    return Clock(hours + DAY_H * midnights, None, columns, "hours and minutes")


def _found(frame: pd.DataFrame, names: list[str]) -> dict[str, int]:
    numeric = [pd.api.types.is_numeric_dtype(frame[c]) for c in range(len(names))]
    return parts_named([n if is_one else "" for n, is_one in zip(names, numeric, strict=True)])


def _is_whole(column: pd.Series) -> bool:
    given = column.dropna()
    return bool(len(given) and (given == given.round()).all())


def _are_minutes(frame: pd.DataFrame, found: dict[str, int]) -> bool:
    """Tell minutes of an hour from minutes that go on: they stay below sixty as hours pass."""
    given = frame[found["minute"]].dropna()
    inside = _is_whole(given) and bool(given.between(0, 59).all())
    return inside and (bool(given.diff().lt(0).any()) or bool(np.ptp(frame[found["hour"]]) > 0))


def _hours_of_parts(frame: pd.DataFrame, found: dict[str, int]) -> Floats:
    hours = frame[found["hour"]].to_numpy(dtype=float)
    hours = hours + frame[found["minute"]].to_numpy(dtype=float) / 60.0
    if "second" in found:
        hours = hours + frame[found["second"]].to_numpy(dtype=float) / 3600.0
    return hours


def _hours_of_hhmm(frame: pd.DataFrame, found: dict[str, int]) -> Floats:
    whole = frame[found["hhmm"]].to_numpy(dtype=float)
    return np.asarray(np.floor(whole / 100.0) + (whole % 100.0) / 60.0)


def _by_day_of_year(frame: pd.DataFrame, found: dict[str, int], hours: Floats) -> Clock:
    days = frame[found["doy"]].to_numpy(dtype=float)
    turns = np.cumsum(np.concatenate(([0.0], np.diff(days) < -YEAR_DAYS / 2)))
    columns = tuple(found[p] for p in ("year", "doy", "hhmm", "hour", "minute") if p in found)
    whole = hours + DAY_H * (days + YEAR_DAYS * turns)
    started = None
    if "year" in found and np.isfinite(whole[0]):
        year = pd.Timestamp(year=int(frame[found["year"]].iloc[0]), month=1, day=1)
        started = (year + pd.Timedelta(hours=float(whole[0]) - DAY_H)).round("s").to_pydatetime()
    return Clock(whole - whole[0], started, columns, "day of the year and time")


def _by_date(frame: pd.DataFrame, found: dict[str, int], hours: Floats) -> Clock | None:
    parts = {p: frame[found[p]] for p in ("year", "month", "day")}
    days = pd.to_datetime(pd.DataFrame(parts), errors="coerce")
    if not days.notna().any():
        return None
    first = days.dropna().iloc[0]
    whole = ((days - first) / pd.Timedelta(hours=1)).to_numpy(dtype=float) + hours
    known = whole[np.isfinite(whole)]
    started = (first + pd.Timedelta(hours=float(known[0]))).round("s").to_pydatetime()
    order = ("year", "month", "day", "hour", "minute", "second")
    columns = tuple(found[p] for p in order if p in found)
    return Clock(whole - known[0], started, columns, N_("date and time in columns of their own"))
