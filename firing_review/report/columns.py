"""Fewer points for the same picture: first, lowest, highest and last of each pixel column.

A gap stays a gap: a column in which the curve breaks keeps a break. The columns lie on a fixed
grid of hours, each level twice as wide as the one before, so that a view only picks its level
and its stretch: that takes no longer for a million rows than for a thousand, and nothing shimmers
while the view moves.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from firing_review.firing.units import Floats

SAMPLES_A_COLUMN = 8
"""Samples in a column of the finest thinned level; with fewer there is nothing to save."""
FEW_POINTS = 2000
"""A curve of no more points is quick to draw as it is."""


@dataclass(frozen=True, eq=False)
class Level:
    """A curve with at most five points in a column of ``column_h`` hours; 0 is as logged."""

    column_h: float
    x_h: Floats
    y: Floats


@dataclass(frozen=True, eq=False)
class Seen:
    """What of a curve is to be drawn in a view; thinned to columns of ``column_h``, or 0."""

    x_h: Floats
    y: Floats
    column_h: float

    @property
    def is_thinned(self) -> bool:
        """Whether points were left out."""
        return self.column_h > 0.0


Levels = tuple[Level, ...]


def thinned(x_h: Floats, y: Floats, column_h: float) -> tuple[Floats, Floats]:
    """Return first, lowest, highest and last of each column, and its first break.

    Parameters
    ----------
    x_h : array, shape (points,)
        Increasing [h].
    y : array, shape (points,)
        NaN is a gap.
    column_h : float
        Width of a column [h]; columns begin at whole multiples of it.
    """
    if not len(y):
        return x_h, y
    column = np.floor(x_h / column_h).astype(np.int64)
    starts = np.flatnonzero(np.diff(column, prepend=column[0] - 1))
    ends = np.append(starts[1:], len(y))
    kept = np.zeros(len(y), dtype=bool)
    kept[starts] = True
    kept[ends - 1] = True
    lengths = ends - starts
    for extreme in (np.fmin.reduceat(y, starts), np.fmax.reduceat(y, starts)):
        kept[_first_of_each(column, y == np.repeat(extreme, lengths))] = True
    kept[_first_of_each(column, np.isnan(y))] = True
    return x_h[kept], y[kept]


def _first_of_each(column: NDArray[np.int64], marked: NDArray[np.bool_]) -> NDArray[np.intp]:
    """Return the first marked place of every column that has one."""
    places: NDArray[np.intp] = np.flatnonzero(marked)
    if not len(places):
        return places
    here = column[places]
    is_first: NDArray[np.bool_] = np.diff(here, prepend=here[0] - 1) != 0
    first: NDArray[np.intp] = places[is_first]
    return first


def levels_of(x_h: Floats, y: Floats) -> Levels:
    """Return a curve as logged, and thinned to wider and wider columns.

    Lowest of lowest is lowest, so each level comes exactly from the one before it.
    """
    levels = [Level(0.0, x_h, y)]
    if len(y) <= FEW_POINTS:
        return tuple(levels)
    span_h = float(x_h[-1] - x_h[0])
    column_h = SAMPLES_A_COLUMN * span_h / len(y)
    while column_h > 0 and len(levels[-1].y) > FEW_POINTS:
        last = levels[-1]
        fewer = Level(column_h, *thinned(last.x_h, last.y, column_h))
        if len(fewer.y) < len(last.y):
            levels.append(fewer)
        column_h *= 2.0
    return tuple(levels)


def seen(levels: Levels, low_h: float, high_h: float, columns: float) -> Seen:
    """Return what of a curve is to be drawn between two times, one point beyond each for the edge.

    Parameters
    ----------
    columns : float
        Pixel columns of the view; no column of the result is wider than one of them.
    """
    pixel_h = (high_h - low_h) / max(columns, 1.0)
    level = next(one for one in reversed(levels) if one.column_h <= pixel_h)
    first = max(int(np.searchsorted(level.x_h, low_h)) - 1, 0)
    last = int(np.searchsorted(level.x_h, high_h, side="right")) + 1
    return Seen(level.x_h[first:last], level.y[first:last], level.column_h)


def dashed(one: Seen, pattern_h: Sequence[float]) -> Seen:
    """Return a curve with breaks where its dashes have them, counted along time.

    So many points take a pen very long to dash, and noise would hide such dashes.

    Parameters
    ----------
    pattern_h : sequence of float
        Lengths drawn and left out, in turn [h]; their number is even.
    """
    ends = np.cumsum(np.asarray(pattern_h, dtype=float))
    piece = np.searchsorted(ends, np.mod(one.x_h, ends[-1]), side="right")
    return replace(one, y=np.where(piece % 2 == 0, one.y, np.nan))


def flattened(one: Seen, least: float) -> Seen:
    """Return a thinned curve with one point in each column that is flatter than ``least``.

    Half a pixel cannot be seen, but four points for it take four times as long to draw.
    """
    if not one.is_thinned or len(one.y) < 2:
        return one
    column = np.floor(one.x_h / one.column_h).astype(np.int64)
    is_first = np.diff(column, prepend=column[0] - 1) != 0
    starts = np.flatnonzero(is_first)
    spread = np.maximum.reduceat(one.y, starts) - np.minimum.reduceat(one.y, starts)
    is_flat = np.repeat(spread < least, np.diff(np.append(starts, len(one.y))))
    kept = is_first | ~is_flat
    return replace(one, x_h=one.x_h[kept], y=one.y[kept])
