"""Trends of one kiln: its firings' figures in order, with the changes made at it."""

import itertools
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

import numpy as np

from firing_review.analysis.climb_and_fall import GRID_C
from firing_review.book.drift import LEAST_FIRINGS, Drift, Group, find_drift
from firing_review.book.nouns import Change, ChangeKind, FiringKept
from firing_review.book.summary import TOP_STRETCH_C, Curve, Summary, curve_array
from firing_review.firing.said import N_, Figures, Said
from firing_review.firing.units import Floats

PEAK_STEP_C = 50.0
"""Firings without a goal cone are alike if their peaks round to the same of these steps [°C]."""
COMPARE_FROM_C, AT_C = 400.0, 700.0
"""Curves are compared from here on; their level is given at about this temperature [°C]."""
LEAST_POINTS = 4
"""Temperatures that two curves must share to be compared."""
FIRST_FEW = 3
"""So many like firings after a change of heating elements say what was new."""
USUAL_LOAD = ("usual", None)


class TrendKind(StrEnum):
    """What is followed from firing to firing."""

    POWER = "power"
    POWER_OVER_HEAT = "power_over_heat"
    TOP_RATE = "top_rate"
    COOLING = "cooling"
    HOURS = "hours"
    SHELF = "shelf"
    PROBE = "probe"
    RESISTANCE = "resistance"
    ENERGY = "energy"


@dataclass(frozen=True)
class TrendPoint:
    """One firing of a trend.

    Attributes
    ----------
    number : int
        Place of the firing among all of its kiln, from 1.
    wear_h : float
        Wear of the heating elements up to and with this firing, since they were changed or since
        the book begins [h at 1200 °C].
    value, low, high : float
        The figure, with its 90 % range where there is one.
    group : str
        Firings of one group are alike: same goal cone, same kind of load.
    """

    firing_id: int
    number: int
    when: datetime | None
    wear_h: float
    value: float
    low: float | None = None
    high: float | None = None
    group: str = ""


@dataclass(frozen=True)
class TrendMark:
    """A change at the kiln; it stands before the firing of that number."""

    change: Change
    number: int


@dataclass(frozen=True)
class TrendSeries:
    """One figure from firing to firing.

    Attributes
    ----------
    of : str
        The shelf or section, where there are several of a kind.
    unit : str
        Ending of the figure's name, as in a :class:`Said`: ``_c_per_h``, ``_delta_c``, ``_h``,
        ``_kwh`` or ``_ratio``.
    drift : Drift or None
        Since the last change that touches it; of the logarithm where ``in_shares``.
    said : Said
        What the trend says, or why it cannot tell.
    """

    kind: TrendKind
    name: Said
    unit: str
    points: tuple[TrendPoint, ...]
    drift: Drift | None
    said: Said
    of: str = ""


@dataclass(frozen=True)
class Trends:
    """All trends of a kiln, oldest firing first, with the changes made at it."""

    series: tuple[TrendSeries, ...]
    marks: tuple[TrendMark, ...]

    def of(self, kind: TrendKind, of: str = "") -> TrendSeries | None:
        """Return one series, if there are figures of its kind."""
        return next((s for s in self.series if s.kind is kind and s.of == of), None)


@dataclass(frozen=True)
class _Kind:
    """How one kind of figure is said and judged; ``worth`` is the least change to speak of."""

    name: str
    unit: str
    resets: tuple[ChangeKind, ...]
    worth: float
    shares: bool
    falls: str
    rises: str


_ELEMENTS, _PROBE = (ChangeKind.ELEMENTS,), (ChangeKind.PROBE,)
_BOTH = (ChangeKind.ELEMENTS, ChangeKind.PROBE)
_FALLS = N_("Over {firings} comparable firings it fell by about {change_pct}.")
_RISES = N_("Over {firings} comparable firings it rose by about {change_pct}.")
_FALLS_C = N_("Over {firings} comparable firings it fell by about {change_delta_c}.")
_RISES_C = N_("Over {firings} comparable firings it rose by about {change_delta_c}.")
_STEADY = N_("Over {firings} comparable firings no drift can be told from scatter.")
_FEW = N_("Comparable firings so far: {firings}. It takes {needed} to tell a drift.")
_PLACES: Figures = {"at_c": AT_C, "stretch_delta_c": TOP_STRETCH_C}
"""Figures that the names of the series have places for."""

_KINDS = {
    TrendKind.POWER: _Kind(
        N_("Power, as a share of that with new heating elements"),
        "_ratio",
        _ELEMENTS,
        0.03,
        True,
        _FALLS,
        _RISES,
    ),
    TrendKind.POWER_OVER_HEAT: _Kind(
        N_("Full power over heat capacity, at about {at_c}"),
        "_c_per_h",
        _ELEMENTS,
        0.03,
        True,
        _FALLS,
        _RISES,
    ),
    TrendKind.TOP_RATE: _Kind(
        N_("Climb over the last {stretch_delta_c} at full output"),
        "_c_per_h",
        _ELEMENTS,
        0.1,
        True,
        _FALLS,
        _RISES,
    ),
    TrendKind.COOLING: _Kind(
        N_("Natural cooling, at about {at_c}"), "_c_per_h", (), 0.05, True, _FALLS, _RISES
    ),
    TrendKind.HOURS: _Kind(N_("Hours of heating"), "_h", _ELEMENTS, 0.05, True, _FALLS, _RISES),
    TrendKind.SHELF: _Kind(
        N_("Offset of shelf {of}"), "_delta_c", _BOTH, 5.0, False, _FALLS_C, _RISES_C
    ),
    TrendKind.PROBE: _Kind(
        N_("Cones against the probe, all shelves"),
        "_delta_c",
        _PROBE,
        5.0,
        False,
        _FALLS_C,
        _RISES_C,
    ),
    TrendKind.RESISTANCE: _Kind(
        N_("Cold resistance of section {of}, as a share of the listed one"),
        "_ratio",
        _ELEMENTS,
        0.03,
        True,
        _FALLS,
        _RISES,
    ),
    TrendKind.ENERGY: _Kind(N_("Energy of a firing"), "_kwh", (), 0.05, True, _FALLS, _RISES),
}


def trends_of(firings: Sequence[FiringKept], changes: Sequence[Change]) -> Trends:
    """Return the trends of one kiln.

    Parameters
    ----------
    firings : sequence of FiringKept
        All of that kiln, oldest first, as :meth:`Book.list_firings` returns them.
    changes : sequence of Change
        Those at that kiln.
    """
    marks = place_changes(firings, changes)
    course = _Course(tuple(firings), marks, wear_so_far(firings, marks))
    series = [course.series(kind, of, values) for kind, of, values in _figures(course)]
    return Trends(tuple(s for s in series if s.points), marks)


def place_changes(
    firings: Sequence[FiringKept], changes: Sequence[Change]
) -> tuple[TrendMark, ...]:
    """Return each dated change with the number of the first firing after it, counted from 1.

    A change on the day of a firing counts as made before it.
    """
    days = [None if f.when is None else f.when.date() for f in firings]
    marks = []
    for change in changes:
        if change.on is not None:
            before = [n for n, day in enumerate(days, 1) if day is not None and day < change.on]
            marks.append(TrendMark(change, max(before, default=0) + 1))
    return tuple(sorted(marks, key=lambda mark: mark.number))


def since(marks: Sequence[TrendMark], kinds: Sequence[ChangeKind]) -> int:
    """Return the number of the first firing after the last change of these kinds; 1 without."""
    return max((m.number for m in marks if m.change.kind in kinds), default=1)


def wear_so_far(firings: Sequence[FiringKept], marks: Sequence[TrendMark]) -> Floats:
    """Return the wear up to and with each firing since the heating elements were changed [h].

    A firing whose log was never reviewed counts as much as the kiln's median.
    """
    known = [f.summary.wear_h for f in firings if f.summary.wear_h is not None]
    usual = float(np.median(known)) if known else 0.0
    wear = np.array(
        [
            (usual if not f.summary.reviewed else 0.0) if f.summary.wear_h is None
            else f.summary.wear_h
            for f in firings
        ],
        dtype=float,
    )  # fmt: skip
    total = np.cumsum(wear)
    for mark in marks:
        first = mark.number - 1
        if mark.change.kind is ChangeKind.ELEMENTS and first < len(total):
            total[first:] = np.cumsum(wear[first:])
    return total


def group_of(summary: Summary) -> str:
    """Return which firings a firing is alike to: same goal cone, or peak, and kind of load."""
    load = "" if summary.load in USUAL_LOAD else f" {summary.load}"
    if summary.goal_cone is not None:
        return summary.goal_cone + load
    if summary.peak_c is None:
        return load.strip()
    return f"{PEAK_STEP_C * round(summary.peak_c / PEAK_STEP_C):.0f} °C{load}"


_Value = tuple[float, float | None, float | None]
_Values = dict[int, _Value]


@dataclass(frozen=True)
class _Course:
    """The firings of a kiln in order, with its changes and wear; index counts from 0."""

    firings: tuple[FiringKept, ...]
    marks: tuple[TrendMark, ...]
    wear_h: Floats

    def series(self, kind: TrendKind, of: str, values: _Values) -> TrendSeries:
        how = _KINDS[kind]
        points = tuple(self._point(index, value) for index, value in sorted(values.items()))
        newest = [p for p in points if p.number >= since(self.marks, how.resets)]
        drift = find_drift(groups_of(newest, shares=how.shares))
        name = Said(how.name, {**_PLACES, "of": of})
        return TrendSeries(kind, name, how.unit, points, drift, _say(how, drift, len(newest)), of)

    def _point(self, index: int, value: _Value) -> TrendPoint:
        kept = self.firings[index]
        return TrendPoint(
            firing_id=kept.id,
            number=index + 1,
            when=kept.when,
            wear_h=float(self.wear_h[index]),
            value=value[0],
            low=value[1],
            high=value[2],
            group=group_of(kept.summary),
        )


def groups_of(
    points: Sequence[TrendPoint], *, shares: bool, by_wear: bool = False
) -> tuple[Group, ...]:
    """Return the figures of like firings together, over number or wear, as logarithms or not."""
    by_group: dict[str, list[TrendPoint]] = {}
    for point in points:
        if point.value > 0.0 or not shares:
            by_group.setdefault(point.group, []).append(point)
    found = []
    for like in by_group.values():
        x = np.array([p.wear_h if by_wear else p.number for p in like], dtype=float)
        y = np.array([p.value for p in like], dtype=float)
        found.append(Group(x, np.log(y) if shares else y))
    return tuple(found)


def _say(how: _Kind, drift: Drift | None, count: int) -> Said:
    if drift is None:
        return Said(_FEW, {"firings": count, "needed": LEAST_FIRINGS})
    worth = abs(drift.change) >= how.worth
    if not (drift.sure and worth):
        return Said(_STEADY, {"firings": drift.firings})
    size = abs(drift.change)
    figures: Figures = {"firings": drift.firings}
    if how.shares:
        figures["change_pct"] = 100.0 * abs(float(np.expm1(drift.change)))
    else:
        figures["change_delta_c"] = size
    return Said(how.falls if drift.change < 0.0 else how.rises, figures)


def _figures(course: _Course) -> Iterable[tuple[TrendKind, str, _Values]]:
    """Yield each kind of figure with the firings that have it."""
    heats = _levels(course, lambda s: s.power_over_heat)
    yield TrendKind.POWER, "", _as_share_of_new(course, heats)
    yield TrendKind.POWER_OVER_HEAT, "", heats
    yield TrendKind.TOP_RATE, "", _plain(course, lambda s: s.top_rate_c_per_h)
    yield TrendKind.COOLING, "", _levels(course, lambda s: s.fall)
    yield TrendKind.HOURS, "", _plain(course, lambda s: s.heating_h)
    for shelf in _names(course, lambda s: [one.shelf for one in s.shelves]):
        yield TrendKind.SHELF, shelf, _shelf(course, shelf)
    yield TrendKind.PROBE, "", _probe(course)
    for section in _names(course, lambda s: list(s.resistance)):
        yield TrendKind.RESISTANCE, section, _resistance(course, section)
    yield TrendKind.ENERGY, "", _plain(course, lambda s: s.energy_kwh)


def _names(course: _Course, names: Callable[[Summary], Sequence[str]]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(n for kept in course.firings for n in names(kept.summary)))


def _plain(course: _Course, value: Callable[[Summary], float | None]) -> _Values:
    known = {i: value(kept.summary) for i, kept in enumerate(course.firings)}
    return {i: (one, None, None) for i, one in known.items() if one is not None}


def _shelf(course: _Course, name: str) -> _Values:
    return {
        i: (shelf.offset_c, shelf.low_c, shelf.high_c)
        for i, kept in enumerate(course.firings)
        for shelf in kept.summary.shelves
        if shelf.shelf == name and shelf.offset_c is not None
    }


def _probe(course: _Course) -> _Values:
    return {
        i: (kept.summary.probe_offset_c, kept.summary.probe_low_c, kept.summary.probe_high_c)
        for i, kept in enumerate(course.firings)
        if kept.summary.probe_offset_c is not None
    }


def _resistance(course: _Course, section: str) -> _Values:
    return {
        i: (kept.summary.resistance[section], None, None)
        for i, kept in enumerate(course.firings)
        if section in kept.summary.resistance
    }


def _levels(course: _Course, curve: Callable[[Summary], Curve]) -> _Values:
    """Return the level of each firing's curve at about 700 °C.

    A firing may tell other temperatures than the next, so each is laid beside the median curve
    of its like, and its level is that median's times the ratio of the two.
    """
    curves = {
        i: np.where(GRID_C >= COMPARE_FROM_C, curve_array(curve(kept.summary)), np.nan)
        for i, kept in enumerate(course.firings)
        if curve(kept.summary)
    }
    found: _Values = {}
    for group in dict.fromkeys(group_of(course.firings[i].summary) for i in curves):
        like = [i for i in curves if group_of(course.firings[i].summary) == group]
        found |= _levels_alike({i: curves[i] for i in like})
    return found


def _levels_alike(curves: dict[int, Floats]) -> _Values:
    middle = _middle_curve(np.array(list(curves.values())))
    known = np.isfinite(middle)
    if not known.any():
        return {}
    at = int(np.argmin(np.where(known, np.abs(GRID_C - AT_C), np.inf)))
    found: _Values = {}
    for index, own in curves.items():
        ratio = own / middle
        ratio = ratio[np.isfinite(ratio)]
        if len(ratio) >= LEAST_POINTS:
            found[index] = (float(np.median(ratio) * middle[at]), None, None)
    return found


def _middle_curve(curves: Floats) -> Floats:
    """Return the median of curves, shape (firings, temperatures), at each temperature."""
    ordered = np.sort(curves, axis=0)  # what is not known comes last
    count = np.isfinite(curves).sum(axis=0)
    columns = np.arange(curves.shape[1])
    lower, upper = np.maximum(count - 1, 0) // 2, count // 2
    upper = np.minimum(upper, len(curves) - 1)
    return np.asarray(0.5 * (ordered[lower, columns] + ordered[upper, columns]))


def _as_share_of_new(course: _Course, heats: _Values) -> _Values:
    """Return power as a share of what the first few like firings after a change had."""
    starts = [m.number - 1 for m in course.marks if m.change.kind is ChangeKind.ELEMENTS]
    spans = [0, *starts, len(course.firings)]
    found: _Values = {}
    for first, end in itertools.pairwise(spans):
        by_group: dict[str, list[int]] = {}
        for i in sorted(heats):
            if first <= i < end:
                by_group.setdefault(group_of(course.firings[i].summary), []).append(i)
        for like in by_group.values():
            new = float(np.median([heats[i][0] for i in like[:FIRST_FEW]]))
            if len(like) > 1 and new > 0.0:
                found |= {i: (heats[i][0] / new, None, None) for i in like}
    return found
