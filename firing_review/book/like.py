"""Which earlier firings a firing may be compared with, and why: like with like."""

from collections.abc import Sequence
from dataclasses import dataclass

from firing_review.analysis.probe_against_cones import ConeCheck
from firing_review.book.nouns import Change, ChangeKind, FiringKept
from firing_review.book.summary import Summary, shelf_heat
from firing_review.book.trends import PEAK_STEP_C, USUAL_LOAD, place_changes
from firing_review.firing.results import Light
from firing_review.firing.said import N_, Figures, Said

SAME_TOP_C = 10.0
"""Schedules whose tops lie this near are alike [°C]: less than one cone."""
SAME_HOLD_MIN = 15.0
"""And whose holds at the top differ by no more than this [min]."""
SAME_RATE = 1.25
"""And whose last climbs differ by no more than this factor."""
WHOLE_POWER = 0.93
"""A firing known to have had less of its power than this is no good one to compare with."""
MOST_CHECKS = 12
"""So many firings with cones, the newest, speak for the probe as it is now."""

_SAME_GOAL = N_("Fired to the same goal, cone {goal_cone}.")
_SAME_PEAK = N_("Came to about the same peak, {peak_c}.")
_SAME_LOAD = N_("Its load was called the same.")
_SAME_SCHEDULE = N_("Its schedule has the same top, hold and last rate, within a little.")
_SAME_ELEMENTS = N_("The same heating elements.")
_OTHER_LOAD = N_("Its load was not called the same.")
_OTHER_TOP = N_("Its schedule ends {apart_delta_c} away.")
_OTHER_HOLD = N_("Its hold at the top differs by {apart_min}.")
_OTHER_RATE = N_("Its last climb was asked at {rate_c_per_h}, not {asked_c_per_h}.")
_OTHER_ELEMENTS = N_("Heating elements were changed between the two.")


@dataclass(frozen=True)
class Like:
    """An earlier firing of the same kiln and goal: what is the same, and what is not.

    ``good`` tells whether it went well enough to be what others are measured by.
    """

    firing: FiringKept
    why: tuple[Said, ...]
    differs: tuple[Said, ...]
    good: bool


def like_firings(
    kept: FiringKept, firings: Sequence[FiringKept], changes: Sequence[Change]
) -> tuple[Like, ...]:
    """Return the earlier firings of the same kiln and goal, newest first.

    Parameters
    ----------
    firings : sequence of FiringKept
        All of the kiln, oldest first.
    """
    number = {f.id: n for n, f in enumerate(firings, start=1)}
    here = number[kept.id]
    marks = [m.number for m in place_changes(firings, changes) if _is_elements(m.change)]
    found = []
    for other in reversed(firings[: here - 1]):
        goal = _same_goal(kept.summary, other.summary)
        if goal is None or not other.summary.firing:
            continue
        changed = any(number[other.id] < mark <= here for mark in marks)
        why, differs = _beside(kept.summary, other.summary, changed=changed)
        found.append(Like(other, (goal, *why), differs, is_good(other.summary)))
    return tuple(found)


def base_of(likes: Sequence[Like]) -> Like | None:
    """Return the newest good firing among those that differ least; None if none was good."""
    good = [like for like in likes if like.good]
    return min(good, key=lambda like: len(like.differs), default=None)


def is_good(summary: Summary) -> bool:
    """Tell whether a firing went as meant and shows the power of its kiln."""
    lights = summary.lights
    went = summary.firing and not summary.faults and lights.kiln is Light.FINE
    load = lights.load in {Light.FINE, Light.UNKNOWN} and lights.safety is not Light.STOP
    whole = summary.power_ratio is None or summary.power_ratio >= WHOLE_POWER
    return went and load and whole and bool(summary.power_over_heat)


def cone_checks(
    kept: FiringKept, firings: Sequence[FiringKept], changes: Sequence[Change]
) -> tuple[ConeCheck, ...]:
    """Return what cones said of the probe in the firings before, since it was last changed."""
    here = next(n for n, f in enumerate(firings, start=1) if f.id == kept.id)
    marks = [m for m in place_changes(firings, changes) if m.change.kind is ChangeKind.PROBE]
    first = max((m.number for m in marks if m.number <= here), default=1)
    found = []
    for other in firings[first - 1 : here - 1]:
        summary = other.summary
        if summary.peak_c is not None and summary.shelves:
            shelves = tuple(shelf_heat(shelf) for shelf in summary.shelves)
            found.append(ConeCheck(summary.peak_c, shelves))
    return tuple(found[-MOST_CHECKS:])


def _is_elements(change: Change) -> bool:
    return change.kind is ChangeKind.ELEMENTS


def _same_goal(one: Summary, other: Summary) -> Said | None:
    """Say why two firings had one goal; None if they had not."""
    if one.goal_cone is not None and other.goal_cone is not None:
        same = one.goal_cone == other.goal_cone
        return Said(_SAME_GOAL, {"goal_cone": other.goal_cone}) if same else None
    if one.peak_c is None or other.peak_c is None:
        return None
    near = abs(one.peak_c - other.peak_c) <= PEAK_STEP_C / 2.0
    return Said(_SAME_PEAK, {"peak_c": other.peak_c}) if near else None


def _beside(
    one: Summary, other: Summary, *, changed: bool
) -> tuple[tuple[Said, ...], tuple[Said, ...]]:
    """Return what is the same of two firings, and what is not."""
    why, differs = [], list(_schedule_differs(one, other))
    if one.planned and other.planned and not differs:
        why.append(Said(_SAME_SCHEDULE))
    if one.load == other.load and one.load is not None:
        why.append(Said(_SAME_LOAD))
    elif one.load != other.load and {one.load, other.load} != set(USUAL_LOAD):
        differs.append(Said(_OTHER_LOAD))
    if changed:
        differs.append(Said(_OTHER_ELEMENTS))
    else:
        why.append(Said(_SAME_ELEMENTS))
    return tuple(why), tuple(differs)


def _schedule_differs(one: Summary, other: Summary) -> tuple[Said, ...]:
    """Say where two schedules part near the top; nothing where one is not known."""
    if not one.planned or not other.planned:
        return ()
    rate, top_c, hold_min = _top(one)
    other_rate, other_top_c, other_hold_min = _top(other)
    found = []
    if abs(top_c - other_top_c) > SAME_TOP_C:
        found.append(Said(_OTHER_TOP, {"apart_delta_c": abs(top_c - other_top_c)}))
    if abs(hold_min - other_hold_min) > SAME_HOLD_MIN:
        found.append(Said(_OTHER_HOLD, {"apart_min": abs(hold_min - other_hold_min)}))
    if rate and other_rate and not 1.0 / SAME_RATE <= rate / other_rate <= SAME_RATE:
        asked: Figures = {"rate_c_per_h": other_rate, "asked_c_per_h": rate}
        found.append(Said(_OTHER_RATE, asked))
    return tuple(found)


def _top(summary: Summary) -> tuple[float | None, float, float]:
    """Return the last climb's rate, the top and the hold there; a rate of None is "full"."""
    return max(summary.planned, key=lambda step: step[1])
