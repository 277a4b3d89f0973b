"""Ramps and holds found in a curve itself, as straight pieces."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from firing_review.firing.units import Floats

MOST_POINTS = 240
"""Points a curve is reduced to before it is cut into pieces; about one every four minutes."""

NEARLY_ALL = 0.85
"""Share of a curve that one straight piece must cover to stand for it."""


@dataclass(frozen=True)
class Piece:
    """A straight piece of a curve: from, to [h], the temperatures there [°C], its slope [°C/h]."""

    start_h: float
    end_h: float
    start_c: float
    end_c: float

    @property
    def rate_c_per_h(self) -> float:
        """Slope of the piece [°C/h]."""
        return (self.end_c - self.start_c) / max(self.end_h - self.start_h, 1e-9)


def straight_pieces(elapsed_h: Floats, values_c: Floats, tolerance_c: float) -> tuple[Piece, ...]:
    """Cut a curve into the fewest straight pieces that stay within ``tolerance_c`` of it.

    Splits at the sample farthest from the chord until none is farther than the tolerance
    (the line-simplification rule of Ramer, 1972, and of Douglas and Peucker, 1973).
    """
    good = np.isfinite(values_c)
    time, value = elapsed_h[good], values_c[good]
    if len(time) < 2:
        return ()
    step = max(1, len(time) // MOST_POINTS)
    keep = np.unique(np.append(np.arange(0, len(time), step), len(time) - 1))
    time, value = time[keep], value[keep]
    corners = sorted(_corners(time, value, tolerance_c))
    return tuple(
        Piece(float(time[a]), float(time[b]), float(value[a]), float(value[b]))
        for a, b in pairwise(corners)
    )


def _corners(time: Floats, value: Floats, tolerance: float) -> set[int]:
    corners = {0, len(time) - 1}
    todo = [(0, len(time) - 1)]
    while todo:
        a, b = todo.pop()
        if b - a < 2:
            continue
        chord = value[a] + (value[b] - value[a]) * (time[a:b] - time[a]) / (time[b] - time[a])
        distance = np.abs(value[a:b] - chord)
        worst = int(np.argmax(distance))
        if distance[worst] > tolerance:
            corners.add(a + worst)
            todo += [(a, a + worst), (a + worst, b)]
    return corners


def one_straight_piece(elapsed_h: Floats, values_c: Floats, tolerance_c: float) -> Piece | None:
    """Return the longest straight piece if it makes up nearly all of the curve, else None."""
    pieces = straight_pieces(elapsed_h, values_c, tolerance_c)
    if not pieces:
        return None
    longest = max(pieces, key=lambda p: p.end_h - p.start_h)
    whole_h = pieces[-1].end_h - pieces[0].start_h
    return longest if longest.end_h - longest.start_h > NEARLY_ALL * whole_h else None
