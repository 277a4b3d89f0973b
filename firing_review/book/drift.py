"""Whether figures of like firings drift: a rank test, so that one odd firing decides nothing.

Firings are compared within groups of their like only. The test is the seasonal Kendall test
(Hirsch, Slack and Smith 1982, Water Resources Research 18, pp. 107-121), the slope the median of
the slopes of all pairs within groups (Sen 1968); both from memory.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from firing_review.firing.units import Floats

LEAST_FIRINGS = 10
"""With fewer even figures that fall every time are not surer than ``SURE_Z``."""
SURE_Z = 3.9
"""Standard deviations: looked at after each of 60 firings, no steady one of 2,000 simulated
kilns passed by chance."""
NINETY = 1.645
"""Half-width of a 90 % range in standard deviations."""
NEWEST = 300
"""More firings of a group than these are not compared pair by pair."""


@dataclass(frozen=True)
class Group:
    """Figures of firings of one kind: ``x`` is the place of a firing, or its wear."""

    x: Floats
    y: Floats


@dataclass(frozen=True)
class Drift:
    """How figures drift.

    Attributes
    ----------
    slope, low, high : float
        Change per unit of x with its 90 % range.
    span : float
        From the first x to the last.
    firings : int
        Number of figures behind it.
    sure : bool
        Whether chance alone hardly makes it.
    """

    slope: float
    low: float
    high: float
    span: float
    firings: int
    sure: bool

    @property
    def change(self) -> float:
        """What the drift adds up to from the first firing to the last."""
        return self.slope * self.span


def find_drift(groups: Sequence[Group]) -> Drift | None:
    """Return how the figures of like firings drift; None with too few to tell."""
    usable = [_newest(group) for group in groups if len(group.x) > 1]
    count = sum(len(group.x) for group in usable)
    if count < LEAST_FIRINGS:
        return None
    slopes = np.sort(np.concatenate([_slopes(group) for group in usable]))
    score, variance = (sum(part) for part in zip(*map(_kendall, usable), strict=True))
    if not len(slopes):
        return None
    spread = NINETY * float(np.sqrt(variance))
    ends = (len(slopes) - spread) / 2.0 - 0.5, (len(slopes) + spread) / 2.0 - 0.5
    low, high = np.interp(ends, np.arange(len(slopes)), slopes)
    span = max(float(g.x.max()) for g in usable) - min(float(g.x.min()) for g in usable)
    z = (abs(score) - 1.0) / float(np.sqrt(variance)) if variance > 0.0 else 0.0
    return Drift(float(np.median(slopes)), float(low), float(high), span, count, z > SURE_Z)


def _newest(group: Group) -> Group:
    order = np.argsort(group.x, kind="stable")[-NEWEST:]
    return Group(group.x[order], group.y[order])


def _slopes(group: Group) -> Floats:
    first, second = np.triu_indices(len(group.x), 1)
    across = group.x[second] - group.x[first]
    apart = across > 0.0
    return np.asarray((group.y[second] - group.y[first])[apart] / across[apart])


def _kendall(group: Group) -> tuple[float, float]:
    """Return Kendall's score and its variance; equal figures count as neither."""
    first, second = np.triu_indices(len(group.y), 1)
    score = float(np.sign(group.y[second] - group.y[first]).sum())
    n = len(group.y)
    ties = np.unique(group.y, return_counts=True)[1]
    lost = float((ties * (ties - 1) * (2 * ties + 5)).sum())
    return score, (n * (n - 1) * (2 * n + 5) - lost) / 18.0
