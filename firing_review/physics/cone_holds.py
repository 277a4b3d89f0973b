"""Minutes of hold that finish a cone, and how far such minutes can be trusted."""

import numpy as np

from firing_review.firing.cones import ConeNumber
from firing_review.physics.cone_law import (
    REFERENCE_C_PER_H,
    ConeLaw,
    degrees_per_log_rate,
    end_point_c,
    log_integral,
)

SHORT_HOLD_FACTOR = 1.2
"""Minutes inside what the chart covers: its scatter of 2.2 °C changes them by about a fifth."""
LONG_HOLD_FACTOR = 1.75
"""Longer holds: published rules and the law differ by a factor of 1.5 to 2."""
RED_HOLD_FACTOR = 2.0
"""The same for the red cones 010 to 3, where they differ most."""
RED_CONES = (ConeNumber("010"), ConeNumber("3"))
COVERED_RAMPS = 3.0
"""A 15 °C/h climb, the slowest of the chart, is one of 60 °C/h and a hold worth three more."""


def share_on_climb(law: ConeLaw, to_c: float, rate_c_per_h: float) -> float:
    """Return the share of a cone's work done by a straight climb to a temperature."""
    done = log_integral(to_c, law.e_over_r_k) - log_integral(law.t60_c, law.e_over_r_k)
    return float(np.exp(done) * REFERENCE_C_PER_H / rate_c_per_h)


def hold_to_finish_min(law: ConeLaw, at_c: float, share_done: float) -> float:
    """Return how long a hold at ``at_c`` must last to do the rest of a cone's work [min].

    Negative where more than the work is done already: so much was too much.
    """
    return float((1.0 - share_done) * np.exp(-law.log_share_per_h(at_c)) * 60.0)


def hold_below_min(law: ConeLaw, below_c: float, rate_c_per_h: float) -> float:
    """Return the hold that finishes a cone ``below_c`` under its end point [min].

    60 [I(Te) − I(Te − d)] exp(B / (Te − d)) / rate, after a straight climb at that rate.
    """
    at_c = end_point_c(law, rate_c_per_h) - below_c
    return hold_to_finish_min(law, at_c, share_on_climb(law, at_c, rate_c_per_h))


def hold_between_min(first: ConeLaw, second: ConeLaw, rate_c_per_h: float) -> float:
    """Return how long to hold at the end point of one cone until the next one ends [min]."""
    at_c = end_point_c(first, rate_c_per_h)
    return hold_to_finish_min(second, at_c, share_on_climb(second, at_c, rate_c_per_h))


def hold_factor(law: ConeLaw, minutes: float) -> float:
    """Return the factor within which minutes of hold are known.

    Inside what the chart covers the factor is small; from twice that on it is the full
    disagreement between published rules and this law; in between it grows evenly.
    """
    covered_min = COVERED_RAMPS * degrees_per_log_rate(law)
    red = not law.cone < RED_CONES[0] and not RED_CONES[1] < law.cone
    long = RED_HOLD_FACTOR if red else LONG_HOLD_FACTOR
    beyond = float(np.clip(abs(minutes) / covered_min - 1.0, 0.0, 1.0))
    return SHORT_HOLD_FACTOR + beyond * (long - SHORT_HOLD_FACTOR)


def hold_range_min(law: ConeLaw, minutes: float) -> tuple[float, float]:
    """Return the range in which the true minutes lie; published rules fall inside mostly."""
    factor = hold_factor(law, minutes)
    return minutes / factor, minutes * factor
