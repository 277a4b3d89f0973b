"""Values that are no readings: marks of an open probe, and what no kiln can do."""

import numpy as np

from firing_review.firing.log import ReadingNote
from firing_review.firing.said import N_, Said
from firing_review.firing.units import Floats

COLDEST, HOTTEST_C, HOTTEST_F = -60.0, 1370.0, 2498.0
"""No kiln is colder or hotter; type K ends at 1372 °C and 2501.6 °F."""
STUCK_SHARE = 0.02
"""Share of a column that one impossible-looking value must make up to be called a mark."""


def open_probe_gaps(
    values: Floats, name: str, hottest: float
) -> tuple[Floats, tuple[ReadingNote, ...]]:
    """Return a temperature column with open-probe marks as gaps, and what was done.

    Marks are values outside what a kiln can have, a value the column leaps to and sits on,
    and a zero in the middle of hot readings.
    """
    bad = np.isfinite(values) & ((values < COLDEST) | (values > hottest))
    bad |= _zero_among_hot(values)
    bad |= _leapt_to(values)
    count = int(bad.sum())
    if not count:
        return values, ()
    marks = sorted({float(v) for v in values[bad][:2000]})
    shown = f"{marks[0]:g}" if len(marks) == 1 else f"{marks[0]:g} to {marks[-1]:g}"
    said = Said(
        N_("{channel}: {samples} samples show {mark}, which is no temperature; taken as gaps."),
        {"channel": name, "samples": count, "mark": shown},
    )
    return np.where(bad, np.nan, values), (ReadingNote("open_probe", said, count),)


def _zero_among_hot(values: Floats) -> np.ndarray:
    with np.errstate(invalid="ignore"):
        before = np.fmax.accumulate(np.where(np.isfinite(values), values, -np.inf))
    return np.asarray((values == 0.0) & (before > 120.0))


def _leapt_to(values: Floats) -> np.ndarray:
    """Tell samples that sit on one value reached and left by a leap no kiln makes."""
    good = np.flatnonzero(np.isfinite(values))
    if len(good) < 20:
        return np.zeros(len(values), dtype=bool)
    column = values[good]
    leap = np.abs(np.diff(column)) > 150.0
    if np.count_nonzero(leap) < 2:
        return np.zeros(len(values), dtype=bool)
    landed = column[1:][leap]
    marks, counts = np.unique(landed, return_counts=True)
    result = np.zeros(len(values), dtype=bool)
    for mark in marks[counts >= 2]:
        on_mark = column == mark
        neighbours = column[~on_mark]
        usual = len(neighbours) and np.median(np.abs(np.diff(neighbours))) < 30.0
        if usual and on_mark.sum() < 0.9 * len(column) and _apart(column, on_mark, float(mark)):
            result[good[on_mark]] = True
    return result


def _apart(column: Floats, on_mark: np.ndarray, mark: float) -> bool:
    """Tell whether a mark lies far from the readings around it, each time it appears."""
    others = np.where(on_mark, np.nan, column)
    index = np.arange(len(column))
    known = np.isfinite(others)
    between = np.interp(index, index[known], others[known])
    return bool(np.min(np.abs(between[on_mark] - mark)) > 60.0)
