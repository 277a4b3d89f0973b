"""Is it a firing at all; a late start; a flat spot where water leaves."""

import numpy as np

from firing_review.analysis.bad_samples import CleanChannel
from firing_review.analysis.rates import lasted_min, long_runs, running_median
from firing_review.analysis.thresholds import Thresholds
from firing_review.firing.aligned import AlignedFiring, StretchKind
from firing_review.firing.findings import Finding, FindingKind, Severity
from firing_review.firing.log import FiringLog
from firing_review.firing.said import N_, Figures

DAMP_FROM_C, DAMP_TO_C = 85.0, 125.0
"""Where water boils out of damp ware, with a probe that leads or lags the ware [°C]."""
HOLD_NEAR_C = 30.0
"""A hold asked this near keeps a climb flat: sections lie apart by as much at first [°C]."""
HOLD_FOUND_SHARE = 0.5
"""A hold found for less of its time was held elsewhere, where sections are averaged."""
HOLD_AT_MOST_SHARE = 1.5
"""A flat spot so much longer than the hold is more than that."""


def find_not_a_firing(
    log: FiringLog, clean: tuple[CleanChannel, ...], limits: Thresholds
) -> Finding | None:
    """Return why a log that reads well holds no firing, or None if it does."""
    if not clean:
        return _no_firing(log, N_("No column of this file is a chamber temperature."), {})
    if log.rows < limits.least_rows:
        return _no_firing(log, N_("Only {rows} rows: no curve can be drawn."), {"rows": log.rows})
    climb_c = 0.0
    for channel in clean:
        climb_c = max(climb_c, _lasting_climb_c(log, channel, limits))
        if climb_c >= limits.least_climb_c:
            return None
    text = N_(
        "The temperature rose by {climb_delta_c}; a firing rises by more than {least_delta_c}."
    )
    return _no_firing(log, text, {"climb_delta_c": climb_c, "least_delta_c": limits.least_climb_c})


def _lasting_climb_c(log: FiringLog, channel: CleanChannel, limits: Thresholds) -> float:
    """Return the largest rise from any reading to a later one, single samples aside [°C]."""
    window = limits.spike_window_min
    values = running_median(log.elapsed_h, channel.values_c, window)
    values = values[np.isfinite(values)]
    if not len(values):
        return 0.0
    return float(np.max(values - np.minimum.accumulate(values)))


def _no_firing(log: FiringLog, text: str, figures: dict[str, float | int | str | None]) -> Finding:
    return Finding(FindingKind.NOT_A_FIRING, Severity.NOTE, 0.0, log.hours, text, figures)


def find_late_start(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Tell that the record begins long before the climb."""
    if firing.start_h < limits.late_start_h:
        return ()
    figures: Figures = {"waited_h": firing.start_h}
    text = N_("The climb began {waited_h} after the record did.")
    return (
        Finding(
            FindingKind.LATE_START,
            Severity.NOTE,
            0.0,
            firing.start_h,
            text,
            figures,
        ),
    )


def find_damp_flat_spot(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Find a climb that lingered near 100 °C although no hold was asked there."""
    elapsed_h = firing.log.elapsed_h
    climbing = np.zeros(len(elapsed_h), dtype=bool)
    for stretch in firing.stretches:
        if stretch.kind is StretchKind.CLIMB and (stretch.planned_rate_c_per_h or 0.0) > 40.0:
            inside = (elapsed_h >= (stretch.start_h or 0.0)) & (
                elapsed_h <= (stretch.end_h or 0.0)
            )
            climbing |= inside
    near = (firing.reading_c > DAMP_FROM_C) & (firing.reading_c < DAMP_TO_C)
    slow = firing.rate_c_per_h < limits.stall_rate_c_per_h
    late = firing.line_c is not None and (
        firing.line_c - firing.reading_c > limits.line_tolerance_c
    )
    spots = long_runs(elapsed_h, climbing & near & slow & late, limits.undemanded_min)
    spots = [(a, b) for a, b in spots if not _is_hold(firing, a, b)]
    if not spots:
        return ()
    a, b = spots[0]
    figures: Figures = {
        "at_c": float(firing.reading_c[a]),
        "lasted_min": lasted_min(elapsed_h[a:b]),
    }
    text = N_("The climb lingered near {at_c} for {lasted_min}, as damp ware makes it.")
    return (
        Finding.over(elapsed_h[a:b], FindingKind.DAMP_FLAT_SPOT, Severity.WATCH, text, figures),
    )


def _is_hold(firing: AlignedFiring, first: int, end: int) -> bool:
    """Tell whether a flat spot is a hold asked near it that was not found elsewhere."""
    at_c, long_min = firing.reading_c[first], lasted_min(firing.log.elapsed_h[first:end])
    for stretch in firing.stretches:
        asked_min = stretch.planned_hold_min or 0.0
        near = abs((stretch.planned_target_c or 0.0) - at_c) < HOLD_NEAR_C
        missing = (stretch.hold_min or 0.0) < HOLD_FOUND_SHARE * asked_min
        as_long = long_min < HOLD_AT_MOST_SHARE * asked_min
        if stretch.kind is StretchKind.HOLD and near and missing and as_long:
            return True
    return False
