"""How the heating went: on its line, behind, to a standstill, cut off; and was it possible."""

import numpy as np

from firing_review.diagnosis.found import Found, figure
from firing_review.diagnosis.grades import above
from firing_review.diagnosis.observations import Observation, surely
from firing_review.diagnosis.typed_signs import told_slow
from firing_review.firing.aligned import AlignedFiring, Stretch, StretchKind
from firing_review.firing.findings import Finding, FindingKind
from firing_review.firing.log import ChannelRole
from firing_review.firing.results import ElementsJudged
from firing_review.firing.said import Figures
from firing_review.firing.schedule import Schedule
from firing_review.firing.sheet import Answers
from firing_review.firing.units import Floats

FAR_BEHIND_MIN, FAR_WIDTH_MIN = 75.0, 12.0
FAR_SHARE, FAR_SHARE_WIDTH = 0.5, 0.05
"""Farther behind, or slower by more, than a healthy kiln at the edge of its power."""
DRY_ABOVE_C = 140.0
"""Below it, water in the load holds a climb back: that is a fact of its own [°C]."""
ON_TIME_MIN, ON_TIME_WIDTH_MIN = 12.0, 4.0
"""Heating that ends this near the end of its schedule was ended by the clock of the plan."""
LATE_MIN, EXPLAINED, EXPLAINED_WIDTH = 15.0, 0.55, 0.08
"""From so late on it is asked whether health would have been late too, and for which share."""
LONGER, FAR_LONGER = (1.15, 0.04), (1.5, 0.08)
"""Hours of a firing against the usual ones, where there is no schedule: limit and width."""
USUAL_FASTEST = ((20.0, 600.0), (200.0, 480.0), (600.0, 300.0), (1000.0, 195.0), (1280.0, 120.0))
"""Fastest climb of a usual pottery kiln with its load [°C], [°C/h]: 1.2 times the worked
reference kiln of 1.77 kW a cubic foot."""
SLOWEST_C_PER_H = 10.0
"""Keeps the reckoning of lateness finite where a kiln hardly climbs [°C/h]."""


def course_observations(
    firing: AlignedFiring, found: Found, elements: ElementsJudged, answers: Answers
) -> list[Observation]:
    """Return how the heating went, and whether the schedule asked for what the kiln can do."""
    if not isinstance(firing.intended, Schedule):
        seen = [_by_hours(firing, answers)]
    elif _typed_rate(firing, found):
        seen = []  # another rate was asked for than the schedule's
    else:
        seen = [_course(firing, found), _asked(firing, found, elements)]
    return [o for o in seen if o is not None]


def _typed_rate(firing: AlignedFiring, found: Found) -> bool:
    """Tell whether set point or output show another rate; a straight climb alone may mislead."""
    if firing.log.first(ChannelRole.SET_POINT) is None and told_slow(firing, found) is not None:
        return True
    differs = found.all(FindingKind.SCHEDULE_DIFFERS)
    logged = firing.log.first(ChannelRole.SET_POINT) is not None
    return logged and any(f.figures.get("what") == "rate" for f in differs)


def _course(firing: AlignedFiring, found: Found) -> Observation | None:
    if found.first(FindingKind.POWER_GAP) is not None:
        return None  # the gap says it
    ended = found.first(FindingKind.ENDED_EARLY)
    if ended is not None:
        return _cut(firing, found, ended)
    for stall in found.all(FindingKind.STALL):
        if figure(stall, "stalled_at_c") > DRY_ABOVE_C:
            figures: Figures = {"stalled_c": figure(stall, "stalled_at_c")}
            return surely("course", "stalled", figures, stall.start_h)
    short = found.first(FindingKind.SHORT_OF_TARGET)
    if short is not None:
        return surely("course", "stalled", {"stalled_c": firing.peak_c}, short.start_h)
    return _behind(found)


def _cut(firing: AlignedFiring, found: Found, ended: Finding) -> Observation:
    """Tell a firing that was cut off from one that was late and ran out of its time."""
    plan_end_h = firing.heating_end_h if firing.plan_h is None else float(firing.plan_h[-1])
    early_min = (plan_end_h - firing.heating_end_h) * 60.0
    cut = above(early_min, ON_TIME_MIN, ON_TIME_WIDTH_MIN)
    late = _behind(found)
    figures: Figures = {"behind_min": None, "share_pct": None, **late.figures, **ended.figures}
    shares = {"cut_off": cut, "far_behind": 1.0 - cut}
    return Observation("course", shares, figures, ended.start_h)


def _behind(found: Found) -> Observation:
    slow = [f for f in found.all(FindingKind.SLOW_CLIMB) if figure(f, "to_c", 1e9) > DRY_ABOVE_C]
    if not slow:
        return surely("course", "on_line")
    late = [*slow, *found.all(FindingKind.BEHIND_SCHEDULE)]
    behind = max(figure(f, "behind_min") for f in late)
    shares = {figure(f, "got_c_per_h") / max(figure(f, "asked_c_per_h"), 1.0): f for f in slow}
    share = min(shares)
    far = max(
        above(behind, FAR_BEHIND_MIN, FAR_WIDTH_MIN), above(FAR_SHARE, share, FAR_SHARE_WIDTH)
    )
    figures: Figures = {"behind_min": behind, "share_pct": 100.0 * share}
    return Observation(
        "course", {"behind": 1.0 - far, "far_behind": far}, figures, shares[share].start_h
    )


def _by_hours(firing: AlignedFiring, answers: Answers) -> Observation | None:
    """Without a schedule, compare the hours with those the person calls usual."""
    if not answers.usual_hours:
        return None
    took_h = firing.heating_end_h - firing.start_h
    ratio = took_h / answers.usual_hours
    far = above(ratio, *FAR_LONGER)
    longer = above(ratio, *LONGER) - far
    figures: Figures = {
        "behind_min": 60.0 * (took_h - answers.usual_hours),
        "share_pct": 100.0 / max(ratio, 0.01),
    }
    shares = {"on_line": 1.0 - far - longer, "behind": longer, "far_behind": far}
    return Observation("course", shares, figures)


def _asked(firing: AlignedFiring, found: Found, elements: ElementsJudged) -> Observation | None:
    """Tell whether the kiln would have been as late in full health, so fast was the schedule."""
    expected, fastest = 0.0, 0.0
    for stretch in firing.stretches:
        if stretch.kind is StretchKind.CLIMB and stretch.planned_rate_c_per_h is not None:
            expected += _late_in_health_min(stretch, elements)
            fastest = max(fastest, stretch.planned_rate_c_per_h)
    behind = found.all(FindingKind.BEHIND_SCHEDULE)
    observed = max((figure(f, "behind_min") for f in behind), default=0.0)
    if observed < LATE_MIN:
        return surely("asked", "within")
    beyond = above(expected / observed, EXPLAINED, EXPLAINED_WIDTH)
    figures: Figures = {"asked_c_per_h": fastest}
    return Observation("asked", {"within": 1.0 - beyond, "beyond": beyond}, figures)


def _late_in_health_min(stretch: Stretch, elements: ElementsJudged) -> float:
    """Return how late the earlier kiln, or any usual one, would have ended this climb [min]."""
    asked, start_c, end_c = stretch.planned_rate_c_per_h, stretch.start_c, stretch.reached_c
    if asked is None or start_c is None or end_c is None or end_c <= start_c:
        return 0.0
    grid = np.arange(start_c, end_c, 10.0)
    fastest = _fastest(grid, elements)
    hours = 10.0 / np.minimum(asked, fastest) - 10.0 / asked
    return float(np.sum(hours)) * 60.0


def _fastest(temperature_c: Floats, elements: ElementsJudged) -> Floats:
    """Return the fastest climb at each temperature that this kiln has shown, or any kiln's."""
    at, fastest = np.array(USUAL_FASTEST).T
    usual = np.interp(temperature_c, at, fastest)
    if len(elements.curves) < 2:
        return np.asarray(usual)
    curve = elements.curves[1]
    shown = np.isfinite(curve.full_climb_c_per_h)
    if np.count_nonzero(shown) < 3:
        return np.asarray(usual)
    at_c, rates = curve.temperature_c[shown], curve.full_climb_c_per_h[shown]
    known = np.interp(temperature_c, at_c, rates)
    top_slope = np.polyfit(at_c[-6:], rates[-6:], 1)
    above_known = temperature_c > at_c[-1]
    known[above_known] = np.polyval(top_slope, temperature_c[above_known])
    known[temperature_c < at_c[0]] = np.maximum(usual, rates[0])[temperature_c < at_c[0]]
    return np.maximum(known, SLOWEST_C_PER_H)
