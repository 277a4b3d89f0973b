"""Lost power, heavier load and more heat loss told apart, each with its range.

Two ratios to an earlier firing are measured: that of (climb + fall) / output, which is p / m, and
that of natural cooling, which is l / m, with p the power, m the heat capacity and l the loss.
Three unknowns stand behind two figures, so what is usual is needed as a third: loads are most
often as usual, walls most often tight, and power does not rise by itself. The range is what
these leave open, not the scatter of the figures alone.
"""

from dataclasses import dataclass

import numpy as np

from firing_review.analysis.climb_and_fall import GRID_C
from firing_review.analysis.rates import robust_slope
from firing_review.firing.units import Floats

NINETY = 1.645
"""Half-width of a 90 % range in standard deviations."""
SUM_SD = 0.01
"""The sum is constant within about 2 % for real wall storage: trial on simulated kilns."""
FALL_SD = 0.016
"""The same for the ratio of coolings."""
SLOPE_SD = 0.08
"""Change of the cooling ratio over 800 °C that walls and unequal sections alone make."""
LEAK_GROWTH = 0.5
"""A leak takes this share more over 800 °C than its mean; more conduction takes it alike."""
LOAD_GROWTH = 0.15
"""Over 800 °C the effect of a load fades by this share, as the wall takes over."""
SAME_LOAD_SD, HEAVIER_SD, LIGHTER_SD = 0.02, 0.35, 0.25
"""Spread of ln(heat capacity): a load as usual, a heavier, a lighter one; practice."""
LIGHTER = 0.3
"""A lighter load as a share of what a heavier one of that size would be likely: people ask about
firings that went slowly; practice, no source."""
SAME_LOAD = 0.6
"""How often the load is as usual; practice, no source."""
TIGHT = 0.8
"""How often the walls are as before; practice, no source."""
BOTH_AT_ONCE = 0.25
"""Another load and a leak in one firing, as a share of what chance alone would give."""
LEAK_SPREAD = 0.35
"""Spread of a leak's share of the loss."""
POWER_STEADY, POWER_SD, POWER_LOSS = 3.0, 0.025, 0.35
"""Unchanged power is this many times likelier than a little less; large losses are rarer than
small ones (falling with this share), and power never grows much."""
MASSES = np.exp(np.linspace(-0.7, 1.1, 361))
LEAKS = np.linspace(0.0, 1.2, 121)
POWERS = np.linspace(0.1, 1.35, 626)


@dataclass(frozen=True)
class Level:
    """A ratio with its standard deviation and the number of temperatures behind it."""

    value: float
    sd: float
    points: int


@dataclass(frozen=True)
class Cooling:
    """The ratio of two coolings: its mean with deviation, and its change over 800 °C."""

    level: Level
    slope: float
    slope_sd: float


@dataclass(frozen=True)
class Share:
    """A ratio to the earlier firing: most likely value and 90 % range."""

    value: float
    low: float
    high: float


@dataclass(frozen=True)
class Shares:
    """Power, heat capacity and loss as ratios to an earlier firing."""

    power: Share
    mass: Share
    loss: Share


def level_of(values: Floats, least: int) -> Level | None:
    """Return the robust mean of ratios over temperature; None with too few."""
    good = values[np.isfinite(values)]
    if len(good) < least:
        return None
    middle = float(np.median(good))
    scatter = 1.4826 * float(np.median(np.abs(good - middle)))
    return Level(middle, scatter, len(good))


def cooling_of(falls: Floats, least: int) -> Cooling | None:
    """Return level and slope of the ratio of two coolings; None with too few temperatures."""
    level = level_of(falls, least)
    if level is None:
        return None
    good = np.isfinite(falls)
    span = float(np.ptp(GRID_C[good]))
    if span < 200.0:
        return Cooling(level, 0.0, 1.0)
    slope = robust_slope(GRID_C[good], falls[good]) * 800.0
    return Cooling(level, slope, SLOPE_SD * 800.0 / span)


def solve_shares(total: Level, cooling: Cooling | None, extra_sd: float = 0.0) -> Shares:
    """Return power, heat capacity and loss with their 90 % ranges.

    Parameters
    ----------
    total : Level
        Ratio of (climb + fall) / output.
    cooling : Cooling or None
        Ratio of the coolings; None if one was not recorded.
    extra_sd : float
        What else may be wrong with the first ratio, as a share.
    """
    weight = _prior()
    if cooling is not None:
        weight = weight * _cooling_fit(cooling)
    sd = np.sqrt((SUM_SD * total.value) ** 2 + _own(total) ** 2 + (extra_sd * total.value) ** 2)
    off = (total.value - POWERS[None, :] / MASSES[:, None]) / sd
    of_power = np.exp(-0.5 * off**2) / MASSES[:, None] * _power_prior()[None, :]
    joint = weight.sum(axis=1)[:, None] * of_power
    return Shares(
        power=_share(POWERS, joint.sum(axis=0)),
        mass=_share(MASSES, joint.sum(axis=1)),
        loss=_share(1.0 + LEAKS, (weight * of_power.sum(axis=1)[:, None]).sum(axis=0)),
    )


def _own(level: Level) -> float:
    """Return what scatter over temperature adds; neighbors are not independent."""
    return level.sd / float(np.sqrt(max(level.points / 3.0, 1.0)))


def _prior() -> Floats:
    """Return how usual each load and leak is, shape (masses, leaks)."""
    log_mass = np.log(MASSES)
    same = np.exp(-0.5 * (log_mass / SAME_LOAD_SD) ** 2) / SAME_LOAD_SD
    spread = np.where(log_mass > 0.0, HEAVIER_SD, LIGHTER_SD)
    other = np.exp(-0.5 * (log_mass / spread) ** 2) / HEAVIER_SD
    other *= np.where(log_mass > 0.0, 1.0, LIGHTER)
    leaky = np.exp(-0.5 * (LEAKS / LEAK_SPREAD) ** 2)
    leaky[0] = 0.0
    leaky *= (1.0 - TIGHT) / leaky.sum()
    tight = np.where(LEAKS == 0.0, TIGHT, 0.0)
    usual = np.outer(SAME_LOAD * same, tight + leaky)
    return np.asarray(usual + np.outer((1.0 - SAME_LOAD) * other, tight + BOTH_AT_ONCE * leaky))


def _power_prior() -> Floats:
    near = POWER_STEADY * np.exp(-0.5 * ((POWERS - 1.0) / POWER_SD) ** 2)
    lost = np.exp((POWERS - 1.0) / POWER_LOSS)
    return np.where(POWERS < 1.0, lost + near, near * (1.0 + 1.0 / POWER_STEADY))


def _cooling_fit(cooling: Cooling) -> Floats:
    """Return how well each load and leak explain the cooling, shape (masses, leaks)."""
    mass, leak = MASSES[:, None], LEAKS[None, :]
    level = (1.0 + leak) / mass
    sd = np.hypot(FALL_SD * cooling.level.value, _own(cooling.level))
    fit = np.exp(-0.5 * ((cooling.level.value - level) / sd) ** 2)
    fading = LOAD_GROWTH * (1.0 - 1.0 / mass)
    shapes = [
        np.exp(-0.5 * ((cooling.slope - growth * leak / mass - fading) / cooling.slope_sd) ** 2)
        for growth in (0.0, LEAK_GROWTH)
    ]
    return np.asarray(fit * 0.5 * (shapes[0] + shapes[1]))


def _share(values: Floats, weight: Floats) -> Share:
    total = np.cumsum(weight)
    if not total[-1] > 0.0:
        return Share(float("nan"), float("nan"), float("nan"))
    low, middle, high = np.interp((0.05, 0.5, 0.95), total / total[-1], values)
    return Share(float(middle), float(low), float(high))
