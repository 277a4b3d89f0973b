"""The next firing: what to change, what that does to every shelf, and when nothing helps."""

from collections.abc import Sequence

from firing_review.analysis.logged_curves import hidden_top_c
from firing_review.analysis.probe_against_cones import (
    ConeCheck,
    ProbeWord,
    probe_against_cones,
    probe_over_firings,
)
from firing_review.diagnosis.safety import SWITCH_OFF, in_danger
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.cones import ConeTable
from firing_review.firing.results import ElementsJudged, NextFiring, PlanOption, ShelfHeat
from firing_review.firing.said import N_, Figures, Said
from firing_review.firing.sheet import Given
from firing_review.planning.options import (
    LONGEST_HOLD_MIN,
    hold_between,
    hold_is_too_long,
    spread_cones,
    ways_to,
)
from firing_review.planning.plan_base import (
    PlanBase,
    ShelfBase,
    base_as_asked,
    base_as_it_went,
    plan_base,
    preview_plan,
    rank_now,
)
from firing_review.planning.second_firing import refire_plan, restart_plan
from firing_review.planning.top_curve import Change

__all__ = ["Change", "PlanBase", "plan_base", "plan_next", "preview_plan"]

_NO_GOAL = N_("Choose the goal cone to plan the next firing.")
_NO_LAW = N_("Cone {goal_cone} lies outside the range that can be computed, so no plan is made.")
_BY_LOG = N_("No shelf's offset is known, so this plan goes by the log alone.")
_OPEN = N_(
    "No shelf's offset is known, and the log leaves open how hot the top was: with cones on every "
    "shelf the next firing can be planned."
)
_NO_PROBE = N_("The log leaves open how hot the top was, so cones cannot judge the probe.")
_STOPPED = N_(
    "The firing stopped well below its top, so this plan starts from the schedule as meant. "
    "Find out first why it stopped."
)
_RAN_ON = N_(
    "The firing went well above the top of its schedule, so this plan starts from the schedule as "
    "meant. Find out first why."
)
_HELD = N_(
    "The hold at the top lasted {got_min}; this plan counts the {asked_min} that were asked. Find "
    "out first why."
)
_REACHED = N_(
    "The kiln did not come to the top of its schedule, so this plan starts from the {top_c} it "
    "reached. Find out first why."
)
_KEEP = N_("Every shelf is within {tolerance} cones of cone {goal_cone}: keep the schedule.")
_NONE_OUTSIDE = N_(
    "No shelf lies surely more than {tolerance} cones off cone {goal_cone}: keep the schedule."
)
_MEANT = N_("Fired as asked, the schedule makes cone {goal_cone}: it may stay as it is.")
_NO_SETTING = N_(
    "No setting brings both {cold} and {hot} to cone {goal_cone}: they lie {apart} cones or more "
    "apart. "
    "That is the load or the heating elements, not the schedule."
)
_NONE_FITS = N_(
    "No change of hold, last rate or top within reach brings {cold} to cone {goal_cone} with the "
    "kiln as it is now."
)
_LONG = N_("A longer hold alone would take more than {longest_min} for {cold}.")
_BOUND = N_("{shelves}: only a bound is known, so the change named is the least that is needed.")


def plan_next(
    given: Given,
    firing: AlignedFiring,
    shelves: Sequence[ShelfHeat],
    elements: ElementsJudged,
    table: ConeTable,
    earlier: Sequence[ConeCheck] = (),
) -> NextFiring:
    """Return the plan for the next firing.

    Parameters
    ----------
    shelves : sequence of ShelfHeat
        As weighed by :func:`firing_review.analysis.shelf_cones.weigh_cones`; may be empty.
    elements : ElementsJudged
        Its ceiling limits what is proposed.
    earlier : sequence of ConeCheck
        Earlier firings with cones, for the offset of the probe.
    """
    goal = given.goal_cone
    if in_danger(given.answers, ()):
        return NextFiring(goal, said=(SWITCH_OFF,))
    went = base_as_it_went(given, firing, shelves, elements, table)
    base = base_as_asked(went, given, firing, shelves, elements)
    if base is None or went is None:
        why = Said(_NO_LAW, {"goal_cone": goal.text}) if goal else Said(_NO_GOAL)
        return NextFiring(goal, said=(why,))
    if base.by_log and hidden_top_c(firing.log.elapsed_h, firing.reading_c):
        return NextFiring(goal, said=(Said(_OPEN),))
    options, said = _options(base, shelves)
    return NextFiring(
        goal_cone=goal,
        options=options,
        said=(*_standing(base), *said, *_probe(firing, shelves, earlier)),
        refire=refire_plan(given, went),
        restart=restart_plan(firing, base),
    )


def _standing(base: PlanBase) -> tuple[Said, ...]:
    """Say what the plan rests on."""
    said = []
    if base.missed:
        reached: Figures = {"top_c": base.schedule.top_c}
        said.append(Said(_STOPPED) if base.as_planned else Said(_REACHED, reached))
    elif base.as_planned:
        said.append(Said(_RAN_ON))
    elif base.got_hold_min is not None:
        held: Figures = {"got_min": base.got_hold_min, "asked_min": base.hold_min}
        said.append(Said(_HELD, held))
    if base.by_log:
        said.append(Said(_BY_LOG))
    return tuple(said)


def _options(
    base: PlanBase, shelves: Sequence[ShelfHeat]
) -> tuple[tuple[PlanOption, ...], tuple[Said, ...]]:
    """Return the ways to the goal and what must be said of them."""
    words = set() if base.missed or base.as_asked else {shelf.word for shelf in shelves}
    if "even" in words and words <= {"even", ""}:
        return (), _kept(base, _KEEP if words == {"even"} else _NONE_OUTSIDE)
    goal, tolerance = float(base.goal.cone.rank), base.tolerance_cones
    ordered = sorted(base.shelves, key=lambda s: rank_now(base, s, Change()))
    cold, hot = ordered[0], ordered[-1]
    coldest, hottest = (rank_now(base, s, Change()) for s in (cold, hot))
    if coldest >= goal - tolerance and hottest <= goal + tolerance:
        return (), _kept(base, _MEANT if base.as_asked else _KEEP)
    figures: Figures = {
        "cold": cold.name,
        "hot": hot.name,
        "goal_cone": base.goal.cone.text,
        "apart": round(spread_cones(base), 1),
    }
    ways = ways_to(base, cold)
    said = _beside(base, ways, (cold, hot), figures)
    if hottest - coldest > 2.0 * tolerance:
        return ways, (Said(_NO_SETTING, figures), *said)
    between = hold_between(base) if any(o.notes for o in ways) and len(ordered) > 1 else None
    return ((between, *ways) if between else ways), said


def _kept(base: PlanBase, text: str) -> tuple[Said, ...]:
    """Say that the schedule may stay."""
    return (Said(text, {"goal_cone": base.goal.cone.text, "tolerance": base.tolerance_cones}),)


def _beside(
    base: PlanBase, ways: tuple[PlanOption, ...], ends: tuple[ShelfBase, ...], figures: Figures
) -> tuple[Said, ...]:
    """Return what must be said of the ways: none fits, a hold is too long, only a bound known."""
    if not ways:
        return (Said(_NONE_FITS, figures),)
    said = []
    if hold_is_too_long(base, ends[0]):
        said.append(Said(_LONG, {**figures, "longest_min": LONGEST_HOLD_MIN}))
    bounds = [s.name for s in ends if not s.bounded]
    if bounds:
        said.append(Said(_BOUND, {"shelves": tuple(dict.fromkeys(bounds))}))
    return tuple(said)


def _probe(
    firing: AlignedFiring, shelves: Sequence[ShelfHeat], earlier: Sequence[ConeCheck]
) -> tuple[Said, ...]:
    """Say what the cones say of the probe; an offset only where several firings agree."""
    if not shelves:
        return ()
    if hidden_top_c(firing.log.elapsed_h, firing.reading_c):
        return (Said(_NO_PROBE),)
    now = probe_against_cones(shelves)
    if now.word is ProbeWord.CANNOT_TELL:
        return ()
    if now.word is not ProbeWord.SHARED:
        return (now.said,)
    over = probe_over_firings((*earlier, ConeCheck(firing.peak_c, tuple(shelves))))
    return (now.said, over.said)
