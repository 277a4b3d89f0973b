"""The law of a pyrometric cone: which time at which temperature brings it to its end point.

A cone is at its end point when its work W = ∫ exp(−E / (R T)) dt reaches a fixed amount. Written
with the end point T60 of a straight climb of 60 °C/h, two numbers per cone, T60 and E, describe
it. They are fitted here to the published end points at 15, 60 and 150 °C/h (self-supporting
cones). E is an effective energy of the fit, not of a melt: no published law of cone bending is
known.

Validity: 15 to 150 °C/h within about 4 °C of the chart, cones 019 to 14. Cones 022 to 020 have
two end points only and are not fitted: what they say cannot be told.
"""

from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np

from firing_review.firing.cones import CONE_SCALE, ConeNumber, ConeTable
from firing_review.firing.units import Floats, celsius_from_fahrenheit

GAS_CONSTANT = 8.314462618
"""Molar gas constant [J/(mol K)], CODATA 2018."""
ZERO_C_IN_K = 273.15
REFERENCE_C_PER_H = 60.0
"""Rate of the middle column of the chart [°C/h]."""
FIT_RATES_C_PER_H = (15.0, 60.0, 150.0)
FIRST_ENERGY_J_PER_MOL = 700e3
"""Where the search for E begins, the middle of all cones [J/mol]."""
FRACTION_TERMS = 16
"""Terms of the continued fraction; for B/T above 20 the sixteenth changes nothing."""
LEAST_TEMPERATURE_K = 200.0
"""Colder than any kiln room; shifted curves are held above it [K]."""


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

    @cached_property
    def log_work(self) -> float:
        """Natural log of the work at the end point [ln h]."""
        whole = log_integral(self.t60_c, self.e_over_r_k)
        return float(whole) - float(np.log(REFERENCE_C_PER_H))

    def log_share_per_h(self, temperature_c: Floats | float) -> Floats:
        """Return ln of the share of the cone's work done in an hour at a temperature."""
        kelvin = np.maximum(np.asarray(temperature_c) + ZERO_C_IN_K, LEAST_TEMPERATURE_K)
        return np.asarray(-self.e_over_r_k / kelvin - self.log_work)


def log_integral(temperature_c: Floats | float, e_over_r_k: Floats | float) -> Floats:
    """Return ln ∫₀ᵀ exp(−B/T') dT' [ln K].

    By the continued fraction of the exponential integral, T E₂(B/T) with
    E₂(x) = exp(−x) / (x + 2/(1 + 1/(x + 3/(1 + 2/(x + …))))), Abramowitz and Stegun 5.1.22;
    good to 1e-9 for x = B/T above 20, and cones lie between 28 and 140.
    """
    kelvin = np.maximum(np.asarray(temperature_c, dtype=float) + ZERO_C_IN_K, LEAST_TEMPERATURE_K)
    x = e_over_r_k / kelvin
    tail = x
    for k in range(FRACTION_TERMS, 0, -1):
        tail = x + (k + 1) / (1.0 + k / tail)
    return np.asarray(np.log(kelvin) - x - np.log(tail))


def end_point_c(law: ConeLaw, rate_c_per_h: float) -> float:
    """Return the temperature at which the cone ends on a straight climb [°C].

    Parameters
    ----------
    rate_c_per_h : float
        15 to 150 °C/h is what the chart covers; outside the law is only continued.
    """
    t60_c, b = np.array([law.t60_c]), np.array([law.e_over_r_k])
    return float(_end_points(t60_c, b, np.array([rate_c_per_h]))[0, 0])


def end_points_c(laws: tuple[ConeLaw, ...], rate_c_per_h: float) -> Floats:
    """Return the end point of each cone on a straight climb, shape (cones,) [°C]."""
    t60_c, b = np.array([(law.t60_c, law.e_over_r_k) for law in laws]).T
    return _end_points(t60_c, b, np.array([rate_c_per_h]))[:, 0]


def _end_points(t60_c: Floats, e_over_r_k: Floats, rates_c_per_h: Floats) -> Floats:
    """Return end points, shape (cones, rates) [°C].

    Newton's rule on ln I(T) = ln I(T60) + ln(rate / 60), with d ln I / dT = exp(−B/T) / I.
    """
    b = e_over_r_k[:, None]
    wanted = log_integral(t60_c, e_over_r_k)[:, None] + np.log(rates_c_per_h / REFERENCE_C_PER_H)
    temperature = np.broadcast_to(t60_c[:, None], wanted.shape).astype(float)
    for _ in range(20):
        value = log_integral(temperature, b)
        slope = np.exp(-b / (temperature + ZERO_C_IN_K) - value)
        step = np.clip((wanted - value) / slope, -60.0, 60.0)
        temperature = temperature + step
        if np.abs(step).max() < 1e-7:
            break
    return np.asarray(temperature)


def degrees_per_log_rate(law: ConeLaw, temperature_c: float | None = None) -> float:
    """Return s = dT / d ln(rate) at an end point [°C]: about 10 to 35.

    It is also the minutes at the end point's temperature that are worth one 60 °C/h climb.
    """
    at_c = law.t60_c if temperature_c is None else temperature_c
    b = law.e_over_r_k
    return float(np.exp(log_integral(at_c, b) + b / (at_c + ZERO_C_IN_K)))


@lru_cache(maxsize=8)
def fit_laws(table: ConeTable, kind: str = "self_supporting") -> tuple[ConeLaw, ...]:
    """Return the law of each cone with three end points in the chart, from cool to hot.

    Least squares on the Fahrenheit column (the finer rounding); suspect cells are left out.
    """
    published = _published_c(table, kind)
    if not published:
        return ()
    wanted = np.array(list(published.values()))
    t60_c, log_energy = _fit(wanted)
    return tuple(
        ConeLaw(ConeNumber(text), float(t60), float(np.exp(energy)))
        for text, t60, energy in zip(published, t60_c, log_energy, strict=True)
    )


def _published_c(table: ConeTable, kind: str) -> dict[str, list[float]]:
    """Return the three end points [°C] of every cone that has them, cool to hot."""
    cells: dict[str, dict[float, float]] = {text: {} for text in CONE_SCALE}
    for cell in table.of_kind(kind):
        if not cell.suspect:
            end_c = celsius_from_fahrenheit(cell.temperature_f)
            cells[cell.cone.text][cell.rate_c_per_h] = end_c
    return {
        text: [by_rate[rate] for rate in FIT_RATES_C_PER_H]
        for text, by_rate in cells.items()
        if all(rate in by_rate for rate in FIT_RATES_C_PER_H)
    }


def _fit(wanted_c: Floats) -> tuple[Floats, Floats]:
    """Fit T60 [°C] and ln E of all cones at once by Gauss and Newton.

    Each cone has three equations and two unknowns; the slopes are taken numerically.
    """
    rates = np.array(FIT_RATES_C_PER_H)
    t60_c = wanted_c[:, 1].copy()
    log_energy = np.full(len(wanted_c), np.log(FIRST_ENERGY_J_PER_MOL))
    for _ in range(30):
        now = _end_points(t60_c, np.exp(log_energy) / GAS_CONSTANT, rates)
        by_t60 = _end_points(t60_c + 0.1, np.exp(log_energy) / GAS_CONSTANT, rates) - now
        by_energy = _end_points(t60_c, np.exp(log_energy + 1e-3) / GAS_CONSTANT, rates) - now
        slopes = np.stack([by_t60 / 0.1, by_energy / 1e-3], axis=2)
        change = np.einsum("cij,cj->ci", np.linalg.pinv(slopes), wanted_c - now)
        t60_c = t60_c + np.clip(change[:, 0], -20.0, 20.0)
        log_energy = log_energy + np.clip(change[:, 1], -0.5, 0.5)
        if np.abs(change).max() < 1e-6:
            break
    return t60_c, log_energy


def law_of(laws: tuple[ConeLaw, ...], cone: ConeNumber) -> ConeLaw | None:
    """Return the law of a cone; None outside the fitted range: cannot tell."""
    return next((law for law in laws if law.cone == cone), None)


def with_iron_free(table: ConeTable, iron_free: ConeTable) -> ConeTable:
    """Return the chart with cones 010 to 3 read as the iron-free series, where it has them."""
    plain = {f"{kind}_iron_free": kind for kind in ("self_supporting", "large")}
    swapped = {(cell.cone.text, plain[cell.kind]) for cell in iron_free.cells}
    kept = [cell for cell in table.cells if (cell.cone.text, cell.kind) not in swapped]
    renamed = [
        type(cell)(
            cell.cone,
            plain[cell.kind],
            cell.rate_c_per_h,
            cell.temperature_c,
            cell.temperature_f,
            cell.status,
        )
        for cell in iron_free.cells
    ]
    return ConeTable((*kept, *renamed), iron_free.source)
