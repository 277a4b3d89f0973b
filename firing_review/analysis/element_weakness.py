"""The heating elements: what the curve says, and what meter readings say."""

from dataclasses import replace

import numpy as np

from firing_review.analysis.climb_and_fall import GRID_C, climb_and_fall
from firing_review.analysis.element_readings import ReadingsJudged, judge_readings
from firing_review.analysis.element_wear import wear_hours
from firing_review.analysis.firing_energy import energy_used
from firing_review.analysis.hold_output import compare_holds, hold_outputs
from firing_review.analysis.power_balance import judge_power
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.cones import ConeNumber, ConeTable
from firing_review.firing.kiln import Kiln
from firing_review.firing.results import ElementsJudged
from firing_review.firing.said import N_, Figures, Said
from firing_review.firing.sheet import Readings
from firing_review.firing.tables import WireTable
from firing_review.physics.cone_law import fit_laws, law_of
from firing_review.physics.heat_balance import model_of, usual_heat_kj_per_k

SHEET_FACTOR = 1.6
"""Load and walls of a kiln known from its sheet only: power over heat is right within this
factor. Loads run from 0.3 to 0.6 kg a liter, and walls store more or less of the heat."""
SHEET_FROM_C, SHEET_TO_C = 500.0, 900.0
"""Temperatures at which the sheet is compared [°C]."""
LITTLE_MARGIN_C = 60.0
"""A ceiling less than this above the goal cone leaves a slow last stretch [°C]; practice."""


def judge_elements(
    firing: AlignedFiring,
    earlier: tuple[AlignedFiring, ...],
    kiln: Kiln | None,
    readings: Readings,
    goal_cone_end_c: float | None = None,
    wire: WireTable | None = None,
) -> ElementsJudged:
    """Judge power, load, heat loss and heating elements of a kiln.

    Parameters
    ----------
    earlier : tuple of AlignedFiring
        Good firings of the same kiln, the newest last.
    kiln, readings : Kiln or None, Readings
        Rated values and what a meter showed; either may be empty.
    goal_cone_end_c : float, optional
        End point of the goal cone, to say what margin the kiln has [°C].
    wire : WireTable, optional
        Heating alloys, for hot resistance.
    """
    measured = judge_readings(kiln, readings, wire)
    judged = judge_power(firing, earlier)
    if judged.power_ratio is None and measured.power_ratio is None and not earlier:
        judged = _by_kiln_sheet(judged, firing, kiln)
    judged = _with_readings(judged, measured)
    judged = _with_holds(judged, firing, earlier)
    judged = _with_margin(judged, goal_cone_end_c)
    return _with_energy(judged, firing, kiln, readings, measured)


def cone_end_c(cone: ConeNumber | None, table: ConeTable) -> float | None:
    """Return the end point of a cone on a climb of 60 °C/h [°C]; None for a cone without law."""
    law = None if cone is None else law_of(fit_laws(table), cone)
    return None if law is None else law.t60_c


def _add(judged: ElementsJudged, figures: Figures, *said: Said) -> ElementsJudged:
    return replace(judged, basis=(*judged.basis, *said), figures={**judged.figures, **figures})


def _by_kiln_sheet(
    judged: ElementsJudged, firing: AlignedFiring, kiln: Kiln | None
) -> ElementsJudged:
    """Return power against the rating, from usual load and walls: a wide range."""
    if kiln is None or kiln.volume_l is None or not kiln.rated_kw:
        return judged
    heat = climb_and_fall(firing).power_over_heat
    good = np.isfinite(heat) & (GRID_C >= SHEET_FROM_C) & (GRID_C <= SHEET_TO_C)
    if np.count_nonzero(good) < 4:
        return judged
    model = model_of(kiln)
    kilowatts = heat[good] * usual_heat_kj_per_k(model, GRID_C[good]) / 3600.0
    power = float(np.median(kilowatts)) / kiln.rated_kw
    text = N_(
        "Without an earlier firing, power is told from the kiln sheet and a usual load: "
        "about {power_pct} of the rated power, but {low_pct} to {high_pct} would fit as well."
    )
    figures: Figures = {
        "power_pct": 100.0 * power,
        "low_pct": 100.0 * power / SHEET_FACTOR,
        "high_pct": 100.0 * power * SHEET_FACTOR,
    }
    return replace(
        _add(judged, {"power_from": "sheet"}, Said(text, figures)),
        power_ratio=power,
        power_low=power / SHEET_FACTOR,
        power_high=power * SHEET_FACTOR,
    )


def _with_readings(judged: ElementsJudged, measured: ReadingsJudged) -> ElementsJudged:
    if measured.sections:
        judged = replace(judged, per_section=measured.sections)
    judged = _add(judged, {}, *measured.notes)
    if measured.power_ratio is None or measured.low is None or measured.high is None:
        return judged
    figures: Figures = {
        "readings_power_ratio": measured.power_ratio,
        "readings_low_ratio": measured.low,
        "readings_high_ratio": measured.high,
        "resistance_share_ratio": measured.resistance_share,
        "supply_share_ratio": measured.supply_share,
    }
    judged = _add(judged, figures, *_say_readings(judged, measured))
    if judged.power_ratio is None:
        judged = replace(
            _add(judged, {"power_from": "readings"}),
            power_ratio=measured.power_ratio,
            power_low=measured.low,
            power_high=measured.high,
        )
    return judged


def _say_readings(judged: ElementsJudged, measured: ReadingsJudged) -> tuple[Said, ...]:
    low, high = measured.low or 0.0, measured.high or 0.0
    known: Figures = {
        "power_pct": 100.0 * (measured.power_ratio or 0.0),
        "low_pct": 100.0 * low,
        "high_pct": 100.0 * high,
        "resistance_pct": 100.0 * (measured.resistance_share or 1.0),
        "supply_pct": None if measured.supply_share is None else 100.0 * measured.supply_share,
    }
    text = N_(
        "By the meter the kiln has {power_pct} of its rated power ({low_pct} to {high_pct})."
    )
    parts = N_("Resistance alone leaves {resistance_pct}, supply alone {supply_pct}.")
    said = [Said(text, known)]
    if measured.resistance_share is not None and measured.supply_share is not None:
        said.append(Said(parts, known))
    apart = judged.power_low is not None and judged.power_high is not None
    if apart and (low > (judged.power_high or 0.0) or high < (judged.power_low or 0.0)):
        text = N_("The curve and the meter do not agree: one of them saw something else.")
        said.append(Said(text))
    return tuple(said)


def _with_holds(
    judged: ElementsJudged, firing: AlignedFiring, earlier: tuple[AlignedFiring, ...]
) -> ElementsJudged:
    """Add the share of output a hold needed, now and before."""
    mine = hold_outputs(firing)
    if not mine:
        return judged
    hottest = max(mine, key=lambda hold: hold.at_c)
    figures: Figures = {"hold_c": hottest.at_c, "hold_share_pct": 100.0 * hottest.share}
    for base in reversed(earlier):
        pair = compare_holds(mine, hold_outputs(base))
        if pair is None:
            continue
        now, before = pair
        figures = {
            "hold_c": now.at_c,
            "hold_share_pct": 100.0 * now.share,
            "hold_before_pct": 100.0 * before.share,
            "hold_power_ratio": before.share / now.share,
        }
        text = N_(
            "To hold {hold_c} it took {hold_share_pct} of full output; before, {hold_before_pct}."
        )
        return _add(judged, figures, Said(text, figures))
    return _add(judged, figures)


def _with_margin(judged: ElementsJudged, goal_cone_end_c: float | None) -> ElementsJudged:
    if judged.ceiling_c is None or goal_cone_end_c is None:
        return judged
    margin_c = judged.ceiling_c - goal_cone_end_c
    figures: Figures = {"margin_delta_c": margin_c}
    if margin_c >= LITTLE_MARGIN_C:
        return _add(judged, figures)
    if margin_c < 0.0:
        text = N_("With this power the kiln would not reach the goal cone at all.")
    else:
        text = N_("Only {margin_delta_c} lie between the goal cone and what the kiln can reach.")
    return _add(judged, figures, Said(text, figures))


def _with_energy(
    judged: ElementsJudged,
    firing: AlignedFiring,
    kiln: Kiln | None,
    readings: Readings,
    measured: ReadingsJudged,
) -> ElementsJudged:
    figures: Figures = {"wear_h": wear_hours(firing.log.elapsed_h, firing.reading_c)}
    used = energy_used(firing, kiln, readings, _power_of_rated(judged, measured))
    if used is None:
        return _add(judged, figures)
    figures |= {
        "energy_kwh": used.kwh,
        "energy_low_kwh": used.low_kwh,
        "energy_high_kwh": used.high_kwh,
        "energy_cost": used.cost,
    }
    text = N_("The firing took about {energy_kwh} ({energy_low_kwh} to {energy_high_kwh}).")
    return _add(judged, figures, Said(text, figures))


def _power_of_rated(
    judged: ElementsJudged, measured: ReadingsJudged
) -> tuple[float, float, float] | None:
    """Return power as a share of rated power: by the meter, else by the earlier firing."""
    if measured.power_ratio is not None and measured.low is not None and measured.high is not None:
        return measured.power_ratio, measured.low, measured.high
    value, low, high = judged.power_ratio, judged.power_low, judged.power_high
    if value is None or low is None or high is None:
        return None
    return value, low, high
