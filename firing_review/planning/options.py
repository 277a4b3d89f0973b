"""Ways to bring the coldest shelf to the goal cone: longer hold, slower last climb, higher top."""

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from firing_review.firing.results import PlanOption
from firing_review.firing.said import N_, Figures, Said
from firing_review.firing.schedule import Schedule
from firing_review.physics.cone_holds import hold_range_min
from firing_review.physics.cone_law import FIT_RATES_C_PER_H
from firing_review.physics.cones import rank_label
from firing_review.planning.plan_base import (
    PlanBase,
    ShelfBase,
    ShelfOutcome,
    goal_log_work,
    preview_plan,
    rank_now,
)
from firing_review.planning.schedules import top_hold_min, with_hold, with_last_rate, with_top
from firing_review.planning.top_curve import LAST_SPAN_C, Change

LONGEST_HOLD_MIN = 240.0
"""A longer hold is no setting any more: the published rules end here [min]."""
MOST_HIGHER_C = 50.0
"""A top moved farther is another firing, not a correction [°C]: about two cones."""
NEAR_CEILING_C = 15.0
"""This near its ceiling a kiln climbs too slowly to be planned with [°C]."""
SLOWEST_C_PER_H, FASTEST_C_PER_H = FIT_RATES_C_PER_H[0], FIT_RATES_C_PER_H[-1]
NEAR_ENOUGH = 0.001
"""Amounts are whole minutes and degrees; they are found this near [min, °C or °C/h]."""
FAR_OVER_CONES = 1.5
"""A shelf hotter than its goal by more may be spoiled [steps of the scale, of which 5 to 6 has
two]: a cone too hot many glazes still bear, two hardly any; common practice, no source."""
DOUBTFUL_HOLD_MIN = 45.0
"""From here on minutes of hold are told with their factor of doubt [min]."""

Solve = Callable[[Change], float]


@dataclass(frozen=True)
class _Way:
    """One kind of change: how far it may go, and what it is as a :class:`Change`."""

    id: str
    least: float
    most: float
    change: Callable[[float], Change]
    schedule: Callable[[Schedule, float], Schedule]


def ways_to(base: PlanBase, shelf: ShelfBase) -> tuple[PlanOption, ...]:
    """Return each way that brings a shelf's goal cone just to its end point, if it can.

    Those that take another shelf far over its goal come last.
    """
    found = []
    for way in _ways(base):
        amount = _amount(way, lambda change: goal_log_work(base, shelf, change))
        if amount is not None and _kiln_can(base, way, amount):
            found.append(_option(base, way, float(round(amount))))
    return tuple(sorted(found, key=lambda option: len(option.far_over)))


def hold_between(base: PlanBase) -> PlanOption | None:
    """Return the hold that leaves the coldest and the hottest shelf equally far from the goal."""

    def off_middle(change: Change) -> float:
        ranks = [rank_now(base, shelf, change) for shelf in base.shelves]
        return (min(ranks) + max(ranks)) / 2.0 - base.goal.cone.rank

    way = _hold(base)
    amount = _amount(way, off_middle)
    if amount is None:
        return None
    option = _option(base, way, float(round(amount)))
    return replace(option, id="all_inside", said=replace(option.said, text=_INSIDE[amount < 0.0]))


_INSIDE = {
    False: N_(
        "Hold {extra_min} longer at the top ({low_min} to {high_min}), {whole_min} in all: every "
        "shelf then stays near the goal."
    ),
    True: N_(
        "Hold {extra_min} shorter at the top, {whole_min} in all: every shelf then stays near the "
        "goal."
    ),
}


def _ways(base: PlanBase) -> tuple[_Way, ...]:
    slowest = min(SLOWEST_C_PER_H, base.rate_c_per_h)
    fastest = max(FASTEST_C_PER_H, base.rate_c_per_h)
    rate = _Way(
        "slower_last",
        -fastest,
        -slowest,
        lambda x: Change(last_rate_c_per_h=-x),
        lambda s, x: with_last_rate(s, -x),
    )
    top = _Way("higher_top", -MOST_HIGHER_C, MOST_HIGHER_C, lambda x: Change(higher_c=x), with_top)
    return _hold(base), rate, top


def _hold(base: PlanBase) -> _Way:
    off = min(base.hold_min, top_hold_min(base.schedule))
    return _Way(
        "longer_hold", -off, LONGEST_HOLD_MIN, lambda x: Change(extra_hold_min=x), with_hold
    )


def _amount(way: _Way, short_of: Solve) -> float | None:
    """Return the amount at which a rising function of the change is zero; None outside."""
    low, high = way.least, way.most
    if not short_of(way.change(low)) <= 0.0 <= short_of(way.change(high)):
        return None
    while high - low > NEAR_ENOUGH:
        middle = (low + high) / 2.0
        low, high = (middle, high) if short_of(way.change(middle)) < 0.0 else (low, middle)
    return (low + high) / 2.0


def _kiln_can(base: PlanBase, way: _Way, amount: float) -> bool:
    """Tell whether the kiln as it is now can do it, as far as its ceiling is known."""
    if base.ceiling_c is None:
        return True
    if way.id == "higher_top" and amount > 0.0:
        return base.top_c + amount <= base.ceiling_c - NEAR_CEILING_C
    return way.id != "longer_hold" or base.top_c <= base.ceiling_c


def _option(base: PlanBase, way: _Way, amount: float) -> PlanOption:
    change = way.change(amount)
    outcome = preview_plan(base, change)
    rate = change.last_rate_c_per_h
    return PlanOption(
        id=way.id,
        said=_said(base, change),
        schedule=way.schedule(base.schedule, amount),
        extra_hold_min=change.extra_hold_min or None,
        top_c=base.schedule.top_c + change.higher_c if change.higher_c else None,
        last_rate_c_per_h=rate,
        shelf_cones={o.shelf: o.rank for o in outcome},
        notes=_notes(base, change, outcome),
        shelf_ranges={o.shelf: (o.low, o.high) for o in outcome},
        far_over=tuple(o.shelf for o in outcome if _is_far_over(base, o)),
    )


def _said(base: PlanBase, change: Change) -> Said:
    if change.last_rate_c_per_h is not None:
        return _said_rate(base, change.last_rate_c_per_h)
    if change.higher_c:
        return _said_top(base, change.higher_c)
    return _said_hold(base, change.extra_hold_min)


def _said_hold(base: PlanBase, extra_min: float) -> Said:
    low, high = sorted(hold_range_min(base.goal, abs(extra_min)))
    figures: Figures = {
        "extra_min": abs(extra_min),
        "low_min": low,
        "high_min": high,
        "whole_min": max(0.0, top_hold_min(base.schedule) + extra_min),
    }
    if extra_min < 0.0:
        return Said(N_("Hold {extra_min} shorter at the top, {whole_min} in all."), figures)
    return Said(
        N_("Hold {extra_min} longer at the top ({low_min} to {high_min}), {whole_min} in all."),
        figures,
    )


def _said_rate(base: PlanBase, rate_c_per_h: float) -> Said:
    figures: Figures = {
        "span_delta_c": LAST_SPAN_C,
        "last_c_per_h": rate_c_per_h,
        "was_c_per_h": base.rate_c_per_h,
    }
    return Said(
        N_("Climb the last {span_delta_c} at {last_c_per_h}; it was {was_c_per_h}."), figures
    )


def _said_top(base: PlanBase, higher_c: float) -> Said:
    figures: Figures = {
        "change_delta_c": abs(higher_c),
        "top_c": base.schedule.top_c + higher_c,
    }
    if higher_c < 0.0:
        return Said(N_("Stop {change_delta_c} lower, at {top_c}."), figures)
    return Said(N_("Go {change_delta_c} higher, to {top_c}."), figures)


def _notes(base: PlanBase, change: Change, outcome: tuple[ShelfOutcome, ...]) -> tuple[Said, ...]:
    """Return what the change does beyond the shelf it is made for, and what is in doubt."""
    notes = [said for shelf in outcome if (said := _off_goal(base, shelf)) is not None]
    if any(_is_far_over(base, shelf) for shelf in outcome):
        notes.append(Said(N_("So much too hot, glazes may run and pieces warp.")))
    if abs(change.extra_hold_min) >= DOUBTFUL_HOLD_MIN:
        text = N_(
            "Minutes of a long hold are known within a factor of about two only: published rules "
            "and this law differ. Put in new cones and look at them before the end."
        )
        notes.append(Said(text))
    return (*notes, *_ability(base, change))


_HOT = (
    N_("{shelf} would come to cone {shelf_cone}, hotter than meant."),
    N_("{shelf} would come to cone {shelf_cone} or more, hotter than meant."),
)
_FAR_OVER = (
    N_("{shelf} would come to cone {shelf_cone}, far hotter than meant."),
    N_("{shelf} would come to cone {shelf_cone} or more, far hotter than meant."),
)
_COLD = (
    N_("{shelf} would come to cone {shelf_cone} only."),
    N_("{shelf} would come to cone {shelf_cone} at most."),
)
"""Each for a shelf that is known, and for one that is only bounded."""


def _off_goal(base: PlanBase, shelf: ShelfOutcome) -> Said | None:
    """Say how far a shelf would surely be off its goal; None if it need not be."""
    goal, exact = base.goal.cone.rank, shelf.rank is not None
    least, most = (shelf.rank, shelf.rank) if exact else (shelf.low, shelf.high)
    if least is not None and least > goal + base.tolerance_cones:
        texts, rank = _FAR_OVER if _is_far_over(base, shelf) else _HOT, least
    elif most is not None and most < goal - base.tolerance_cones:
        texts, rank = _COLD, most
    else:
        return None
    return Said(texts[not exact], {"shelf": shelf.shelf, "shelf_cone": rank_label(rank)})


def _is_far_over(base: PlanBase, shelf: ShelfOutcome) -> bool:
    """Tell whether a shelf would surely come so far over its goal that it may be spoiled."""
    least = shelf.low if shelf.rank is None else shelf.rank
    over_cones = max(FAR_OVER_CONES, base.tolerance_cones)
    return least is not None and least > base.goal.cone.rank + over_cones


def _ability(base: PlanBase, change: Change) -> tuple[Said, ...]:
    """Say how near the change brings the kiln to its ceiling, or that this is not known."""
    harder = change.higher_c > 0.0 or change.extra_hold_min > 0.0
    if not harder:
        return ()
    if base.ceiling_c is None:
        return ()
    if base.top_c + change.higher_c <= base.ceiling_c - 3.0 * NEAR_CEILING_C:
        return ()
    text = N_("The kiln comes to about {ceiling_c} at most now, so this is near its limit.")
    return (Said(text, {"ceiling_c": base.ceiling_c}),)


def hold_is_too_long(base: PlanBase, shelf: ShelfBase) -> bool:
    """Tell whether even the longest hold leaves a shelf short of the goal."""
    return goal_log_work(base, shelf, Change(extra_hold_min=LONGEST_HOLD_MIN)) < 0.0


def spread_cones(base: PlanBase) -> float:
    """Return how many cones lie between the coldest and the hottest shelf as it went."""
    ranks = [rank_now(base, shelf, Change()) for shelf in base.shelves]
    return float(np.max(ranks) - np.min(ranks))
