"""Power that failed, ended too soon, or did not stop: gaps, early ends, heat without demand."""

from dataclasses import dataclass

import numpy as np

from firing_review.analysis.rates import lasted_min, lasting_from, local_rate, long_runs
from firing_review.analysis.sparse_rows import top_left_open_c
from firing_review.analysis.thresholds import Thresholds
from firing_review.firing.aligned import AlignedFiring, StretchKind
from firing_review.firing.findings import Finding, FindingKind, Severity
from firing_review.firing.log import ChannelRole
from firing_review.firing.said import N_, Figures
from firing_review.firing.schedule import ClockCurve, Schedule
from firing_review.firing.units import Floats

KINK_WINDOW_MIN = 12.0
"""Window in which a climb that turns into cooling is looked at [min]."""
AGAIN_WITHIN = 4.0
"""Times its own length after which a gap without another climb is an end."""
STUCK_SHARE = 0.2
"""Share of the cooling of the first hour, by warmth above the room, below which heat was left on:
practice."""
SETTLES_BELOW_C, SETTLES_BY_C = 250.0, 30.0
"""A kiln shoots over a target, the low ones above all, and falls back by a few tens of degrees;
where no target is known only a fall that begins low is taken for it [°C]."""


def find_power_gap(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Find where the kiln cooled in the middle of its heating and then climbed again."""
    elapsed_h = firing.log.elapsed_h
    rate = local_rate(elapsed_h, firing.reading_c, KINK_WINDOW_MIN)
    falling = (rate < -limits.stall_rate_c_per_h) & (elapsed_h < firing.heating_end_h)
    falling &= (elapsed_h > firing.start_h) & ~_planned_fall(firing)
    found = []
    for a, b in long_runs(elapsed_h, falling, limits.gap_min):
        fell_c = float(np.nanmax(firing.reading_c[a:b]) - np.nanmin(firing.reading_c[a:b]))
        soon_min = AGAIN_WITHIN * lasted_min(elapsed_h[a:b])
        later = firing.reading_c[lasting_from(elapsed_h, b - 1, soon_min, 4)][1:]
        again = len(later) > 0 and np.nanmax(later, initial=-1e9) > firing.reading_c[b - 1] + 3.0
        if fell_c > limits.gap_fall_c and again and _unasked(firing, a, b, limits):
            found.append(_gap(firing, a, b, fell_c))
    return (*found, *_frozen_demand(firing, limits))


def _unasked(firing: AlignedFiring, first: int, end: int, limits: Thresholds) -> bool:
    """Tell a kiln without power from one that settles on its target: all of it falls below."""
    if any(values[end - 1] > values[first] for _, values in firing.curves):
        return False
    asked = firing.log.first(ChannelRole.SET_POINT)
    if asked is None:
        return not _settles(firing, first, end, limits)
    below_c = asked.values[first:end] - firing.reading_c[first:end]
    return bool(np.nanmax(below_c, initial=-np.inf) > limits.line_tolerance_c)


def _settles(firing: AlignedFiring, first: int, end: int, limits: Thresholds) -> bool:
    """Tell whether the kiln came down onto a target; at a low one where none are known."""
    from_c, to_c = firing.reading_c[first], firing.reading_c[end - 1]
    if firing.intended is None:
        return bool(from_c <= SETTLES_BELOW_C and from_c - to_c <= SETTLES_BY_C)
    targets_c = [s.planned_target_c for s in firing.stretches if s.planned_target_c is not None]
    return any(
        from_c <= target_c + SETTLES_BY_C and to_c >= target_c - limits.line_tolerance_c
        for target_c in targets_c
    )


def _planned_fall(firing: AlignedFiring) -> np.ndarray:
    planned = np.zeros(firing.log.rows, dtype=bool)
    for stretch in firing.stretches:
        if stretch.kind is StretchKind.COOL and stretch.start_h is not None:
            planned |= (firing.log.elapsed_h >= stretch.start_h - 0.05) & (
                firing.log.elapsed_h <= (stretch.end_h or 0.0) + 0.05
            )
    return planned


def _gap(firing: AlignedFiring, first: int, end: int, fell_c: float) -> Finding:
    elapsed_h = firing.log.elapsed_h
    figures: Figures = {
        "from_c": float(firing.reading_c[first]),
        "to_c": float(firing.reading_c[end - 1]),
        "fell_delta_c": fell_c,
        "lasted_min": lasted_min(elapsed_h[first:end]),
    }
    text = N_("The kiln cooled from {from_c} to {to_c} for {lasted_min}, then heated again.")
    return Finding.over(elapsed_h[first:end], FindingKind.POWER_GAP, Severity.FAULT, text, figures)


def _frozen_demand(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Find a set point that still asks for heat while the kiln only cools, until the end."""
    asked = firing.log.first(ChannelRole.SET_POINT)
    if asked is None:
        return ()
    elapsed_h = firing.log.elapsed_h
    after = elapsed_h > firing.peak_h
    wanting = after & (asked.values > firing.reading_c + limits.gap_fall_c)
    wanting &= (firing.rate_c_per_h < -limits.stall_rate_c_per_h) & (asked.values > 100.0)
    runs = long_runs(elapsed_h, wanting, 2.0 * limits.gap_min)
    return tuple(_unanswered(firing, a, b) for a, b in runs[:1])


def _unanswered(firing: AlignedFiring, first: int, end: int) -> Finding:
    elapsed_h = firing.log.elapsed_h
    asked = firing.log.first(ChannelRole.SET_POINT)
    figures: Figures = {
        "asked_c": float(asked.values[first]) if asked else None,
        "from_c": float(firing.reading_c[first]),
        "lasted_min": lasted_min(elapsed_h[first:end]),
    }
    text = N_("From {from_c} the kiln only cooled while the set point still asked for {asked_c}.")
    return Finding.over(elapsed_h[first:end], FindingKind.POWER_GAP, Severity.FAULT, text, figures)


def find_ended_early(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Find that heating stopped while the kiln was still climbing well, short of its top."""
    if firing.intended is None or not _cools_after(firing):
        return ()
    if isinstance(firing.intended, ClockCurve):
        return _before_curve_ends(firing, limits)
    short_c = firing.intended.top_c - firing.peak_c
    elapsed_h = firing.log.elapsed_h
    before = (elapsed_h >= firing.peak_h - 0.4) & (elapsed_h <= firing.peak_h - 0.05)
    rates = firing.rate_c_per_h[before & np.isfinite(firing.rate_c_per_h)]
    climb = float(np.median(rates)) if len(rates) else 0.0
    short_for_sure_c = short_c - top_left_open_c(firing)
    if short_for_sure_c <= limits.short_c or climb < limits.stall_rate_c_per_h:
        return ()
    figures: Figures = {
        "reached_c": firing.peak_c,
        "asked_c": firing.intended.top_c,
        "short_delta_c": short_c,
        "climb_c_per_h": climb,
    }
    text = N_(
        "Heating ended at {reached_c} while the kiln still climbed {climb_c_per_h}; "
        "{asked_c} was asked."
    )
    severity = Severity.FAULT if short_c > limits.short_fault_c else Severity.WATCH
    return (
        Finding(
            FindingKind.ENDED_EARLY,
            severity,
            firing.peak_h,
            min(firing.peak_h + 0.5, firing.log.hours),
            text,
            figures,
        ),
    )


def _before_curve_ends(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Tell that heating stopped before the end of a curve tied to the clock."""
    curve_end_h = float(firing.plan_h[-1]) if firing.plan_h is not None else 0.0
    if firing.heating_end_h > curve_end_h - limits.behind_note_min / 60.0:
        return ()
    figures: Figures = {
        "reached_c": firing.peak_c,
        "ended_h": firing.heating_end_h,
        "curve_h": curve_end_h,
    }
    text = N_("Heating ended after {ended_h} at {reached_c}; the curve goes on to {curve_h}.")
    end_h = min(firing.heating_end_h + 0.2, firing.log.hours)
    return (
        Finding(
            FindingKind.ENDED_EARLY, Severity.WATCH, firing.heating_end_h, end_h, text, figures
        ),
    )


def _cools_after(firing: AlignedFiring) -> bool:
    """Tell whether the record shows the kiln cooling after its highest reading."""
    after = firing.reading_c[firing.log.elapsed_h > firing.peak_h + 0.05]
    return bool(len(after) and np.nanmin(after, initial=1e9) < firing.peak_c - 20.0)


def find_heats_without_demand(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Find heat that nobody asked for: output at zero, or the firing over, and no cooling."""
    return (*_with_output(firing, limits), *_after_end(firing, limits))


def _with_output(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    output = firing.log.first(ChannelRole.OUTPUT)
    if output is None:
        return ()
    elapsed_h = firing.log.elapsed_h
    rate = local_rate(elapsed_h, firing.reading_c, KINK_WINDOW_MIN)
    rising = (output.values < limits.demand_pct) & (rate > limits.stall_rate_c_per_h / 2.0)
    rising &= firing.reading_c > limits.section_gap_from_c / 2.0
    found = []
    for a, b in long_runs(elapsed_h, rising, limits.undemanded_min):
        if firing.reading_c[b - 1] - firing.reading_c[a] > limits.undemanded_climb_c:
            found.append(_undemanded(firing, a, b))
    return tuple(found)


def _after_end(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Compare the cooling constant along the way: heat left on makes it run out early."""
    free = free_cooling(firing, limits)
    if free is None:
        return ()
    stuck = free.slowed_to(STUCK_SHARE)
    held = long_runs(free.hours, stuck, 4.0 * limits.undemanded_min)
    if not held:
        return ()
    offset = int(np.searchsorted(firing.log.elapsed_h, free.hours[held[0][0]]))
    end = int(np.searchsorted(firing.log.elapsed_h, free.hours[held[-1][1] - 1]))
    return (_undemanded(firing, offset, end + 1),)


@dataclass(frozen=True)
class FreeCooling:
    """A kiln left to cool.

    Attributes
    ----------
    hours, reading_c : array
        Its samples [h, °C].
    per_hour : array
        Rate of cooling over the warmth above the room [1/h].
    early : float
        The same in the first hour [1/h].
    warm : array
        Where the kiln was still so warm above the room that its rate can be told.
    """

    hours: Floats
    reading_c: Floats
    per_hour: Floats
    early: float
    warm: np.ndarray

    def slowed_to(self, share: float) -> np.ndarray:
        """Return where the warm kiln cooled by less than a share of its rate in the first hour."""
        return np.asarray(self.warm & (self.per_hour < share * self.early))


def free_cooling(firing: AlignedFiring, limits: Thresholds) -> FreeCooling | None:
    """Return the free cooling after the firing.

    None if the record holds no free cooling, or the rate of its first hour cannot be told, or
    the schedule asks for a controlled one.
    """
    planned_cool = isinstance(firing.intended, Schedule) and any(
        s.kind is StretchKind.COOL for s in firing.stretches
    )
    if planned_cool:
        return None
    elapsed_h = firing.log.elapsed_h
    free = (elapsed_h > firing.heating_end_h) & np.isfinite(firing.reading_c)
    free &= firing.reading_c < firing.peak_c - limits.cooling_skip_c
    if np.count_nonzero(free) < 10 or np.ptp(elapsed_h[free]) < 1.0:
        return None
    rate = local_rate(elapsed_h[free], firing.reading_c[free], 2.0 * limits.rate_window_min)
    room_c = min(float(np.nanmin(firing.reading_c)), 40.0)
    reading_c, hours = firing.reading_c[free], elapsed_h[free]
    per_hour = -rate / np.maximum(reading_c - room_c, 20.0)
    first_hour = per_hour[hours <= hours[0] + 1.0]
    if not np.isfinite(first_hour).any():
        return None
    early = float(np.nanmedian(first_hour))
    return FreeCooling(
        hours, reading_c, per_hour, early, reading_c > room_c + limits.warm_above_room_c
    )


def _undemanded(firing: AlignedFiring, first: int, end: int) -> Finding:
    elapsed_h = firing.log.elapsed_h
    figures: Figures = {
        "at_c": float(firing.reading_c[first]),
        "to_c": float(firing.reading_c[end - 1]),
        "lasted_min": lasted_min(elapsed_h[first:end]),
    }
    text = N_("The kiln stayed hot with no heat asked for: {at_c} to {to_c} over {lasted_min}.")
    return Finding.over(
        elapsed_h[first:end], FindingKind.HEATS_WITHOUT_DEMAND, Severity.FAULT, text, figures
    )
