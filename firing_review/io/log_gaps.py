"""Values that are no readings: marks of an open probe, and what no kiln can do."""

import numpy as np
from numpy.typing import NDArray

from firing_review.firing.kiln import HOTTEST_KILN_C
from firing_review.firing.log import ReadingNote
from firing_review.firing.said import N_, Figures, Said
from firing_review.firing.units import Floats

Flags = NDArray[np.bool_]

COLDEST_C = -60.0
"""No kiln is colder [°C]."""
HOTTEST_F = 2642.0
"""No kiln is hotter [°F]; 1450 °C."""
TOP_C = (1369.0, 1373.5)
"""Type K ends at 1370 to 1372 °C (2498 to 2502 °F); instruments show it for an open probe."""
APART_C = 60.0
"""A mark lies at least so far from the readings around it [°C]."""
LEAP_C, LEAP_C_PER_H = 150.0, 3000.0
"""From one sample to the next no kiln goes further at such a rate; an opened lid falls slower."""
USUAL_STEP_C = 30.0
"""A column that usually moves by more from sample to sample is too coarse to tell leaps."""
LEAST_SAMPLES = 20
"""Fewer samples tell nothing of leaps."""
SITS, SITS_AT_END = 3, 5
"""So many samples alike between two leaps are sat on; and so many beside one leap at an end."""
AGAIN = 2
"""A value leapt to so often is a mark though it is never sat on."""


def open_probe(
    values_c: Floats, hours: Floats, zero_c: Floats | None = None, hottest: float = HOTTEST_KILN_C
) -> Flags:
    """Tell which samples of a temperature column are marks of an open probe.

    Parameters
    ----------
    values_c, hours : arrays, shape (rows,)
        Readings [°C], NaN where there are none, and the time of each [h].
    zero_c : array, optional
        What a zero in the file is in °C: loggers write it for an open probe in either unit.
    hottest : float
        Above it no kiln reads, in the unit of the values.

    Notes
    -----
    Marks are values outside what a kiln can have; the end of a thermocouple's range or a zero
    far from the readings around it; and a value that the column leaps to and sits on, between
    two leaps or at an end of the record, whatever its number is. Steps across a pause of the
    record are no leaps: they are judged by their rate.
    """
    bad = impossible(values_c, hottest)
    low, high = _range(values_c)
    marks = [*(zero_c.tolist() if zero_c is not None else ()), 0.0]
    for mark in marks:
        if low <= mark + 1e-6 and high >= mark - 1e-6:
            bad |= _far_from_others(values_c, bad, np.abs(values_c - mark) < 1e-6)
    if high > TOP_C[0]:
        at_top = (values_c > TOP_C[0]) & (values_c < TOP_C[1])
        bad |= _far_from_others(values_c, bad, at_top)
    return bad | _sat_on(np.where(bad, np.nan, values_c) if bad.any() else values_c, hours)


def said_of(name: str, marks: Floats) -> ReadingNote:
    """Return the note on the samples of a channel that were taken as gaps."""
    lowest, highest = float(np.min(marks)), float(np.max(marks))
    text = N_("{channel}: {samples} samples show {mark}, which is no temperature; taken as gaps.")
    if lowest != highest:
        text = N_(
            "{channel}: {samples} samples show {mark} to {highest}, which is no temperature; "
            "taken as gaps."
        )
    figures: Figures = {
        "channel": name,
        "samples": len(marks),
        "mark": f"{lowest:g}",
        "highest": f"{highest:g}",
    }
    return ReadingNote("open_probe", Said(text, figures), len(marks))


def impossible(values: Floats, hottest: float) -> Flags:
    """Tell values that no kiln can have."""
    low, high = _range(values)
    if low >= COLDEST_C and high <= hottest:
        return np.zeros(len(values), dtype=bool)
    with np.errstate(invalid="ignore"):
        return np.asarray((values < COLDEST_C) | (values > hottest))


def _range(values: Floats) -> tuple[float, float]:
    """Return the lowest and the highest value; 0 where there are none."""
    low, high = (
        float(extreme.reduce(values)) if len(values) else 0.0 for extreme in (np.fmin, np.fmax)
    )
    return (0.0, 0.0) if np.isnan(low) else (low, high)


def _far_from_others(values: Floats, bad: Flags, marked: Flags) -> Flags:
    """Return those marked samples that lie far from the readings around them."""
    if not marked.any():
        return marked
    known = np.isfinite(values) & ~marked & ~bad
    if not known.any():
        return marked & (np.ptp(values[marked]) < 1e-6)
    index = np.arange(len(values))
    result = marked.copy()
    around = np.interp(index[marked], index[known], values[known])
    result[marked] = np.abs(around - values[marked]) > APART_C
    return result


def _sat_on(values: Floats, hours: Floats) -> Flags:
    """Tell samples that sit on one value reached, and left, by a leap no kiln makes."""
    result = np.zeros(len(values), dtype=bool)
    good = np.isfinite(values)
    column, at_h = (values, hours) if good.all() else (values[good], hours[good])
    if len(column) < LEAST_SAMPLES:
        return result
    steps = np.diff(column)
    leaps = np.abs(steps) > LEAP_C
    if not leaps.any():
        return result
    leaps &= np.abs(steps) > LEAP_C_PER_H * np.diff(at_h)
    if not leaps.any() or np.median(np.abs(steps)) > USUAL_STEP_C:
        return result
    begins = np.concatenate(([0], np.flatnonzero(steps) + 1))
    ends = np.append(begins[1:], len(column))
    result[good] = np.repeat(_marks(column, steps, leaps, begins, ends), ends - begins)
    return result


def _marks(
    column: Floats, steps: Floats, leaps: Flags, begins: np.ndarray, ends: np.ndarray
) -> Flags:
    """Tell for each stretch of one value whether it is a mark."""
    lengths = ends - begins
    inner = np.arange(1, len(begins) - 1)
    come, leave = begins[inner] - 1, ends[inner] - 1
    there_and_back = np.zeros(len(begins), dtype=bool)
    there_and_back[inner] = leaps[come] & leaps[leave] & (steps[come] * steps[leave] < 0)
    marks: Flags = there_and_back & (lengths >= SITS)
    alone = column[begins[there_and_back]]
    again, times = np.unique(alone, return_counts=True)
    marks |= there_and_back & np.isin(column[begins], again[times >= AGAIN])
    marks[0] = lengths[0] >= SITS_AT_END and len(begins) > 1 and leaps[ends[0] - 1]
    marks[-1] = lengths[-1] >= SITS_AT_END and len(begins) > 1 and leaps[begins[-1] - 1]
    return marks
