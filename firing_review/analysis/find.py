"""All detectors, in the order in which a person would look."""

from firing_review.analysis import (
    beginnings,
    climbs,
    cooling,
    holds,
    power,
    probes,
    sparse_rows,
    typed_schedule,
)
from firing_review.analysis.bad_samples import CleanChannel
from firing_review.analysis.thresholds import Thresholds
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.findings import Finding, Severity

FIRING_DETECTORS = (
    beginnings.find_late_start,
    beginnings.find_damp_flat_spot,
    climbs.find_stall,
    climbs.find_slow_climb,
    climbs.find_fast_climb,
    climbs.find_curve_crossings,
    climbs.find_behind_schedule,
    climbs.find_short_of_target,
    power.find_ended_early,
    power.find_power_gap,
    power.find_heats_without_demand,
    holds.find_overshoot,
    holds.find_hold_lengths,
    holds.find_hunting,
    typed_schedule.find_schedule_differs,
    cooling.find_fast_cooling,
    cooling.find_slow_cooling,
    cooling.find_reheating,
    cooling.find_record_ends_hot,
    sparse_rows.find_rows_far_apart,
)
"""Detectors that look at the aligned firing; each takes it and the thresholds."""

PROBE_DETECTORS = (
    probes.find_probe_dropout,
    probes.find_probe_spike,
    probes.find_probe_jump,
    probes.find_probe_frozen,
    probes.find_probe_dead,
    probes.find_probe_falls,
    probes.find_zone_gap,
)
"""Detectors that look at the single channels as well."""

_ORDER = {Severity.FAULT: 0, Severity.WATCH: 1, Severity.NOTE: 2}


def find_all(
    firing: AlignedFiring, clean: tuple[CleanChannel, ...], limits: Thresholds
) -> tuple[Finding, ...]:
    """Return everything found, the gravest first and then by time."""
    found = [f for detect in FIRING_DETECTORS for f in detect(firing, limits)]
    found += [f for detect in PROBE_DETECTORS for f in detect(firing, clean, limits)]
    return tuple(sorted(found, key=lambda f: (_ORDER[f.severity], f.start_h)))
