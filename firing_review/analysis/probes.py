"""Probes that drop out, jump, freeze, die or fall while the kiln heats; sections that part."""

import numpy as np

from firing_review.analysis.bad_samples import CleanChannel
from firing_review.analysis.rates import (
    lasted_min,
    lasting_from,
    lasting_until,
    local_rate,
    long_runs,
    running_median,
)
from firing_review.analysis.thresholds import Thresholds
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.findings import Finding, FindingKind, Severity
from firing_review.firing.said import N_, Figures
from firing_review.firing.units import Floats

JUMP_TIMES = 5.0
"""A jump is this many times the steps around it; a steep climb is not."""
LEVEL_MIN, LEVEL_ROWS = 3.0, 6
"""How long a reading is looked at before and after a leap [min], and over how many rows at least:
a spike is over within that time."""
WIDEST_PERCENTILE = 98.0
"""The widest gap between sections, single noisy samples left out [%]."""

Clean = tuple[CleanChannel, ...]


def find_probe_dropout(
    firing: AlignedFiring, clean: Clean, limits: Thresholds
) -> tuple[Finding, ...]:
    """Find where a probe gave no reading and then came back."""
    found = []
    for channel in clean:
        last = len(channel.values_c)
        back = [(a, b) for a, b in channel.missing if a > 0 and b < last]
        if back:
            text = N_("{channel}: readings lost, {lost_min} in all (gaps: {count}).")
            found.append(_events(firing, channel, back, FindingKind.PROBE_DROPOUT, text, limits))
    return tuple(found)


def find_probe_spike(
    firing: AlignedFiring, clean: Clean, limits: Thresholds
) -> tuple[Finding, ...]:
    """Find single samples that leave the curve and return."""
    found = []
    for channel in clean:
        if channel.spikes:
            text = N_("{channel}: readings that jump away and back (jumps: {count}).")
            found.append(
                _events(
                    firing, channel, list(channel.spikes), FindingKind.PROBE_SPIKE, text, limits
                )
            )
    return tuple(found)


def _events(
    firing: AlignedFiring,
    channel: CleanChannel,
    events: list[tuple[int, int]],
    kind: FindingKind,
    text: str,
    limits: Thresholds,
) -> Finding:
    elapsed_h = firing.log.elapsed_h
    last = len(elapsed_h) - 1
    lost_min = sum(elapsed_h[min(b, last)] - elapsed_h[a] for a, b in events) * 60.0
    figures: Figures = {
        "channel": channel.channel.title,
        "count": len(events),
        "lost_min": float(lost_min),
        "first_at_c": _near(channel.values_c, events[0][0]),
    }
    many = len(events) >= 10 or lost_min > 2.0 * limits.bridge_min
    few = len(events) < 3 and lost_min < limits.gap_min
    return Finding(
        kind,
        Severity.FAULT if many else Severity.NOTE if few else Severity.WATCH,
        float(elapsed_h[events[0][0]]),
        float(elapsed_h[min(events[-1][1], last)]),
        text,
        figures,
        channel.channel.name,
    )


def _near(values: Floats, index: int) -> float | None:
    before = values[:index]
    good = before[np.isfinite(before)]
    return float(good[-1]) if len(good) else None


def find_probe_jump(
    firing: AlignedFiring, clean: Clean, limits: Thresholds
) -> tuple[Finding, ...]:
    """Find a step of a probe's reading that stayed: moved, or another joint took over."""
    found = []
    elapsed_h = firing.log.elapsed_h
    for channel in clean:
        good = np.flatnonzero(np.isfinite(channel.values_c))
        if len(good) < 10:
            continue
        hours, values = elapsed_h[good], channel.values_c[good]
        step, span_h = np.diff(values), np.diff(hours)
        sudden = (np.abs(step) > limits.jump_c) & (
            np.abs(step) / span_h > limits.jump_rate_c_per_h
        )
        for index in np.flatnonzero(sudden & (span_h < 0.1)):
            if _stays(hours, values, int(index), limits):
                found.append(_jump(channel, hours, values, int(index)))
    return tuple(found[:5])


def _stays(hours: Floats, values: Floats, index: int, limits: Thresholds) -> bool:
    before = values[lasting_until(hours, index, LEVEL_MIN, LEVEL_ROWS)]
    after = values[lasting_from(hours, index + 1, LEVEL_MIN, LEVEL_ROWS)]
    if len(after) < 4 or len(before) < 3:
        return False
    step = float(np.median(after) - np.median(before))
    around = np.abs(np.concatenate((np.diff(before), np.diff(after))))
    alone = abs(values[index + 1] - values[index]) > JUMP_TIMES * float(np.median(around))
    return alone and abs(step) > 0.7 * limits.jump_c


def _jump(channel: CleanChannel, hours: Floats, values: Floats, index: int) -> Finding:
    figures: Figures = {
        "channel": channel.channel.title,
        "from_c": float(values[index]),
        "to_c": float(values[index + 1]),
    }
    text = N_("{channel} stepped from {from_c} to {to_c} at once.")
    shown = hours[lasting_from(hours, index, LEVEL_MIN, LEVEL_ROWS)]
    name = channel.channel.name
    return Finding.over(shown, FindingKind.PROBE_JUMP, Severity.WATCH, text, figures, name)


def find_probe_frozen(
    firing: AlignedFiring, clean: Clean, limits: Thresholds
) -> tuple[Finding, ...]:
    """Find a reading that did not move by one step while the kiln did."""
    found = []
    elapsed_h = firing.log.elapsed_h
    for channel in clean:
        same = np.concatenate(([False], np.diff(channel.channel.values) == 0.0))
        hot = channel.channel.values > firing.reading_c[np.isfinite(firing.reading_c)][0] + 60.0
        for a, b in long_runs(elapsed_h, same & hot, limits.frozen_min):
            if _kiln_moved(firing, channel, a, b, limits):
                figures: Figures = {
                    "channel": channel.channel.title,
                    "at_c": float(channel.channel.values[a]),
                    "lasted_min": lasted_min(elapsed_h[a:b]),
                }
                text = N_("{channel} showed {at_c} without moving for {lasted_min}.")
                found.append(
                    Finding.over(
                        elapsed_h[a:b],
                        FindingKind.PROBE_FROZEN,
                        Severity.FAULT,
                        text,
                        figures,
                        channel.channel.name,
                    )
                )
    return tuple(found)


def _kiln_moved(
    firing: AlignedFiring, channel: CleanChannel, first: int, end: int, limits: Thresholds
) -> bool:
    """Tell whether the true temperature must have moved while the channel stood still."""
    values = channel.channel.values
    elapsed_h = firing.log.elapsed_h
    after = values[lasting_from(elapsed_h, end - 1, LEVEL_MIN, LEVEL_ROWS)][1:]
    after = after[np.isfinite(after)]
    leap = len(after) and abs(float(np.median(after)) - values[end - 1]) > limits.jump_c
    line = firing.line_c[first:end] if firing.line_c is not None else np.array([])
    asked = np.isfinite(line).sum() > 2 and _span(line) > limits.jump_c
    others = [c.values for c in firing.log.temperatures if c.name != channel.channel.name]
    apart = any(_span(other[first:end]) > limits.jump_c for other in others)
    return bool(leap or asked or apart)


def _span(values: Floats) -> float:
    """Return how far readings lie apart; 0 where there are none."""
    known = values[np.isfinite(values)]
    return float(np.ptp(known)) if len(known) else 0.0


def find_probe_dead(
    firing: AlignedFiring, clean: Clean, limits: Thresholds
) -> tuple[Finding, ...]:
    """Find a probe that gave no reading from some time on, until the end."""
    found = []
    elapsed_h = firing.log.elapsed_h
    for channel in clean:
        tail = [(a, b) for a, b in channel.missing if b == len(elapsed_h) and a > 0]
        if not tail or lasted_min(elapsed_h[tail[0][0] :]) < limits.bridge_min:
            continue
        figures: Figures = {
            "channel": channel.channel.title,
            "last_c": _near(channel.values_c, tail[0][0]),
        }
        text = N_("{channel} gave no reading any more after {last_c}.")
        found.append(
            Finding.over(
                elapsed_h[tail[0][0] :],
                FindingKind.PROBE_DEAD,
                Severity.FAULT,
                text,
                figures,
                channel.channel.name,
            )
        )
    return tuple(found)


def find_probe_falls(
    firing: AlignedFiring, clean: Clean, limits: Thresholds
) -> tuple[Finding, ...]:
    """Find a reading that sinks below where it began, as leads that are swapped make it."""
    found = []
    elapsed_h = firing.log.elapsed_h
    for channel in clean:
        values = running_median(elapsed_h, channel.values_c, limits.spike_window_min)
        good = values[np.isfinite(values)]
        if len(good) < 5 or np.nanmin(values) > good[0] - 2.0 * limits.start_climb_c:
            continue
        sinking = (local_rate(elapsed_h, values, limits.rate_window_min) < 0) & (
            values < good[0] - 5
        )
        run = long_runs(elapsed_h, sinking, limits.gap_min)
        if run:
            figures: Figures = {
                "channel": channel.channel.title,
                "lowest_c": float(np.nanmin(values)),
            }
            text = N_("{channel} fell to {lowest_c}, below where it began, while the kiln heated.")
            a, b = run[0]
            found.append(
                Finding.over(
                    elapsed_h[a:b],
                    FindingKind.PROBE_FALLS_WHILE_HEATING,
                    Severity.FAULT,
                    text,
                    figures,
                    channel.channel.name,
                )
            )
    return tuple(found)


_HOTTER = N_(
    "The section {channel} ran {size_delta_c} hotter than the others on average, up to "
    "{widest_delta_c}."
)
_COLDER = N_(
    "The section {channel} ran {size_delta_c} colder than the others on average, up to "
    "{widest_delta_c}."
)
_COLDER_OF_TWO = N_(
    "The section {channel} ran {size_delta_c} colder than {other} on average, up to "
    "{widest_delta_c}."
)


def find_zone_gap(firing: AlignedFiring, clean: Clean, limits: Thresholds) -> tuple[Finding, ...]:
    """Find a section that lay apart from the others for long."""
    if len(clean) < 2:
        return ()
    elapsed_h = firing.log.elapsed_h
    stacked = np.vstack([c.values_c for c in clean])
    middle = _middle(stacked)
    heating = (elapsed_h <= firing.heating_end_h) & (middle > limits.section_gap_from_c)
    found = []
    for place, channel in enumerate(clean):
        apart = np.nan_to_num(stacked[place] - middle)
        wide = np.abs(apart) > limits.section_gap_c
        other = clean[1 - place].channel.title if len(clean) == 2 else ""
        if other:  # of two the colder one is named, by all that lies between them
            wide &= apart < 0.0
        lasting = long_runs(elapsed_h, heating & wide, limits.section_gap_min)
        if lasting:
            found.append(_zone_gap(firing, channel, apart, lasting, limits, other))
    return tuple(found)


def _middle(stacked: Floats) -> Floats:
    """Return the middle of what the sections read at each moment; NaN where none read."""
    known = np.isfinite(stacked).any(axis=0)
    middle = np.full(stacked.shape[1], np.nan)
    middle[known] = np.nanmedian(stacked[:, known], axis=0)
    return middle


def _zone_gap(
    firing: AlignedFiring,
    channel: CleanChannel,
    apart: Floats,
    lasting: list[tuple[int, int]],
    limits: Thresholds,
    other: str,
) -> Finding:
    a, b = max(lasting, key=lambda run: run[1] - run[0])
    by_c = float(np.mean(apart[a:b]))
    whole = 2.0 if other else 1.0  # the middle of two lies half the way between them
    figures: Figures = {
        "channel": channel.channel.title,
        "other": other or None,
        "apart_delta_c": whole * by_c,
        "size_delta_c": whole * abs(by_c),
        "widest_delta_c": whole * float(np.percentile(np.abs(apart[a:b]), WIDEST_PERCENTILE)),
    }
    text = _COLDER_OF_TWO if other else _HOTTER if by_c > 0 else _COLDER
    elapsed_h = firing.log.elapsed_h
    return Finding.over(
        elapsed_h[a:b],
        FindingKind.ZONE_GAP,
        Severity.FAULT if abs(by_c) > limits.section_gap_fault_c else Severity.WATCH,
        text,
        figures,
        channel.channel.name,
    )
