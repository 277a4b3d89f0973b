"""How far a cone bends for the share of its work that is done.

The law is computed, not published. It reproduces a published split of one bend (15.0 °C from one
to four o'clock, 4.4 °C from four to six) within 20 %, and for cones 5.5 to 10 it makes the whole
bend wider than the published 22 °C: it is to be taken as ±15 to 30 %.
"""

import numpy as np

from firing_review.firing.units import Floats

START_DEG = 8.0
"""Lean of an unmoved cone from the vertical [°], printed with the chart."""
END_POINT_BEND_DEG = 90.0
"""Bend counted from the unmoved position at which the tip is level with the base [°]."""
MOST_BEND_DEG = 130.0
"""A molten cone lies flat; farther down there is nothing to read [°]."""
_LOG_START = float(np.log(np.tan(np.radians(START_DEG / 2.0))))


def bend_deg(share: Floats | float) -> Floats:
    """Return the bend for a share of the work [°]: 0 unmoved, 90 the end point, 130 flat.

    dφ/dW is proportional to sin φ, φ the line from foot to tip against the vertical, from 8° to
    90°: slow at first, fast past the middle. Beyond the end point the law is only continued.
    """
    done = np.maximum(np.asarray(share, dtype=float), 0.0)
    # past exp(700) the cone lies flat whatever the number
    phi = np.degrees(2.0 * np.arctan(np.exp(np.minimum((1.0 - done) * _LOG_START, 700.0))))
    bend = (phi - START_DEG) * END_POINT_BEND_DEG / (END_POINT_BEND_DEG - START_DEG)
    return np.asarray(np.clip(bend, 0.0, MOST_BEND_DEG))


def share_of_work(bend: Floats | float) -> Floats:
    """Return the share of the work that a bend [°] stands for; the inverse of :func:`bend_deg`.

    Closed form: W(φ) = 1 − ln tan(φ/2) / ln tan(4°), with φ = 8 + bend · 82/90.
    """
    lean = END_POINT_BEND_DEG - START_DEG
    phi = START_DEG + np.asarray(bend, dtype=float) * lean / END_POINT_BEND_DEG
    return np.asarray(1.0 - np.log(np.tan(np.radians(phi / 2.0))) / _LOG_START)
