"""How much hotter or colder than its logged curve each shelf was, by its witness cones.

Every cone says, within its errors, by how many degrees the logged curve must be shifted to bend
it as far as it bent. A bent cone gives a value, an upright or a flat one a bound only. The
cones of a shelf are combined as likelihoods on a grid of shifts.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.cones import ConeNumber, ConeTable, ShelfCone
from firing_review.firing.kiln import Kiln
from firing_review.firing.results import ShelfHeat
from firing_review.firing.said import N_, Figures, Said
from firing_review.firing.units import Floats
from firing_review.physics.cones import (
    KIND_SD_C,
    LARGE_OFFSET_C,
    SMALL_OFFSET_C,
    ConeLaw,
    degrees_per_log_rate,
    equivalent_from_works,
    fit_laws,
    law_of,
    log_work_done,
    rank_label,
    share_of_work,
)

GRID_C = np.arange(-260.0, 260.5, 1.0)
"""Shifts that are tried [°C]; a shelf without power can lie 200 °C below."""
BOUND_FROM_DEG = 110.0
"""From here on a cone no longer measures [°]."""
UPRIGHT_TO_DEG = 4.0
"""Up to here a cone may not have moved at all [°]."""
CONE_SD_C = 2.2
"""Scatter of cones of one number: rms of the chart about a two-number law [°C]."""
BEND_LAW_SD = 0.2
"""The bend law is known to 15 to 30 % of the degrees between start and end point."""
SLOPE_STEP_DEG = 1.0
WELL_FITTED = 12.0
"""Two cones whose values lie farther apart than this, beyond their errors, contradict [°C]."""
RANGE = (0.05, 0.95)
"""The range that is reported: 90 %."""
TAIL_SHARE = 0.02
"""Share of the likelihood at an edge of the grid above which that side is not bounded."""
HALF_CONE_STEPS = 0.5


@dataclass(frozen=True)
class ConeSays:
    """What one cone says of the shift: a value or a bound [°C], with its standard deviation."""

    cone: ShelfCone
    value_c: float
    sd_c: float
    bound: str
    log_likelihood: Floats


def weigh_cones(
    firing: AlignedFiring,
    cones: Sequence[ShelfCone],
    kiln: Kiln | None,
    goal_cone: ConeNumber | None,
    tolerance_cones: float,
    table: ConeTable,
) -> tuple[ShelfHeat, ...]:
    """Return each shelf's offset with its range, from the floor up where the kiln sheet says so.

    Parameters
    ----------
    tolerance_cones : float
        How many cones off the goal still counts as even.
    """
    laws = fit_laws(table)
    named = list(dict.fromkeys(c.shelf for c in cones))
    order = [n for n in (kiln.shelf_names if kiln else ()) if n in named]
    order += [n for n in named if n not in order]
    return tuple(
        _shelf(
            firing,
            name,
            [c for c in cones if c.shelf == name],
            kiln,
            goal_cone,
            tolerance_cones,
            laws,
        )
        for name in order
    )


def shelf_curve(firing: AlignedFiring, shelf: str, kiln: Kiln | None) -> Floats:
    """Return the logged curve that stands for a shelf: its section's, else the firing's own."""
    section = shelf
    column = None
    if kiln is not None:
        section = next((s.section or s.name for s in kiln.shelves if s.name == shelf), shelf)
        column = next((s.probe_column for s in kiln.sections if s.name == section), None)
    for channel in firing.log.temperatures:
        plain = channel.name.lower().replace("_", " ")
        if channel.name == column or section.lower() in plain.split():
            return channel.values
    return firing.reading_c


def _shelf(
    firing: AlignedFiring,
    name: str,
    cones: list[ShelfCone],
    kiln: Kiln | None,
    goal_cone: ConeNumber | None,
    tolerance_cones: float,
    laws: tuple[ConeLaw, ...],
) -> ShelfHeat:
    curve = shelf_curve(firing, name, kiln)
    elapsed_h = firing.log.elapsed_h
    said = [
        _says(c, log_work_done(elapsed_h, curve, law, GRID_C), law)
        for c in cones
        if (law := law_of(laws, c.cone))
    ]
    notes = [*_unfitted(cones, laws), *contradictions(said)]
    if not said:
        return ShelfHeat(name, None, None, None, None, None, "", tuple(notes))
    total = sum(s.log_likelihood for s in said)
    offset, low, high, figures = _interval(np.asarray(total))

    def ranks_at(shifts_c: list[float]) -> list[float | None]:
        return _ranks_at(elapsed_h, curve, laws, shifts_c)

    rank, word = _judged(offset, low, high, figures, ranks_at, goal_cone, tolerance_cones)
    label = rank_label(rank) if rank is not None else None
    if offset is None or low is None or high is None:
        notes.append(
            Said(N_("These cones only bound the heat: none stopped in the middle of its bend."))
        )
        return ShelfHeat(name, None, None, None, rank, label, word, tuple(notes), figures)
    return ShelfHeat(name, offset, low, high, rank, label, word, tuple(notes), figures)


def _says(cone: ShelfCone, log_works: Floats, law: ConeLaw) -> ConeSays:
    """Return what one cone says of the shift, as a likelihood over the grid."""
    below_c = degrees_per_log_rate(law)
    kind_c = {"large": LARGE_OFFSET_C, "small": SMALL_OFFSET_C}.get(cone.kind.value, 0.0)
    per_degree = np.gradient(log_works, GRID_C)
    usual = float(np.median(per_degree))
    if cone.bend_deg >= BOUND_FROM_DEG or cone.bend_deg <= UPRIGHT_TO_DEG:
        return _bound(cone, log_works, law, below_c, kind_c)
    wanted = float(np.log(share_of_work(cone.bend_deg)))
    value = float(np.interp(wanted, log_works, GRID_C)) + kind_c
    error = cone.reading_error_deg * max(1.0 - 0.6 * (cone.bend_deg < 12.0), 0.4)
    reading_c = _degrees_of_bend(cone.bend_deg, error) / max(usual, 1e-4)
    law_c = BEND_LAW_SD * abs(wanted) / max(usual, 1e-4)
    sd = float(np.sqrt(CONE_SD_C**2 + reading_c**2 + law_c**2 + KIND_SD_C[cone.kind] ** 2))
    z = (GRID_C - value) / sd
    return ConeSays(cone, value, sd, "", -0.5 * z * z)


def _degrees_of_bend(bend_deg: float, error_deg: float) -> float:
    """Return the error in ln work that an error of the bend makes, averaged over both sides."""
    low = share_of_work(max(bend_deg - error_deg, 0.5))
    high = share_of_work(bend_deg + error_deg)
    return float(np.log(high / low) / 2.0)


def _bound(
    cone: ShelfCone, log_works: Floats, law: ConeLaw, below_c: float, kind_c: float
) -> ConeSays:
    """Return a one-sided likelihood: past its end point, or not yet begun to bend."""
    past = cone.bend_deg >= BOUND_FROM_DEG
    share = 1.05 if past else float(share_of_work(UPRIGHT_TO_DEG + 2.0))
    value = float(np.interp(np.log(share), log_works, GRID_C)) + kind_c
    begin_c = 0.0 if past else BEND_LAW_SD * abs(np.log(share)) * below_c
    sd = float(np.sqrt((1.5 * CONE_SD_C) ** 2 + begin_c**2 + KIND_SD_C[cone.kind] ** 2))
    z = (GRID_C - value) / sd
    likely = _log_normal_cdf(z if past else -z)
    return ConeSays(cone, value, sd, "at_least" if past else "at_most", likely)


def _log_normal_cdf(z: Floats) -> Floats:
    """Return ln of the normal distribution function by a logistic curve, within 0.02."""
    return np.asarray(-np.logaddexp(0.0, -1.702 * z))


def _interval(
    log_likelihood: Floats,
) -> tuple[float | None, float | None, float | None, Figures]:
    """Return median, 5 % and 95 % of the shift; None on a side the grid does not bound."""
    weight = np.exp(log_likelihood - log_likelihood.max())
    share = np.cumsum(weight) / weight.sum()
    low, middle, high = (float(np.interp(p, share, GRID_C)) for p in (RANGE[0], 0.5, RANGE[1]))
    edge = np.exp(np.array([log_likelihood[0], log_likelihood[-1]]) - log_likelihood.max())
    open_low, open_high = edge[0] > TAIL_SHARE, edge[1] > TAIL_SHARE
    figures: Figures = {}
    if open_low and not open_high:
        figures["at_most_delta_c"] = _half(weight, GRID_C, falling=True)
    elif open_high and not open_low:
        figures["at_least_delta_c"] = _half(weight, GRID_C, falling=False)
    if open_low or open_high:
        return None, None, None, figures
    return middle, low, high, figures


def _half(weight: Floats, grid: Floats, *, falling: bool) -> float:
    """Return where a one-sided likelihood falls to half."""
    high = np.flatnonzero(weight >= 0.5)
    return float(grid[high[-1] if falling else high[0]])


def _judged(
    offset: float | None,
    low: float | None,
    high: float | None,
    figures: Figures,
    ranks_at: Callable[[list[float]], list[float | None]],
    goal_cone: ConeNumber | None,
    tolerance_cones: float,
) -> tuple[float | None, str]:
    """Return the cone the shelf got and its word against the goal."""
    if offset is not None and low is not None and high is not None:
        ranks = ranks_at([offset, low, high])
        return ranks[0], _word(ranks[0], ranks[1], ranks[2], goal_cone, tolerance_cones)
    at_most, at_least = figures.get("at_most_delta_c"), figures.get("at_least_delta_c")
    if goal_cone is None:
        return None, ""
    if isinstance(at_most, float):
        rank = ranks_at([at_most])[0]
        return None, "cold" if rank is None or rank < goal_cone.rank - tolerance_cones else ""
    if isinstance(at_least, float):
        rank = ranks_at([at_least])[0]
        return None, "hot" if rank is not None and rank > goal_cone.rank + tolerance_cones else ""
    return None, ""


def _ranks_at(
    elapsed_h: Floats, curve: Floats, laws: tuple[ConeLaw, ...], shifts_c: list[float]
) -> list[float | None]:
    """Return the cone a place got that was hotter than its curve by each shift."""
    works = np.array([log_work_done(elapsed_h, curve, law, np.array(shifts_c)) for law in laws])
    return [equivalent_from_works(column, laws)[0] for column in works.T]


def _word(
    rank: float | None,
    low: float | None,
    high: float | None,
    goal: ConeNumber | None,
    tolerance_cones: float,
) -> str:
    """Return cold, even or hot; empty where the range leaves it open."""
    if goal is None:
        return ""
    middle = rank if rank is not None else -1.0
    if abs(middle - goal.rank) <= tolerance_cones:
        return "even"
    side = "cold" if middle < goal.rank else "hot"
    reaches = high if side == "cold" else low
    near = reaches is not None and abs(reaches - goal.rank) < tolerance_cones / 2.0
    return "even" if near and abs(middle - goal.rank) < 1.5 * tolerance_cones else side


def contradictions(said: Sequence[ConeSays]) -> tuple[Said, ...]:
    """Name pairs that cannot both be right: a hotter cone down and a cooler one up."""
    found = []
    ordered = sorted(said, key=lambda s: s.cone.cone.rank)
    for cooler in ordered:
        for hotter in ordered:
            if cooler.cone.cone.rank >= hotter.cone.cone.rank:
                continue
            apart = hotter.value_c - cooler.value_c
            lower_up = cooler.bound != "at_least" and hotter.bound != "at_most"
            limit = WELL_FITTED + 2.0 * float(np.hypot(cooler.sd_c, hotter.sd_c))
            if lower_up and apart > limit:
                found.append(_contradiction(cooler, hotter))
    return tuple(found[:1])


def _contradiction(cooler: ConeSays, hotter: ConeSays) -> Said:
    figures: Figures = {"cooler_cone": cooler.cone.cone.text, "hotter_cone": hotter.cone.cone.text}
    text = N_(
        "Cone {hotter_cone} is farther down than cone {cooler_cone} allows: "
        "the pack may stand reversed, a cone be misread, or a number be wrong."
    )
    return Said(text, figures)


def _unfitted(cones: list[ShelfCone], laws: tuple[ConeLaw, ...]) -> tuple[Said, ...]:
    outside = [c.cone.text for c in cones if law_of(laws, c.cone) is None]
    text = N_("Cone {cone} lies outside the range that can be computed.")
    return tuple(Said(text, {"cone": c}) for c in dict.fromkeys(outside))
