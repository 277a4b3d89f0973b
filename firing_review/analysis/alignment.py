"""A log laid beside its schedule: start, stretches, the line, full output, end of heating."""

from dataclasses import dataclass, replace

import numpy as np

from firing_review.analysis.bad_samples import CleanChannel, bridge, chamber_reading
from firing_review.analysis.matching import Curve, match_schedule
from firing_review.analysis.plan_line import plan_line
from firing_review.analysis.rates import first_lasting, local_rate, long_runs, running_median
from firing_review.analysis.segmenting import Piece, straight_pieces
from firing_review.analysis.thresholds import Thresholds
from firing_review.firing.aligned import AlignedFiring, Stretch, StretchKind
from firing_review.firing.log import Channel, ChannelRole, FiringLog
from firing_review.firing.remembered import remembered
from firing_review.firing.schedule import ClockCurve, Intended, Schedule
from firing_review.firing.units import Floats

SMOOTH_MIN = 5.0
"""Median window that takes coarse steps and noise off before marks are looked for [min]."""
FOUND_RAMP_C = 8.0
"""How far a found ramp may be from a straight line [°C]."""
NEAR_TOP_C = 3.0
"""A reading this near the highest still stands at the top [°C]."""
STILL_AS_ASKED = 0.96
"""Share of the asked rate from which a climb is as asked; the noise of a rate is 3 %."""
HOLD_RATE_C_PER_H = 15.0
"""A found piece flatter than this is a hold [°C/h]."""


def align(
    log: FiringLog,
    clean: tuple[CleanChannel, ...],
    intended: Intended | None,
    limits: Thresholds,
) -> AlignedFiring:
    """Lay a log beside what was intended.

    Parameters
    ----------
    log : FiringLog
        At least three rows with a climb; see :mod:`firing_review.analysis.is_firing`.
    clean : tuple of CleanChannel
        Its temperature channels without bad samples.
    intended : Intended or None
        Schedule, clock curve, or nothing; then ramps and holds are found in the log itself.
    """
    logged = _logged(log, clean, limits)
    reading_c, smooth_c, rate = logged.reading_c, logged.smooth_c, logged.rate_c_per_h
    start, peak = _start_index(log.elapsed_h, smooth_c, limits), int(np.nanargmax(smooth_c))
    start = min(start, peak)
    curve = Curve(log.elapsed_h, smooth_c, _last_near_top(smooth_c, peak))
    stretches = _stretches(curve, intended, start, limits)
    end_h = _heating_end_h(log, curve, stretches, limits)
    plan = _plan(intended, float(smooth_c[start]), float(log.elapsed_h[start]))
    line_c = _line(log.elapsed_h, stretches, plan, intended)
    until_end_c = np.where(log.elapsed_h <= end_h, reading_c, np.nan)
    stretches = tuple(
        _with_left_line(log.elapsed_h, smooth_c, line_c, s, limits) for s in stretches
    )
    return AlignedFiring(
        log=log,
        intended=intended,
        reading_c=reading_c,
        rate_c_per_h=rate,
        line_c=line_c,
        plan_h=plan[0] if plan else None,
        plan_c=plan[1] if plan else None,
        full_output=_full_output(log, smooth_c, rate, line_c, stretches, limits),
        start_h=float(log.elapsed_h[start]),
        heating_end_h=end_h,
        peak_h=float(log.elapsed_h[peak]),
        peak_c=float(smooth_c[peak]),
        stretches=stretches,
        crossings_h=_crossings(log.elapsed_h, until_end_c, line_c, intended, limits),
        curves=logged.curves,
    )


@dataclass(frozen=True, eq=False)
class _Logged:
    """What a log says by itself, whatever was meant."""

    reading_c: Floats
    smooth_c: Floats
    rate_c_per_h: Floats
    curves: tuple[tuple[Channel, Floats], ...]


@remembered
def _logged(log: FiringLog, clean: tuple[CleanChannel, ...], limits: Thresholds) -> _Logged:
    reading_c = chamber_reading(log, clean, limits)
    smooth_c = running_median(log.elapsed_h, reading_c, SMOOTH_MIN)
    return _Logged(
        reading_c,
        bridge(log.elapsed_h, smooth_c, 1e9),
        local_rate(log.elapsed_h, reading_c, limits.rate_window_min),
        tuple((c.channel, bridge(log.elapsed_h, c.values_c, limits.bridge_min)) for c in clean),
    )


def _start_index(elapsed_h: Floats, smooth_c: Floats, limits: Thresholds) -> int:
    """Return where the first lasting climb leaves the resting reading."""
    first = np.flatnonzero(np.isfinite(smooth_c))[0]
    early = elapsed_h <= elapsed_h[first] + 0.25
    rest_c = float(np.nanmin(smooth_c[early])) if early.any() else float(smooth_c[first])
    above = smooth_c >= rest_c + limits.start_climb_c
    climbed = first_lasting(elapsed_h, above, 10.0)
    if climbed is None:
        return int(first)
    resting = np.flatnonzero(smooth_c[: climbed + 1] <= rest_c + 2.0)
    return int(resting[-1]) if len(resting) else int(first)


def _last_near_top(smooth_c: Floats, peak: int) -> int:
    """Return the last sample that still stands at the top."""
    return int(np.flatnonzero(smooth_c >= smooth_c[peak] - NEAR_TOP_C)[-1])


def _stretches(
    curve: Curve, intended: Intended | None, start: int, limits: Thresholds
) -> tuple[Stretch, ...]:
    if isinstance(intended, Schedule):
        return match_schedule(curve, intended, start, limits)
    if isinstance(intended, ClockCurve):
        return ()
    part = slice(start, None)
    pieces = straight_pieces(curve.elapsed_h[part], curve.reading_c[part], FOUND_RAMP_C)
    heating = [p for p in pieces if p.start_h < curve.hours(curve.end_index)]
    return tuple(_found(number, piece) for number, piece in enumerate(heating, start=1))


def _found(number: int, piece: Piece) -> Stretch:
    flat = abs(piece.rate_c_per_h) < HOLD_RATE_C_PER_H
    sloping = StretchKind.CLIMB if piece.rate_c_per_h > 0 else StretchKind.COOL
    return Stretch(
        number=number,
        kind=StretchKind.HOLD if flat else sloping,
        planned_rate_c_per_h=None,
        planned_target_c=None,
        planned_hold_min=None,
        start_h=piece.start_h,
        end_h=piece.end_h,
        start_c=piece.start_c,
        reached_c=piece.end_c,
        rate_c_per_h=None if flat else piece.rate_c_per_h,
        hold_min=(piece.end_h - piece.start_h) * 60.0 if flat else None,
        complete=True,
    )


def _heating_end_h(
    log: FiringLog,
    curve: Curve,
    stretches: tuple[Stretch, ...],
    limits: Thresholds,
) -> float:
    """Return the end of the last lasting demand, or the start of natural cooling [h]."""
    output = log.first(ChannelRole.OUTPUT)
    if output is not None:
        asking = long_runs(log.elapsed_h, output.values > limits.demand_pct, 2.0)
        if asking:
            return float(log.elapsed_h[asking[-1][1] - 1])
    after = [s.end_h for s in stretches if s.complete and s.end_h is not None]
    return max([curve.hours(curve.end_index), *after])


def _plan(
    intended: Intended | None, start_c: float, start_h: float
) -> tuple[Floats, Floats] | None:
    if intended is None:
        return None
    hours, temperatures = plan_line(intended, start_c)
    return hours + start_h, temperatures


def _line(
    elapsed_h: Floats,
    stretches: tuple[Stretch, ...],
    plan: tuple[Floats, Floats] | None,
    intended: Intended | None,
) -> Floats | None:
    """Return what was asked at each sample, each segment begun where the kiln began it [°C]."""
    if plan is None:
        return None
    if isinstance(intended, ClockCurve):
        return np.interp(elapsed_h, plan[0], plan[1], left=np.nan, right=np.nan)
    line = np.full(len(elapsed_h), np.nan)
    for stretch in stretches:
        if stretch.start_h is None or stretch.end_h is None or stretch.planned_target_c is None:
            continue
        inside = (elapsed_h >= stretch.start_h) & (elapsed_h <= stretch.end_h)
        line[inside] = _asked(elapsed_h[inside], stretch)
    return line


def _asked(elapsed_h: Floats, stretch: Stretch) -> Floats:
    target_c, rate = stretch.planned_target_c, stretch.planned_rate_c_per_h
    if target_c is None or stretch.start_h is None or stretch.start_c is None:
        return np.full(len(elapsed_h), np.nan)
    if stretch.kind is StretchKind.HOLD:
        return np.full(len(elapsed_h), target_c)
    if rate is None:
        return np.full(len(elapsed_h), np.nan)
    gone = rate * (elapsed_h - stretch.start_h)
    if stretch.kind is StretchKind.CLIMB:
        return np.minimum(stretch.start_c + gone, target_c)
    return np.maximum(stretch.start_c - gone, target_c)


def _with_left_line(
    elapsed_h: Floats,
    smooth_c: Floats,
    line_c: Floats | None,
    stretch: Stretch,
    limits: Thresholds,
) -> Stretch:
    """Return the stretch with the time at which a climb fell off its line for good."""
    if line_c is None or stretch.kind is not StretchKind.CLIMB or stretch.start_h is None:
        return stretch
    inside = (elapsed_h >= stretch.start_h) & (elapsed_h <= (stretch.end_h or 0.0))
    below = inside & (line_c - smooth_c > limits.line_tolerance_c)
    if not below.any():
        return stretch
    on_line = np.flatnonzero(inside & (line_c - smooth_c <= limits.line_tolerance_c / 4.0))
    before = on_line[on_line < np.flatnonzero(below)[0]]
    left = int(before[-1]) if len(before) else int(np.flatnonzero(inside)[0])
    return replace(stretch, left_line_h=float(elapsed_h[left]))


def _full_output(
    log: FiringLog,
    smooth_c: Floats,
    rate: Floats,
    line_c: Floats | None,
    stretches: tuple[Stretch, ...],
    limits: Thresholds,
) -> np.ndarray:
    """Tell where the kiln ran at full output: logged, or behind and slower than asked.

    A kiln that is late but climbs as asked follows its controller, as after a power cut.
    """
    output = log.first(ChannelRole.OUTPUT)
    if output is not None:
        return np.asarray(output.values >= limits.full_output_pct)
    full = np.zeros(log.rows, dtype=bool)
    for stretch in stretches:
        if stretch.kind is not StretchKind.CLIMB or stretch.start_h is None:
            continue
        inside = (log.elapsed_h >= stretch.start_h) & (log.elapsed_h <= (stretch.end_h or 0.0))
        if stretch.full_rate:
            full |= inside
        elif line_c is not None and stretch.planned_rate_c_per_h:
            behind = line_c - smooth_c > limits.line_tolerance_c
            slower = rate < STILL_AS_ASKED * stretch.planned_rate_c_per_h
            full |= inside & behind & slower & (rate > 0)
    asked = log.first(ChannelRole.SET_POINT)
    if asked is not None:
        full &= asked.values - smooth_c > limits.follow_c
    return full


def _crossings(
    elapsed_h: Floats,
    reading_c: Floats,
    line_c: Floats | None,
    intended: Intended | None,
    limits: Thresholds,
) -> tuple[tuple[float, str], ...]:
    """Return when the reading went ahead of or behind a clock curve, with hysteresis."""
    if line_c is None or not isinstance(intended, ClockCurve):
        return ()
    gap = reading_c - line_c
    crossings: list[tuple[float, str]] = []
    side, last_zero = 0, 0
    for index in np.flatnonzero(np.isfinite(gap)).tolist():
        if index and gap[index] * gap[index - 1] <= 0:
            last_zero = index
        now = int(np.sign(gap[index])) if abs(gap[index]) > limits.reach_tolerance_c else side
        if now != side:
            crossings.append((float(elapsed_h[last_zero]), "ahead" if now > 0 else "behind"))
            side = now
    return tuple(crossings)
