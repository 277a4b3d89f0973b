"""A firing of the model kiln under a controller, with faults planted in it.

Used to invent demo firings and to ask what a kiln could do; what it is worth is said in
:mod:`firing_review.physics.heat_balance`. Explicit steps of 10 s.
"""

from dataclasses import dataclass, field

import numpy as np

from firing_review.firing.schedule import Schedule
from firing_review.firing.units import Floats
from firing_review.physics.heat_balance import (
    STEFAN_BOLTZMANN,
    ZERO_C_IN_K,
    KilnModel,
    load_heat_j_per_kg_k,
    skin_w_per_k_m2,
)
from firing_review.physics.kiln_controller import ControlSettings, ScheduleFollower

STEP_S = 10.0
"""Step of time [s]; the wall's slices need less than about 30 s to stay stable."""
NODE_J_PER_K = 1000.0
"""Heat of chamber air, heating elements and probe of a section, so that an empty one has some
[J/K]; an estimate."""
OPEN_LID_W_PER_K = 12.0
"""What the top section loses through an open lid, beyond its wall [W/K]; an estimate for 50 to
200 l, good to a factor of two."""


@dataclass(frozen=True)
class Faults:
    """What is wrong with the kiln, the supply, the probe or the evening.

    Attributes
    ----------
    power_share : tuple of float
        By section, power as a share of new heating elements; empty for as new.
    power_share_from_h : float
        From when on `power_share` holds [h]; as new before.
    supply_share : float
        Volts as a share of rated volts: power goes with its square.
    dead : mapping of section index to h
        From when on a section gets no power.
    stuck : mapping of section index to h
        From when on a section heats all the time.
    leak_w_per_k : float
        Air drawn through the whole kiln [W/K].
    cut_h : tuple of (from, hours)
        Power cut; the logger goes on.
    resumes : bool
        Whether the schedule goes on after a power cut.
    probe_error_share : float
        Error of the probe as a share of the temperature above the room, +0.02 is 2 % high.
    stopped_h : float or None
        When somebody switched the kiln off.
    opened_at_c : float or None
        The lid is opened once the hottest section has cooled to this [°C].
    load_share : tuple of float
        By section, load as a factor; empty for as usual.
    """

    power_share: tuple[float, ...] = ()
    power_share_from_h: float = 0.0
    supply_share: float = 1.0
    dead: dict[int, float] = field(default_factory=dict)
    stuck: dict[int, float] = field(default_factory=dict)
    leak_w_per_k: float = 0.0
    cut_h: tuple[float, float] | None = None
    resumes: bool = True
    probe_error_share: float = 0.0
    stopped_h: float | None = None
    opened_at_c: float | None = None
    load_share: tuple[float, ...] = ()


@dataclass(frozen=True)
class Run:
    """How a simulated firing is run and recorded.

    Attributes
    ----------
    probe : int or None
        Section whose probe the controller reads; None is the mean of all.
    probe_lag_min : float
        Time constant of the probe in its tube [min].
    until_c : float
        The record ends when the kiln has cooled to this [°C].
    hours : float
        Longest record [h].
    every_s : float
        Time between recorded samples [s].
    """

    control: ControlSettings = field(default_factory=ControlSettings)
    probe: int | None = 1
    probe_lag_min: float = 1.5
    until_c: float = 120.0
    hours: float = 60.0
    every_s: float = 60.0


@dataclass(frozen=True, eq=False)
class SimulatedFiring:
    """What happened, and what a logger saw of it.

    Attributes
    ----------
    elapsed_h : array, shape (samples,)
        Time [h].
    set_point_c, reading_c, output : array, shape (samples,)
        What was asked [°C], what the probe showed [°C], share of full output 0 to 1.
    chamber_c, core_c : array, shape (samples, sections)
        True temperature of each section's chamber and of the core of its load [°C].
    probes_c : array, shape (samples, sections)
        What a probe in each section would show [°C].
    energy_kwh : array, shape (samples,)
        Electrical energy so far [kWh].
    """

    elapsed_h: Floats
    set_point_c: Floats
    reading_c: Floats
    output: Floats
    chamber_c: Floats
    core_c: Floats
    probes_c: Floats
    energy_kwh: Floats


def simulate(
    model: KilnModel,
    schedule: Schedule,
    faults: Faults | None = None,
    run: Run | None = None,
) -> SimulatedFiring:
    """Return a firing of the model kiln from cold, heating and natural cooling.

    Parameters
    ----------
    schedule : Schedule
        What was typed into the controller.
    faults : Faults, optional
        What is wrong; nothing if not given.
    """
    faults, run = faults or Faults(), run or Run()
    body = _Body(model, faults)
    follower = ScheduleFollower(schedule, run.control, model.room_c)
    lag = 1.0 - np.exp(-STEP_S / (60.0 * run.probe_lag_min)) if run.probe_lag_min else 1.0
    probes = body.chamber_c.copy()
    rows: list[tuple[float, ...]] = []
    kwh, was_cut = 0.0, False
    for step in range(int(run.hours * 3600.0 / STEP_S)):
        hours = step * STEP_S / 3600.0
        shown = _shown(probes, model.room_c, faults)
        reading = float(shown.mean() if run.probe is None else shown[_at(run.probe, model)])
        demand, was_cut = _demand(follower, faults, hours, reading, was_cut=was_cut)
        power_w = body.power_w(demand, hours, cut=was_cut)
        if follower.done:
            body.open_when_cool()
        if step % max(round(run.every_s / STEP_S), 1) == 0:
            asked = np.nan if follower.done else follower.set_point_c
            rows.append(
                (hours, asked, reading, demand, kwh, *body.chamber_c, *body.core_c, *shown)
            )
            if follower.done and body.chamber_c.max() < run.until_c:
                break
        body.step(power_w)
        probes += lag * (body.chamber_c - probes)
        kwh += float(power_w.sum()) * STEP_S / 3.6e6
    return _as_firing(np.asarray(rows), len(model.sections))


def _at(probe: int, model: KilnModel) -> int:
    return min(probe, len(model.sections) - 1)


def _shown(probes: Floats, room_c: float, faults: Faults) -> Floats:
    return probes + faults.probe_error_share * (probes - room_c)


def _demand(
    follower: ScheduleFollower, faults: Faults, hours: float, reading: float, *, was_cut: bool
) -> tuple[float, bool]:
    """Return the share of output asked for, and whether the power is cut now."""
    if faults.cut_h is not None and 0.0 <= hours - faults.cut_h[0] < faults.cut_h[1]:
        return 0.0, True
    if was_cut and not faults.resumes:
        return follower.stop(), False
    if was_cut:
        follower.resume_from(reading)
    if faults.stopped_h is not None and hours >= faults.stopped_h:
        return follower.stop(), False
    return follower.demand(reading, STEP_S / 3600.0), False


def _as_firing(rows: Floats, sections: int) -> SimulatedFiring:
    blocks = [rows[:, 5 + i * sections : 5 + (i + 1) * sections] for i in range(3)]
    return SimulatedFiring(
        elapsed_h=rows[:, 0],
        set_point_c=rows[:, 1],
        reading_c=rows[:, 2],
        output=rows[:, 3],
        energy_kwh=rows[:, 4],
        chamber_c=blocks[0],
        core_c=blocks[1],
        probes_c=blocks[2],
    )


class _Body:
    """Temperatures of chamber, load core, wall slices and jacket while a firing runs."""

    def __init__(self, model: KilnModel, faults: Faults) -> None:
        self._model, self._faults = model, faults
        count, wall = len(model.sections), model.wall
        load = np.array([s.load_kg for s in model.sections]) * _per_section(
            faults.load_share, count
        )
        self._core_kg = load * model.core_share
        self._shell_kg = load - self._core_kg
        new_w = 1000.0 * np.array([s.power_kw for s in model.sections])
        self._rated_w = new_w * (_per_section(faults.power_share, count) * faults.supply_share**2)
        self._as_new_w = new_w * faults.supply_share**2
        self._area = np.array([s.wall_m2 for s in model.sections])
        self._leak = np.array([s.leak_w_per_k for s in model.sections])
        self._leak += faults.leak_w_per_k / count
        self._per_slice = STEP_S / (wall.density_kg_per_m3 * wall.heat_j_per_kg_k * wall.slice_m)
        self._is_open = False
        self.chamber_c = np.full(count, model.room_c)
        self.core_c = np.full(count, model.room_c)
        self._wall_c = np.full((count, wall.slices), model.room_c)
        self._skin_c = np.full(count, model.room_c)

    def power_w(self, demand: float, hours: float, *, cut: bool) -> Floats:
        """Return the power of each section [W]."""
        if cut:
            return np.zeros(len(self._rated_w))
        share = np.full(len(self._rated_w), demand)
        for index, from_h in self._faults.dead.items():
            if hours >= from_h:
                share[index] = 0.0
        for index, from_h in self._faults.stuck.items():
            if hours >= from_h:
                share[index] = 1.0
        weak = hours >= self._faults.power_share_from_h
        return np.asarray((self._rated_w if weak else self._as_new_w) * share)

    def open_when_cool(self) -> None:
        """Open the lid, once, if it is opened in this firing and the kiln is cool enough."""
        opened_at_c = self._faults.opened_at_c
        if opened_at_c is None or self._is_open or self.chamber_c.max() > opened_at_c:
            return
        self._leak[-1] += OPEN_LID_W_PER_K
        self._is_open = True

    def step(self, power_w: Floats) -> None:
        """Move every temperature on by one step of time."""
        model, chamber = self._model, self.chamber_c
        into_wall = self._step_wall()
        into_core = self._core_conductance() * (chamber - self.core_c)
        net = power_w - into_wall * self._area - into_core + self._from_neighbors()
        net -= self._leak * (chamber - model.room_c)
        heat = self._shell_kg * load_heat_j_per_kg_k(chamber) + NODE_J_PER_K
        core_heat = self._core_kg * load_heat_j_per_kg_k(self.core_c) + 1.0
        self.core_c = self.core_c + STEP_S * into_core / core_heat
        self.chamber_c = chamber + STEP_S * net / heat

    def _core_conductance(self) -> Floats:
        """Return the conductance to the core [W/K]: radiation, so with the cube of T."""
        kelvin = 0.5 * (self.chamber_c + self.core_c) + ZERO_C_IN_K
        hot = (kelvin / (1000.0 + ZERO_C_IN_K)) ** 3
        return np.asarray(self._model.core_w_per_k_kg * self._core_kg * (0.1 + 0.9 * hot))

    def _from_neighbors(self) -> Floats:
        fourth = (self.chamber_c + ZERO_C_IN_K) ** 4
        passed = STEFAN_BOLTZMANN * self._model.passage_m2 * self._model.exchange_share
        upward = passed * -np.diff(fourth)
        gained = np.zeros(len(fourth))
        gained[:-1] -= upward
        gained[1:] += upward
        return gained

    def _step_wall(self) -> Floats:
        """Move the wall on and return the heat that entered it [W/m²]."""
        wall, slices = self._model.wall, self._wall_c
        inner = wall.conductivity(0.5 * (self.chamber_c + slices[:, 0])) / (wall.slice_m / 2.0)
        outer = wall.conductivity(slices[:, -1]) / (wall.slice_m / 2.0)
        between = wall.conductivity(0.5 * (slices[:, 1:] + slices[:, :-1])) / wall.slice_m
        entering = inner * (self.chamber_c - slices[:, 0])
        through = between * (slices[:, :-1] - slices[:, 1:])
        shed = skin_w_per_k_m2(self._skin_c, self._model.room_c)
        leaving = outer * (slices[:, -1] - self._skin_c)
        self._skin_c = (outer * slices[:, -1] + shed * self._model.room_c) / (outer + shed)
        flow = np.concatenate((entering[:, None], through, leaving[:, None]), axis=1)
        self._wall_c = slices - self._per_slice * np.diff(flow, axis=1)
        return np.asarray(entering)


def _per_section(shares: tuple[float, ...], count: int) -> Floats:
    return np.asarray(shares, dtype=float) if shares else np.ones(count)
