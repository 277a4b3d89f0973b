"""Times of day without a date, and elapsed times with colons: across midnights."""

import re

import numpy as np
import pandas as pd

from firing_review.firing.errors import InputError
from firing_review.firing.log import ReadingNote
from firing_review.firing.said import N_, Said
from firing_review.firing.units import Floats
from firing_review.firing.wording import tr
from firing_review.io.log_clock import Clock

DAY_H, HALF_DAY_H = 24.0, 12.0
SPARSE = 10.0
"""Rows written by hand lie hours apart; a step back is midnight if what is left to the next
day is no longer than this many usual steps."""
FEW_TURNS, MOST_TURNS = 20, 0.2
"""So many midnights a record may pass, or this share of its rows; more are times out of order."""
REMEDY = N_("Sort the rows by time, or export the log with its dates.")
_LAPSE = (
    r"^\s*(?P<minus>-)?(?:(?P<days>\d+)(?:\s*(?:days?|d),?\s*|\.(?=\d{1,2}:\d{2}:)))?"
    r"(?P<hour>\d+)(?:\s*[:h]\s*(?P<minute>\d+)(?:\s*m(?:in)?)?)?"
    r"(?::?\s*(?P<second>\d+(?:[.,]\d+)?)\s*s?)?"
)


def read_time_of_day(text: pd.Series, columns: tuple[int, ...], name: str, source: str) -> Clock:
    """Read clock times or elapsed h:mm:ss without a date, past as many midnights as there are.

    Raises
    ------
    InputError
        If the times are in no order that a clock could have.
    """
    codes, texts = pd.factorize(text.str.strip())  # few times of day differ, even in a week
    each = pd.Series(texts, dtype=str)
    half = each.str.extract(r"\d\s*([AaPp])\.?\s*[Mm]\.?$", expand=False).str.lower()
    halves = bool(half.notna().any())
    hours = np.append(_hours(each, half if halves else None), np.nan)[codes]
    if re.search(r"mm:ss", name, re.IGNORECASE) and not re.search(r"h+:mm", name, re.IGNORECASE):
        hours = hours / 60.0
    good = np.isfinite(hours)
    turns = _turns(hours[good], halves)
    if np.count_nonzero(turns) > max(FEW_TURNS, MOST_TURNS * len(turns)):
        raise InputError(
            source, tr("times of day that run on"), tr("times out of order"), tr(REMEDY)
        )
    hours[good] += np.cumsum(np.concatenate(([0.0], turns)))[: good.sum()]
    count = int(np.count_nonzero(turns == DAY_H))
    said = Said(N_("Midnights the clock passed: {count}."), {"count": count})
    lapse = not (count or halves or (hours[good][:1] > 1).any())
    notes = (ReadingNote("midnight", said, count),) if count else ()
    return Clock(hours, None, columns, N_("elapsed h:mm") if lapse else N_("time of day"), notes)


def _hours(plain: pd.Series, half: pd.Series | None) -> Floats:
    """Return the hours that each text tells, from midnight or from the start."""
    parts = plain.str.extract(_LAPSE)
    hour = pd.to_numeric(parts["hour"], errors="coerce")
    if half is not None:
        hour = hour % 12 + 12 * (half == "p")
    hours = hour + pd.to_numeric(parts["minute"], errors="coerce").fillna(0.0) / 60.0
    second = parts["second"].str.replace(",", ".", regex=False)
    hours += pd.to_numeric(second, errors="coerce").fillna(0.0) / 3600.0
    hours += DAY_H * pd.to_numeric(parts["days"], errors="coerce").fillna(0.0)
    hours = hours.where(parts["minus"].isna(), -hours)
    return hours.to_numpy(dtype=np.float64, copy=True)


def _turns(hours: Floats, halves: bool) -> Floats:
    """Return what is to be added at each step: a day past midnight, half of one past noon."""
    steps = np.diff(hours)
    forward = steps[steps > 0]
    usual = float(np.median(forward)) if len(forward) else 0.0
    most = max(HALF_DAY_H, SPARSE * usual)
    back = steps < 0
    noon = not halves and back.any() and _counts_to_twelve(hours, steps, usual)
    turn = HALF_DAY_H if noon else DAY_H
    return np.where(back & (steps + turn <= most), turn, 0.0)


def _counts_to_twelve(hours: Floats, steps: Floats, usual: float) -> bool:
    """Tell a clock that shows one after twelve: a step back is then twelve hours short."""
    if hours.max() >= 13.0 or hours.min() < 1.0:
        return False
    after = steps[steps < 0] + HALF_DAY_H
    return bool((after > 0).all() and (after <= 3.0 * max(usual, 1e-9)).all())
