"""Life of heating elements counted in heat: hours at the top, not firings.

A convention, not a law: one wear hour is one hour at a chamber of 1200 °C, and each 50 °C less
halve it. Oxidation of heating wire is thermally activated, and reports of life (120 to 200 firings
to cone 6, years at cone 04) are of that order; no published figure was found for kilns.
"""

import numpy as np

from firing_review.firing.units import Floats

WEAR_AT_C = 1200.0
"""Chamber temperature at which an hour counts as one [°C]."""
HALVES_EACH_C = 50.0
"""Cooler by this much, wear is half as fast [°C]; convention."""


def wear_hours(elapsed_h: Floats, reading_c: Floats) -> float:
    """Return the wear of a firing [h at 1200 °C], ∫ 2^((T − 1200) / 50) dt.

    Parameters
    ----------
    elapsed_h, reading_c : array, shape (rows,)
        Time [h] and reading [°C]; gaps are bridged by straight lines.
    """
    good = np.isfinite(reading_c)
    if np.count_nonzero(good) < 2:
        return 0.0
    speed = np.exp2((reading_c[good] - WEAR_AT_C) / HALVES_EACH_C)
    return float(np.trapezoid(speed, elapsed_h[good]))
