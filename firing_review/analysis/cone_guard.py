"""06 or 6? Goal, schedule, ware, cones on the shelves and the log held against each other.

A contradiction between them explains a spoiled load better than any fault of the kiln, so it is
named first. Nothing here accuses: it says which two things do not fit, and where a lost or added
zero would explain it.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from firing_review.analysis.logged_curves import READING
from firing_review.analysis.plan_line import plan_line
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.cones import CONE_SCALE, ConeNumber, ConeTable
from firing_review.firing.results import ChannelHeatWork
from firing_review.firing.said import N_, Said
from firing_review.firing.sheet import Given
from firing_review.physics.cone_law import fit_laws
from firing_review.physics.cones import cone_equivalent, rank_label

APART_CONES = 2.5
"""Two statements farther apart than this many cones do not mean the same firing."""
TWIN_WITHIN_CONES = 2.0
"""A lost or added zero explains it where the other number comes this near."""
PACK_CONES = 3
"""A pack stands within this many numbers of the cone it is to judge."""
REACHED_WITHIN_C = 20.0
"""A log this near the schedule's top went as asked, so its heat work is the schedule's [°C]."""
ROOM_C = 20.0


@dataclass(frozen=True)
class _Statement:
    """One thing that names or implies a cone: the rank, how to name it, and the sentence."""

    rank: float
    cone: str
    plain: str
    with_twin: str


_SCHEDULE = (
    N_("The goal is cone {goal_cone}, but the schedule makes cone {other_cone}."),
    N_(
        "The goal is cone {goal_cone}, but the schedule makes cone {other_cone}: "
        "cone {twin_cone} may be meant."
    ),
)
_WARE = (
    N_("The goal is cone {goal_cone}, but the ware is rated for cone {other_cone}."),
    N_(
        "The goal is cone {goal_cone}, but the ware is rated for cone {other_cone}: "
        "{goal_plain} and {twin_plain} may have been mixed up."
    ),
)
_SHELVES = (
    N_("The goal is cone {goal_cone}, but the cones on the shelves are near cone {other_cone}."),
    N_(
        "The goal is cone {goal_cone}, but the cones on the shelves are near cone {other_cone}: "
        "cone {twin_cone} may be meant, or a zero was lost in writing."
    ),
)
_LOG = (
    N_("The goal is cone {goal_cone}, but the log has the heat work of cone {other_cone}."),
    N_(
        "The goal is cone {goal_cone}, but the log has the heat work of cone {other_cone}: "
        "the kiln may have been set for cone {twin_cone}."
    ),
)
LOG_TEXTS = frozenset(_LOG)
"""Contradictions of the log alone: a firing that went otherwise than meant makes them too."""
_WARE_SCHEDULE = N_("The ware is rated for cone {goal_cone}, but the schedule makes {other_cone}.")


def guard_cones(
    given: Given,
    firing: AlignedFiring,
    heat: Sequence[ChannelHeatWork],
    table: ConeTable,
) -> tuple[Said, ...]:
    """Return every contradiction between goal, schedule, ware, shelf cones and log.

    Parameters
    ----------
    heat : sequence of ChannelHeatWork
        As weighed by :func:`firing_review.analysis.heat_work.weigh_heat`.
    """
    schedule = _schedule_rank(given, table)
    if given.goal_cone is None:
        return _ware_against_schedule(given, schedule)
    statements = [
        *_of_schedule(schedule),
        *_of_ware(given),
        *_of_shelves(given),
        *_of_log(firing, heat, given.goal_cone),
    ]
    found = [_contradiction(given.goal_cone, s) for s in statements]
    return tuple(said for said in found if said is not None)


def twin_of(cone: ConeNumber) -> ConeNumber | None:
    """Return the number with its zero lost or added: 6 for 06, 06 for 6; None if there is none."""
    text = cone.text.removeprefix("0") if cone.text.startswith("0") else f"0{cone.text}"
    return ConeNumber(text) if text in CONE_SCALE else None


def _schedule_rank(given: Given, table: ConeTable) -> float | None:
    """Return the cone the schedule would bring down if the kiln followed it."""
    if given.intended is None:
        return None
    hours, temperatures = plan_line(given.intended, ROOM_C)
    return cone_equivalent(hours, temperatures, fit_laws(table))[0]


def _of_schedule(rank: float | None) -> list[_Statement]:
    return [] if rank is None else [_Statement(rank, rank_label(rank), *_SCHEDULE)]


def _of_ware(given: Given) -> list[_Statement]:
    rated = given.answers.ware_rated_cone
    return [] if rated is None else [_Statement(float(rated.rank), rated.text, *_WARE)]


def _of_shelves(given: Given) -> list[_Statement]:
    """Return what the cones on the shelves stand for, unless one is near the goal."""
    goal = given.goal_cone
    ranks = sorted(c.cone.rank for c in given.cones)
    if not ranks or goal is None or any(abs(r - goal.rank) <= PACK_CONES for r in ranks):
        return []
    middle = ranks[len(ranks) // 2]
    return [_Statement(float(middle), CONE_SCALE[middle], *_SHELVES)]


def _of_log(
    firing: AlignedFiring, heat: Sequence[ChannelHeatWork], goal: ConeNumber
) -> list[_Statement]:
    """Return what the log stands for, if the kiln did what it was set to do.

    A firing that fell short of its schedule contradicts the goal for another reason, and a log
    that leaves its top open does not tell that the goal was missed.
    """
    reading = next((h for h in heat if h.name == READING), None)
    if reading is None or reading.cone_equivalent is None or reading.label is None:
        return []
    if reading.at_least and reading.cone_equivalent < goal.rank:
        return []
    if firing.intended is not None and firing.peak_c < firing.intended.top_c - REACHED_WITHIN_C:
        return []
    return [_Statement(reading.cone_equivalent, reading.label, *_LOG)]


def _contradiction(goal: ConeNumber, other: _Statement) -> Said | None:
    if abs(other.rank - goal.rank) <= APART_CONES:
        return None
    figures = {"goal_cone": goal.text, "other_cone": other.cone, "goal_plain": goal.text}
    twin = twin_of(goal)
    if twin is None or abs(twin.rank - other.rank) > TWIN_WITHIN_CONES:
        return Said(other.plain, figures)
    return Said(other.with_twin, {**figures, "twin_cone": twin.text, "twin_plain": twin.text})


def _ware_against_schedule(given: Given, schedule: float | None) -> tuple[Said, ...]:
    rated = given.answers.ware_rated_cone
    if rated is None or schedule is None or abs(schedule - rated.rank) <= APART_CONES:
        return ()
    figures = {"goal_cone": rated.text, "other_cone": rank_label(schedule)}
    return (Said(_WARE_SCHEDULE, figures),)
