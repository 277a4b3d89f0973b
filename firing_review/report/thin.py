"""Fewer points for the same picture: first, lowest, highest and last of each pixel column.

A gap stays a gap: columns in which the curve breaks keep a break, and a hole in the record (no
rows at all for a while) gets one.
"""

import numpy as np

from firing_review.firing.units import Floats
from firing_review.report.columns import thinned as by_column

UNTOUCHED_POINTS = 50_000
"""Below this a curve is drawn as it is; a repaint then stays well below 50 ms."""
HOLE_SAMPLES = 4.0
HOLE_AT_LEAST_H = 3.0 / 60.0
"""Rows missing for longer than this many usual samples, and at least 3 min, are a hole."""


def with_holes(elapsed_h: Floats, values: Floats) -> tuple[Floats, Floats]:
    """Return the curve with a NaN in the middle of every hole of the record."""
    if len(elapsed_h) < 3:
        return elapsed_h, values
    steps = np.diff(elapsed_h)
    limit = max(HOLE_SAMPLES * float(np.median(steps)), HOLE_AT_LEAST_H)
    before = np.flatnonzero(steps > limit)
    if not len(before):
        return elapsed_h, values
    middle = (elapsed_h[before] + elapsed_h[before + 1]) / 2.0
    return np.insert(elapsed_h, before + 1, middle), np.insert(values, before + 1, np.nan)


def without_repeats(elapsed_h: Floats, values: Floats) -> tuple[Floats, Floats]:
    """Return the corners of a curve of steps: points between equal neighbours left out."""
    if len(values) < 3:
        return elapsed_h, values
    same = (values[1:-1] == values[:-2]) & (values[1:-1] == values[2:])
    kept = np.concatenate([[True], ~same, [True]])
    return elapsed_h[kept], values[kept]


def thinned(
    elapsed_h: Floats, values: Floats, columns: int, untouched: int = UNTOUCHED_POINTS
) -> tuple[Floats, Floats]:
    """Return at most five points a column that draw the same picture.

    Parameters
    ----------
    elapsed_h : array, shape (points,)
        Increasing [h].
    values : array, shape (points,)
        NaN is a gap.
    columns : int
        Pixel columns the curve is spread over.
    untouched : int
        A curve of so many points or fewer is left as it is.
    """
    if len(values) <= max(untouched, 5 * columns) or columns < 1:
        return elapsed_h, values
    span = float(elapsed_h[-1] - elapsed_h[0]) or 1.0
    return by_column(elapsed_h, values, span / columns)
