"""A load that did not get its heat: refire it, or restart a firing that stopped.

Heat work adds up in clay and glaze, but not in cones: new cones show the second firing only.
Advice for ware is common practice where no source is named.
"""

import numpy as np

from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.cones import ConeNumber
from firing_review.firing.results import SecondFiring
from firing_review.firing.said import N_, Figures, Said
from firing_review.firing.sheet import Given
from firing_review.physics.cone_holds import share_on_climb
from firing_review.physics.cone_law import REFERENCE_C_PER_H, end_point_c
from firing_review.physics.cones import log_works, rank_label, rank_temperature_c
from firing_review.planning.plan_base import PlanBase, ShelfBase, rank_now, share_of_log
from firing_review.planning.schedules import last_rate_c_per_h, second_firing_schedule
from firing_review.planning.top_curve import LAST_SPAN_C, Change

LEAST_REFIRE_SHARE = 0.5
"""A refire asks for at least this share of the goal's work: less leaves a glaze unmelted."""
ENOUGH_SHARE = 0.8
"""From here on a firing is within about a third of a cone of its goal."""
NOTHING_SHARE = 0.01
"""Less work than this is none that a cone or a glaze would show."""
SPENT_WITHIN_C = 111.0
"""A cone that came this near its end point must not be used again (200 °F) [°C]."""
BISQUE_LEFT_CONES = 4.0
"""Bisque up to about this many cones low has been kept and glazed; told of one case."""
COLD_RESTART_C = 500.0
"""Stopped below this, a firing is begun again as a new one; common practice [°C]."""
BISQUE_WORDS = ("bisque", "biscuit")
GLASS_WORDS = ("glass", "fus", "slump")


def refire_plan(given: Given, base: PlanBase) -> SecondFiring | None:
    """Return what to do with shelves that stayed colder than meant; None if none did."""
    goal = float(base.goal.cone.rank)
    cold = [s for s in base.shelves if rank_now(base, s, Change()) < goal - base.tolerance_cones]
    if not cold or base.short:
        return None
    if _ware_is(given, GLASS_WORDS):
        return SecondFiring((Said(N_("Cones do not judge glass; no refire is worked out.")),))
    coldest = min(cold, key=lambda s: rank_now(base, s, Change()))
    said = [_what_they_got(base, cold, coldest)]
    rated = given.answers.ware_rated_cone
    if rated is not None and rated < base.goal.cone:
        return SecondFiring((*said, _beyond_rating(base.goal.cone, rated)))
    if (
        _ware_is(given, BISQUE_WORDS)
        and goal - rank_now(base, coldest, Change()) < BISQUE_LEFT_CONES
    ):
        return SecondFiring((*said, _KEEP_BISQUE))
    share = _refire_share(base, coldest)
    return _refire(base, said, share)


def _ware_is(given: Given, words: tuple[str, ...]) -> bool:
    ware = (given.answers.ware or "").lower()
    return any(word in ware for word in words)


_KEEP_BISQUE = Said(
    N_(
        "Bisque a few cones low is mostly glazed as it is; try one piece first. Common practice, "
        "no source."
    )
)
_BEFORE_REFIRE = Said(
    N_(
        "Tap each piece: one that rattles or is cracked is not refired. Pieces that were used or "
        "washed are dried first. Put in new cones."
    )
)


def _what_they_got(base: PlanBase, cold: list[ShelfBase], coldest: ShelfBase) -> Said:
    rank = rank_now(base, coldest, Change())
    figures: Figures = {
        "shelves": tuple(s.name for s in cold),
        "got_cone": rank_label(rank) if rank >= 0.0 else None,
        "goal_cone": base.goal.cone.text,
        "share_pct": 100.0 * _share(base, coldest),
    }
    if base.by_log:
        text = N_("By the log the load got {share_pct} of the heat work of cone {goal_cone}.")
    elif rank < 0.0:
        text = N_("{shelves} got hardly any of the heat work of cone {goal_cone}.")
    else:
        text = N_(
            "{shelves}: at the coldest about cone {got_cone}, {share_pct} of the heat work of "
            "cone {goal_cone}."
        )
    return Said(text, figures)


def _beyond_rating(goal: ConeNumber, rated: ConeNumber) -> Said:
    text = N_(
        "The ware is rated for cone {rated_cone}, below the goal of cone {goal_cone}: do not "
        "refire before that is settled."
    )
    return Said(text, {"rated_cone": rated.text, "goal_cone": goal.text})


def _share(base: PlanBase, shelf: ShelfBase) -> float:
    """Return the share of the goal cone's work a shelf got."""
    done = log_works(shelf.curve.changed(Change()), (base.goal,), shelf.offset_c)[0]
    return float(np.exp(min(float(done), 50.0)))


def _refire_share(base: PlanBase, shelf: ShelfBase) -> float:
    """Return the share of the goal's work to ask for, so that both firings stay inside the band.

    The two together are to stay within the tolerance above the goal.
    """
    ceiling_c = rank_temperature_c(base.goal.cone.rank + base.tolerance_cones, base.laws)
    at_most = share_on_climb(base.goal, ceiling_c, REFERENCE_C_PER_H) if ceiling_c else 1.0
    return float(np.clip(at_most - _share(base, shelf), LEAST_REFIRE_SHARE, 1.0))


def _refire(base: PlanBase, said: list[Said], share: float) -> SecondFiring:
    """Return a refire on the evenest shelf, its top set by what that shelf gets."""
    rate = last_rate_c_per_h(base.schedule) or REFERENCE_C_PER_H
    goal = float(base.goal.cone.rank)
    place = min(base.shelves, key=lambda s: abs(rank_now(base, s, Change()) - goal))
    top_c = float(round(end_point_c(base.goal, rate * share) - place.offset_c))
    figures: Figures = {
        "top_c": top_c,
        "rate_c_per_h": rate,
        "stretch_delta_c": LAST_SPAN_C,
        "goal_cone": base.goal.cone.text,
        "place": place.name,
        "share_pct": 100.0 * share,
    }
    if base.by_log:
        text = N_(
            "Refire to {top_c} with the last {stretch_delta_c} at {rate_c_per_h}, without a hold."
        )
    else:
        text = N_(
            "Refire those pieces where {place} stands, to {top_c} by the same probe, the last "
            "stretch at {rate_c_per_h}, without a hold: {share_pct} of cone {goal_cone}, so that "
            "both firings together stay near the goal."
        )
    plan = (*said, Said(text, figures), *_out_of_reach(base, top_c), _BEFORE_REFIRE)
    return SecondFiring(plan, second_firing_schedule(top_c, rate))


def restart_plan(firing: AlignedFiring, base: PlanBase) -> SecondFiring | None:
    """Return what was done before a firing stopped and what a restart must still do.

    None for a firing that came near the top of its schedule.
    """
    if not base.short:
        return None
    share = share_of_log(firing, base.goal)
    figures: Figures = {
        "share_pct": 100.0 * share,
        "goal_cone": base.goal.cone.text,
        "peak_c": firing.peak_c,
    }
    if share < NOTHING_SHARE:
        text = N_(
            "Before the stop at {peak_c} next to none of the heat work of cone {goal_cone} was "
            "done: a restart must do all of it."
        )
    else:
        text = N_(
            "Before the stop at {peak_c} the log had {share_pct} of the heat work of cone "
            "{goal_cone}."
        )
    if share >= ENOUGH_SHARE:
        return SecondFiring((Said(text, figures), _ENOUGH))
    top_c, rate = _restart_top(base, share)
    how = (*_how_to_restart(firing, top_c, rate), *_out_of_reach(base, top_c))
    said = (Said(text, figures), *how, *_spent_cones(firing, base))
    return SecondFiring(said, second_firing_schedule(top_c, rate))


_ENOUGH = Said(N_("That is as good as done: look at the ware before firing it again."))


def _out_of_reach(base: PlanBase, top_c: float) -> tuple[Said, ...]:
    """Say that the kiln cannot get there now, if its ceiling is known to lie below."""
    if base.ceiling_c is None or top_c < base.ceiling_c:
        return ()
    text = N_(
        "The kiln comes to about {ceiling_c} at most now: put its power right before this firing."
    )
    return (Said(text, {"ceiling_c": base.ceiling_c}),)


def _restart_top(base: PlanBase, share: float) -> tuple[float, float]:
    """Return top [°C] and last rate [°C/h]: a climb to T does the work of T at its rate."""
    rate = last_rate_c_per_h(base.schedule) or REFERENCE_C_PER_H
    return float(round(end_point_c(base.goal, rate * (1.0 - share)))), rate


def _how_to_restart(firing: AlignedFiring, top_c: float, rate: float) -> tuple[Said, ...]:
    figures: Figures = {"top_c": top_c, "rate_c_per_h": rate, "cold_c": COLD_RESTART_C}
    top = Said(
        N_("A restart without a hold ends at {top_c}, with the last stretch at {rate_c_per_h}."),
        figures,
    )
    if firing.peak_c < COLD_RESTART_C:
        return (top, Said(N_("Stopped below {cold_c}: begin again as for a new firing."), figures))
    text = N_(
        "From a cold kiln begin slowly, as for ware that may crack; from a hot one go on. Judge "
        "the end by new cones, not by the clock."
    )
    return (top, Said(text))


def _spent_cones(firing: AlignedFiring, base: PlanBase) -> tuple[Said, ...]:
    if firing.peak_c < base.goal.t60_c - SPENT_WITHIN_C:
        return ()
    text = N_(
        "Cones and shut-off cones that were within {near_delta_c} of their end point have "
        "softened: put in new ones."
    )
    return (Said(text, {"near_delta_c": SPENT_WITHIN_C}),)
