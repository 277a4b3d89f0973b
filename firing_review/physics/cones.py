"""Heat work of pyrometric cones: how time and temperature bend a cone.

A cone is at its end point when its work W = ∫ exp(−E / (R T)) dt reaches a fixed amount. Written
with the end point T60 of a straight climb of 60 °C/h, two numbers per cone, T60 and E, describe
it. They are fitted here to the published end points at 15, 60 and 150 °C/h (self-supporting
cones). E is an effective energy of the fit, not of a melt.

Validity: 15 to 150 °C/h within about 4 °C of the chart; for holds of an hour and more the
published rules of thumb and this law part by up to a factor of two in minutes.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from firing_review.firing.cones import CONE_SCALE, ConeKind, ConeNumber, ConeTable
from firing_review.firing.units import Floats

GAS_CONSTANT = 8.314462618
"""Molar gas constant [J/(mol K)], CODATA 2018."""
ZERO_C_IN_K = 273.15
REFERENCE_C_PER_H = 60.0
"""Rate of the middle column of the chart [°C/h]."""
FIT_RATES_C_PER_H = (15.0, 60.0, 150.0)
HOLD_FACTOR = 2.0
"""Minutes of long holds are known within this factor only: published rules against this law."""
START_DEG = 8.0
"""Lean of an unmoved cone from the vertical [°], printed with the chart."""
LARGE_OFFSET_C = -2.2
"""A large cone ends this much lower than a self-supporting one, median of the chart [°C]."""
SMALL_OFFSET_C = 9.0
"""A small cone at 300 °C/h ends this much higher than the law says for a self-supporting one
(scatter 8 °C, gas kiln) [°C]."""
KIND_SD_C = {ConeKind.SELF_SUPPORTING: 0.0, ConeKind.LARGE: 2.0, ConeKind.SMALL: 8.0}
"""What the make of cone adds to the uncertainty [°C]."""


@dataclass(frozen=True)
class ConeLaw:
    """Work law of one cone.

    Attributes
    ----------
    t60_c : float
        End point of a straight climb of 60 °C/h [°C].
    energy_j_per_mol : float
        Effective energy E [J/mol].
    """

    cone: ConeNumber
    t60_c: float
    energy_j_per_mol: float

    @property
    def e_over_r_k(self) -> float:
        """E / R [K]."""
        return self.energy_j_per_mol / GAS_CONSTANT

    @property
    def log_work(self) -> float:
        """Natural log of the work at the end point [ln h]."""
        return float(log_integral(self.t60_c, self.e_over_r_k) - np.log(REFERENCE_C_PER_H))


def log_integral(temperature_c: Floats | float, e_over_r_k: float) -> Floats:
    """Return ln ∫₀ᵀ exp(−B/T') dT' [ln K].

    By the continued fraction of the exponential integral, T E₂(B/T) with
    E₂(x) = exp(−x) / (x + 2/(1 + 1/(x + 3/(1 + 2/(x + …))))), Abramowitz and Stegun 5.1.22;
    good to 1e-9 for x = B/T above 10, and cones lie between 28 and 140.
    """
    kelvin = np.asarray(temperature_c, dtype=float) + ZERO_C_IN_K
    x = e_over_r_k / kelvin
    tail = x
    for k in range(12, 0, -1):
        tail = x + (k + 1) / (1.0 + k / tail)
    return np.asarray(np.log(kelvin) - x - np.log(tail))


def end_point_c(law: ConeLaw, rate_c_per_h: float) -> float:
    """Return the temperature at which the cone ends on a straight climb [°C].

    Newton's rule on ln I(T) = ln I(T60) + ln(rate / 60); d ln I / dT = exp(−B/T) / I.
    """
    b = law.e_over_r_k
    wanted = float(log_integral(law.t60_c, b)) + np.log(rate_c_per_h / REFERENCE_C_PER_H)
    temperature = law.t60_c
    for _ in range(20):
        value = float(log_integral(temperature, b))
        slope = np.exp(-b / (temperature + ZERO_C_IN_K) - value)
        step = (wanted - value) / slope
        temperature += float(np.clip(step, -60.0, 60.0))
        if abs(step) < 1e-9:
            break
    return temperature


def degrees_per_log_rate(law: ConeLaw, temperature_c: float | None = None) -> float:
    """Return s = dT / d ln(rate) at the end point [°C]: about 10 to 35."""
    at_c = law.t60_c if temperature_c is None else temperature_c
    b = law.e_over_r_k
    return float(np.exp(log_integral(at_c, b) + b / (at_c + ZERO_C_IN_K)))


@lru_cache(maxsize=8)
def fit_laws(table: ConeTable, kind: str = "self_supporting") -> tuple[ConeLaw, ...]:
    """Return the law of each cone with three end points in the chart, from cool to hot.

    Least squares on the Fahrenheit column (the finer rounding); suspect cells are left out.
    """
    laws = []
    for text in CONE_SCALE:
        cells = {
            c.rate_c_per_h: (c.temperature_f - 32.0) / 1.8
            for c in table.of_kind(kind)
            if c.cone.text == text and not c.suspect
        }
        if all(rate in cells for rate in FIT_RATES_C_PER_H):
            laws.append(_fit(ConeNumber(text), [cells[r] for r in FIT_RATES_C_PER_H]))
    return tuple(laws)


def _fit(cone: ConeNumber, published_c: list[float]) -> ConeLaw:
    """Fit T60 and E by Gauss-Newton, E in logarithm so that it stays positive."""
    wanted = np.array(published_c)
    parameters = np.array([published_c[1], np.log(700e3)])
    for _ in range(40):
        residual = wanted - _end_points(cone, parameters)
        slopes = np.column_stack(
            [
                (_end_points(cone, parameters + step) - _end_points(cone, parameters - step))
                / 2e-3
                for step in (np.array([1e-3, 0.0]), np.array([0.0, 1e-3]))
            ]
        )
        change = np.linalg.lstsq(slopes, residual, rcond=None)[0]
        parameters = parameters + np.clip(change, [-20.0, -0.4], [20.0, 0.4])
        if np.abs(change).max() < 1e-7:
            break
    return ConeLaw(cone, float(parameters[0]), float(np.exp(parameters[1])))


def _end_points(cone: ConeNumber, parameters: Floats) -> Floats:
    law = ConeLaw(cone, float(parameters[0]), float(np.exp(parameters[1])))
    return np.array([end_point_c(law, rate) for rate in FIT_RATES_C_PER_H])


def law_of(laws: tuple[ConeLaw, ...], cone: ConeNumber) -> ConeLaw | None:
    """Return the law of a cone; None outside the fitted range: cannot tell."""
    return next((law for law in laws if law.cone == cone), None)


def log_work_done(
    elapsed_h: Floats, temperature_c: Floats, law: ConeLaw, shift_c: Floats | float = 0.0
) -> Floats:
    """Return ln of the share of the cone's work done by a curve; 0 is the end point.

    Parameters
    ----------
    elapsed_h, temperature_c : array, shape (rows,)
        Any sampling [h], [°C]; gaps are bridged by a straight line in time.
    shift_c : float or array, shape (shifts,)
        Degrees the place was hotter than the curve [°C].

    Returns
    -------
    array, shape () or (shifts,)
    """
    hours, middle = _midpoints(elapsed_h, temperature_c)
    shift = np.atleast_1d(np.asarray(shift_c, dtype=float))
    exponent = -law.e_over_r_k / (middle[None, :] + shift[:, None] + ZERO_C_IN_K) - law.log_work
    with np.errstate(divide="ignore"):
        work = np.log(np.exp(np.clip(exponent, -700.0, 50.0)) @ hours)
    return work if np.ndim(shift_c) else np.asarray(work[0])


def work_so_far(elapsed_h: Floats, temperature_c: Floats, law: ConeLaw) -> Floats:
    """Return the share of the cone's work done up to each sample, shape (rows,)."""
    good = np.isfinite(temperature_c)
    if good.sum() < 2:
        return np.zeros(len(elapsed_h))
    whole = np.interp(elapsed_h, elapsed_h[good], temperature_c[good])
    middle = (whole[1:] + whole[:-1]) / 2.0 + ZERO_C_IN_K
    exponent = np.clip(-law.e_over_r_k / middle - law.log_work, -700.0, 50.0)
    return np.concatenate(([0.0], np.cumsum(np.exp(exponent) * np.diff(elapsed_h))))


HOT_SPAN_C = 250.0
"""Below the top by more than this a curve adds less than 1e-4 of any cone's work [°C]."""
BIN_C = 1.0
"""Width of the temperature classes in which time is collected [°C]; a cone's work changes by
4 to 10 % over it, evenly to both sides, so that the error is far below 0.1 °C."""


def _midpoints(elapsed_h: Floats, temperature_c: Floats) -> tuple[Floats, Floats]:
    """Return hours spent at each temperature that matters [h], [°C]."""
    good = np.isfinite(temperature_c)
    hours, values = elapsed_h[good], temperature_c[good]
    if len(hours) < 2:
        return np.zeros(1), np.full(1, -200.0)
    middle = (values[1:] + values[:-1]) / 2.0
    top_c = float(middle.max())
    hot = middle > top_c - HOT_SPAN_C
    place = (top_c - middle[hot]) / BIN_C
    low = np.floor(place).astype(int)
    upper = place - low
    size = int(HOT_SPAN_C / BIN_C) + 2
    length = np.diff(hours)[hot]
    spent: Floats = np.bincount(low, length * (1.0 - upper), size).astype(np.float64)
    spent += np.bincount(low + 1, length * upper, size)
    return spent, top_c - BIN_C * np.arange(size, dtype=np.float64)


def bend_deg(share: float) -> float:
    """Return the bend for a share of the work done [°, 0 unmoved, 90 end point].

    dφ/dW is proportional to sin φ, φ from 8° to 90°: slow at first, fast past the middle.
    Computed, not published; reproduces a published split of a bend within 20 %, to be taken
    as ±15 to 30 %. Past the end point the cone goes flat quickly; that part is a bound only.
    """
    phi = 2.0 * np.arctan(np.exp((1.0 - share) * np.log(np.tan(np.radians(START_DEG / 2.0)))))
    bend = (np.degrees(phi) - START_DEG) * 90.0 / (90.0 - START_DEG)
    return float(np.clip(bend, 0.0, 130.0))


def share_of_work(bend: Floats | float) -> Floats:
    """Return the share of the work that a bend stands for; the inverse of :func:`bend_deg`."""
    phi = START_DEG + np.asarray(bend, dtype=float) * (90.0 - START_DEG) / 90.0
    start = np.log(np.tan(np.radians(START_DEG / 2.0)))
    return np.asarray(1.0 - np.log(np.tan(np.radians(phi / 2.0))) / start)


def cone_equivalent(
    elapsed_h: Floats, temperature_c: Floats, laws: tuple[ConeLaw, ...]
) -> tuple[float | None, str | None]:
    """Return which cone a curve brings just to its end point: rank with tenths, and its name.

    Interpolated in ln work between neighbours of the scale. None if not even the coolest
    fitted cone ended.
    """
    works = np.array([float(log_work_done(elapsed_h, temperature_c, law)) for law in laws])
    return equivalent_from_works(works, laws)


def equivalent_from_works(
    works: Floats, laws: tuple[ConeLaw, ...]
) -> tuple[float | None, str | None]:
    """Return rank and name from ln work of each cone, cool to hot; see :func:`cone_equivalent`."""
    down = np.flatnonzero(works >= 0.0)
    if not len(down):
        return None, None
    last = int(down[-1])
    rank = float(laws[last].cone.rank)
    if last + 1 < len(laws):
        upper = float(laws[last + 1].cone.rank)
        part = works[last] / (works[last] - works[last + 1])
        rank += float(np.clip(part, 0.0, 1.0)) * (upper - rank)
    return rank, rank_label(rank)


def rank_label(rank: float) -> str:
    """Return a rank with tenths as potters say it: ``5.4``, or ``04 and 3 tenths`` as ``04+0.3``.

    Tenths count towards the next number of the scale; between 5 and 6 (through 5.5) they are
    the decimals of the number itself.
    """
    low = min(int(np.floor(rank + 1e-9)), len(CONE_SCALE) - 1)
    tenths = round((rank - low) * 10.0)
    if tenths == 10:
        low, tenths = low + 1, 0
    name = CONE_SCALE[min(low, len(CONE_SCALE) - 1)]
    if tenths == 0 or low + 1 >= len(CONE_SCALE):
        return name
    number = float(name)
    if name.startswith("0") or CONE_SCALE[low + 1].startswith("0"):
        return f"{name} + {tenths / 10:.1f}"
    step = float(CONE_SCALE[low + 1]) - number
    return f"{number + step * tenths / 10.0:.1f}"


def hold_minutes(law: ConeLaw, at_c: float, log_work: float) -> float:
    """Return how long a hold at ``at_c`` must last to finish the cone [min].

    Parameters
    ----------
    log_work : float
        ln share of the work done so far; the hold adds the rest.
    """
    missing = max(1.0 - float(np.exp(min(log_work, 0.0))), 0.0)
    exponent = law.e_over_r_k / (at_c + ZERO_C_IN_K) + law.log_work
    return float(missing * np.exp(min(exponent, 700.0)) * 60.0)
