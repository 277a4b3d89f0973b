"""The schedule to start from, and the three ways to change its top."""

from dataclasses import replace
from itertools import pairwise

from firing_review.firing.aligned import AlignedFiring, Stretch, StretchKind
from firing_review.firing.schedule import ClockCurve, Intended, Schedule, Segment
from firing_review.planning.top_curve import LAST_SPAN_C

SAME_TOP_C = 1.0
"""Segments this near the highest target belong to the top [°C]."""


def base_schedule(intended: Intended | None, firing: AlignedFiring) -> Schedule:
    """Return the schedule that was meant; without one, the ramps and holds found in the log."""
    if isinstance(intended, Schedule):
        return intended
    if isinstance(intended, ClockCurve):
        return _from_corners(intended)
    return _from_stretches(firing)


def _from_corners(curve: ClockCurve) -> Schedule:
    segments: list[Segment] = []
    corners = list(zip(curve.time_h, curve.temperature_c, strict=True))
    for (from_h, from_c), (to_h, to_c) in pairwise(corners):
        hours = to_h - from_h
        if to_c == from_c and segments:
            segments[-1] = replace(segments[-1], hold_min=segments[-1].hold_min + 60.0 * hours)
        elif to_c != from_c and hours > 0.0:
            segments.append(Segment(abs(to_c - from_c) / hours, to_c))
    return Schedule(tuple(segments), curve.name)


def _from_stretches(firing: AlignedFiring) -> Schedule:
    segments: list[Segment] = []
    for stretch in firing.stretches:
        if stretch.kind is StretchKind.HOLD and segments:
            held = segments[-1].hold_min + (stretch.hold_min or 0.0)
            segments[-1] = replace(segments[-1], hold_min=float(round(held)))
        elif stretch.kind is not StretchKind.HOLD and stretch.reached_c is not None:
            segments.append(_ramp(stretch))
    return Schedule(tuple(segments) or (Segment(None, float(round(firing.peak_c))),))


def _ramp(stretch: Stretch) -> Segment:
    rate = stretch.rate_c_per_h
    return Segment(float(round(abs(rate))) if rate else None, float(round(stretch.reached_c or 0)))


def _top_index(schedule: Schedule) -> int:
    """Return the place of the last segment that stands at the highest target."""
    at_top = [
        i
        for i, segment in enumerate(schedule.segments)
        if segment.target_c >= schedule.top_c - SAME_TOP_C
    ]
    return at_top[-1]


def with_hold(schedule: Schedule, extra_min: float) -> Schedule:
    """Return the schedule with its hold at the top made longer, or shorter down to none."""
    index = _top_index(schedule)
    segment = schedule.segments[index]
    return _with_segment(
        schedule, index, replace(segment, hold_min=max(0.0, segment.hold_min + extra_min))
    )


def with_top(schedule: Schedule, higher_c: float) -> Schedule:
    """Return the schedule with every segment at its top moved up or down."""
    top_c = schedule.top_c
    segments = tuple(
        replace(s, target_c=s.target_c + higher_c) if s.target_c >= top_c - SAME_TOP_C else s
        for s in schedule.segments
    )
    return replace(schedule, segments=segments)


def with_last_rate(schedule: Schedule, rate_c_per_h: float) -> Schedule:
    """Return the schedule with the last 100 °C below its top climbed at another rate.

    A ramp that begins lower is split there; holds on the way stay as they are.
    """
    from_c = schedule.top_c - LAST_SPAN_C
    segments: list[Segment] = []
    below_c = float("-inf")
    for segment in schedule.segments:
        climbs = segment.target_c > max(below_c, from_c)
        if climbs and below_c < from_c:
            segments.append(Segment(segment.rate_c_per_h, from_c))
        segments.append(replace(segment, rate_c_per_h=rate_c_per_h) if climbs else segment)
        below_c = segment.target_c
    return replace(schedule, segments=tuple(segments))


def top_hold_min(schedule: Schedule) -> float:
    """Return the hold asked for at the top [min]."""
    return schedule.segments[_top_index(schedule)].hold_min


def last_rate_c_per_h(schedule: Schedule) -> float | None:
    """Return the rate asked for on the way to the top [°C/h]; None is full."""
    climbing = [
        s
        for before, s in pairwise((Segment(None, float("-inf")), *schedule.segments))
        if s.target_c > before.target_c and s.target_c >= schedule.top_c - SAME_TOP_C
    ]
    return climbing[-1].rate_c_per_h if climbing else None


def _with_segment(schedule: Schedule, index: int, segment: Segment) -> Schedule:
    segments = list(schedule.segments)
    segments[index] = segment
    return replace(schedule, segments=tuple(segments))


def second_firing_schedule(top_c: float, last_rate: float) -> Schedule:
    """Return a careful schedule for ware that has been in the fire before.

    Dry first, slowly past the quartz change at 573 °C, and the last 100 °C at a rate the cone
    chart holds for. Common practice, no source for the exact numbers.
    """
    return Schedule(
        (
            Segment(DRY_RATE_C_PER_H, DRY_C, DRY_HOLD_MIN),
            Segment(CAREFUL_RATE_C_PER_H, PAST_QUARTZ_C),
            Segment(USUAL_RATE_C_PER_H, top_c - LAST_SPAN_C),
            Segment(last_rate, top_c),
        )
    )


DRY_RATE_C_PER_H = 60.0
DRY_C = 90.0
DRY_HOLD_MIN = 60.0
"""Water leaves below 100 °C; washed or glazed pieces hold some."""
CAREFUL_RATE_C_PER_H = 100.0
PAST_QUARTZ_C = 620.0
"""Clear of the quartz change at 573 °C for the coldest piece as well."""
USUAL_RATE_C_PER_H = 150.0
