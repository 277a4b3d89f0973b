"""Segments of a schedule found in a reading, by order and not by the clock."""

from dataclasses import dataclass, replace

import numpy as np

from firing_review.analysis.rates import first_lasting, robust_slope
from firing_review.analysis.thresholds import Thresholds
from firing_review.firing.aligned import Stretch, StretchKind
from firing_review.firing.schedule import Schedule, Segment
from firing_review.firing.units import Floats

LASTING_MIN = 3.0
"""How long a reading must stay past a mark to count as past it [min]; noise is shorter."""


@dataclass(frozen=True, eq=False)
class Curve:
    """The reading that segments are looked for in: time [h], smoothed reading [°C], the noise."""

    elapsed_h: Floats
    reading_c: Floats
    end_index: int

    def hours(self, index: int) -> float:
        """Return the time of a sample [h]."""
        return float(self.elapsed_h[min(index, len(self.elapsed_h) - 1)])

    def first_past(
        self, begin: int, mark_c: float, *, rising: bool, end: int | None = None
    ) -> int | None:
        """Return the first sample from ``begin`` on that stays past the mark."""
        past = self.reading_c >= mark_c if rising else self.reading_c <= mark_c
        past = past | ~np.isfinite(self.reading_c) & np.roll(past, 1)
        if end is not None:
            past = past & (np.arange(len(past)) < end)
        return first_lasting(self.elapsed_h, past, LASTING_MIN, begin)


def match_schedule(
    curve: Curve, schedule: Schedule, start: int, limits: Thresholds
) -> tuple[Stretch, ...]:
    """Return the stretches of the log that belong to each segment, in order.

    A segment that was never finished is given with what came of it; those after it are given
    as asked, without a place in the log.
    """
    stretches: list[Stretch] = []
    position: int | None = start
    from_c = float(curve.reading_c[start])
    for number, segment in enumerate(schedule.segments, start=1):
        following = schedule.segments[number] if number < len(schedule.segments) else None
        ramp, position = _match_ramp(curve, number, segment, from_c, position, limits)
        stretches.append(ramp)
        hold, position = _match_hold(curve, ramp, segment, following, position, limits)
        if segment.hold_min > 0 or (hold.hold_min or 0.0) > limits.hold_difference_min:
            stretches.append(hold)
        from_c = segment.target_c
    return tuple(stretches)


def _match_ramp(
    curve: Curve,
    number: int,
    segment: Segment,
    from_c: float,
    begin: int | None,
    limits: Thresholds,
) -> tuple[Stretch, int | None]:
    rising = segment.target_c >= from_c
    asked = Stretch(
        number=number,
        kind=StretchKind.CLIMB if rising else StretchKind.COOL,
        planned_rate_c_per_h=segment.rate_c_per_h,
        planned_target_c=segment.target_c,
        planned_hold_min=None,
        full_rate=segment.rate_c_per_h is None,
    )
    if begin is None:
        return asked, None
    near_c = limits.reach_tolerance_c if rising else -limits.reach_tolerance_c
    reached = curve.first_past(begin, segment.target_c - near_c, rising=rising)
    if reached is None and not rising:
        return asked, None
    end = reached if reached is not None else max(curve.end_index, begin)
    return _measured(curve, asked, begin, end, complete=reached is not None), reached


def _measured(curve: Curve, asked: Stretch, begin: int, end: int, *, complete: bool) -> Stretch:
    part = slice(begin, end + 1)
    values = curve.reading_c[part]
    extreme = np.nanmax if asked.kind is StretchKind.CLIMB else np.nanmin
    took_h = curve.hours(end) - curve.hours(begin)
    return replace(
        asked,
        start_h=curve.hours(begin),
        end_h=curve.hours(end),
        start_c=float(curve.reading_c[begin]),
        reached_c=float(extreme(values)) if np.isfinite(values).any() else None,
        rate_c_per_h=_none_if_nan(robust_slope(curve.elapsed_h[part], values)),
        behind_min=_behind_min(
            asked, float(curve.reading_c[begin]), float(curve.reading_c[end]), took_h
        ),
        complete=complete,
    )


def _none_if_nan(value: float) -> float | None:
    return value if np.isfinite(value) else None


def _behind_min(asked: Stretch, from_c: float, to_c: float, took_h: float) -> float | None:
    """Return how much longer than asked the way actually covered took [min]."""
    if asked.planned_rate_c_per_h is None:
        return None
    covered_c = to_c - from_c if asked.kind is StretchKind.CLIMB else from_c - to_c
    return (took_h - max(covered_c, 0.0) / asked.planned_rate_c_per_h) * 60.0


def _match_hold(
    curve: Curve,
    ramp: Stretch,
    segment: Segment,
    following: Segment | None,
    begin: int | None,
    limits: Thresholds,
) -> tuple[Stretch, int | None]:
    asked = Stretch(
        number=ramp.number,
        kind=StretchKind.HOLD,
        planned_rate_c_per_h=None,
        planned_target_c=segment.target_c,
        planned_hold_min=segment.hold_min,
    )
    if begin is None:
        return asked, None
    left, edge_c = _leaves(curve, segment.target_c, following, begin, limits)
    in_band_h = curve.hours(left) - curve.hours(begin)
    hold_h = in_band_h - _ramp_share_h(curve, ramp, begin, left, segment.target_c, edge_c)
    values = curve.reading_c[begin : left + 1]
    low_c = float(np.nanmin(values)) if np.isfinite(values).any() else None
    stretch = replace(
        asked,
        start_h=curve.hours(begin),
        end_h=curve.hours(left),
        start_c=float(curve.reading_c[begin]),
        reached_c=float(np.nanmax(values)) if low_c is not None else None,
        hold_min=max(hold_h, 0.0) * 60.0,
        droop_c=max(segment.target_c - low_c, 0.0) if low_c is not None else None,
        complete=True,
    )
    return stretch, left


def _leaves(
    curve: Curve, target_c: float, following: Segment | None, begin: int, limits: Thresholds
) -> tuple[int, float]:
    """Return the sample where the reading leaves the target for good, and the edge it crossed."""
    tolerance_c = limits.line_tolerance_c
    if following is not None and following.target_c > target_c:
        up = curve.first_past(begin, target_c + tolerance_c, rising=True)
        if up is not None:
            return up, target_c + tolerance_c
    down = curve.first_past(begin, target_c - tolerance_c, rising=False)
    last = len(curve.elapsed_h) - 1
    return (down, target_c - tolerance_c) if down is not None else (last, target_c)


def _ramp_share_h(
    curve: Curve, ramp: Stretch, begin: int, left: int, target_c: float, edge_c: float
) -> float:
    """Return how much of the time near the target was still ramp, coming and going [h]."""
    coming = max(target_c - float(curve.reading_c[begin]), 0.0)
    rate_in = max(abs(ramp.rate_c_per_h or 60.0), 5.0)
    end = min(left + max(1, (left - begin) // 4), len(curve.elapsed_h) - 1)
    window = curve.elapsed_h <= curve.elapsed_h[left] + 0.35
    after = np.flatnonzero(window & (curve.elapsed_h >= curve.elapsed_h[left]))
    rate_out = (
        robust_slope(curve.elapsed_h[after], curve.reading_c[after]) if len(after) > 2 else 60.0
    )
    leaving = abs(edge_c - target_c) if end > left or edge_c != target_c else 0.0
    return coming / rate_in + leaving / max(abs(rate_out), 5.0)
