"""Values that are no readings: marks of an open probe, and what no kiln can do."""

import numpy as np

from firing_review.firing.log import ReadingNote
from firing_review.firing.said import N_, Said
from firing_review.firing.units import Floats

COLDEST, HOTTEST_C, HOTTEST_F = -60.0, 1370.0, 2498.0
"""No kiln is colder or hotter; type K ends at 1372 °C and 2501.6 °F."""
LEAP, USUAL_STEP = 150.0, 30.0
"""A leap from one sample to the next, in a column that usually moves less, is no kiln's."""
WARM = 60.0
"""Readings above it do not fall to zero from one sample to the next."""
LEAST_SAMPLES, SITS = 20, 5
"""Fewer samples tell nothing; so many alike at an end of the record are sat on."""
MOST_MARKS = 3
"""A logger has a mark or two for an open input, never many."""


def open_probe_gaps(
    values: Floats, name: str, hottest: float
) -> tuple[Floats, tuple[ReadingNote, ...]]:
    """Return a temperature column with open-probe marks as gaps, and what was done.

    Marks are values outside what a kiln can have, a value the column leaps to and sits on, at
    an end or in between, and a zero in the middle of warm readings.
    """
    bad = impossible(values, hottest)
    rest = np.where(bad, np.nan, values)
    for find in (_zero_among_warm, _leapt_to, _ends_on_a_mark):
        found = find(rest)
        bad |= found
        rest = np.where(found, np.nan, rest)
    count = int(bad.sum())
    if not count:
        return values, ()
    marks = np.unique(values[bad])
    shown = f"{marks[0]:g}" if len(marks) == 1 else f"{marks[0]:g} to {marks[-1]:g}"
    said = Said(
        N_("{channel}: {samples} samples show {mark}, which is no temperature; taken as gaps."),
        {"channel": name, "samples": count, "mark": shown},
    )
    return rest, (ReadingNote("open_probe", said, count),)


def impossible(values: Floats, hottest: float) -> np.ndarray:
    """Tell values that no kiln can have."""
    with np.errstate(invalid="ignore"):
        return np.asarray((values < COLDEST) | (values > hottest))


def _zero_among_warm(values: Floats) -> np.ndarray:
    """Tell zeros whose neighbours are warm: a kiln that cools to zero passes by one and two."""
    zero = values == 0.0
    known = np.isfinite(values) & ~zero
    if not zero.any() or not known.any():
        return np.zeros(len(values), dtype=bool)
    index = np.arange(len(values))
    around = np.interp(index[zero], index[known], values[known])
    result = np.zeros(len(values), dtype=bool)
    result[zero] = around > WARM
    return result


def _ends_on_a_mark(values: Floats) -> np.ndarray:
    """Tell the first or last samples of a column that sit on a value across a leap."""
    result = np.zeros(len(values), dtype=bool)
    good = np.flatnonzero(np.isfinite(values))
    if len(good) < LEAST_SAMPLES:
        return result
    column = values[good]
    steps = np.abs(np.diff(column))
    if np.median(steps) > USUAL_STEP:
        return result
    moves = np.flatnonzero(steps > 0)
    if not len(moves):
        return result
    if moves[0] + 1 >= SITS and steps[moves[0]] > LEAP:
        result[good[: moves[0] + 1]] = True
    if len(column) - moves[-1] - 1 >= SITS and steps[moves[-1]] > LEAP:
        result[good[moves[-1] + 1 :]] = True
    return result


def _leapt_to(values: Floats) -> np.ndarray:
    """Tell samples that sit on one value reached and left by a leap no kiln makes."""
    result = np.zeros(len(values), dtype=bool)
    good = np.flatnonzero(np.isfinite(values))
    if len(good) < LEAST_SAMPLES:
        return result
    column = values[good]
    leap = np.abs(np.diff(column)) > LEAP
    if np.count_nonzero(leap) < 2:
        return result
    marks, counts = np.unique(column[1:][leap], return_counts=True)
    for mark in marks[counts >= 2][np.argsort(-counts[counts >= 2])][:MOST_MARKS]:
        on_mark = column == mark
        neighbours = column[~on_mark]
        if len(neighbours) < 2 or np.median(np.abs(np.diff(neighbours))) > USUAL_STEP:
            continue
        if on_mark.sum() < 0.9 * len(column) and _apart(column, on_mark, float(mark)):
            result[good[on_mark]] = True
    return result


def _apart(column: Floats, on_mark: np.ndarray, mark: float) -> bool:
    """Tell whether a mark lies far from the readings around it, each time it appears."""
    others = np.where(on_mark, np.nan, column)
    index = np.arange(len(column))
    known = np.isfinite(others)
    between = np.interp(index, index[known], others[known])
    return bool(np.min(np.abs(between[on_mark] - mark)) > 60.0)
