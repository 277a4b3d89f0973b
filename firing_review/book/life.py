"""How many firings a set of heating elements has left, by its own trend of power over wear.

Wear is counted in heat, not in firings (:mod:`firing_review.analysis.element_wear`). Power falls
by a steady share per hour of wear; where that trend meets the limit the set is worn out.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from firing_review.analysis.element_readings import REPLACE
from firing_review.analysis.element_wear import HALVES_EACH_C, WEAR_AT_C
from firing_review.book.drift import LEAST_FIRINGS, Drift, Group, find_drift
from firing_review.book.nouns import Change, ChangeKind, FiringKept
from firing_review.book.trends import TrendKind, Trends, groups_of
from firing_review.firing.cones import CONE_SCALE
from firing_review.firing.said import N_, Figures, Said
from firing_review.firing.units import Floats

WORN_OUT = 1.0 / REPLACE
"""Power of a worn set as a share of its power when new, 0.87: resistance 15 % up."""
CROOKED_SD = 0.08
"""A set may age faster early or late; its end is known no better than this share (standard
deviation), tried on simulated lives whose wear bends either way."""
ODD = 3.5
"""A firing this many robust deviations off the trend is left out of its range."""
LEAST_SD = 0.002
"""Scatter of power is never taken to be less than this share."""
ALIKE = 2
"""So many firings to one cone say what a firing to it wears."""
NEWEST = 20
"""The newest firings to a cone say it, for schedules change."""
PACE_FIRINGS = 5
"""So many dated firings tell how often the kiln is fired."""
LONGEST_DAYS = 3650.0
"""A day further ahead is not named."""
_DF, _T = (
    (1.0, 2.0, 3.0, 4.0, 5.0, 7.0, 10.0, 15.0, 20.0, 30.0, 60.0, 1000.0),
    (
        6.31,
        2.92,
        2.35,
        2.13,
        2.02,
        1.90,
        1.81,
        1.75,
        1.725,
        1.697,
        1.671,
        1.645,
    ),
)
"""Student's t for a 90 % range, two-sided; any table."""

_NO_CHANGE = N_(
    "Enter the day on which the heating elements were last changed: their wear counts from there."
)
_FEW = N_(
    "Too few to tell how many firings are left. Since the change, firings that show the power of "
    "the kiln: {firings}; it takes {needed} that are alike."
)
_STEADY = N_("No fall of power can be told yet from the scatter of {firings} firings.")
_AT_LEAST = N_("If only fired to cone {goal_cone}: at least about {low} more firings.")
_FALLEN = N_("Power has fallen by about {fallen_pct} since the heating elements were changed.")
_LEFT = N_("If only fired to cone {goal_cone}: about {about} more firings ({low} to {high}).")
_LEFT_OPEN = N_("If only fired to cone {goal_cone}: about {about} more firings ({low} or more).")
_WORN = N_("The heating elements are worn: power is down by about {fallen_pct}. Replace them.")
_UNTIL = N_("At the pace of late that is between {early} and {late}; order parts before.")
_LIMIT = N_(
    "Counted until power is down by {limit_pct}, where a set is usually replaced. Wear is counted "
    "in heat: an hour at {wear_c} is one, and half as much for each {halves_delta_c} less. That "
    "is a convention, and a broken coil or a burnt end does not wait for it."
)


@dataclass(frozen=True)
class FiringsLeft:
    """Firings left if the kiln is fired to one cone only; ``high`` None is open.

    ``about`` is None where only a bound can be told.
    """

    goal_cone: str
    about: int | None
    low: int
    high: int | None


@dataclass(frozen=True)
class Life:
    """What can be said of the life of a set of heating elements.

    Attributes
    ----------
    said : tuple of Said
        Sentences in order; where nothing can be told, the reason and what it takes.
    left : tuple of FiringsLeft
        By goal cone, the hottest first; empty where nothing can be told.
    wear_h : float or None
        Wear since the change [h at 1200 °C].
    until : tuple of date or None
        Between which days the set will be worn out at the pace of late.
    """

    said: tuple[Said, ...]
    left: tuple[FiringsLeft, ...] = ()
    wear_h: float | None = None
    until: tuple[date, date] | None = None


@dataclass(frozen=True)
class WearLeft:
    """Hours of wear left [h at 1200 °C]: most likely, and 90 % range; None is open."""

    about: float | None
    low: float
    high: float | None


def life_of(firings: Sequence[FiringKept], trends: Trends) -> Life:
    """Return how many firings the heating elements of a kiln have left.

    Parameters
    ----------
    firings : sequence of FiringKept
        All of the kiln, oldest first.
    trends : Trends
        Of the same firings.
    """
    first = max((m.number for m in trends.marks if _is_elements(m.change)), default=None)
    if first is None:
        return Life((Said(_NO_CHANGE),))
    power = trends.of(TrendKind.POWER)
    points = [p for p in power.points if p.number >= first] if power else []
    groups = [g for g in groups_of(points, shares=True, by_wear=True) if len(g.x) > 1]
    drift = find_drift(groups)
    if drift is None or not points:
        return Life((Said(_FEW, {"firings": len(points), "needed": LEAST_FIRINGS}),))
    worn_h = max(p.wear_h for p in points)
    rest = wear_left(groups, drift, worn_h)
    left = _by_cone(firings, rest)
    until = _until(firings[first - 1 :], worn_h, rest)
    return Life(_say(drift, rest, left, until, worn_h), left, worn_h, until)


def _is_elements(change: Change) -> bool:
    return change.kind is ChangeKind.ELEMENTS


def wear_left(groups: Sequence[Group], drift: Drift, worn_h: float) -> WearLeft:
    """Return the wear left until power meets the limit, from its logarithm over wear.

    Power new is that at wear 0, so power is the limit where slope times wear is its logarithm,
    whatever the level of each group. The range is that of the slope, by Student's t, with what a
    crooked course adds.
    """
    slope, error, freedom = _line(groups, drift)
    reach = float(np.interp(freedom, _DF, _T)) * error
    limit = math.log(WORN_OUT)
    steepest, flattest = slope - reach, slope + reach
    sure = drift.sure and slope < 0.0
    if not sure:
        low_h = limit / steepest - worn_h if steepest < 0.0 else math.inf
        return WearLeft(None, max(low_h, 0.0), None)
    end_h = limit / slope
    crooked = 1.645 * CROOKED_SD
    low_h = end_h * math.exp(-math.hypot(math.log(steepest / slope), crooked))
    high_h = None
    if flattest < 0.0:
        high_h = end_h * math.exp(math.hypot(math.log(slope / flattest), crooked)) - worn_h
    return WearLeft(max(end_h - worn_h, 0.0), max(low_h - worn_h, 0.0), high_h)


def _line(groups: Sequence[Group], drift: Drift) -> tuple[float, float, int]:
    """Return slope, its standard error and degrees of freedom of like firings, odd ones left out.

    One slope for all groups, a level for each.
    """
    off = [_from_line(group, drift.slope) for group in groups]
    scatter = max(1.4826 * float(np.median(np.abs(np.concatenate(off)))), LEAST_SD)
    kept = [
        Group(group.x[np.abs(one) <= ODD * scatter], group.y[np.abs(one) <= ODD * scatter])
        for group, one in zip(groups, off, strict=True)
    ]
    kept = [group for group in kept if len(group.x) > 1]
    x = np.concatenate([group.x - group.x.mean() for group in kept])
    y = np.concatenate([group.y - group.y.mean() for group in kept])
    slope = float((x @ y) / (x @ x))
    freedom = max(len(x) - len(kept) - 1, 1)
    variance = max(float(np.sum((y - slope * x) ** 2)) / freedom, LEAST_SD**2)
    return slope, math.sqrt(variance / float(x @ x)), freedom


def _from_line(group: Group, slope: float) -> Floats:
    off = group.y - slope * group.x
    return np.asarray(off - np.median(off))


def _by_cone(firings: Sequence[FiringKept], rest: WearLeft) -> tuple[FiringsLeft, ...]:
    """Return the wear left as firings to each cone this kiln is fired to, hottest first."""
    wears: dict[str, list[float]] = {}
    for kept in firings:
        cone, wear_h = kept.summary.goal_cone, kept.summary.wear_h
        if cone is not None and wear_h:
            wears.setdefault(cone, []).append(wear_h)
    found = []
    for cone in sorted(wears, key=CONE_SCALE.index, reverse=True):
        if len(wears[cone]) >= ALIKE and math.isfinite(rest.low):
            each = float(np.median(wears[cone][-NEWEST:]))
            found.append(
                FiringsLeft(
                    cone,
                    None if rest.about is None else _plain(rest.about / each, round),
                    _plain(rest.low / each, math.floor),
                    None if rest.high is None else _plain(max(rest.high, 0.0) / each, math.ceil),
                )
            )
    return tuple(found)


def _plain(count: float, whole: Callable[[float], int]) -> int:
    """Return a count of firings as one says it: in tens from a hundred up, and so on."""
    step = 10.0 ** max(math.floor(math.log10(max(count, 1.0))) - 1, 0)
    return round(whole(count / step) * step)


def _until(
    firings: Sequence[FiringKept], worn_h: float, rest: WearLeft
) -> tuple[date, date] | None:
    """Return between which days the set is worn out, if it is fired as often as of late."""
    days = [f.when.date() for f in firings if f.when is not None]
    if len(days) < PACE_FIRINGS or rest.about is None or rest.high is None:
        return None
    span = (days[-1] - days[0]).days
    if span <= 0 or worn_h <= 0.0:
        return None
    ahead = [hours * span / worn_h for hours in (rest.low, rest.high)]
    if ahead[1] > LONGEST_DAYS:
        return None
    early, late = (days[-1] + timedelta(days=round(max(one, 0.0))) for one in ahead)
    return early, late


def _say(
    drift: Drift,
    rest: WearLeft,
    left: Sequence[FiringsLeft],
    until: tuple[date, date] | None,
    worn_h: float,
) -> tuple[Said, ...]:
    if rest.about is None:
        bounds = [Said(_AT_LEAST, {"goal_cone": one.goal_cone, "low": one.low}) for one in left]
        told = [said for said, one in zip(bounds, left, strict=True) if one.low > 0]
        return (Said(_STEADY, {"firings": drift.firings}), *told, *([_limit()] if told else []))
    fallen: Figures = {"fallen_pct": 100.0 * -math.expm1(drift.slope * worn_h)}
    if rest.about <= 0.0:
        return Said(_WORN, fallen), _limit()
    said = [Said(_FALLEN, fallen)]
    for one in left:
        figures: Figures = {
            "goal_cone": one.goal_cone,
            "about": one.about,
            "low": one.low,
            "high": one.high,
        }
        said.append(Said(_LEFT if one.high is not None else _LEFT_OPEN, figures))
    if until is not None:
        said.append(Said(_UNTIL, {"early": str(until[0]), "late": str(until[1])}))
    return (*said, _limit())


def _limit() -> Said:
    figures: Figures = {
        "limit_pct": 100.0 * (1.0 - WORN_OUT),
        "wear_c": WEAR_AT_C,
        "halves_delta_c": HALVES_EACH_C,
    }
    return Said(_LIMIT, figures)
