"""Heating circuits: series, parallel, one phase and three, solved as circuits.

Every answer comes from the node voltages (Kirchhoff's current law), so a lost line, an open
element or unequal elements need no table. Resistances are taken as pure; those of supply and
leads may be given.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from firing_review.firing.kiln import Supply

NAMED_STEPS: Mapping[str, float] = {
    "1/3": 1.0 / 3.0,
    "1/2": 1.0 / 2.0,
    "2/3": 2.0 / 3.0,
    "3/4": 3.0 / 4.0,
    "5/6": 5.0 / 6.0,
}
"""Shares of power that one lost element, section or line usually leaves."""
PHASES = ("L1", "L2", "L3")


@dataclass(frozen=True)
class Branch:
    """A resistor between two nodes [Ω]; infinite is open."""

    name: str
    from_node: str
    to_node: str
    ohms: float


@dataclass(frozen=True)
class Solved:
    """Voltage across, current through and power of each branch [V, A, W]; RMS values."""

    volts: Mapping[str, float]
    amps: Mapping[str, float]
    watts: Mapping[str, float]

    @property
    def total_w(self) -> float:
        """Power of all branches [W]."""
        return sum(self.watts.values())


def in_series(*ohms: float) -> float:
    """Return the resistance of elements in series [Ω]."""
    return math.fsum(ohms)


def in_parallel(*ohms: float) -> float:
    """Return the resistance of elements in parallel [Ω]; open ones count as nothing."""
    conductance = math.fsum(0.0 if math.isinf(one) else 1.0 / one for one in ohms)
    return 1.0 / conductance if conductance else math.inf


def power_w(volts: float, ohms: float) -> float:
    """Return V² / R [W]; an open circuit takes none."""
    return 0.0 if math.isinf(ohms) else volts**2 / ohms


def power_share(volts: float, rated_volts: float, ohms: float, rated_ohms: float) -> float:
    """Return power now as a share of rated power, (V/Vr)² · Rr/R."""
    return power_w(volts, ohms) / power_w(rated_volts, rated_ohms)


def loaded_volts(no_load_volts: float, load_ohms: float, supply_ohms: float) -> float:
    """Return the voltage left at the kiln, V R / (R + Rs) [V]."""
    if math.isinf(load_ohms):
        return no_load_volts
    return no_load_volts * load_ohms / (load_ohms + supply_ohms)


def supply_ohms(no_load_volts: float, full_load_volts: float, load_ohms: float) -> float:
    """Return the resistance of the supply from its sag under load [Ω]."""
    return load_ohms * (no_load_volts / full_load_volts - 1.0)


def solve(branches: Sequence[Branch], fixed: Mapping[str, complex]) -> Solved:
    """Return voltages, currents and powers of a network of resistors.

    Parameters
    ----------
    fixed : mapping of node to complex
        Nodes held at a voltage [V, RMS, as phasors]. A lost line is simply not held.

    Raises
    ------
    ValueError
        For a resistance of zero or below: that is a short, not a load.
    """
    if any(branch.ohms <= 0.0 for branch in branches):
        raise ValueError("a branch of zero ohms is a short")
    free = sorted({n for b in branches for n in (b.from_node, b.to_node)} - set(fixed))
    matrix = np.zeros((len(free), len(free)), dtype=complex)
    driven = np.zeros(len(free), dtype=complex)
    for branch in branches:
        _stamp(matrix, driven, branch, free, fixed)
    # a node cut off from everything has no voltage of its own; least squares gives it 0 V
    found = np.linalg.lstsq(matrix, driven, rcond=None)[0] if free else np.zeros(0)
    node = {**dict(fixed), **dict(zip(free, found.tolist(), strict=True))}
    across = {b.name: complex(node[b.from_node] - node[b.to_node]) for b in branches}
    amps = {b.name: 0.0 if math.isinf(b.ohms) else abs(across[b.name]) / b.ohms for b in branches}
    return Solved(
        volts={name: abs(value) for name, value in across.items()},
        amps=amps,
        watts={
            b.name: 0.0 if math.isinf(b.ohms) else amps[b.name] ** 2 * b.ohms for b in branches
        },
    )


def _stamp(
    matrix: np.ndarray,
    driven: np.ndarray,
    branch: Branch,
    free: list[str],
    fixed: Mapping[str, complex],
) -> None:
    """Enter a branch into Kirchhoff's current law at both of its nodes."""
    conductance = 0.0 if math.isinf(branch.ohms) else 1.0 / branch.ohms
    ends = (branch.from_node, branch.to_node)
    for here, there in (ends, ends[::-1]):
        if here not in free:
            continue
        row = free.index(here)
        matrix[row, row] += conductance
        if there in free:
            matrix[row, free.index(there)] -= conductance
        else:
            driven[row] += conductance * fixed[there]


def kiln_power(
    supply: Supply,
    volts: float,
    ohms: Mapping[str, float],
    lost_line: int | None = None,
) -> Solved:
    """Return what each section gets.

    Parameters
    ----------
    volts : float
        Between lines for three phases; at the kiln's terminals for one [V].
    ohms : mapping of section to Ω
        One load a section. On three phases the sections go round the phases in order, so the
        fourth joins the first; infinite is open.
    lost_line : int, optional
        Number of the supply line that is dead, from 0; on one phase either line.
    """
    if supply is Supply.SINGLE_PHASE:
        fixed: dict[str, complex] = {"L": complex(volts), "N": 0j}
        branches = [Branch(name, "L", "N", one) for name, one in ohms.items()]
        if lost_line is not None:
            fixed.pop("L")
        return solve(branches, fixed)
    fixed = phase_voltages(volts)
    if lost_line is not None:
        fixed.pop(PHASES[lost_line])
    if supply is Supply.THREE_PHASE_STAR_NEUTRAL:
        fixed["N"] = 0j
    branches = [
        Branch(name, PHASES[i % 3], _other_end(supply, i), one)
        for i, (name, one) in enumerate(ohms.items())
    ]
    return solve(branches, fixed)


def _other_end(supply: Supply, index: int) -> str:
    return PHASES[(index + 1) % 3] if supply is Supply.THREE_PHASE_DELTA else "N"


def phase_voltages(line_volts: float) -> dict[str, complex]:
    """Return the three lines as phasors against neutral [V], 120° apart."""
    size = line_volts / math.sqrt(3.0)
    turns = np.exp(-2j * np.pi * np.arange(3) / 3.0)
    return {name: complex(size * turn) for name, turn in zip(PHASES, turns, strict=True)}


def section_volts(supply: Supply | None, rated_volts: float) -> float:
    """Return the voltage across one healthy section [V]; unknown supplies count as one phase."""
    stars = (Supply.THREE_PHASE_STAR, Supply.THREE_PHASE_STAR_NEUTRAL)
    return rated_volts / math.sqrt(3.0) if supply in stars else rated_volts


def named_steps_within(low: float, high: float) -> tuple[str, ...]:
    """Return the named shares of power that lie inside a range."""
    return tuple(name for name, share in NAMED_STEPS.items() if low <= share <= high)
