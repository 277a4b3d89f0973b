"""Several firings in one file: where one ends and the next begins."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from firing_review.firing.units import Floats

PAUSE_H = 6.0
"""A pause this long between rows may part two firings [h]; a power cut is shorter."""
COOL_C = 120.0
"""Below it a kiln can be unloaded; between two firings it is [°C]."""
COOLING_H = 1.0
"""No closed kiln falls from 300 to 120 °C sooner [h]."""
MOST_RUNS = 200
"""More firings than this are a clock out of order."""
FIRED_C = 300.0
"""A firing goes above it; drying the ware does not [°C]."""


@dataclass(frozen=True)
class Run:
    """Rows of one firing, from ``first`` up to but without ``end``."""

    first: int
    end: int


def find_runs(hours: Floats, curve_c: Floats) -> tuple[Run, ...]:
    """Part a record where the kiln stood cool between two firings.

    Parameters
    ----------
    hours, curve_c : arrays, shape (rows,)
        Elapsed time [h] and the mean of the chamber [°C].
    """
    good = np.isfinite(curve_c)
    spans = _hot_spans(curve_c)
    if len(spans) > 1 and not good.all():  # a gap parts no span
        spans = _hot_spans(curve_c[good])
    if len(spans) < 2:
        return (Run(0, len(hours)),)
    known = np.flatnonzero(good)
    curve = curve_c[known]
    cuts = [0]
    last_hot = -1
    cool = np.concatenate(([0], np.cumsum(curve < COOL_C)))
    for start, end in spans:
        if (
            last_hot >= 0
            and cool[start] > cool[last_hot]
            and _cooled(hours[known], curve, last_hot, start)
        ):
            cuts.append(int(known[_cut(hours[known], curve, last_hot, start)]))
        last_hot = end
    if len(cuts) > MOST_RUNS:
        return (Run(0, len(hours)),)
    cuts.append(len(hours))
    return tuple(Run(a, b) for a, b in pairwise(cuts))


def _cooled(hours: Floats, curve: Floats, last_hot: int, start: int) -> bool:
    """Tell whether a kiln cooled there; a probe that fails falls in no time."""
    cool = np.flatnonzero(curve[last_hot:start] < COOL_C)
    return len(cool) > 0 and float(hours[last_hot + cool[0]] - hours[last_hot - 1]) > COOLING_H


def _hot_spans(curve: Floats) -> list[tuple[int, int]]:
    """Return where the curve is above what drying needs, first row and row behind."""
    hot = np.concatenate(([False], curve > FIRED_C, [False]))
    edges = np.flatnonzero(hot[1:] != hot[:-1])
    return [(int(a), int(b)) for a, b in edges.reshape(-1, 2)]


def _cut(hours: Floats, curve: Floats, last_hot: int, start: int) -> int:
    """Return the first row of the later firing: after a pause, else where it was coolest."""
    steps = np.diff(hours[last_hot - 1 : start + 1])
    if len(steps) and float(steps.max()) > PAUSE_H:
        return last_hot + int(np.argmax(steps))
    between = curve[last_hot:start]
    return last_hot + int(np.flatnonzero(between <= between.min() + 2.0)[-1])
