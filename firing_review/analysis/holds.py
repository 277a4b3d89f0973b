"""Holds and tops: overshoot, short and long holds, waves."""

import numpy as np

from firing_review.analysis.rates import running_median
from firing_review.analysis.sparse_rows import step_around_h
from firing_review.analysis.thresholds import Thresholds
from firing_review.firing.aligned import AlignedFiring, Stretch, StretchKind
from firing_review.firing.findings import Finding, FindingKind, Severity
from firing_review.firing.said import N_, Figures
from firing_review.firing.schedule import Schedule


def find_overshoot(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Find readings that passed a target at which the kiln was to hold, turn or end."""
    if not isinstance(firing.intended, Schedule):
        return ()
    found = []
    for number, segment in enumerate(firing.intended.segments, start=1):
        following = firing.intended.segments[number : number + 1]
        goes_on = bool(following) and following[0].target_c > segment.target_c
        place = next((s for s in firing.stretches if s.number == number and s.complete), None)
        if place is None or place.end_h is None or (goes_on and segment.hold_min < 10.0):
            continue
        if goes_on and 60.0 * step_around_h(firing, place.end_h) >= segment.hold_min:
            continue  # the next climb may have begun before the first row past the target
        until_h = _until_h(firing, number, goes_on=goes_on)
        finding = _passed(firing, segment.target_c, place.end_h, until_h, limits)
        if finding is not None:
            found.append(finding)
    return tuple(found)


def _until_h(firing: AlignedFiring, number: int, *, goes_on: bool) -> float:
    hold = next(
        (s for s in firing.stretches if s.number == number and s.kind is StretchKind.HOLD), None
    )
    if goes_on:
        # the last part of the hold band already belongs to the next climb
        length_h = (hold.hold_min or 0.0) / 60.0 if hold else 0.0
        return (hold.start_h or 0.0) + length_h * 0.8 if hold else 0.0
    return firing.log.hours


def _passed(
    firing: AlignedFiring, target_c: float, from_h: float, until_h: float, limits: Thresholds
) -> Finding | None:
    elapsed_h = firing.log.elapsed_h
    steady = running_median(elapsed_h, firing.reading_c, limits.spike_window_min)
    above = (
        (elapsed_h >= from_h) & (elapsed_h <= until_h) & (steady - target_c > limits.overshoot_c)
    )
    if not above.any():
        return None
    by_c = float(np.nanmax(steady[above])) - target_c
    figures: Figures = {"reached_c": target_c + by_c, "asked_c": target_c, "over_delta_c": by_c}
    text = N_("The reading passed the target of {asked_c} by {over_delta_c}.")
    severity = Severity.FAULT if by_c > limits.overshoot_fault_c else Severity.WATCH
    return Finding.over(elapsed_h[above], FindingKind.OVERSHOOT, severity, text, figures)


def find_hold_lengths(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Find holds that were shorter or longer than asked."""
    found = []
    for stretch in firing.stretches:
        if stretch.kind is not StretchKind.HOLD or stretch.planned_hold_min is None:
            continue
        if stretch.hold_min is None:
            continue
        difference = stretch.hold_min - stretch.planned_hold_min
        allowed = max(
            limits.hold_difference_min,
            limits.hold_difference_share * stretch.planned_hold_min,
            _between_rows_min(firing, stretch),
        )
        if abs(difference) > allowed and not _record_ended(firing, stretch):
            found.append(_hold(stretch, difference, limits))
    return tuple(found)


def _between_rows_min(firing: AlignedFiring, stretch: Stretch) -> float:
    """Return how much longer or shorter the hold may have been than its rows show [min]."""
    ends = (stretch.start_h or 0.0, stretch.end_h or 0.0)
    return 60.0 * sum(step_around_h(firing, end) for end in ends)


def _record_ended(firing: AlignedFiring, stretch: Stretch) -> bool:
    return (stretch.end_h or 0.0) >= firing.log.hours - 0.02


def _hold(stretch: Stretch, difference: float, limits: Thresholds) -> Finding:
    kind = FindingKind.LONG_HOLD if difference > 0 else FindingKind.SHORT_HOLD
    text = (
        N_("The hold at {target_c} lasted {got_min}; {asked_min} was asked.")
        if stretch.planned_hold_min
        else N_("The reading stayed at {target_c} for {got_min}; no hold was asked.")
    )
    figures: Figures = {
        "target_c": stretch.planned_target_c,
        "got_min": stretch.hold_min,
        "asked_min": stretch.planned_hold_min,
        "segment": stretch.number,
    }
    hot = (stretch.planned_target_c or 0.0) > 600.0
    fault = hot and abs(difference) > limits.hold_fault_min
    return Finding(
        kind,
        Severity.FAULT if fault else Severity.WATCH,
        stretch.start_h or 0.0,
        stretch.end_h or 0.0,
        text,
        figures,
    )


def find_hunting(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Find regular waves of the reading about a hold."""
    found = []
    for stretch in firing.stretches:
        if stretch.kind is not StretchKind.HOLD or (stretch.hold_min or 0.0) < 12.0:
            continue
        wave = _wave(firing, stretch, limits)
        if wave is not None:
            found.append(wave)
    return tuple(found)


def _wave(firing: AlignedFiring, stretch: Stretch, limits: Thresholds) -> Finding | None:
    elapsed_h = firing.log.elapsed_h
    inside = (elapsed_h >= (stretch.start_h or 0.0)) & (elapsed_h <= (stretch.end_h or 0.0))
    inside &= np.isfinite(firing.reading_c)
    values, hours = firing.reading_c[inside], elapsed_h[inside]
    if len(values) < 12:
        return None
    swing = values - np.median(values)
    size_c = float(np.percentile(np.abs(swing), 90))
    sides = np.sign(np.where(np.abs(swing) > limits.hunting_c / 2.0, swing, 0.0))
    sides = sides[sides != 0]
    waves = float(np.count_nonzero(np.diff(sides))) / 2.0
    if size_c < limits.hunting_c or waves < limits.hunting_waves:
        return None
    figures: Figures = {
        "swing_delta_c": size_c,
        "period_min": float(hours[-1] - hours[0]) * 60.0 / waves,
        "target_c": stretch.planned_target_c or float(np.median(values)),
    }
    text = N_("The reading swung by ±{swing_delta_c} about {target_c}, every {period_min}.")
    return Finding.over(hours, FindingKind.HUNTING, Severity.WATCH, text, figures)
