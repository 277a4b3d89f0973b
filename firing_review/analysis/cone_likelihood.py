"""What one witness cone says of the heat at its place, as a likelihood over shifts of the log.

For every shift of the logged curve the law gives a bend; how likely it is to read the bend that
was read, given the errors of reading, of the cone and of the bend law, is the cone's word. A
bent cone gives a value, an upright or a flat one only a bound.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from firing_review.firing.cones import ConeKind, ShelfCone
from firing_review.firing.units import Floats
from firing_review.physics.bend_law import END_POINT_BEND_DEG, MOST_BEND_DEG, bend_deg
from firing_review.physics.cone_law import ConeLaw
from firing_review.physics.cones import Dwell, log_work_done

GRID_C: Floats = np.arange(-260.0, 260.5, 1.0)
"""Shifts that are tried [°C]; a shelf without power can lie 200 °C below."""
FLAT_FROM_DEG = 110.0
"""From here on a cone no longer measures [°]."""
UPRIGHT_TO_DEG = 5.0
"""Up to here a cone may not have moved at all [°]: the usual error of reading."""
UPRIGHT_ERROR_DEG = 2.5
"""Whether a cone moved at all is seen more sharply than how far it bent [°]."""
FLAT_ERROR_DEG = 10.0
"""Beyond the end point the bend law is only continued, and a cone sinks within minutes [°]."""
SHARPER_BELOW_DEG = 20.0
"""Below this bend the reading error shrinks towards that of an upright cone [°]."""
PAST_END_ERROR = 0.5
"""Beyond the end point this share of the further bend is added to the reading error."""

CONE_SCATTER_C = 2.0
"""Cones of one number differ by about this much, one standard deviation [°C]; the misfit of the
law to the chart (2.2 °C a value) is of the same size and holds the same scatter."""
BEND_LAW_SD = 0.2
"""The bend law is known to 15 to 30 % of the degrees between start and end point."""
LARGE_OFFSET_C = -2.2
"""A large cone ends this much below a self-supporting one: median of the chart [°C]."""
SMALL_OFFSET_C = 0.0
"""For small cones on a shelf the published statements differ in sign by 10 °C either way [°C]."""
KIND_ERROR_C = {ConeKind.SELF_SUPPORTING: 0.0, ConeKind.LARGE: 2.0, ConeKind.SMALL: 10.0}
"""What the make of cone adds to the uncertainty, one standard deviation [°C]."""
KIND_OFFSET_C = {
    ConeKind.SELF_SUPPORTING: 0.0,
    ConeKind.LARGE: LARGE_OFFSET_C,
    ConeKind.SMALL: SMALL_OFFSET_C,
}
MISREAD_SHARE = 0.01
"""One cone in about a hundred is misread, in a draft, or of another number than noted."""
MISREAD_DENSITY = 1.0 / MOST_BEND_DEG
MISREAD_BOUND = 0.2
"""Share of misread cones that would be noted as flat (or as upright)."""

LAW_SCALES: Floats = 1.0 + BEND_LAW_SD * np.array([-2.857, -1.356, 0.0, 1.356, 2.857])
"""Widths of the bend that are tried (points of Gauss and Hermite for a normal spread)."""
LAW_WEIGHTS: Floats = np.array([0.01126, 0.22208, 0.53333, 0.22208, 0.01126])


@dataclass(frozen=True, eq=False)
class ConeSays:
    """What one cone says of the shift.

    Attributes
    ----------
    likelihood : array, shape (widths of the bend law, shifts)
        Over ``LAW_SCALES`` and ``GRID_C``.
    """

    cone: ShelfCone
    likelihood: Floats

    @property
    def best_c(self) -> float:
        """The shift the cone fits best; the end of the grid for a bound [°C]."""
        row = self.likelihood[len(LAW_SCALES) // 2]
        edge = len(row) - 1 if self.cone.bend_deg >= FLAT_FROM_DEG else 0
        bound = not UPRIGHT_TO_DEG < self.cone.bend_deg < FLAT_FROM_DEG
        return float(GRID_C[edge if bound else int(np.argmax(row))])


def cone_says(cone: ShelfCone, law: ConeLaw, dwell: Dwell) -> ConeSays:
    """Return the likelihood of the bend as read, for every shift and width of the bend law."""
    log_work = log_work_done(dwell, law, GRID_C - KIND_OFFSET_C[cone.kind])
    expected = bend_deg(np.exp(log_work[None, :] / LAW_SCALES[:, None]))
    by_cone = [smeared(row, _own_error_c(cone.kind)) for row in _reading(cone, expected)]
    return ConeSays(cone, np.array(by_cone))


def _own_error_c(kind: ConeKind) -> float:
    return float(np.sqrt(CONE_SCATTER_C**2 + KIND_ERROR_C[kind] ** 2))


def _reading(cone: ShelfCone, expected_deg: Floats) -> Floats:
    """Return how likely the bend was read as it was, where so much was expected."""
    read = cone.bend_deg
    if read >= FLAT_FROM_DEG:
        seen = normal_share((expected_deg - FLAT_FROM_DEG) / FLAT_ERROR_DEG)
        return (1.0 - MISREAD_SHARE) * seen + MISREAD_SHARE * MISREAD_BOUND
    if read <= UPRIGHT_TO_DEG:
        seen = normal_share((UPRIGHT_TO_DEG - expected_deg) / UPRIGHT_ERROR_DEG)
        return (1.0 - MISREAD_SHARE) * seen + MISREAD_SHARE * MISREAD_BOUND
    error = _reading_error_deg(read, cone.reading_error_deg)
    z = (read - expected_deg) / error
    density = np.exp(-0.5 * z * z) / (error * np.sqrt(2.0 * np.pi))
    return np.asarray((1.0 - MISREAD_SHARE) * density + MISREAD_SHARE * MISREAD_DENSITY)


def _reading_error_deg(read_deg: float, usual_deg: float) -> float:
    """Return the error of a bend: sharper near upright, wider beyond the end point [°]."""
    near = min(read_deg / SHARPER_BELOW_DEG, 1.0)
    error = usual_deg * (near + (1.0 - near) * min(UPRIGHT_ERROR_DEG / usual_deg, 1.0))
    return float(np.hypot(error, PAST_END_ERROR * max(read_deg - END_POINT_BEND_DEG, 0.0)))


def normal_share(z: Floats) -> Floats:
    """Return the normal distribution function by a logistic curve, within 0.01."""
    return np.asarray(1.0 / (1.0 + np.exp(-np.clip(1.702 * z, -60.0, 60.0))))


def smeared(row: Floats, error_c: float) -> Floats:
    """Return a likelihood blurred over the shift by a normal error; the ends are carried on."""
    step = float(GRID_C[1] - GRID_C[0])
    reach = int(np.ceil(4.0 * error_c / step))
    kernel = np.exp(-0.5 * (np.arange(-reach, reach + 1) * step / error_c) ** 2)
    return np.convolve(np.pad(row, reach, mode="edge"), kernel / kernel.sum(), mode="valid")


def together(said: Sequence[ConeSays]) -> Floats:
    """Return the likelihood of the shift from cones at one place, shape (shifts,).

    The width of the bend law is one unknown for all of them; it is averaged out at the end.
    """
    product = np.prod([one.likelihood for one in said], axis=0)
    return np.asarray(LAW_WEIGHTS @ product)
