"""Energy of a firing from its output or current and the kiln sheet, with its range and cost."""

from dataclasses import dataclass

import numpy as np

from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.kiln import Kiln, Supply
from firing_review.firing.log import ChannelRole
from firing_review.firing.sheet import Readings
from firing_review.firing.units import Floats

RATING_SPREAD = 0.08
"""Rated power, supply and wire tolerance together: meters were read this near; practice."""
CURRENT_SPREAD = 0.06
"""Current clamps and a supply that is not logged."""
UNKNOWN_POWER = (0.8, 1.05)
"""Power of a kiln in use as a share of rated power where nothing tells it; practice."""
GAP_H = 0.5
"""A longer hole in the log is not bridged [h]."""


@dataclass(frozen=True)
class EnergyUsed:
    """Electrical energy of a firing [kWh] with its range, and its cost in the tariff's money."""

    kwh: float
    low_kwh: float
    high_kwh: float
    cost: float | None = None


def energy_used(
    firing: AlignedFiring,
    kiln: Kiln | None,
    readings: Readings,
    power: tuple[float, float, float] | None = None,
) -> EnergyUsed | None:
    """Return the energy of a firing; None where neither output nor current can tell.

    Parameters
    ----------
    power : tuple of float, optional
        Power now as a share of rated power: value, low, high.
    """
    if kiln is None:
        return None
    by_amps = _by_current(firing, kiln, readings)
    if by_amps is not None:
        return _with_cost(by_amps, CURRENT_SPREAD, (1.0, 1.0, 1.0), kiln)
    logged = firing.log.first(ChannelRole.OUTPUT)
    rated_kw = kiln.rated_kw or _sum_of_sections(kiln)
    if logged is None or rated_kw is None:
        return None
    full_h = _integral(firing.log.elapsed_h, logged.values / 100.0)
    shares = power or (float(np.mean(UNKNOWN_POWER)), *UNKNOWN_POWER)
    return _with_cost(full_h * rated_kw, RATING_SPREAD, shares, kiln)


def _with_cost(
    kwh: float, spread: float, shares: tuple[float, float, float], kiln: Kiln
) -> EnergyUsed:
    value = kwh * shares[0]
    tariff = kiln.tariff_per_kwh
    return EnergyUsed(
        kwh=value,
        low_kwh=kwh * shares[1] * (1.0 - spread),
        high_kwh=kwh * shares[2] * (1.0 + spread),
        cost=None if tariff is None else value * tariff,
    )


def _sum_of_sections(kiln: Kiln) -> float | None:
    known = [s.rated_kw for s in kiln.sections if s.rated_kw is not None]
    return sum(known) if known and len(known) == len(kiln.sections) else None


def _by_current(firing: AlignedFiring, kiln: Kiln, readings: Readings) -> float | None:
    """Return V ∫ I dt for one phase, all logged currents added [kWh]."""
    volts = readings.volts_full_load or kiln.rated_volts
    currents = [c for c in firing.log.channels if c.role is ChannelRole.AMPS]
    if not currents or volts is None or kiln.supply is not Supply.SINGLE_PHASE:
        return None
    return sum(_integral(firing.log.elapsed_h, c.values) for c in currents) * volts / 1000.0


def _integral(elapsed_h: Floats, values: Floats) -> float:
    """Return ∫ values dt [h], holes longer than half an hour left out."""
    good = np.isfinite(values)
    hours, known = elapsed_h[good], values[good]
    if len(hours) < 2:
        return 0.0
    steps = np.diff(hours)
    means = 0.5 * (known[1:] + known[:-1])
    return float(np.sum(np.where(steps < GAP_H, steps * means, 0.0)))
