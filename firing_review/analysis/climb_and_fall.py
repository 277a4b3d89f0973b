"""How fast a firing climbed and fell at each temperature, and with how much output."""

from dataclasses import dataclass

import numpy as np

from firing_review.analysis.cooling import find_fast_cooling
from firing_review.analysis.rates import local_rate
from firing_review.analysis.segmenting import straight_pieces
from firing_review.analysis.thresholds import DEFAULTS
from firing_review.firing.aligned import AlignedFiring, StretchKind
from firing_review.firing.log import ChannelRole
from firing_review.firing.remembered import remembered
from firing_review.firing.units import Floats

GRID_C = np.arange(300.0, 1320.0, 25.0)
"""Temperatures at which firings are compared [°C]; below about 300 °C the load lags."""
WINDOW_MIN = 30.0
"""Window of a rate [min]: at 60 °C/h it spans 30 °C, against steps of 1 °C."""
FALL_SKIP_C = 110.0
"""The wall gives heat back over the first 90 to 130 °C of cooling [°C]."""
SETTLING_H = 0.35
"""After a bend of the climb the wall needs this long to follow [h]."""
FULL_DROP = 1.5
"""At full output the climb slows at least by this factor from 400 °C to the top."""
FULL_STRAIGHT = 0.4
"""At full output no straight piece covers more than this share of the climb."""
LEAST_OUTPUT = 0.15
"""Below this share of output the sum over output is mostly noise."""


@dataclass(frozen=True, eq=False)
class ClimbAndFall:
    """Rates at each temperature of ``GRID_C`` [°C/h]; NaN where a firing does not tell.

    Attributes
    ----------
    up, down : array
        Rate of climb, and magnitude of the rate of natural cooling.
    output : array
        Share of full output during that climb, 0 to 1.
    output_known : bool
        Whether the output was logged; otherwise it is 1 where the kiln was at full output.
    up_at_any_output : array
        Rate of climb whatever the output was: a bound.
    """

    up: Floats
    down: Floats
    output: Floats
    output_known: bool
    up_at_any_output: Floats

    @property
    def power_over_heat(self) -> Floats:
        """Full power over heat capacity, (up + down) / output [°C/h]: free of losses."""
        return (self.up + self.down) / self.output

    @property
    def least_power_over_heat(self) -> Floats:
        """What full power over heat capacity must at least have been [°C/h]."""
        return self.up_at_any_output + self.down


def climb_and_fall(firing: AlignedFiring, reading_c: Floats | None = None) -> ClimbAndFall:
    """Return the rates of a firing over temperature.

    Parameters
    ----------
    reading_c : array, optional
        One section's reading in place of the firing's own.
    """
    return _whole(firing) if reading_c is None else _rates(firing, reading_c)


@remembered
def _whole(firing: AlignedFiring) -> ClimbAndFall:
    """Return the rates of the firing's own reading."""
    return _rates(firing, firing.reading_c)


def _rates(firing: AlignedFiring, values: Floats) -> ClimbAndFall:
    rate = local_rate(firing.log.elapsed_h, values, WINDOW_MIN)
    output, known = _output(firing)
    any_climb = _settled_climb(firing) & (rate > 0)
    climbing = any_climb & np.isfinite(output)
    falling = _free_fall(firing, values)
    return ClimbAndFall(
        up=at_grid(values, rate, climbing),
        down=at_grid(values, -rate, falling),
        output=at_grid(values, output, climbing),
        output_known=known,
        up_at_any_output=at_grid(values, rate, any_climb),
    )


def _output(firing: AlignedFiring) -> tuple[Floats, bool]:
    """Return the share of output at each sample; without a record only where it was full."""
    logged = firing.log.first(ChannelRole.OUTPUT)
    if logged is not None:
        share = _mean_over_window(firing.log.elapsed_h, logged.values / 100.0)
        return np.where(share > LEAST_OUTPUT, share, np.nan), True
    full = firing.full_output.copy()
    if looks_like_full_output(firing):
        full |= firing.log.elapsed_h <= firing.heating_end_h
    return np.where(full, 1.0, np.nan), False


def _mean_over_window(elapsed_h: Floats, values: Floats) -> Floats:
    half_h = WINDOW_MIN / 120.0
    first = np.searchsorted(elapsed_h, elapsed_h - half_h, side="left")
    last = np.searchsorted(elapsed_h, elapsed_h + half_h, side="right")
    good = np.isfinite(values)
    total = np.concatenate(([0.0], np.cumsum(np.where(good, values, 0.0))))
    count = np.concatenate(([0], np.cumsum(good)))
    number = count[last] - count[first]
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.asarray((total[last] - total[first]) / number)


def _settled_climb(firing: AlignedFiring) -> np.ndarray:
    """Tell where the kiln climbs and no bend of its climb is near."""
    elapsed_h = firing.log.elapsed_h
    heating = (elapsed_h > firing.start_h) & (
        elapsed_h < firing.heating_end_h - WINDOW_MIN / 120.0
    )
    bends = [s.start_h for s in firing.stretches if s.start_h is not None]
    bends += [s.end_h for s in firing.stretches if s.kind is StretchKind.HOLD and s.end_h]
    if firing.intended is None:
        return np.asarray(heating)
    for bend_h in bends:
        heating &= (elapsed_h < bend_h - WINDOW_MIN / 120.0) | (elapsed_h > bend_h + SETTLING_H)
    return np.asarray(heating)


def _free_fall(firing: AlignedFiring, values: Floats) -> np.ndarray:
    """Tell where the closed kiln cools by itself, the first part left out."""
    elapsed_h = firing.log.elapsed_h
    top_c = np.nanmax(values[elapsed_h <= firing.heating_end_h + 0.1], initial=0.0)
    opened = find_fast_cooling(firing, DEFAULTS)
    until_h = opened[0].start_h if opened else np.inf
    free = (elapsed_h > firing.heating_end_h + 0.2) & (elapsed_h < until_h)
    return np.asarray(free & (values < top_c - FALL_SKIP_C))


def at_grid(values: Floats, quantity: Floats, where: np.ndarray) -> Floats:
    """Return the mean of a quantity over the samples near each grid temperature."""
    good = where & np.isfinite(values) & np.isfinite(quantity)
    step = GRID_C[1] - GRID_C[0]
    index = np.round((values[good] - GRID_C[0]) / step).astype(int)
    inside = (index >= 0) & (index < len(GRID_C))
    count = np.bincount(index[inside], minlength=len(GRID_C))
    total = np.bincount(index[inside], weights=quantity[good][inside], minlength=len(GRID_C))
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(count > 0, total / count, np.nan)


def looks_like_full_output(firing: AlignedFiring) -> bool:
    """Tell whether a climb was at full output throughout: one curve that flattens all the way.

    A controlled ramp is straight; a kiln left to itself climbs ever more slowly.
    """
    elapsed_h = firing.log.elapsed_h
    climb = (elapsed_h >= firing.start_h) & (elapsed_h <= firing.peak_h)
    climb &= firing.reading_c > GRID_C[0] - 100.0
    if np.count_nonzero(climb) < 20 or firing.peak_c < 700.0:
        return False
    rate = local_rate(elapsed_h, firing.reading_c, WINDOW_MIN)
    up = at_grid(firing.reading_c, rate, climb)
    up = up[np.isfinite(up)][::3]
    falls = len(up) > 4 and np.mean(np.diff(up) < 0.0) > 0.8 and up[0] > FULL_DROP * up[-2]
    pieces = straight_pieces(elapsed_h[climb], firing.reading_c[climb], 4.0)
    whole_h = pieces[-1].end_h - pieces[0].start_h if pieces else 1.0
    longest_h = max((p.end_h - p.start_h for p in pieces), default=whole_h)
    return bool(falls and longest_h < FULL_STRAIGHT * whole_h)
