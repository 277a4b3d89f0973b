"""Heating wire: resistance hot and cold, length, surface load.

Validity: round wire and strip of Fe-Cr-Al and Ni-Cr alloys up to their highest wire temperature.
Resistivity is good to about 5 %, hot over cold to 1 % for a known alloy and 3 % otherwise.
"""

import difflib
import math
from dataclasses import dataclass
from itertools import pairwise

from firing_review.firing.tables import WireAlloy, WireTable

STEFAN_BOLTZMANN = 5.670374419e-8
"""[W/(m² K⁴)], CODATA 2018."""
ZERO_C_IN_K = 273.15
UNKNOWN_HOT_OVER_COLD = 1.02
"""Hot over cold resistance of kiln wire of unknown alloy at 1000 °C: published alloys sold for
kilns lie between 0.97 and 1.08, most between 0.99 and 1.05."""
UNKNOWN_SPREAD, KNOWN_SPREAD = 0.03, 0.01
"""How far hot over cold may be off, as a share."""


@dataclass(frozen=True)
class HotOverCold:
    """Hot resistance as a ratio of that at 20 °C, with the bounds it is known within."""

    ratio: float
    low: float
    high: float


def find_alloy(table: WireTable, name: str | None) -> WireAlloy | None:
    """Return the alloy that a kiln sheet means, by its nearest name; None if nothing is near."""
    if not name:
        return None
    plain = {_plain(alloy.name): alloy for alloy in table.alloys}
    wanted = _plain(name)
    for key, alloy in plain.items():
        if key.startswith(wanted) or wanted in key.split():
            return alloy
    near = difflib.get_close_matches(wanted, plain, n=1, cutoff=0.75)
    return plain[near[0]] if near else None


def _plain(name: str) -> str:
    return " ".join(name.lower().replace("-", "").replace("/", "").split())


def hot_over_cold(alloy: WireAlloy | None, temperature_c: float) -> HotOverCold:
    """Return R(T) / R(20 °C) of an alloy, by the published points and straight lines between.

    Parameters
    ----------
    alloy : WireAlloy or None
        None for wire whose alloy is not known.
    """
    if alloy is None or not alloy.hot_over_cold:
        ratio = 1.0 + (UNKNOWN_HOT_OVER_COLD - 1.0) * min(max(temperature_c / 1000.0, 0.0), 1.0)
        return HotOverCold(ratio, ratio * (1 - UNKNOWN_SPREAD), ratio * (1 + UNKNOWN_SPREAD))
    ratio = _between(alloy.hot_over_cold, temperature_c)
    return HotOverCold(ratio, ratio * (1 - KNOWN_SPREAD), ratio * (1 + KNOWN_SPREAD))


def _between(points: tuple[tuple[float, float], ...], at_c: float) -> float:
    if at_c <= points[0][0]:
        return points[0][1]
    for (low_c, low), (high_c, high) in pairwise(points):
        if at_c <= high_c:
            return low + (high - low) * (at_c - low_c) / (high_c - low_c)
    return points[-1][1]


def ohm_per_m(rho_uohm_m: float, wire_mm: float) -> float:
    """Return the resistance of round wire at 20 °C, ρ / (π d² / 4) [Ω/m]."""
    return rho_uohm_m / (math.pi * wire_mm**2 / 4.0)


def surface_cm2_per_m(wire_mm: float) -> float:
    """Return the surface of round wire, π d [cm²/m]."""
    return math.pi * wire_mm * 10.0


def wire_length_m(cold_ohms: float, rho_uohm_m: float, wire_mm: float) -> float:
    """Return the length of round wire with a resistance at 20 °C [m]."""
    return cold_ohms / ohm_per_m(rho_uohm_m, wire_mm)


def surface_load_w_per_cm2(
    power_w: float, cold_ohms: float, rho_uohm_m: float, wire_mm: float
) -> float:
    """Return the power each square centimeter of wire must shed [W/cm²].

    Free-radiating coils in grooves bear about 3 to 5 at 1000 °C chamber and 1.5 to 3 at 1250 to
    1300 °C (from memory of furnace handbooks); lower lasts longer.
    """
    length = wire_length_m(cold_ohms, rho_uohm_m, wire_mm)
    return power_w / (length * surface_cm2_per_m(wire_mm))


@dataclass(frozen=True)
class Strip:
    """A heating strip: width [mm] and length [m]."""

    width_mm: float
    length_m: float


def strip_for(
    power_w: float,
    volts: float,
    thickness_mm: float,
    rho_uohm_m: float,
    wire_c: float,
    charge_c: float,
    emissivity: float,
    radiating_share: float,
) -> Strip:
    """Return the strip that gives a power at a wire temperature, radiating from both sides.

    P / (2 w l) = k e σ (T₁⁴ − T₂⁴) and V² / P = ρ l / (w t); Chakrabarti et al., Power System
    Engineering, example 2.2.
    """
    hot, cold = wire_c + ZERO_C_IN_K, charge_c + ZERO_C_IN_K
    shed = radiating_share * emissivity * STEFAN_BOLTZMANN * (hot**4 - cold**4)
    area = power_w / shed / 2.0
    length_over_width = volts**2 / power_w * thickness_mm * 1e-3 / (rho_uohm_m * 1e-6)
    length = math.sqrt(area * length_over_width)
    return Strip(width_mm=1000.0 * area / length, length_m=length)
