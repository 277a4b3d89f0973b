"""A heating curve taken apart near its top, so that trying a change costs next to nothing.

Nearly all of a cone's work is done in the last 100 °C, so a firing is four stays: the climb up to
there, the last climb, the time at the top, and the fall. A longer hold, a slower last climb and a
higher top each change one of them; only how long the kiln stayed at each temperature counts.
"""

from dataclasses import dataclass, replace

import numpy as np

from firing_review.firing.units import Floats
from firing_review.physics.cones import Dwell, dwell_of

LAST_SPAN_C = 100.0
"""The stretch below the top whose rate counts [°C]; heading of the cone chart."""
AT_TOP_C = 5.0
"""A reading this near the highest stands at the top [°C]: noise and a control band together."""
TOP_QUANTILE = 0.75
"""Of the readings at the top: near the level of a hold, and near the peak where there is none."""
LEAST_RATE_C_PER_H = 5.0
MOST_RATE_C_PER_H = 600.0


@dataclass(frozen=True)
class Change:
    """What is to be different next time; nothing by default.

    Attributes
    ----------
    extra_hold_min : float
        Minutes added to the hold at the top; negative takes them off [min].
    last_rate_c_per_h : float or None
        Rate over the last 100 °C [°C/h].
    higher_c : float
        Degrees by which the top is raised [°C].
    """

    extra_hold_min: float = 0.0
    last_rate_c_per_h: float | None = None
    higher_c: float = 0.0


@dataclass(frozen=True)
class TopMarks:
    """Where the parts of a firing meet [h], and its rate over the last 100 °C [°C/h]."""

    climb_from_h: float
    top_from_h: float
    top_to_h: float
    rate_c_per_h: float

    @property
    def hold_h(self) -> float:
        """How long the kiln stood at its top [h]."""
        return self.top_to_h - self.top_from_h


def find_marks(elapsed_h: Floats, reading_c: Floats, peak_c: float) -> TopMarks:
    """Return where the last climb, the top and the fall begin.

    Parameters
    ----------
    peak_c : float
        Highest smoothed reading [°C].
    """
    good = np.isfinite(reading_c)
    hours, values = elapsed_h[good], reading_c[good]
    at_top = np.flatnonzero(values >= min(peak_c, float(values.max())) - AT_TOP_C)
    first, last = int(at_top[0]), int(at_top[-1])
    below = np.flatnonzero(values[: first + 1] < peak_c - LAST_SPAN_C)
    begin = int(below[-1]) if len(below) else 0
    rate = _rate(hours, values, begin, first)
    # the climb goes on inside the band until it meets the level of the top
    level_c = float(np.quantile(values[at_top], TOP_QUANTILE))
    meets_h = float(hours[first]) + max(level_c - float(values[first]), 0.0) / rate
    top = min(int(np.searchsorted(hours, meets_h - 1e-9)), last)
    return TopMarks(float(hours[begin]), float(hours[top]), float(hours[last]), rate)


def _rate(hours: Floats, values: Floats, begin: int, end: int) -> float:
    """Return the mean rate of the last climb [°C/h], within what kilns do."""
    climb_h = float(hours[end] - hours[begin])
    gained = float(values[end] - values[begin])
    rate = gained / climb_h if climb_h > 0.0 else MOST_RATE_C_PER_H
    return float(np.clip(rate, LEAST_RATE_C_PER_H, MOST_RATE_C_PER_H))


@dataclass(frozen=True, eq=False)
class TopCurve:
    """The four stays of a firing at one place, and the level of its top [°C]."""

    before: Dwell
    climb: Dwell
    top: Dwell
    fall: Dwell
    top_c: float
    marks: TopMarks

    def changed(self, change: Change) -> Dwell:
        """Return how long each temperature would last with a change made."""
        rate = change.last_rate_c_per_h or self.marks.rate_c_per_h
        climb = self.climb.times(self.marks.rate_c_per_h / rate)
        parts = self.before + self._climb_to(climb, change.higher_c, rate)
        held = self._top(change.extra_hold_min / 60.0)
        return parts + held.shifted(change.higher_c) + self.fall.shifted(change.higher_c)

    def held(self, hold_h: float) -> "TopCurve":
        """Return the same with another time at the top."""
        ends_h = self.marks.top_from_h + hold_h
        top = self._top(hold_h - self.marks.hold_h)
        return replace(self, top=top, marks=replace(self.marks, top_to_h=ends_h))

    def _top(self, longer_h: float) -> Dwell:
        """Return the time at the top: added to at its level, or a share of it taken off."""
        if longer_h >= 0.0:
            return self.top + Dwell(np.array([self.top_c]), np.array([longer_h]))
        if self.marks.hold_h <= 0.0:
            return self.top
        return self.top.times(max(0.0, 1.0 + longer_h / self.marks.hold_h))

    def _climb_to(self, climb: Dwell, higher_c: float, rate_c_per_h: float) -> Dwell:
        """Return the last climb carried on to a higher top, or cut off at a lower one."""
        if higher_c <= 0.0:
            kept = climb.temperature_c <= self.top_c + higher_c
            return Dwell(climb.temperature_c, np.where(kept, climb.hours, 0.0))
        steps = max(1, int(np.ceil(higher_c)))
        levels = self.top_c + (np.arange(steps) + 0.5) * higher_c / steps
        return climb + Dwell(levels, np.full(steps, higher_c / steps / rate_c_per_h))


def take_apart(elapsed_h: Floats, values_c: Floats, marks: TopMarks) -> TopCurve:
    """Take a curve apart at the marks of the firing; a section's own curve may lag behind them."""
    at_top = (elapsed_h >= marks.top_from_h) & (elapsed_h <= marks.top_to_h)
    level = values_c[at_top & np.isfinite(values_c)]
    top_c = float(np.median(level)) if len(level) else float(np.nanmax(values_c))
    return TopCurve(
        before=_part(elapsed_h, values_c, -np.inf, marks.climb_from_h),
        climb=_part(elapsed_h, values_c, marks.climb_from_h, marks.top_from_h),
        top=_part(elapsed_h, values_c, marks.top_from_h, marks.top_to_h),
        fall=_part(elapsed_h, values_c, marks.top_to_h, np.inf),
        top_c=top_c,
        marks=marks,
    )


def _part(elapsed_h: Floats, values_c: Floats, from_h: float, to_h: float) -> Dwell:
    inside = (elapsed_h >= from_h) & (elapsed_h <= to_h)
    return dwell_of(elapsed_h[inside], values_c[inside])
