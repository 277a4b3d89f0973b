"""Which columns of a log are its clock: stamps, times of day, parts of a time, or counts."""

import re

import numpy as np
import pandas as pd

from firing_review.firing.errors import InputError
from firing_review.firing.log import ReadingChoices, ReadingNote
from firing_review.firing.said import N_, Said
from firing_review.firing.units import Floats
from firing_review.firing.wording import tr
from firing_review.io.log_clock import Clock
from firing_review.io.log_dates import date_order, is_stamps, parse
from firing_review.io.log_day import read_time_of_day
from firing_review.io.log_elapsed import elapsed_clock
from firing_review.io.log_forms import DATED, MONTH_NAMED, ODD_STAMP
from firing_review.io.log_parts import clock_of_parts
from firing_review.io.log_stamps import night_times, usual_dates, usual_stamps, usual_times

LOOKED_AT, MOST = 400, 0.8
"""Cells of a column looked at to tell what it is, and the share that must be alike."""
_CLOCK_ONLY = re.compile(
    r"^\s*-?(\d+\s*(?:days?|d),?\s*|\d+\.(?=\d{1,2}:\d{2}:))?\d{1,4}:\d{2}(:\d{2}([.,:]\d+)?)?"
    r"\s*([AaPp]\.?[Mm]\.?)?\s*$"
    r"|^\s*\d{1,3}\s*h(\s*\d{1,2}(\s*m(in)?)?)?(\s*\d{1,2}\s*s(ec)?)?\s*$"
    r"|^\s*\d{1,2}\s*[AaPp]\.?[Mm]\.?\s*$"
)
_HALVES = re.compile(r"^\s*[AaPp]\.?[Mm]\.?\s*$")


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
    numeric = elapsed_clock(_numbers(frame), names, units, preamble, choices.time_unit)
    if numeric is not None:
        return numeric
    raise InputError(
        source,
        tr("a column with the time of each reading"),
        tr("none"),
        tr("Export the log with date and time, or with elapsed time."),
    )


def _numbers(frame: pd.DataFrame) -> dict[int, Floats]:
    """Return the columns of numbers, those without any left out."""
    numeric = (c for c in range(frame.shape[1]) if pd.api.types.is_numeric_dtype(frame[c]))
    return {c: frame[c].to_numpy(dtype=float) for c in numeric if frame[c].notna().any()}


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
