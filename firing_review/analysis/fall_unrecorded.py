"""Cooling that was not recorded, reckoned from the climbs: the shape parts load from power.

The climb now is α u A − β D, with A = (climb + fall) / output and D the fall of the earlier
firing: lost power lowers the rate by the same amount everywhere, a load by the same factor, a
leak mostly when hot. Less sharp than a record of the cooling.
"""

from dataclasses import replace

import numpy as np

from firing_review.analysis.climb_and_fall import GRID_C, ClimbAndFall
from firing_review.firing.units import Floats

LEAST_POINTS, LEAST_SPAN_C = 8, 300.0
"""Temperatures, and the stretch they cover, that two unknowns need."""
LOSS_SHARE: tuple[tuple[float, float], ...] = (
    (300.0, 0.09),
    (600.0, 0.23),
    (900.0, 0.39),
    (1000.0, 0.45),
    (1100.0, 0.52),
    (1222.0, 0.60),
    (1285.0, 0.65),
)
"""Share of full power that a usual kiln of 76 mm brick loses when soaked, by temperature [°C]:
computed table of the 184 l reference kiln, loss factor 1.45."""


def with_usual_fall(fired: ClimbAndFall) -> ClimbAndFall:
    """Return a firing with its cooling, or with a usual share of loss if none was recorded."""
    if np.isfinite(fired.down).sum() >= LEAST_POINTS:
        return fired
    return replace(fired, down=_usual_fall(fired))


def with_fitted_fall(now: ClimbAndFall, before: ClimbAndFall) -> ClimbAndFall:
    """Return a firing with the cooling that the shape of its climb stands for."""
    return replace(now, down=before.down * _fitted_ratio(now, before))


def _usual_fall(fired: ClimbAndFall) -> Floats:
    """Return D = share · A, with up = u A − D."""
    at_c, shares = np.array(LOSS_SHARE).T
    share = np.interp(GRID_C, at_c, shares)
    room = fired.output - share
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(room > 0.1, share * fired.up / room, np.nan)


def _fitted_ratio(now: ClimbAndFall, before: ClimbAndFall) -> float:
    """Return β of the climb's shape; 1 where it cannot be fitted."""
    heat = before.power_over_heat
    good = np.isfinite(now.up) & np.isfinite(now.output) & np.isfinite(heat)
    good &= np.isfinite(before.down) & (GRID_C >= 400.0)
    if np.count_nonzero(good) < LEAST_POINTS or np.ptp(GRID_C[good]) < LEAST_SPAN_C:
        return 1.0
    columns = np.column_stack((now.output[good] * heat[good], -before.down[good]))
    _, beta = np.linalg.lstsq(columns, now.up[good], rcond=None)[0]
    return float(np.clip(beta, 0.5, 1.6))
