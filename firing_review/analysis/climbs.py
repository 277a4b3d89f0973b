"""Climbs that were slower, faster or shorter than asked: stall, slow climb, fast climb, short."""

import numpy as np

from firing_review.analysis.rates import lasted_min, long_runs, robust_slope, runs
from firing_review.analysis.sparse_rows import top_left_open_c, usual_step_min
from firing_review.analysis.thresholds import Thresholds
from firing_review.analysis.typed_schedule import followed_set_point
from firing_review.firing.aligned import AlignedFiring, Stretch, StretchKind
from firing_review.firing.findings import Finding, FindingKind, Severity
from firing_review.firing.log import ChannelRole
from firing_review.firing.said import N_, Figures
from firing_review.firing.schedule import Schedule


def climbs(firing: AlignedFiring) -> tuple[Stretch, ...]:
    """Return the climbs of the firing that have a place in the log."""
    return tuple(
        s for s in firing.stretches if s.kind is StretchKind.CLIMB and s.start_h is not None
    )


def find_stall(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Find where the climb all but stopped though more was asked and power was not cut."""
    found = []
    for stretch in climbs(firing):
        if firing.intended is None or not (stretch.planned_rate_c_per_h or stretch.full_rate):
            continue
        elapsed_h, target_c = firing.log.elapsed_h, stretch.planned_target_c or np.inf
        inside = (elapsed_h >= (stretch.start_h or 0.0)) & (
            elapsed_h <= _last_demand_h(firing, stretch)
        )
        slow = np.abs(firing.rate_c_per_h) < limits.stall_rate_c_per_h
        below = firing.reading_c < target_c - limits.line_tolerance_c
        behind = (
            firing.line_c is None
            or stretch.full_rate
            or np.nan_to_num(firing.line_c - firing.reading_c, nan=1e9) > limits.line_tolerance_c
        )
        least_min = limits.stall_min + usual_step_min(firing)
        for a, b in long_runs(elapsed_h, inside & slow & below & behind, least_min):
            found.append(_stall(firing, stretch, a, b))
    return tuple(found)


def _last_demand_h(firing: AlignedFiring, stretch: Stretch) -> float:
    end_h = stretch.end_h or 0.0
    return end_h if stretch.complete else max(end_h, firing.heating_end_h)


def _stall(firing: AlignedFiring, stretch: Stretch, first: int, end: int) -> Finding:
    elapsed_h = firing.log.elapsed_h
    figures: Figures = {
        "stalled_at_c": float(np.nanmax(firing.reading_c[first:end])),
        "asked_c": stretch.planned_target_c,
        "lasted_min": lasted_min(elapsed_h[first:end]),
        "segment": stretch.number,
    }
    text = N_("The climb stopped near {stalled_at_c} for {lasted_min}; {asked_c} was asked.")
    return Finding.over(elapsed_h[first:end], FindingKind.STALL, Severity.FAULT, text, figures)


def find_slow_climb(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Find climbs that fell off the asked line and stayed slower than asked."""
    found = []
    for stretch in climbs(firing):
        finding = _slow(firing, stretch, limits)
        if finding is not None:
            found.append(finding)
    return tuple(found)


def _slow(firing: AlignedFiring, stretch: Stretch, limits: Thresholds) -> Finding | None:
    asked, behind_min = stretch.planned_rate_c_per_h, stretch.behind_min
    if asked is None or stretch.left_line_h is None or behind_min is None:
        return None
    elapsed_h = firing.log.elapsed_h
    part = (elapsed_h >= stretch.left_line_h) & (elapsed_h <= (stretch.end_h or 0.0))
    got = robust_slope(elapsed_h[part], firing.reading_c[part])
    blurred_min = usual_step_min(firing)
    late = (
        behind_min - blurred_min >= limits.behind_note_min
        or _below_line_min(firing, part, limits) - blurred_min >= limits.lagging_min
    )
    if (
        not got < limits.slow_share * asked
        or not late
        or followed_set_point(firing, stretch.left_line_h, stretch.end_h or 0.0, limits)
    ):
        return None
    figures: Figures = {
        "got_c_per_h": got,
        "asked_c_per_h": asked,
        "from_c": _reading_at(firing, stretch.left_line_h),
        "to_c": stretch.reached_c,
        "behind_min": behind_min,
        "segment": stretch.number,
        "at_full_output": float(np.mean(firing.full_output[part])),
    }
    text = N_("From {from_c} the kiln climbed {got_c_per_h} where {asked_c_per_h} was asked.")
    return Finding(
        FindingKind.SLOW_CLIMB,
        _slow_severity(got, asked, behind_min, limits),
        stretch.left_line_h,
        stretch.end_h or stretch.left_line_h,
        text,
        figures,
    )


def _below_line_min(firing: AlignedFiring, part: np.ndarray, limits: Thresholds) -> float:
    """Return the longest time the reading lay below its line within a part of the log [min]."""
    if firing.line_c is None:
        return 0.0
    below = part & (firing.line_c - firing.reading_c > limits.line_tolerance_c)
    elapsed_h = firing.log.elapsed_h
    return max(((elapsed_h[b - 1] - elapsed_h[a]) * 60.0 for a, b in runs(below)), default=0.0)


def _slow_severity(got: float, asked: float, behind_min: float, limits: Thresholds) -> Severity:
    far = behind_min >= limits.behind_fault_min
    return Severity.FAULT if far and got < limits.slow_fault_share * asked else Severity.WATCH


def _reading_at(firing: AlignedFiring, hour: float) -> float:
    good = np.isfinite(firing.reading_c)
    return float(np.interp(hour, firing.log.elapsed_h[good], firing.reading_c[good]))


def find_fast_climb(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Find climbs that ran ahead of the asked line."""
    if firing.line_c is None or not isinstance(firing.intended, Schedule):
        return ()
    elapsed_h = firing.log.elapsed_h
    climbing = np.zeros(len(elapsed_h), dtype=bool)
    asked = np.full(len(elapsed_h), np.nan)
    for stretch in climbs(firing):
        inside = (elapsed_h >= (stretch.start_h or 0.0)) & (elapsed_h <= (stretch.end_h or 0.0))
        climbing |= inside
        asked[inside] = stretch.planned_rate_c_per_h or np.nan
    ahead = climbing & (firing.reading_c - firing.line_c > limits.fast_above_line_c)
    ahead &= firing.rate_c_per_h > limits.fast_share * asked
    if firing.plan_h is not None and firing.plan_c is not None:
        # a controller that goes by the clock may hurry back to its plan
        ahead &= firing.reading_c > np.interp(elapsed_h, firing.plan_h, firing.plan_c)
    return tuple(
        _fast(firing, asked, a, b) for a, b in long_runs(elapsed_h, ahead, limits.gap_min)
    )


def _fast(firing: AlignedFiring, asked: np.ndarray, first: int, end: int) -> Finding:
    figures: Figures = {
        "got_c_per_h": float(np.nanmedian(firing.rate_c_per_h[first:end])),
        "asked_c_per_h": float(np.nanmedian(asked[first:end])),
        "from_c": float(firing.reading_c[first]),
    }
    text = N_("At {from_c} the kiln climbed {got_c_per_h}, faster than the {asked_c_per_h} asked.")
    elapsed_h = firing.log.elapsed_h
    return Finding.over(
        elapsed_h[first:end], FindingKind.FAST_CLIMB, Severity.WATCH, text, figures
    )


def find_short_of_target(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Find that the firing never came to its top."""
    if not isinstance(firing.intended, Schedule):
        return ()
    short_c = firing.intended.top_c - firing.peak_c
    if short_c - top_left_open_c(firing) <= limits.short_c or _still_climbing_at_end(firing):
        return ()
    figures: Figures = {
        "reached_c": firing.peak_c,
        "asked_c": firing.intended.top_c,
        "short_delta_c": short_c,
    }
    text = N_("The reading came to {reached_c}; {asked_c} was asked, {short_delta_c} more.")
    return (
        Finding(
            FindingKind.SHORT_OF_TARGET,
            Severity.FAULT if short_c > limits.short_fault_c else Severity.WATCH,
            max(firing.peak_h - 0.5, 0.0),
            firing.peak_h,
            text,
            figures,
        ),
    )


def _still_climbing_at_end(firing: AlignedFiring) -> bool:
    """Tell whether the record stops while the kiln still climbs, so that the top is unknown."""
    output = firing.log.first(ChannelRole.OUTPUT)
    at_end = firing.peak_h >= firing.log.hours - 0.02
    return at_end and output is None and isinstance(firing.intended, Schedule)


def find_behind_schedule(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Find how far the climbs together fell behind, whether the controller waited or not."""
    late = [s for s in climbs(firing) if s.behind_min is not None]
    running = np.cumsum([s.behind_min or 0.0 for s in late])
    blurred_min = usual_step_min(firing) * (2.0 if top_left_open_c(firing) else 1.0)
    if not late or running.max() - blurred_min < limits.behind_note_min:
        return ()
    total, at_top = float(running.max()), float(running[-1])
    figures: Figures = {"behind_min": total, "at_top_min": at_top, "segments": len(late)}
    text = N_("The kiln was up to {behind_min} behind the schedule.")
    surely = total - blurred_min >= limits.behind_watch_min
    severity = Severity.WATCH if surely else Severity.NOTE
    worst = max(late, key=lambda s: s.behind_min or 0.0)
    return (
        Finding(
            FindingKind.BEHIND_SCHEDULE,
            severity,
            worst.left_line_h or worst.start_h or 0.0,
            late[-1].end_h or firing.peak_h,
            text,
            figures,
        ),
    )


def find_curve_crossings(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Tell when a reading tied to a clock curve went from behind to ahead, and back."""
    texts = {
        "behind at first": N_("The reading was behind the curve from the start."),
        "ahead at first": N_("The reading was ahead of the curve from the start."),
        "ahead": N_("The reading went ahead of the curve at {crossed_h}, at {crossed_at_c}."),
        "behind": N_("The reading fell behind the curve at {crossed_h}, at {crossed_at_c}."),
    }
    found = []
    hours = [h for h, _ in firing.crossings_h] + [firing.peak_h]
    for (hour, word), until_h in zip(firing.crossings_h, hours[1:], strict=True):
        largest_c = _largest_gap(firing, hour, until_h)
        figures: Figures = {
            "crossed_h": hour,
            "crossed_at_c": _reading_at(firing, hour),
            "largest_delta_c": largest_c,
            "word": word,
        }
        first = hour <= firing.start_h + 0.02
        said = f"{word} at first" if first else word
        kind = FindingKind.BEHIND_SCHEDULE if word == "behind" else FindingKind.FAST_CLIMB
        large = abs(largest_c) > limits.fast_above_line_c
        severity = Severity.WATCH if word == "behind" and large else Severity.NOTE
        found.append(Finding(kind, severity, hour, max(until_h, hour), texts[said], figures))
    return tuple(found)


def _largest_gap(firing: AlignedFiring, from_h: float, to_h: float) -> float:
    if firing.line_c is None:
        return 0.0
    inside = (firing.log.elapsed_h >= from_h) & (firing.log.elapsed_h <= to_h)
    gap = (firing.reading_c - firing.line_c)[inside]
    gap = gap[np.isfinite(gap)]
    return float(gap[np.argmax(np.abs(gap))]) if len(gap) else 0.0
