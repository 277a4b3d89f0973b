"""Firings of invented kilns with something planted in them, as all that a review starts from.

The kilns, loads and faults are invented; the physics is the program's own model of a kiln, so
these firings show whether a cause is recognized, not whether the model is right.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from functools import cache

import numpy as np

from firing_review.firing.cones import CONE_SCALE, ConeKind, ConeNumber, ShelfCone
from firing_review.firing.kiln import Kiln, Section, Supply
from firing_review.firing.log import Channel, ChannelRole, FiringLog
from firing_review.firing.schedule import Schedule, Segment
from firing_review.firing.sheet import Answers, Given, Readings
from firing_review.firing.units import Floats
from firing_review.io.tables import load_tables
from firing_review.physics.bend_law import bend_deg
from firing_review.physics.cones import dwell_of, fit_laws, log_work_done
from firing_review.physics.heat_balance import Brickwork, KilnModel, cylinder
from firing_review.physics.simulated_firing import Faults, Run, SimulatedFiring, simulate

SECTIONS = ("bottom", "middle", "top")
UNTIL_C = 250.0


@dataclass(frozen=True)
class PlantedKiln:
    """An invented kiln: what the model needs, and what its sheet says."""

    name: str
    volume_l: float
    wall_mm: float
    section_kw: tuple[float, float, float]
    volts: float
    diameter_mm: float
    height_mm: float
    load_kg: float
    supply: Supply = Supply.SINGLE_PHASE
    loss_factor: float = 1.45

    @property
    def model(self) -> KilnModel:
        wall = Brickwork(wall_mm=self.wall_mm, slices=8, loss_factor=self.loss_factor)
        return cylinder(
            self.diameter_mm, self.height_mm, self.section_kw, self.load_kg, wall, SECTIONS
        )

    @property
    def sheet(self) -> Kiln:
        sections = tuple(
            Section(name, kw, round(self.volts**2 / (1000.0 * kw), 1))
            for name, kw in zip(SECTIONS, self.section_kw, strict=True)
        )
        return Kiln(
            self.name,
            volume_l=self.volume_l,
            wall_mm=self.wall_mm,
            rated_kw=round(sum(self.section_kw), 1),
            rated_volts=self.volts,
            supply=self.supply,
            thermocouple="K",
            sections=sections,
        )


KILNS = (
    PlantedKiln("round 184", 184, 76, (4.2, 3.3, 4.2), 240, 584, 686, 80),
    PlantedKiln("small 74", 74, 64, (2.6, 2.0, 2.6), 240, 432, 500, 32),
    PlantedKiln("tall 280", 280, 76, (5.4, 4.2, 5.2), 230, 640, 870, 115, loss_factor=1.6),
    PlantedKiln(
        "three-phase 230",
        230,
        90,
        (5.2, 4.6, 5.2),
        400,
        600,
        810,
        95,
        Supply.THREE_PHASE_STAR_NEUTRAL,
    ),
)


def plan(*rows: tuple[float | None, float, float]) -> Schedule:
    return Schedule(tuple(Segment(*row) for row in rows))


PLANS = {
    "06": plan((80, 120, 60), (110, 600, 0), (100, 880, 0), (60, 1000, 10)),
    "04": plan((100, 120, 30), (130, 950, 0), (60, 1060, 10)),
    "5": plan((100, 120, 20), (170, 600, 0), (150, 1080, 0), (60, 1182, 10)),
    "6": plan((120, 120, 10), (180, 1000, 0), (110, 1120, 0), (60, 1217, 5)),
}


@dataclass(frozen=True)
class Recorded:
    """How a logger writes: rows a minute, steps, noise, and which columns."""

    every_s: float = 60.0
    step_c: float = 1.0
    noise_c: float = 0.6
    sections: bool = False
    set_point: bool = True
    output: bool = True


Spoil = Callable[[dict[str, Floats], Floats, np.random.Generator], None]


@dataclass(frozen=True)
class Planted:
    """What is planted and what is known of it."""

    kiln: PlantedKiln = KILNS[0]
    goal: str = "6"
    meant: Schedule | None = None
    typed: Schedule | None = None
    faults: Faults = field(default_factory=Faults)
    run: Run = field(default_factory=Run)
    recorded: Recorded = field(default_factory=Recorded)
    spoil: Spoil | None = None
    earlier: bool = True
    cones: bool = True
    answers: Answers = field(default_factory=Answers)
    readings: Readings = field(default_factory=Readings)
    goal_cone: str | None = None
    seed: int = 1

    @property
    def intended(self) -> Schedule:
        return self.meant or PLANS[self.goal]


@cache
def _good(kiln: PlantedKiln, intended: Schedule, every_s: float, share: float) -> SimulatedFiring:
    usual = Faults(load_share=(share, share * 1.01, share * 0.99))
    return simulate(kiln.model, intended, usual, Run(every_s=every_s, until_c=UNTIL_C))


def planted(case: Planted) -> Given:
    """Return the firing that was planted, and the earlier good one if there is one."""
    rng = np.random.default_rng(case.seed)
    run = replace(case.run, every_s=case.recorded.every_s, until_c=UNTIL_C)
    fired = simulate(case.kiln.model, case.typed or case.intended, case.faults, run)
    goal = case.goal_cone or case.goal
    log = _log(fired, case.recorded, rng, case.spoil)
    earlier = (_earlier(case, rng),) if case.earlier else ()
    return Given(
        log,
        intended=case.intended,
        cones=shelf_cones(fired, goal, rng) if case.cones else (),
        kiln=case.kiln.sheet,
        goal_cone=ConeNumber(goal),
        earlier=earlier,
        answers=case.answers,
        readings=case.readings,
    )


def _earlier(case: Planted, rng: np.random.Generator) -> Given:
    share = float(rng.choice([0.97, 1.0, 1.03]))
    good = _good(case.kiln, case.intended, case.recorded.every_s, share)
    log = _log(good, case.recorded, rng, None)
    return Given(replace(log, source="earlier.csv"), intended=case.intended)


def _log(
    fired: SimulatedFiring, recorded: Recorded, rng: np.random.Generator, spoil: Spoil | None
) -> FiringLog:
    columns: dict[str, Floats] = {}
    if recorded.sections:
        columns |= {n: fired.probes_c[:, i].copy() for i, n in enumerate(SECTIONS)}
    else:
        columns["chamber"] = fired.reading_c.copy()
    probes = tuple(columns)
    if recorded.set_point:
        columns["set_point"] = np.nan_to_num(fired.set_point_c, nan=0.0)
    if recorded.output:
        columns["output"] = np.round(100.0 * fired.output)
    elapsed_h = fired.elapsed_h.copy()
    if spoil is not None:
        spoil(columns, elapsed_h, rng)
    for name in probes:
        noisy = columns[name] + rng.normal(0.0, recorded.noise_c, len(elapsed_h))
        columns[name] = np.round(noisy / recorded.step_c) * recorded.step_c
    roles = {"chamber": ChannelRole.CHAMBER} | dict.fromkeys(SECTIONS, ChannelRole.SECTION)
    channels = tuple(
        Channel(name, roles.get(name) or ChannelRole(name), values)
        for name, values in columns.items()
    )
    return FiringLog("planted.csv", elapsed_h, channels)


@cache
def _laws() -> dict[str, object]:
    return {law.cone.text: law for law in fit_laws(load_tables().cones)}


def shelf_cones(
    fired: SimulatedFiring, goal: str, rng: np.random.Generator, around: Sequence[int] = (-1, 0, 1)
) -> tuple[ShelfCone, ...]:
    """Return a pack on every shelf, bent by what the ware there got, with scatter."""
    ware_c = 0.6 * fired.chamber_c + 0.4 * fired.core_c
    whole = [c for c in CONE_SCALE if not c.endswith(".5")]
    numbers = [whole[whole.index(goal) + step] for step in around]
    found = []
    for index, shelf in enumerate(SECTIONS):
        dwell = dwell_of(fired.elapsed_h, ware_c[:, index])
        for number in numbers:
            shift = float(rng.normal(0.0, 2.0))
            work = float(np.exp(min(float(log_work_done(dwell, _laws()[number], shift)), 50.0)))
            bend = float(bend_deg(work * np.exp(rng.normal(0.0, 0.12))))
            bend += float(rng.normal(0.0, 4.0)) if 5.0 < bend < 108.0 else 0.0
            bend = 5.0 * round(min(max(bend, 0.0), 130.0) / 5.0)
            found.append(ShelfCone(shelf, "", ConeNumber(number), ConeKind.SELF_SUPPORTING, bend))
    return tuple(found)


def measured(
    kiln: PlantedKiln,
    resistance: Sequence[float] = (1.0, 1.0, 1.0),
    volts_share: float = 1.0,
    seed: int = 0,
) -> Readings:
    """Return meter readings: cold ohms as factors of the rated ones (inf is open), volts."""
    rng = np.random.default_rng(seed)
    ohms, amps = {}, {}
    volts = kiln.volts * volts_share
    for section, factor in zip(kiln.sheet.sections, resistance, strict=True):
        value = float(section.rated_cold_ohms or 1.0) * factor * float(1 + rng.normal(0.0, 0.01))
        ohms[section.name] = round(value, 2)
        amps[section.name] = round(volts / value, 1)
    return Readings(round(volts * 1.01, 1), round(volts, 1), amps, ohms)


# What can be done to a record afterwards


def loose_probe(columns: dict[str, Floats], elapsed_h: Floats, rng: np.random.Generator) -> None:
    """Lose or throw single samples, more of them when hot."""
    name = "chamber" if "chamber" in columns else "middle"
    values = columns[name]
    chance = 0.0006 + 0.06 * np.clip((values - 500.0) / 700.0, 0.0, 1.0) ** 2
    hit = rng.random(len(values)) < chance
    values[hit] = np.where(rng.random(hit.sum()) < 0.5, np.nan, 1372.0)


def dead_low_from(hours: float) -> Spoil:
    """Let the reading drop to the room's and stay there while power is on."""

    def spoil(columns: dict[str, Floats], elapsed_h: Floats, rng: np.random.Generator) -> None:
        after = elapsed_h >= hours
        for name in ("chamber", *SECTIONS):
            if name in columns:
                columns[name][after] = 32.0
        if "output" in columns:
            columns["output"][after] = 100.0

    return spoil


def lingering(minutes: float, at_c: float = 100.0) -> Spoil:
    """Let water boil out: the reading stays near ``at_c`` for a while."""

    def spoil(columns: dict[str, Floats], elapsed_h: Floats, rng: np.random.Generator) -> None:
        name = "chamber" if "chamber" in columns else "middle"
        first = int(np.argmax(columns[name] >= at_c))
        count = round(minutes / 60.0 / float(np.median(np.diff(elapsed_h))))
        for key, values in columns.items():
            held = values.copy()
            held[first : first + count] = values[first]
            held[first + count :] = values[first : len(values) - count]
            if key in {"chamber", *SECTIONS}:
                held[first : first + count] += np.linspace(0.0, 3.0, count)
            if key == "output":
                held[first : first + count] = 60.0
            values[:] = held

    return spoil


def swinging(size_c: float, period_min: float = 9.0) -> Spoil:
    """Let the reading swing about the last hold, as a poorly tuned control does."""

    def spoil(columns: dict[str, Floats], elapsed_h: Floats, rng: np.random.Generator) -> None:
        for name in ("chamber", *SECTIONS):
            if name in columns:
                values = columns[name]
                top = float(values.max())
                held = np.flatnonzero(values > top - 4.0)
                hours = elapsed_h[held[0] : held[-1]] - elapsed_h[held[0]]
                swing = size_c * np.sin(2.0 * np.pi * hours * 60.0 / period_min)
                values[held[0] : held[-1]] += swing

    return spoil


def shifted(by_c: float) -> Spoil:
    """Shift every reading and the set point by the same degrees."""

    def spoil(columns: dict[str, Floats], elapsed_h: Floats, rng: np.random.Generator) -> None:
        for name in set(columns) - {"output"}:
            columns[name] = columns[name] + by_c

    return spoil
