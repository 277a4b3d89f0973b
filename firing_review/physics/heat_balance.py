"""Forward model of an electric kiln in sections: where the heat of the elements goes.

Each section is a chamber node with part of its load at chamber temperature, a load core behind
it, and a brick wall in slices. Heat leaves through the wall and with air drawn through; sections
exchange heat by radiation past the shelves.

    C dT/dt = P − wall(T) − leak (T − room) − core − neighbors

Validity: insulating firebrick of the 1260 °C grade, 50 to 115 mm, 10 to 500 l, 20 to 1300 °C.
Order of magnitude: rates and stall temperatures to tens of percent, not better. One real kiln
with one of three relays dead stalled at 954 °C; this model says 1014 °C at loss factor 2.0 and
1240 °C at 1.45. Ratios between two firings of one kiln are far better than that.
Loss factor 1.45 makes the wall agree with published meter readings of a 74 l kiln
(potters.org/subject43125.htm); poorly sealed or grooved kilns need about 2.
"""

from dataclasses import dataclass, replace

import numpy as np

from firing_review.firing.kiln import Kiln
from firing_review.firing.units import Floats

STEFAN_BOLTZMANN = 5.670374419e-8
"""[W/(m² K⁴)], CODATA 2018."""
ZERO_C_IN_K = 273.15
LOAD_HEAT_0, LOAD_HEAT_1 = 850.0, 0.35
"""Specific heat of fired clay and cordierite, 850 + 0.35 T [J/(kg K)], T in °C; from memory."""
SKIN_CONVECTION = 1.5
"""Natural convection at the jacket, 1.5 ΔT^(1/3) [W/(m² K)]; usual for plates, from memory."""
SKIN_EMISSIVITY = 0.6
USUAL_LOAD_KG_PER_L = 0.43
"""Ware and shelves per liter of chamber [kg/l]: 80 kg in 184 l; common practice, no source."""
USUAL_KW_PER_L = 0.063
"""Installed power per liter where a kiln sheet does not say [kW/l]: 1.77 kW per cubic foot."""
WALL_SHARE = 0.45
"""Part of the wall's heat that counts in a climb of 100 to 300 °C/h."""
HEIGHT_OVER_WIDTH = 1.17
"""Proportions of the reference kiln, 686 mm by 584 mm."""


@dataclass(frozen=True)
class Brickwork:
    """A wall of insulating firebrick, the same all round.

    Attributes
    ----------
    wall_mm : float
        Thickness [mm].
    density_kg_per_m3, heat_j_per_kg_k : float
        Published for the 1260 °C grade: 480 to 580 kg/m³, about 1050 J/(kg K).
    loss_factor : float
        Multiplies the brick's conductivity 0.10 + 0.0001 T [W/(m K)]: grooves, joints, lid gap.
    slices : int
        Layers the wall is cut into.
    """

    wall_mm: float = 76.0
    density_kg_per_m3: float = 560.0
    heat_j_per_kg_k: float = 1050.0
    loss_factor: float = 1.45
    slices: int = 14

    @property
    def slice_m(self) -> float:
        """Thickness of a slice [m]."""
        return self.wall_mm / 1000.0 / self.slices

    def conductivity(self, temperature_c: Floats) -> Floats:
        """Return the conductivity [W/(m K)] at temperatures [°C]."""
        return self.loss_factor * (0.10 + 1.0e-4 * temperature_c)


@dataclass(frozen=True)
class SectionModel:
    """One section: its elements, load and share of the wall.

    Attributes
    ----------
    power_kw : float
        At rated volts with new heating elements [kW].
    load_kg : float
        Ware and shelves [kg].
    wall_m2 : float
        Wall area, floor or lid included [m²].
    leak_w_per_k : float
        Air drawn through and heated [W/K]; 1 W/K is about 3 m³ an hour.
    """

    name: str
    power_kw: float
    load_kg: float
    wall_m2: float
    leak_w_per_k: float = 0.0


@dataclass(frozen=True)
class KilnModel:
    """A kiln as the model sees it; sections run from the floor up.

    Attributes
    ----------
    passage_m2 : float
        Cross-section of the chamber, through which sections see each other [m²].
    exchange_share : float
        Share of black radiation that passes the shelves between two sections; an estimate.
    core_share : float
        Part of the load that sits behind other ware and follows with a lag, 0 to 1.
    core_w_per_k_kg : float
        Conductance from chamber to core per kg of core at 1000 °C [W/(K kg)].
    room_c : float
        Temperature of the room [°C].
    """

    sections: tuple[SectionModel, ...]
    passage_m2: float
    wall: Brickwork = Brickwork()
    exchange_share: float = 0.25
    core_share: float = 0.4
    core_w_per_k_kg: float = 1.5
    room_c: float = 25.0

    @property
    def power_kw(self) -> float:
        """Power of all sections [kW]."""
        return sum(s.power_kw for s in self.sections)

    @property
    def wall_m2(self) -> float:
        """Wall area of all sections [m²]."""
        return sum(s.wall_m2 for s in self.sections)

    def with_load(self, factor: float) -> "KilnModel":
        """Return the kiln with every section's load multiplied."""
        sections = (replace(s, load_kg=s.load_kg * factor) for s in self.sections)
        return replace(self, sections=tuple(sections))


def cylinder(
    diameter_mm: float,
    height_mm: float,
    power_kw: tuple[float, ...],
    load_kg: float,
    wall: Brickwork | None = None,
    names: tuple[str, ...] = (),
) -> KilnModel:
    """Return a round kiln of equal section heights.

    Parameters
    ----------
    diameter_mm, height_mm : float
        Inside of the chamber [mm].
    power_kw : tuple of float
        One figure a section, from the floor up [kW].
    load_kg : float
        Ware and shelves, spread evenly [kg].
    """
    wall = wall or Brickwork()
    radius, thick = diameter_mm / 2000.0, wall.wall_mm / 1000.0
    side = 2.0 * np.pi * thick / np.log1p(thick / radius) * height_mm / 1000.0
    disc = np.pi * (radius + thick / 2.0) ** 2
    count = len(power_kw)
    ends = [disc * ((i == 0) + (i == count - 1)) for i in range(count)]
    sections = tuple(
        SectionModel(
            name=names[i] if names else str(i + 1),
            power_kw=power_kw[i],
            load_kg=load_kg / count,
            wall_m2=float(side / count + ends[i]),
        )
        for i in range(count)
    )
    return KilnModel(sections, passage_m2=float(np.pi * radius**2), wall=wall)


def model_of(kiln: Kiln, load_kg: float | None = None, loss_factor: float = 1.45) -> KilnModel:
    """Return the model of a kiln sheet; what it does not say is taken as usual.

    Parameters
    ----------
    load_kg : float, optional
        Ware and shelves [kg]; 0.43 kg a liter if not given.
    """
    volume_l = kiln.volume_l or 184.0
    width_mm = 100.0 * (4.0 * volume_l / (np.pi * HEIGHT_OVER_WIDTH)) ** (1.0 / 3.0)
    total_kw = kiln.rated_kw or USUAL_KW_PER_L * volume_l
    known = [s.rated_kw for s in kiln.sections if s.rated_kw is not None]
    if known and len(known) == len(kiln.sections):
        power = tuple(known)
    else:
        count = max(len(kiln.sections), 1)
        power = (total_kw / count,) * count
    return cylinder(
        diameter_mm=float(width_mm),
        height_mm=float(HEIGHT_OVER_WIDTH * width_mm),
        power_kw=power,
        load_kg=USUAL_LOAD_KG_PER_L * volume_l if load_kg is None else load_kg,
        wall=Brickwork(wall_mm=kiln.wall_mm or 76.0, loss_factor=loss_factor),
        names=tuple(s.name for s in kiln.sections),
    )


def load_heat_j_per_kg_k(temperature_c: Floats) -> Floats:
    """Return the specific heat of ware and shelves [J/(kg K)] at temperatures [°C]."""
    return LOAD_HEAT_0 + LOAD_HEAT_1 * temperature_c


def usual_heat_kj_per_k(model: KilnModel, temperature_c: Floats) -> Floats:
    """Return what has to be heated along with the chamber [kJ/K]: load and part of the wall.

    In a climb of 100 to 300 °C/h the wall takes up nearly half of what it could hold soaked
    (fits the reference kiln's climb plus cooling within 3 % from 500 to 900 °C).
    """
    wall = model.wall
    stored = wall.density_kg_per_m3 * wall.heat_j_per_kg_k * wall.wall_mm / 1000.0
    load = sum(s.load_kg for s in model.sections)
    heat = load * load_heat_j_per_kg_k(temperature_c) + WALL_SHARE * stored * model.wall_m2
    return np.asarray(heat / 1000.0)


def skin_w_per_k_m2(skin_c: Floats, room_c: float) -> Floats:
    """Return how well the jacket sheds heat to the room [W/(m² K)]."""
    warm = np.maximum(skin_c - room_c, 0.1)
    skin_k, room_k = skin_c + ZERO_C_IN_K, room_c + ZERO_C_IN_K
    radiated = SKIN_EMISSIVITY * STEFAN_BOLTZMANN * (skin_k**2 + room_k**2) * (skin_k + room_k)
    return SKIN_CONVECTION * np.cbrt(warm) + radiated


def holding_kw(model: KilnModel, temperature_c: float, skin_c: float | None = None) -> float:
    """Return the power that keeps a fully soaked kiln at a temperature [kW].

    Steady conduction through the wall, ∫k dT / thickness, equals what the jacket sheds; leaks
    are added. In a real firing the wall is not soaked: the first minutes of a hold need 10 to
    30 % more.
    """
    skin = steady_skin_c(model, temperature_c) if skin_c is None else skin_c
    through = _conducted_w_per_m2(model.wall, temperature_c, skin) * model.wall_m2
    leak = sum(s.leak_w_per_k for s in model.sections) * (temperature_c - model.room_c)
    return (through + leak) / 1000.0


def steady_skin_c(model: KilnModel, temperature_c: float) -> float:
    """Return the jacket's temperature of a fully soaked kiln [°C], by halving the interval."""
    low, high = model.room_c, temperature_c
    for _ in range(60):
        skin = 0.5 * (low + high)
        shed = float(skin_w_per_k_m2(np.asarray(skin), model.room_c)) * (skin - model.room_c)
        if shed < _conducted_w_per_m2(model.wall, temperature_c, skin):
            low = skin
        else:
            high = skin
    return 0.5 * (low + high)


def _conducted_w_per_m2(wall: Brickwork, inside_c: float, skin_c: float) -> float:
    middle = wall.conductivity(np.asarray(0.5 * (inside_c + skin_c)))
    return float(middle) * (inside_c - skin_c) / (wall.wall_mm / 1000.0)
