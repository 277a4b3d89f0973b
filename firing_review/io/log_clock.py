"""A clock that is not quite one: resets, backward stamps, summer time, rows out of order."""

from dataclasses import dataclass, replace
from datetime import datetime, timedelta

import numpy as np

from firing_review.firing.log import ReadingNote
from firing_review.firing.said import N_, Said
from firing_review.firing.units import Floats, TimeUnit

BACK_STEPS = 0.5
"""A step back by more usual intervals than this is a stray stamp or a clock set anew."""
LEAP_STEPS = 5.0
"""A step forward by fewer usual intervals is an ordinary pause."""
MOST_RESETS_SHARE = 0.05
"""With more backward steps than this share of the rows, the rows are simply out of order."""
STRAY_ROWS = 3
"""A stamp off the row of others for no longer than this is a stray one."""
SHARED, LEAST_SHARED = 0.4, 8
"""From this share of the rows on, and with so many rows, a shared stamp is the logger's habit."""
CLOCK_SET_H = 300 * 24.0
"""A leap longer than any pause of a workshop: a clock at its default year was set [h]."""
FIRST_YEAR = 1985
"""A stamp of an earlier year has none: it was not written, or the clock was never set."""
SPRING_H = 1.0
"""What a clock leaps over as summer time begins [h]."""

TIME_FORMS = {
    TimeUnit.MILLISECONDS: N_("elapsed milliseconds"),
    TimeUnit.SECONDS: N_("elapsed seconds"),
    TimeUnit.MINUTES: N_("elapsed minutes"),
    TimeUnit.HOURS: N_("elapsed hours"),
    TimeUnit.DAYS: N_("elapsed days"),
}


@dataclass(frozen=True, eq=False)
class Clock:
    """Hours of every row from an arbitrary zero, NaN where a row has no time; how sure it is.

    ``unit`` is what the column counts where it is plain elapsed numbers.
    """

    hours: Floats
    started_at: datetime | None
    columns: tuple[int, ...]
    form: str
    notes: tuple[ReadingNote, ...] = ()
    sure: float = 1.0
    unit: TimeUnit | None = None


def mend_clock(clock: Clock) -> Clock:
    """Mend a clock: rows that share a stamp, stray stamps, a summer-time hour, a reset to zero.

    A year that nobody wrote is no date.
    """
    if clock.started_at is not None and clock.started_at.year < FIRST_YEAR:
        clock = replace(clock, started_at=None)
    if _runs_on(clock.hours):
        return clock
    clock = _spread(clock)
    known = np.isfinite(clock.hours)
    timed = slice(None) if known.all() else np.flatnonzero(known)
    hours = clock.hours[timed].copy()
    steps = np.diff(hours)
    onward = steps[steps > 0]
    usual = float(np.median(onward, overwrite_input=True)) if len(onward) else 0.0
    back = int(np.count_nonzero(steps < -BACK_STEPS * max(usual, 1e-9)))
    if back == 0 and not (steps > CLOCK_SET_H).any():
        return _with_spring(clock, usual)
    falls = np.count_nonzero(steps < 0)
    if falls > np.count_nonzero(steps > 0) or falls > max(
        STRAY_ROWS, MOST_RESETS_SHARE * len(hours)
    ):
        note = ReadingNote("rows_sorted", Said(N_("The rows were put in order of time.")), back)
        return replace(clock, notes=(*clock.notes, note))
    hours, strays = _without_strays(hours, usual)
    hours, notes = _carried_on(hours, usual)
    if strays:
        text = N_("Rows with a stray time, left out: {count}.")
        notes = [ReadingNote("stray_time", Said(text, {"count": strays}), strays), *notes]
    whole = clock.hours.copy()
    whole[timed] = hours
    mended = replace(clock, hours=whole, notes=(*clock.notes, *notes))
    return _with_spring(mended, usual)


def _runs_on(hours: Floats) -> bool:
    """Tell a clock that only goes forward and by less than an hour at a time: none is better."""
    steps = np.diff(hours)
    return len(steps) > 0 and bool(steps.min() > 0.0 and steps.max() < SPRING_H)


def _spread(clock: Clock) -> Clock:
    """Spread rows that share a stamp, as where only minutes are told, up to the next stamp."""
    hours = clock.hours
    if len(hours) < LEAST_SHARED or not np.isfinite(hours).all():
        return clock
    steps = np.diff(hours)
    if (steps < 0).any() or np.mean(steps == 0) < SHARED:
        return clock
    begins = np.concatenate(([0], np.flatnonzero(steps) + 1))
    rows = np.diff(np.append(begins, len(hours)))
    if len(begins) < 2 or np.median(rows) < 2:
        return clock
    usual = float(np.median(np.diff(hours[begins])))
    lengths = np.append(np.minimum(np.diff(hours[begins]), usual), usual)
    place = np.arange(len(hours)) - np.repeat(begins, rows)
    apart = np.repeat(lengths / np.maximum(rows, np.median(rows)), rows)
    text = N_("Rows that share the stamp of the row before, spread evenly: {count}.")
    count = int(np.count_nonzero(steps == 0))
    note = ReadingNote("clock_mended", Said(text, {"count": count}), count)
    return replace(clock, hours=hours + place * apart, notes=(*clock.notes, note))


def _without_strays(hours: Floats, usual: float) -> tuple[Floats, int]:
    """Make the time of rows NaN that leave the row of others for a moment."""
    hours = hours.copy()
    leap = LEAP_STEPS * max(usual, 1e-9)
    steps = np.diff(hours)
    strays = 0
    for at in np.flatnonzero((steps > leap) | (steps < -leap * BACK_STEPS / LEAP_STEPS)).tolist():
        if not np.isfinite(hours[at]) or not np.isfinite(hours[at + 1]):
            continue
        ahead = hours[at + 2 : at + 2 + STRAY_ROWS]
        back = (ahead > hours[at]) & (ahead - hours[at] < leap * (2 + np.arange(len(ahead))))
        if hours[at + 1] > hours[at]:
            back &= ahead < hours[at + 1]
        near = np.flatnonzero(back)
        if len(near):
            hours[at + 1 : at + 2 + near[0]] = np.nan
            strays += int(near[0]) + 1
    return hours, strays


def _carried_on(hours: Floats, usual: float) -> tuple[Floats, list[ReadingNote]]:
    """Carry the clock on where it was set back, or set by months."""
    notes: list[ReadingNote] = []
    good = np.flatnonzero(np.isfinite(hours))
    steps = np.diff(hours[good])
    set_anew = (steps < -BACK_STEPS * max(usual, 1e-9)) | (steps > CLOCK_SET_H)
    shift = np.zeros(len(good))
    for at in np.flatnonzero(set_anew).tolist():
        shift[at + 1 :] += usual - steps[at]
        notes.append(ReadingNote("clock_mended", _said(float(steps[at])), 1))
    hours = hours.copy()
    hours[good] += shift
    return hours, notes


def _said(step_h: float) -> Said:
    if abs(step_h + 1.0) < 0.1:
        return Said(N_("The clock went back one hour, as for summer time, and was carried on."))
    if step_h > 0:
        text = N_("The clock was set forward by {leap_h} and was carried on.")
        return Said(text, {"leap_h": step_h})
    text = N_("The clock was set back by {back_h} and was carried on.")
    return Said(text, {"back_h": -step_h})


def _with_spring(clock: Clock, usual: float) -> Clock:
    """Name a jump of one hour in the night; whether it is a gap cannot be told."""
    if clock.started_at is None or not 0 < usual < 0.2:
        return clock
    steps = np.diff(clock.hours)
    long = np.flatnonzero(steps > SPRING_H)
    forward = long[np.abs(steps[long] - SPRING_H - usual) < 0.2 * usual]
    if len(forward) != 1:
        return clock
    at = clock.started_at + timedelta(hours=float(clock.hours[forward[0]]))
    if at.hour != 1 or at.month not in {3, 4, 9, 10}:
        return clock
    text = N_("One hour is missing at two in the morning: a gap, or summer time.")
    return replace(clock, notes=(*clock.notes, ReadingNote("clock_jump", Said(text))))
