"""How much hotter or colder than its logged curve each shelf was, by its witness cones.

The cones of a place are combined as likelihoods on a grid of shifts of the logged curve, then
the places of a shelf. Where both ends are bounded a median and a 90 % range come out; upright or
flat packs only bound one side, and that is said instead.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from firing_review.analysis.cone_contradictions import contradictions
from firing_review.analysis.cone_likelihood import GRID_C, ConeSays, cone_says, smeared, together
from firing_review.analysis.logged_curves import (
    gap_near_top_h,
    shelf_curve,
    whatever_was_meant,
)
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.cones import ConeKind, ConeNumber, ConeTable, ShelfCone
from firing_review.firing.kiln import Kiln
from firing_review.firing.results import ShelfHeat
from firing_review.firing.said import N_, Figures, Said
from firing_review.firing.units import Floats
from firing_review.physics.cone_law import ConeLaw, fit_laws, law_of
from firing_review.physics.cones import (
    Dwell,
    dwell_of,
    equivalent_from_works,
    log_works,
    rank_label,
)

RANGE = (0.05, 0.95)
"""The range that is reported: 90 %."""
OPEN_SHARE = 0.02
"""Likelihood at an end of the grid, against the highest, above which that side is open."""
BOUND_SHARE = 0.1
"""A bound is told where the likelihood has fallen to this: about 95 % sure."""
USUAL_SPREAD_C = 25.0
"""Weak prior of the shift: half of all shelves lie within this of their logged curve [°C]."""
PLACE_SPREAD_C = 5.0
"""Places of one shelf differ by about this much, one standard deviation [°C]; practice."""
SURE_SHARE = 2.0 / 3.0
"""How probable cold or hot must be before a shelf is called so."""
TOO_FAR_C = 60.0
"""No working probe is off by more: a log that would not bend a cone even so is too cool [°C]."""
MOVING_LOG_SHARE = float(np.log(0.25))
"""At a quarter of its work a cone visibly starts; ln of it."""
NOT_STARTED = -1.0
"""Rank that stands for less than the coolest cone of the chart."""


@dataclass(frozen=True, eq=False)
class _Place:
    """Cones at one place of a shelf, with the likelihood of the shift they make together."""

    name: str
    said: tuple[ConeSays, ...]
    likelihood: Floats


@dataclass(frozen=True, eq=False)
class _Judge:
    """Turns shifts of a curve into cones and words against the goal."""

    dwell: Dwell
    laws: tuple[ConeLaw, ...]
    goal: ConeNumber | None
    tolerance_cones: float

    def rank(self, shift_c: float) -> float | None:
        return equivalent_from_works(log_works(self.dwell, self.laws, shift_c), self.laws)[0]

    def word(self, weight: Floats) -> str:
        """Return cold, even or hot from the probability of each; empty if none is probable."""
        if self.goal is None:
            return ""
        inside = GRID_C[np.flatnonzero(weight > 1e-4 * weight.max())]
        some = np.linspace(inside[0], inside[-1], 25)
        known = [self.rank(float(shift)) for shift in some]
        ranks = np.interp(GRID_C, some, [NOT_STARTED if r is None else r for r in known])
        cold = float(weight[ranks < self.goal.rank - self.tolerance_cones].sum() / weight.sum())
        hot = float(weight[ranks > self.goal.rank + self.tolerance_cones].sum() / weight.sum())
        if cold > SURE_SHARE:
            return "cold"
        if hot > SURE_SHARE:
            return "hot"
        return "even" if cold < 0.5 and hot < 0.5 else ""


@whatever_was_meant
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
    shelves = []
    for name in order:
        curve = shelf_curve(firing, name, kiln)
        dwell = dwell_of(firing.log.elapsed_h, curve)
        judge = _Judge(dwell, laws, goal_cone, tolerance_cones)
        whole = gap_near_top_h(firing.log.elapsed_h, curve) == 0.0
        mine = [c for c in cones if c.shelf == name]
        shelves.append(_shelf(name, mine, judge, whole=whole))
    return tuple(shelves)


def _shelf(name: str, cones: list[ShelfCone], judge: _Judge, *, whole: bool) -> ShelfHeat:
    """Return what the cones of one shelf say together."""
    known = [(c, law) for c in cones if (law := law_of(judge.laws, c.cone)) is not None]
    notes = list(_outside(cones, judge.laws))
    blind = _why_blind(known, judge, whole=whole)
    if not known or blind:
        return ShelfHeat(name, None, None, None, None, None, "", (*notes, *blind))
    places = _places(known, judge.dwell)
    for place in places:
        notes += contradictions(place.said)
    if any(c.kind is ConeKind.SMALL for c in cones):
        notes.append(_SMALL_CONES)
    if len(places) == 1:
        return _weighed(name, places[0].likelihood, judge, tuple(notes))
    each = tuple(_weighed(name, p.likelihood, judge, (), position=p.name) for p in places)
    shelf = _weighed(name, _shared(places, each), judge, tuple(notes))
    return replace(shelf, places=each, notes=(*shelf.notes, *_uneven(each)))


_SMALL_CONES = Said(
    N_("Small cones on a shelf are read against each other only; the range is wide.")
)


def _outside(cones: list[ShelfCone], laws: tuple[ConeLaw, ...]) -> tuple[Said, ...]:
    text = N_("Cone {cone} lies outside the range that can be computed.")
    outside = [c.cone.text for c in cones if law_of(laws, c.cone) is None]
    return tuple(Said(text, {"cone": cone}) for cone in dict.fromkeys(outside))


def _why_blind(
    known: list[tuple[ShelfCone, ConeLaw]], judge: _Judge, *, whole: bool
) -> tuple[Said, ...]:
    """Say why the log cannot be held against these cones, if it cannot."""
    if not whole or not len(judge.dwell.hours):
        text = N_("The log is silent near its top, so cones cannot be held against it.")
        return (Said(text),)
    if not known:
        return ()
    furthest = log_works(judge.dwell, tuple(law for _, law in known), TOO_FAR_C).max()
    if furthest > MOVING_LOG_SHARE:
        return ()
    if any(cone.bend_deg > 15.0 for cone, _ in known):
        text = N_(
            "These cones bent though the log stayed far too cool for them: the log may cover only "
            "a part of the firing, or the cones come from another one."
        )
        return (Said(text),)
    return (Said(N_("The log stops before these cones could move.")),)


def _places(known: list[tuple[ShelfCone, ConeLaw]], dwell: Dwell) -> list[_Place]:
    """Return the cones by their position on the shelf, each place with its likelihood."""
    by_place: dict[str, list[ConeSays]] = {}
    for cone, law in known:
        by_place.setdefault(cone.position.strip(), []).append(cone_says(cone, law, dwell))
    return [_Place(name, tuple(said), together(said)) for name, said in by_place.items()]


def _shared(places: list[_Place], each: tuple[ShelfHeat, ...]) -> Floats:
    """Return the likelihood of the shelf's shift from places that may differ."""
    medians = [p.offset_c for p in each if p.offset_c is not None]
    apart = float(np.std(medians, ddof=1)) if len(medians) > 1 else 0.0
    blurred = [smeared(p.likelihood, max(PLACE_SPREAD_C, apart)) for p in places]
    return np.asarray(np.prod(blurred, axis=0))


def _uneven(each: tuple[ShelfHeat, ...]) -> tuple[Said, ...]:
    """Name two places of a shelf whose ranges do not touch."""
    ranged = [p for p in each if p.offset_c is not None]
    if len(ranged) < 2:
        return ()
    cool, warm = (f(ranged, key=lambda p: p.offset_c or 0.0) for f in (min, max))
    if (cool.high_c or 0.0) >= (warm.low_c or 0.0):
        return ()
    figures: Figures = {
        "cool": cool.position,
        "warm": warm.position,
        "apart_delta_c": (warm.offset_c or 0.0) - (cool.offset_c or 0.0),
    }
    text = N_("On this shelf {warm} was about {apart_delta_c} hotter than {cool}.")
    return (Said(text, figures),)


def _weighed(
    name: str, likelihood: Floats, judge: _Judge, notes: tuple[Said, ...], position: str = ""
) -> ShelfHeat:
    """Return offset, range, cone and word from a likelihood over shifts."""
    relative = likelihood / likelihood.max()
    open_low, open_high = relative[0] > OPEN_SHARE, relative[-1] > OPEN_SHARE
    if open_low or open_high:
        figures = _bounds(relative, judge, open_low=open_low, open_high=open_high)
        word = _word_of_bounds(figures, judge)
        only = Said(N_("These cones only bound the heat: none stopped in the middle of its bend."))
        return ShelfHeat(
            name, None, None, None, None, None, word, (*notes, only), figures, position
        )
    weight = relative / (1.0 + (GRID_C / USUAL_SPREAD_C) ** 2)
    low, middle, high = _quantiles(weight, (RANGE[0], 0.5, RANGE[1]))
    rank = judge.rank(middle)
    label = rank_label(rank) if rank is not None else None
    word = judge.word(weight)
    return ShelfHeat(name, middle, low, high, rank, label, word, notes, position=position)


def _quantiles(weight: Floats, shares: Sequence[float]) -> list[float]:
    total = (np.cumsum(weight) - weight / 2.0) / weight.sum()
    return [float(np.interp(share, total, GRID_C)) for share in shares]


def _bounds(relative: Floats, judge: _Judge, *, open_low: bool, open_high: bool) -> Figures:
    """Return the one bound there is, in degrees and as a cone; none if both sides are open."""
    if open_low and open_high:
        return {}
    likely = GRID_C[np.flatnonzero(relative > BOUND_SHARE)]
    shift = float(likely[-1] if open_low else likely[0])
    rank = judge.rank(shift)
    side = "at_most" if open_low else "at_least"
    figures: Figures = {f"{side}_delta_c": shift}
    if rank is not None:
        figures[f"{side}_cone"] = rank_label(rank)
        figures[f"{side}_rank"] = rank
    return figures


def _word_of_bounds(figures: Mapping[str, object], judge: _Judge) -> str:
    """Return the word only where the bound itself lies on one side of the goal."""
    if judge.goal is None:
        return ""
    at_most, at_least = figures.get("at_most_delta_c"), figures.get("at_least_delta_c")
    if isinstance(at_most, float):
        rank = judge.rank(at_most)
        below = rank is None or rank < judge.goal.rank - judge.tolerance_cones
        return "cold" if below else ""
    if isinstance(at_least, float):
        rank = judge.rank(at_least)
        above = rank is not None and rank > judge.goal.rank + judge.tolerance_cones
        return "hot" if above else ""
    return ""
