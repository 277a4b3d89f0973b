"""What the curve itself answers: pace, ending, gaps, cooling, the probe, what was typed."""

import numpy as np

from firing_review.diagnosis.grades import above
from firing_review.diagnosis.observations import Observation, surely
from firing_review.firing.aligned import AlignedFiring, Stretch, StretchKind
from firing_review.firing.findings import Finding, FindingKind
from firing_review.firing.log import ChannelRole
from firing_review.firing.results import ElementsJudged
from firing_review.firing.said import Figures
from firing_review.firing.schedule import Schedule
from firing_review.firing.units import Floats

FAR_BEHIND_MIN, FAR_SHARE = 75.0, 0.5
"""Farther behind, or slower by more, than a healthy kiln at the edge of its power."""
ROOM_C = (-5.0, 42.0)
"""Readings of a cold kiln in any workshop [°C]."""
HOT_START_C = 90.0
"""A kiln that starts hotter was still warm: nothing is learned from it [°C]."""
USUAL_FASTEST = ((20.0, 600.0), (200.0, 480.0), (600.0, 300.0), (1000.0, 195.0), (1280.0, 120.0))
"""Fastest climb of a usual pottery kiln with its load [°C], [°C/h]: 1.2 times the worked
reference kiln of 1.77 kW a cubic foot."""
LATE_MIN, EXPLAINED = 15.0, 0.55
"""From so late on it is asked whether health would have been late too, and for which share."""
ON_TIME_MIN = 12.0
"""Heating that ends this near the end of its schedule ended as planned [min]."""
HOLD_DIFFERS_MIN, HOLD_SURE = 15.0, 0.995
"""A hold off by more is not the bend of the curve: it was asked for so."""
SET_POINT_SURE, READING_SURE = 0.998, 0.93
"""A typed rate seen in the set point itself, and one inferred from a straight climb."""
UNIT_TOLERANCE_C = 12.0
SECTION_GAP_C = 18.0


def curve_observations(
    firing: AlignedFiring, findings: tuple[Finding, ...], elements: ElementsJudged
) -> list[Observation]:
    """Return what the curve answers; facts it cannot answer are left out."""
    by_kind: dict[FindingKind, list[Finding]] = {}
    for found in findings:
        by_kind.setdefault(found.kind, []).append(found)
    seen = [
        _pace(firing, by_kind),
        _asked(firing, by_kind, elements),
        _ending(firing, by_kind),
        _gap(firing, by_kind),
        _after(firing, by_kind),
        _noise(by_kind),
        _reading(by_kind),
        _start(firing),
        _typed(firing, by_kind),
        _waves(firing, by_kind),
        _steam(by_kind),
    ]
    return [o for o in seen if o is not None]


Kinds = dict[FindingKind, list[Finding]]


def _figure(found: Finding, name: str, default: float = 0.0) -> float:
    value = found.figures.get(name)
    return float(value) if isinstance(value, int | float) else default


def _pace(firing: AlignedFiring, kinds: Kinds) -> Observation | None:
    if not isinstance(firing.intended, Schedule) or _typed_rate(kinds):
        return None
    stall = kinds.get(FindingKind.STALL)
    if stall:
        return surely("pace", "stalled", {"stalled_c": stall[0].figures.get("stalled_at_c")})
    slow = kinds.get(FindingKind.SLOW_CLIMB, [])
    behind = max(
        (_figure(f, "behind_min") for f in kinds.get(FindingKind.BEHIND_SCHEDULE, [])), default=0.0
    )
    behind = max(behind, *(_figure(f, "behind_min") for f in slow)) if slow else behind
    if not slow:
        return surely("pace", "on_line")
    share = min(_figure(f, "got_c_per_h") / max(_figure(f, "asked_c_per_h"), 1.0) for f in slow)
    far = max(above(behind, FAR_BEHIND_MIN, 12.0), above(FAR_SHARE, share, 0.05))
    if kinds.get(FindingKind.POWER_GAP):
        return None
    figures: Figures = {"behind_min": behind, "share_pct": 100.0 * share}
    return Observation("pace", {"a_little_behind": 1.0 - far, "far_behind": far}, figures)


def _typed_rate(kinds: Kinds) -> bool:
    return any(
        f.figures.get("what") == "rate" for f in kinds.get(FindingKind.SCHEDULE_DIFFERS, [])
    )


def _asked(firing: AlignedFiring, kinds: Kinds, elements: ElementsJudged) -> Observation | None:
    """Tell whether the kiln would have been as late in full health, so fast was the schedule."""
    if not isinstance(firing.intended, Schedule) or _typed_rate(kinds):
        return None
    expected, fastest = 0.0, 0.0
    for stretch in firing.stretches:
        if stretch.kind is StretchKind.CLIMB and stretch.planned_rate_c_per_h is not None:
            expected += _late_in_health_min(stretch, elements)
            fastest = max(fastest, stretch.planned_rate_c_per_h)
    behind = kinds.get(FindingKind.BEHIND_SCHEDULE, [])
    observed = max((_figure(f, "behind_min") for f in behind), default=0.0)
    if observed < LATE_MIN:
        return surely("asked", "within")
    beyond = above(expected / observed, EXPLAINED, 0.08)
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
    return np.maximum(known, 10.0)


def _ending(firing: AlignedFiring, kinds: Kinds) -> Observation | None:
    if not isinstance(firing.intended, Schedule) or firing.plan_h is None:
        return None
    ended = kinds.get(FindingKind.ENDED_EARLY)
    short = kinds.get(FindingKind.SHORT_OF_TARGET)
    if not ended and not short:
        return surely("ending", "reached")
    found = (ended or short or [])[0]
    figures: Figures = dict(found.figures)
    if not ended:
        return surely("ending", "short", figures)
    early_min = (float(firing.plan_h[-1]) - firing.heating_end_h) * 60.0
    cut = above(early_min, ON_TIME_MIN, 4.0)
    return Observation("ending", {"short": 1.0 - cut, "cut_off": cut}, figures)


def _gap(firing: AlignedFiring, kinds: Kinds) -> Observation | None:
    gaps = kinds.get(FindingKind.POWER_GAP)
    if not gaps:
        return surely("gap", "none") if firing.log.hours > 1.0 else None
    for_good = gaps[0].start_h >= firing.peak_h - 0.1 and "asked_c" in gaps[0].figures
    return surely("gap", "for_good" if for_good else "resumed", dict(gaps[0].figures))


def _after(firing: AlignedFiring, kinds: Kinds) -> Observation | None:
    if kinds.get(FindingKind.HEATS_WITHOUT_DEMAND):
        return surely("after", "stays_hot")
    if kinds.get(FindingKind.SLOW_COOLING):
        return Observation("after", {"by_itself": 0.4, "stays_hot": 0.6})
    opened = kinds.get(FindingKind.FAST_COOLING)
    if opened:
        return surely("after", "opened", dict(opened[0].figures))
    values = firing.reading_c[np.isfinite(firing.reading_c)]
    cooled = len(values) and values[-1] < max(0.5 * firing.peak_c, 200.0)
    return surely("after", "by_itself") if cooled else None


def _noise(kinds: Kinds) -> Observation:
    events = [*kinds.get(FindingKind.PROBE_DROPOUT, []), *kinds.get(FindingKind.PROBE_SPIKE, [])]
    count = int(sum(_figure(f, "count") for f in events))
    if not count:
        return surely("noise", "quiet")
    many = above(count, 7.0, 1.5)
    return Observation("noise", {"some": 1.0 - many, "many": many}, {"count": count})


_READING = (
    (FindingKind.PROBE_FALLS_WHILE_HEATING, "falls"),
    (FindingKind.PROBE_DEAD, "dead"),
    (FindingKind.PROBE_FROZEN, "frozen"),
    (FindingKind.PROBE_JUMP, "jumps"),
)


def _reading(kinds: Kinds) -> Observation:
    for kind, outcome in _READING:
        found = kinds.get(kind)
        if found:
            return surely("reading", outcome, {**found[0].figures, "from_h": found[0].start_h})
    return surely("reading", "sound")


def _start(firing: AlignedFiring) -> Observation | None:
    early = firing.reading_c[firing.log.elapsed_h <= 0.2]
    early = early[np.isfinite(early)]
    if not len(early) or early[0] > HOT_START_C:
        return None
    start_c = float(np.median(early[:5]))
    odd = max(above(start_c, ROOM_C[1] + 6.0, 3.0), above(ROOM_C[0] - 6.0, start_c, 3.0))
    return Observation("start", {"room": 1.0 - odd, "odd": odd}, {"start_c": start_c})


def _typed(firing: AlignedFiring, kinds: Kinds) -> Observation | None:
    if not isinstance(firing.intended, Schedule):
        return None
    for found in kinds.get(FindingKind.SCHEDULE_DIFFERS, []):
        return _typed_differs(found, firing)
    holds = [*kinds.get(FindingKind.LONG_HOLD, []), *kinds.get(FindingKind.SHORT_HOLD, [])]
    for found in holds:
        difference = abs(_figure(found, "got_min") - _figure(found, "asked_min"))
        wrong = HOLD_SURE * above(difference, HOLD_DIFFERS_MIN, 4.0)
        return Observation("typed", {"hold": wrong, "as_meant": 1.0 - wrong}, dict(found.figures))
    if kinds.get(FindingKind.OVERSHOOT) and firing.log.first(ChannelRole.SET_POINT) is None:
        return Observation("typed", {"top": 0.5, "as_meant": 0.5})
    if firing.log.first(ChannelRole.SET_POINT) is not None:
        return surely("typed", "as_meant")
    if kinds.get(FindingKind.ENDED_EARLY):
        return None  # it may have run to a top that was typed too low
    return Observation("typed", {"as_meant": 0.9, "top": 0.03, "rate": 0.04, "hold": 0.03})


def _typed_differs(found: Finding, firing: AlignedFiring) -> Observation:
    figures: Figures = dict(found.figures)
    if found.figures.get("what") == "rate":
        sure = SET_POINT_SURE if firing.log.first(ChannelRole.SET_POINT) else READING_SURE
        return Observation("typed", {"rate": sure, "as_meant": 1.0 - sure}, figures)
    typed_c = _figure(found, "typed_c")
    meant_c = firing.intended.top_c if firing.intended is not None else 0.0
    swapped = (meant_c * 1.8 + 32.0, (meant_c - 32.0) / 1.8)
    if any(abs(typed_c - other) < UNIT_TOLERANCE_C for other in swapped):
        return Observation("typed", {"units": 0.9, "top": 0.1}, figures)
    stopped = bool(firing.peak_h < firing.log.hours and typed_c < meant_c)
    return Observation(
        "typed", {"top": 0.55 if stopped else 0.95, "as_meant": 0.45 if stopped else 0.05}, figures
    )


def _waves(firing: AlignedFiring, kinds: Kinds) -> Observation | None:
    waves = kinds.get(FindingKind.HUNTING)
    if waves:
        return surely("waves", "swings", dict(waves[0].figures))
    held = any(s.kind is StretchKind.HOLD and (s.hold_min or 0.0) > 12.0 for s in firing.stretches)
    return surely("waves", "steady") if held else None


def _steam(kinds: Kinds) -> Observation:
    spots = kinds.get(FindingKind.DAMP_FLAT_SPOT, [])
    for found in spots:
        return surely("steam", "lingers", dict(found.figures))
    return surely("steam", "no")
