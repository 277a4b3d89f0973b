"""Cooling that was faster or slower than a closed kiln cools, warming again, and an early end."""

import numpy as np

from firing_review.analysis.power import free_cooling
from firing_review.analysis.rates import lasted_min, lasting_from, local_rate, long_runs
from firing_review.analysis.thresholds import Thresholds
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.findings import Finding, FindingKind, Severity
from firing_review.firing.remembered import remembered
from firing_review.firing.said import N_, Figures


@remembered
def find_fast_cooling(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Find where cooling sped up: a closed kiln only ever cools more slowly as it cools."""
    elapsed_h = firing.log.elapsed_h
    free = (elapsed_h > firing.heating_end_h + 0.3) & np.isfinite(firing.reading_c)
    free &= firing.reading_c < firing.peak_c - limits.cooling_skip_c
    hours, reading = elapsed_h[free], firing.reading_c[free]
    if len(hours) < 12:
        return ()
    fall = -local_rate(hours, reading, limits.opened_window_min)
    usual = -local_rate(hours, reading, 6.0 * limits.opened_window_min)
    an_hour_before = np.interp(hours - 0.6, hours, usual)
    sped_up = (fall > limits.opened_share * an_hour_before) & (fall > 60.0)
    sped_up &= (hours > hours[0] + 0.6) & (an_hour_before > 0)
    found = long_runs(hours, sped_up, limits.opened_window_min / 2.0)
    return (_fast(hours, reading, fall, an_hour_before, found[0]),) if found else ()


def _fast(
    hours: np.ndarray,
    reading: np.ndarray,
    fall: np.ndarray,
    usual: np.ndarray,
    run: tuple[int, int],
) -> Finding:
    a, b = run
    figures: Figures = {
        "from_c": float(reading[a]),
        "fall_c_per_h": float(np.nanmax(fall[a:b])),
        "before_c_per_h": float(usual[a]),
    }
    text = N_("From {from_c} the kiln cooled {fall_c_per_h}, after {before_c_per_h} before.")
    severity = Severity.FAULT if reading[a] > 200.0 else Severity.WATCH
    shown = lasting_from(hours, a, 2.0 * lasted_min(hours[a:b]), b - a + 3)
    return Finding.over(hours[shown], FindingKind.FAST_COOLING, severity, text, figures)


def find_slow_cooling(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Find cooling that runs out long before the room's temperature."""
    free = free_cooling(firing, limits)
    if free is None or free.early <= 0:
        return ()
    slow = long_runs(free.hours, free.slowed_to(limits.slow_cooling_share), 30.0)
    if not slow:
        return ()
    a, b = slow[0]
    figures: Figures = {
        "from_c": float(free.reading_c[a]),
        "share_pct": 100.0 * float(np.nanmedian(free.per_hour[a:b])) / free.early,
        "left_at_c": float(free.reading_c[-1]),
    }
    text = N_("Below {from_c} the kiln hardly cooled; it still stood at {left_at_c} at the end.")
    return (
        Finding.over(free.hours[a:b], FindingKind.SLOW_COOLING, Severity.WATCH, text, figures),
    )


def find_reheating(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Find a rise of the reading while the kiln should only cool."""
    elapsed_h = firing.log.elapsed_h
    rate = local_rate(elapsed_h, firing.reading_c, limits.rate_window_min)
    rising = (elapsed_h > firing.heating_end_h + 0.3) & (rate > limits.stall_rate_c_per_h)
    found = []
    for a, b in long_runs(elapsed_h, rising, limits.gap_min):
        rise_c = float(firing.reading_c[b - 1] - firing.reading_c[a])
        if rise_c > limits.undemanded_climb_c:
            figures: Figures = {"from_c": float(firing.reading_c[a]), "rise_delta_c": rise_c}
            text = N_("While cooling, the reading rose again by {rise_delta_c} from {from_c}.")
            found.append(
                Finding.over(elapsed_h[a:b], FindingKind.REHEATING, Severity.WATCH, text, figures)
            )
    return tuple(found)


def find_record_ends_hot(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Tell that the record stops before the kiln was cool, so that cooling cannot be judged."""
    good = firing.reading_c[np.isfinite(firing.reading_c)]
    if not len(good) or good[-1] < limits.ends_hot_c:
        return ()
    figures: Figures = {"last_c": float(good[-1])}
    text = N_("The record ends at {last_c}; what happened after it cannot be told.")
    hours = firing.log.hours
    return (
        Finding(
            FindingKind.RECORD_ENDS_HOT,
            Severity.NOTE,
            max(hours - 0.1, 0.0),
            hours,
            text,
            figures,
        ),
    )
