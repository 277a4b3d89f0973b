"""Meter readings of the heating circuits: power now, and how much is resistance, how much supply.

Power goes with the square of the voltage and against resistance, (V/Vr)² · Rr/R. Readings are
taken cold and unplugged (resistance) or by a licensed electrician under load (volts, amps).
"""

import math
from dataclasses import dataclass, replace
from itertools import combinations

from firing_review.firing.kiln import Kiln, Section, Supply
from firing_review.firing.results import SectionElements
from firing_review.firing.said import N_, Figures, Said
from firing_review.firing.sheet import OPEN_CIRCUIT, Readings
from firing_review.firing.tables import WireTable
from firing_review.physics.circuits import kiln_power, section_volts
from firing_review.physics.element_wire import HotOverCold, find_alloy, hot_over_cold

WORKING_C = 1000.0
"""Wire temperature at which hot resistance is taken [°C]; above it the ratio hardly moves."""
LISTED_SPREAD = 0.05
"""Resistivity of wire is good to about 5 %, so a listed resistance is too (makers' data)."""
METER_OHM = 0.2
"""Leads and contacts of a meter add 0.1 to 0.5 Ω (a home builder's account) [Ω]."""
SCATTER, WATCH, REPLACE = 1.05, 1.10, 1.15
"""Resistance against listed: below 5 % over is scatter, then watch, then plan, then replace;
practice, built on trade pages that replace at 10 % and accept 6 to 12 %."""
LOW = 0.94
"""A reading below this share of the listed resistance is low: also a sign of age."""
CONTRADICTION = 0.10
"""Amps that part from volts and ohms by more than this share contradict them."""
NO_CURRENT = 0.1
"""Amps below this share of the expected are none."""
SWAPPED_FIT, SWAPPED_APART = 0.06, 0.08
"""Two sections look swapped when each fits the other's listed value this well, and their listed
values differ by more than this."""
OVER_VOLTS = 1.03
"""Above this share of rated volts the supply counts as high."""
SAG_SHARE = 0.03
"""Usual supplies sink by a few volts under load; more than this is worth a look."""


@dataclass(frozen=True)
class ReadingsJudged:
    """What meter readings say about power.

    Attributes
    ----------
    power_ratio, low, high : float or None
        Power now as a share of rated power, with what the readings leave open.
    resistance_share, supply_share : float or None
        What resistance alone, and supply alone, leave of rated power.
    sections : tuple of SectionElements
        One for each section that was measured.
    notes : tuple of Said
        Contradictions and doubts that belong to no single section.
    """

    power_ratio: float | None = None
    low: float | None = None
    high: float | None = None
    resistance_share: float | None = None
    supply_share: float | None = None
    sections: tuple[SectionElements, ...] = ()
    notes: tuple[Said, ...] = ()


@dataclass(frozen=True)
class _Measured:
    """One section with what it should be and what was read."""

    section: Section
    rated_ohms: float
    hot: HotOverCold
    ohms: float | None
    amps: float | None

    @property
    def usable_ohms(self) -> float | None:
        return None if self.ohms is None or self.ohms <= 0.0 else self.ohms

    @property
    def ratio(self) -> float | None:
        ohms = self.usable_ohms
        return None if ohms is None else ohms / self.rated_ohms


def judge_readings(
    kiln: Kiln | None, readings: Readings, wire: WireTable | None = None
) -> ReadingsJudged:
    """Return power now by the meter, with contradictions named.

    Parameters
    ----------
    kiln : Kiln or None
        Needs rated volts, and rated power or cold resistance of each section.
    wire : WireTable, optional
        Heating alloys; without it hot resistance is known to 3 % only.
    """
    if not (readings.cold_ohms or readings.amps or _volts(readings)):
        return ReadingsJudged()
    if kiln is None or kiln.rated_volts is None:
        text = N_("Readings need the rated volts and sections of the kiln sheet to compare with.")
        return ReadingsJudged(notes=(Said(text),))
    measured = _measured(kiln, readings, wire)
    judged = _with_power(kiln, readings, measured)
    notes = (*_supply_notes(kiln, readings), *_swapped(measured), *judged.notes)
    return replace(judged, notes=notes)


def _volts(readings: Readings) -> float | None:
    return readings.volts_full_load or readings.volts_no_load


def _measured(kiln: Kiln, readings: Readings, wire: WireTable | None) -> list[_Measured]:
    found = []
    for section in kiln.sections:
        hot = hot_over_cold(find_alloy(wire, section.alloy) if wire else None, WORKING_C)
        rated = _rated_cold_ohms(kiln, section, hot)
        if rated is not None:
            ohms, amps = readings.cold_ohms.get(section.name), readings.amps.get(section.name)
            found.append(_Measured(section, rated, hot, ohms, amps))
    return found


def _rated_cold_ohms(kiln: Kiln, section: Section, hot: HotOverCold) -> float | None:
    if section.rated_cold_ohms:
        return section.rated_cold_ohms
    if not section.rated_kw or not kiln.rated_volts:
        return None
    volts = section_volts(kiln.supply, kiln.rated_volts)
    return volts**2 / (1000.0 * section.rated_kw) / hot.ratio


def _with_power(kiln: Kiln, readings: Readings, measured: list[_Measured]) -> ReadingsJudged:
    rated_volts = kiln.rated_volts or 0.0
    volts = _volts(readings)
    supply_share = (volts / rated_volts) ** 2 if volts else None
    sections = tuple(
        _section(kiln, one, readings, supply_share)
        for one in measured
        if one.ohms is not None or one.amps is not None
    )
    judged = ReadingsJudged(supply_share=supply_share, sections=sections)
    if not any(one.usable_ohms or _no_current(kiln, one, readings) for one in measured):
        return _with_range(judged, 1.0 if supply_share and not sections else None, measured)
    now = {o.section.name: _working_ohms(kiln, o, readings) for o in measured}
    as_new = {o.section.name: o.rated_ohms for o in measured}
    circuit = kiln.supply or Supply.SINGLE_PHASE
    left = kiln_power(circuit, rated_volts, now).total_w
    whole = kiln_power(circuit, rated_volts, as_new).total_w
    return _with_range(judged, left / whole, measured)


def _with_range(
    judged: ReadingsJudged, resistance_share: float | None, measured: list[_Measured]
) -> ReadingsJudged:
    if resistance_share is None:
        return judged
    power = resistance_share * (1.0 if judged.supply_share is None else judged.supply_share)
    unmeasured = sum(one.usable_ohms is None for one in measured) / max(len(measured), 1)
    smallest = min((o.usable_ohms for o in measured if o.usable_ohms), default=10.0)
    wide = math.hypot(LISTED_SPREAD, METER_OHM / smallest) + 0.15 * unmeasured
    if judged.supply_share is None:
        wide = math.hypot(wide, 0.05)
    return replace(
        judged,
        resistance_share=resistance_share,
        power_ratio=power,
        low=power * (1.0 - wide),
        high=power * (1.0 + wide),
    )


def _working_ohms(kiln: Kiln, one: _Measured, readings: Readings) -> float:
    """Return what the section is taken for: as read, as new if not read, open without current."""
    if _no_current(kiln, one, readings):
        return OPEN_CIRCUIT
    return one.usable_ohms or one.rated_ohms


def _section(
    kiln: Kiln, one: _Measured, readings: Readings, supply_share: float | None
) -> SectionElements:
    ratio = one.ratio
    supply = 1.0 if supply_share is None else supply_share
    notes = (*_ohm_notes(one), *_amp_notes(kiln, one, readings))
    if ratio is None or _no_current(kiln, one, readings):
        power = 0.0 if _no_current(kiln, one, readings) else _power_by_amps(kiln, one, readings)
    else:
        power = supply / ratio if math.isfinite(ratio) else 0.0
    wide = math.hypot(LISTED_SPREAD, METER_OHM / (one.usable_ohms or one.rated_ohms))
    return SectionElements(
        section=one.section.name,
        power_ratio=power,
        power_low=None if power is None else power * (1.0 - wide),
        power_high=None if power is None else power * (1.0 + wide),
        resistance_ratio=ratio,
        notes=notes,
    )


def _power_by_amps(kiln: Kiln, one: _Measured, readings: Readings) -> float | None:
    """Return V · I against rated power where only amps were read."""
    if one.amps is None or kiln.rated_volts is None:
        return None
    rated = section_volts(kiln.supply, kiln.rated_volts)
    volts = section_volts(kiln.supply, _volts(readings) or kiln.rated_volts)
    return volts * one.amps / (rated**2 / (one.rated_ohms * one.hot.ratio))


def _ohm_notes(one: _Measured) -> tuple[Said, ...]:
    ohms, ratio = one.ohms, one.ratio
    if ohms is None:
        return ()
    known: Figures = {"read_ohm": ohms, "listed_ohm": one.rated_ohms}
    if ratio is None:
        text = N_("0 Ω is a short or two touching leads, no heating element: measure again.")
        return (Said(text, known),)
    if not math.isfinite(ratio):
        text = N_("Open: no current can flow. A broken heating element or a burnt joint.")
        return (Said(text, known),)
    known["change_pct"] = abs(100.0 * (ratio - 1.0))
    return (Said(_band(ratio), known),)


def _band(ratio: float) -> str:
    if ratio < LOW:
        return N_(
            "{read_ohm} is {change_pct} below the listed {listed_ohm}: coils that touch in old "
            "heating elements, a parallel path left connected, or other heating elements."
        )
    if ratio < SCATTER:
        return N_("{read_ohm} against the listed {listed_ohm}: normal scatter.")
    if ratio < WATCH:
        return N_("{read_ohm} is {change_pct} above the listed {listed_ohm}: watch it.")
    if ratio < REPLACE:
        return N_("{read_ohm} is {change_pct} above the listed {listed_ohm}: plan new ones.")
    return N_("{read_ohm} is {change_pct} above the listed {listed_ohm}: due for new ones.")


def _expected_amps(kiln: Kiln, one: _Measured, readings: Readings) -> tuple[float, float] | None:
    """Return the amps that volts and ohms stand for, from hot to cold wire [A]."""
    volts = _volts(readings) or kiln.rated_volts
    ohms = one.usable_ohms or one.rated_ohms
    if volts is None:
        return None
    across = section_volts(kiln.supply, volts)
    hottest, coldest = max(one.hot.high, 1.0), min(one.hot.low, 1.0)
    return across / (ohms * hottest), across / (ohms * coldest)


def _no_current(kiln: Kiln, one: _Measured, readings: Readings) -> bool:
    expected = _expected_amps(kiln, replace(one, ohms=None), readings)
    return one.amps is not None and expected is not None and one.amps < NO_CURRENT * expected[0]


def _amp_notes(kiln: Kiln, one: _Measured, readings: Readings) -> tuple[Said, ...]:
    expected = _expected_amps(kiln, one, readings)
    if one.amps is None or expected is None:
        return ()
    known: Figures = {"read_a": one.amps, "low_a": expected[0], "high_a": expected[1]}
    if _no_current(kiln, one, readings):
        if one.usable_ohms is None or not math.isfinite(one.usable_ohms):
            return (Said(N_("No current flows at full power."), known),)
        text = N_(
            "The heating element is whole but no current flows at full power: "
            "a relay, switch or connection."
        )
        return (Said(text, known),)
    if one.usable_ohms is None:
        return ()
    low, high = expected[0] * (1.0 - CONTRADICTION), expected[1] * (1.0 + CONTRADICTION)
    if low <= one.amps <= high:
        return ()
    text = N_(
        "Contradiction: {read_a} measured, but volts and ohms stand for {low_a} to {high_a}. "
        "One of the three readings is wrong, or not all was switched on."
    )
    return (Said(text, known),)


def _supply_notes(kiln: Kiln, readings: Readings) -> tuple[Said, ...]:
    notes = []
    rest, load, rated = readings.volts_no_load, readings.volts_full_load, kiln.rated_volts or 0.0
    if rest and load:
        known: Figures = {"rest_v": rest, "load_v": load, "sag_pct": 100.0 * (1.0 - load / rest)}
        if load > rest * 1.005:
            text = N_("The supply reads {load_v} at full power and {rest_v} at rest: swapped?")
            notes.append(Said(text, known))
        elif load < rest * (1.0 - SAG_SHARE):
            text = N_("At full power the supply sinks from {rest_v} to {load_v}, by {sag_pct}.")
            notes.append(Said(text, known))
    elif rest:
        notes.append(Said(N_("Volts were read at rest only; at full power they are lower.")))
    volts = _volts(readings)
    if volts and volts > OVER_VOLTS * rated:
        known = {"read_v": volts, "rated_v": rated, "more_pct": 100.0 * ((volts / rated) ** 2 - 1)}
        text = N_(
            "The supply is at {read_v}, above the rated {rated_v}: {more_pct} more power, "
            "and heating elements that wear sooner."
        )
        notes.append(Said(text, known))
    return tuple(notes)


def _swapped(measured: list[_Measured]) -> tuple[Said, ...]:
    """Name two sections whose readings fit each other's listed values and not their own."""
    found = []
    for one, two in combinations(measured, 2):
        ohms = (one.usable_ohms or OPEN_CIRCUIT, two.usable_ohms or OPEN_CIRCUIT)
        if not all(map(math.isfinite, ohms)):
            continue
        apart = abs(one.rated_ohms / two.rated_ohms - 1.0) > SWAPPED_APART
        crossed = max(abs(ohms[0] / two.rated_ohms - 1.0), abs(ohms[1] / one.rated_ohms - 1.0))
        own = min(abs(ohms[0] / one.rated_ohms - 1.0), abs(ohms[1] / two.rated_ohms - 1.0))
        if apart and crossed < SWAPPED_FIT and own > crossed:
            text = N_("The readings of {one} and {two} fit each other's listed values: swapped?")
            found.append(Said(text, {"one": one.section.name, "two": two.section.name}))
    return tuple(found)
