"""What a plan starts from: the firing as it went, with what went wrong at its top put right.

Where the schedule was not what was fired, a change of it must not be reckoned from what was fired.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from firing_review.analysis.holds import find_hold_lengths
from firing_review.analysis.logged_curves import READING, hidden_top_c, shelf_curve
from firing_review.analysis.thresholds import DEFAULTS
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.cones import ConeTable
from firing_review.firing.results import ElementsJudged, ShelfHeat
from firing_review.firing.schedule import Schedule
from firing_review.firing.sheet import Given
from firing_review.firing.units import Floats
from firing_review.physics.cone_holds import hold_factor
from firing_review.physics.cone_law import ConeLaw, fit_laws, law_of
from firing_review.physics.cones import Dwell, equivalent_from_works, log_works, work_so_far
from firing_review.planning.schedules import (
    SAME_TOP_C,
    base_schedule,
    top_hold_min,
    with_hold,
    with_top,
)
from firing_review.planning.top_curve import (
    Change,
    TopCurve,
    TopMarks,
    find_marks,
    take_apart,
)

SHORT_OF_TOP_C = 25.0
"""A firing this far below its schedule's top did not run to its end [°C]: one cone at cone 6."""
PAST_TOP_C = SHORT_OF_TOP_C
"""A firing this far above its schedule's top ran on [°C]: no change of the schedule mends that."""
TOO_LITTLE_SHARE = 0.1
"""With less of the goal's work than this a plan from the log would be another firing."""
FALL_C_PER_H = 250.0
"""Natural cooling just below the top [°C/h]; adds a few minutes of heat work."""
STEP_H = 1.0 / 60.0
BELOW_ALL = -1.0


@dataclass(frozen=True, eq=False)
class ShelfBase:
    """A shelf as the plan sees it: its curve and how much hotter than that it was [°C].

    A shelf known by a bound only has ``offset_c`` at the bound and its open end None.
    """

    name: str
    curve: TopCurve
    offset_c: float
    low_c: float | None
    high_c: float | None

    @property
    def bounded(self) -> bool:
        """Tell whether both ends are known."""
        return self.low_c is not None and self.high_c is not None


@dataclass(frozen=True, eq=False)
class PlanBase:
    """All that a plan is worked out from, made ready once per review.

    Attributes
    ----------
    shelves : tuple of ShelfBase
        From the floor up; the reading alone where no cones were set.
    short : bool
        Whether the firing stopped well below the top of its schedule.
    as_planned : bool
        Whether the schedule stands in for a log that had next to no heat work or ran on.
    missed : bool
        Whether the kiln did not come to the top of its schedule, by little or much.
    got_hold_min : float or None
        Hold the log has at the top where it is not the one asked; the plan counts the one asked.
    by_log : bool
        Whether no shelf cones are known.
    """

    goal: ConeLaw
    laws: tuple[ConeLaw, ...]
    shelves: tuple[ShelfBase, ...]
    schedule: Schedule
    tolerance_cones: float
    top_c: float
    rate_c_per_h: float
    hold_min: float
    ceiling_c: float | None
    short: bool
    as_planned: bool
    by_log: bool
    missed: bool = False
    got_hold_min: float | None = None

    @property
    def as_asked(self) -> bool:
        """Tell whether the plan counts something as asked that went otherwise."""
        return self.as_planned or self.got_hold_min is not None


@dataclass(frozen=True)
class ShelfOutcome:
    """Cone a shelf would get: rank with tenths, and its 90 % range; None is not known."""

    shelf: str
    rank: float | None
    low: float | None
    high: float | None


def plan_base(
    given: Given,
    firing: AlignedFiring,
    shelves: Sequence[ShelfHeat],
    elements: ElementsJudged,
    table: ConeTable,
) -> PlanBase | None:
    """Return what a plan starts from; None without a goal cone that can be computed."""
    went = base_as_it_went(given, firing, shelves, elements, table)
    return base_as_asked(went, given, firing, shelves, elements)


def base_as_asked(
    went: PlanBase | None,
    given: Given,
    firing: AlignedFiring,
    shelves: Sequence[ShelfHeat],
    elements: ElementsJudged,
) -> PlanBase | None:
    """Return the same with what was asked where the kiln was told otherwise and did it."""
    if went is None or went.missed:
        return went
    if ran_on(firing):
        return _base(given, firing, shelves, elements, went.goal, went.laws, planned=True)
    return with_hold_as_asked(went, firing)


def base_as_it_went(
    given: Given,
    firing: AlignedFiring,
    shelves: Sequence[ShelfHeat],
    elements: ElementsJudged,
    table: ConeTable,
) -> PlanBase | None:
    """Return the firing as it went, by which a load is judged; None as for a plan.

    The schedule stands in only for a log that had next to no heat work.
    """
    laws = fit_laws(table)
    goal = law_of(laws, given.goal_cone) if given.goal_cone else None
    if goal is None:
        return None
    planned = stopped_short(firing) and share_of_log(firing, goal) < TOO_LITTLE_SHARE
    return _base(given, firing, shelves, elements, goal, laws, planned=planned)


def _base(
    given: Given,
    firing: AlignedFiring,
    shelves: Sequence[ShelfHeat],
    elements: ElementsJudged,
    goal: ConeLaw,
    laws: tuple[ConeLaw, ...],
    *,
    planned: bool,
) -> PlanBase:
    curves = _planned(firing) if planned else _logged(given, firing, shelves)
    values_c = curves[READING][1]
    marks = find_marks(*curves[READING], float(np.nanmax(values_c)) if planned else firing.peak_c)
    usable = [s for s in shelves if not planned or s.offset_c is not None]
    based = [_shelf(s, take_apart(*curves.get(s.shelf, curves[READING]), marks)) for s in usable]
    known = tuple(s for s in based if s is not None)
    reading = take_apart(*curves[READING], marks)
    return PlanBase(
        goal=goal,
        laws=laws,
        shelves=known or (ShelfBase(READING, reading, 0.0, 0.0, 0.0),),
        schedule=_schedule(given, firing, marks, planned=planned),
        tolerance_cones=given.tolerance_cones,
        top_c=reading.top_c,
        rate_c_per_h=marks.rate_c_per_h,
        hold_min=60.0 * marks.hold_h,
        ceiling_c=elements.ceiling_c,
        short=stopped_short(firing),
        as_planned=planned,
        by_log=not known,
        missed=came_below_top(firing, DEFAULTS.differs_top_c),
    )


def with_hold_as_asked(base: PlanBase, firing: AlignedFiring) -> PlanBase:
    """Return the base with the hold that was asked at the top, if it was not the one fired."""
    schedule = base.schedule
    targets = [hold.figures["target_c"] for hold in find_hold_lengths(firing, DEFAULTS)]
    at_top_c = schedule.top_c - SAME_TOP_C
    if not any(isinstance(t, float | int) and t >= at_top_c for t in targets):
        return base
    asked_min = top_hold_min(schedule)
    shelves = tuple(replace(s, curve=s.curve.held(asked_min / 60.0)) for s in base.shelves)
    return replace(base, shelves=shelves, hold_min=asked_min, got_hold_min=base.hold_min)


def ran_on(firing: AlignedFiring) -> bool:
    """Tell whether the firing went well above the top of its schedule."""
    return firing.intended is not None and firing.peak_c > firing.intended.top_c + PAST_TOP_C


def stopped_short(firing: AlignedFiring) -> bool:
    """Tell whether the firing stopped well below the top of its schedule."""
    return came_below_top(firing, SHORT_OF_TOP_C)


def came_below_top(firing: AlignedFiring, by_c: float) -> bool:
    """Tell whether the highest reading lies more than so many degrees below the asked top [°C]."""
    if firing.intended is None:
        return False
    may_have_come_to_c = firing.peak_c + hidden_top_c(firing.log.elapsed_h, firing.reading_c)
    return may_have_come_to_c < firing.intended.top_c - by_c


def share_of_log(firing: AlignedFiring, goal: ConeLaw) -> float:
    """Return the share of the goal cone's work that the log holds."""
    return float(work_so_far(firing.log.elapsed_h, firing.reading_c, goal)[-1])


def _schedule(given: Given, firing: AlignedFiring, marks: TopMarks, *, planned: bool) -> Schedule:
    """Return the schedule to change: as meant, or to the top the kiln came to."""
    schedule = base_schedule(given.intended, firing)
    if planned or not came_below_top(firing, DEFAULTS.differs_top_c):
        return schedule
    reached = with_top(schedule, float(round(firing.peak_c)) - schedule.top_c)
    stood_min = float(round(60.0 * marks.hold_h))
    return with_hold(reached, stood_min - top_hold_min(reached))


def _logged(
    given: Given, firing: AlignedFiring, shelves: Sequence[ShelfHeat]
) -> Mapping[str, tuple[Floats, Floats]]:
    elapsed_h = firing.log.elapsed_h
    curves = {s.shelf: (elapsed_h, shelf_curve(firing, s.shelf, given.kiln)) for s in shelves}
    return {**curves, READING: (elapsed_h, firing.reading_c)}


def _planned(firing: AlignedFiring) -> Mapping[str, tuple[Floats, Floats]]:
    """Return the schedule as a curve, with natural cooling after its end."""
    if firing.plan_h is None or firing.plan_c is None:
        return {READING: (firing.log.elapsed_h, firing.reading_c)}
    end_h, end_c = float(firing.plan_h[-1]), float(firing.plan_c[-1])
    hours = np.append(firing.plan_h, end_h + 1.0)
    values = np.append(firing.plan_c, end_c - FALL_C_PER_H)
    dense = np.arange(float(hours[0]), float(hours[-1]), STEP_H)
    return {READING: (dense, np.interp(dense, hours, values))}


def _shelf(shelf: ShelfHeat, curve: TopCurve) -> ShelfBase | None:
    """Return a shelf with its offset or its one bound; None if its cones told nothing."""
    if shelf.offset_c is not None:
        return ShelfBase(shelf.shelf, curve, shelf.offset_c, shelf.low_c, shelf.high_c)
    at_most, at_least = (shelf.figures.get(f"{side}_delta_c") for side in ("at_most", "at_least"))
    if isinstance(at_most, float):
        return ShelfBase(shelf.shelf, curve, at_most, None, at_most)
    if isinstance(at_least, float):
        return ShelfBase(shelf.shelf, curve, at_least, at_least, None)
    return None


def preview_plan(base: PlanBase, change: Change) -> tuple[ShelfOutcome, ...]:
    """Return the cone every shelf would get with a change made; quick enough for a slider.

    The range holds the offset's own and, for a hold, the factor within which minutes are known.
    """
    return tuple(_preview(base, shelf, change) for shelf in base.shelves)


def _preview(base: PlanBase, shelf: ShelfBase, change: Change) -> ShelfOutcome:
    dwell = shelf.curve.changed(change)
    rank = _rank(base, dwell, shelf.offset_c)
    low, high = (
        None if end is None else _rank(base, shelf.curve.changed(other), end)
        for end, other in zip((shelf.low_c, shelf.high_c), _doubted(base, change), strict=True)
    )
    return ShelfOutcome(shelf.name, rank if shelf.bounded else None, low, high)


def _doubted(base: PlanBase, change: Change) -> tuple[Change, Change]:
    """Return the change with its hold counting for less, and for more."""
    factor = hold_factor(base.goal, change.extra_hold_min)
    few, many = sorted((change.extra_hold_min / factor, change.extra_hold_min * factor))
    return replace(change, extra_hold_min=few), replace(change, extra_hold_min=many)


def rank_now(base: PlanBase, shelf: ShelfBase, change: Change) -> float:
    """Return the cone a shelf would get, at its bound if only that is known.

    ``BELOW_ALL`` stands for less than the coolest cone of the chart.
    """
    rank = _rank(base, shelf.curve.changed(change), shelf.offset_c)
    return BELOW_ALL if rank is None else rank


def goal_log_work(base: PlanBase, shelf: ShelfBase, change: Change) -> float:
    """Return ln of the share of the goal cone's work that a shelf would get."""
    return float(log_works(shelf.curve.changed(change), (base.goal,), shelf.offset_c)[0])


def _rank(base: PlanBase, dwell: Dwell, shift_c: float) -> float | None:
    return equivalent_from_works(log_works(dwell, base.laws, shift_c), base.laws)[0]
