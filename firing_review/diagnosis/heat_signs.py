"""What the witness cones answer, shelf by shelf, and contradictions of cone numbers."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from firing_review.analysis.cone_guard import LOG_TEXTS
from firing_review.analysis.logged_curves import hidden_top_c
from firing_review.diagnosis.grades import above
from firing_review.diagnosis.observations import Observation, surely
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.log import ChannelRole
from firing_review.firing.results import ShelfHeat
from firing_review.firing.said import N_, Figures, Said
from firing_review.firing.units import Floats

SHARED_C, SHARED_WIDTH_C = 13.0, 1.6
"""Half a cone: an offset all shelves share beyond it is no scatter of cones [°C]."""
FAR_C, FAR_WIDTH_C = 58.0, 6.0
"""Beyond what an aged or misplaced probe is off by: wires or the type set [°C]."""
FAR_FROM_BOUND_C, FROM_BOUND_WIDTH_C = 75.0, 15.0
"""Where shelves are only bounded they may lie far beyond [°C]."""
APART_C, APART_WIDTH_C = 27.0, 5.0
"""About one cone: usual difference between shelves, practice [°C]."""
BOTH_WAYS_C = 9.0
"""Each end off by this at least, in opposite directions [°C]."""
FAR_UNSEEN = 0.2
"""How often shelves that are only bounded lie far beyond; an estimate."""
TELLING_BOUND_C = 5.0
"""A bound nearer to zero than this excludes nothing usual [°C]."""
BOUND_BEYOND_C = 10.0
"""Where a shelf is only bounded it is taken to lie this far beyond its bound [°C]."""
BETWEEN = ("even", "one_cold", "one_hot", "cold_and_hot")
"""Patterns between sections, which cones beside a probe of their own section cannot see."""
_FROM_OWN_CURVES = {
    "even": N_(
        "Each shelf agrees with the logged curve of its own section; that does not tell how far "
        "the sections lie apart."
    ),
    "one_cold": N_(
        "Held against the logged curves of their sections, shelf {shelf} was far colder than "
        "{other}, by about {apart_delta_c}."
    ),
    "one_hot": N_(
        "Held against the logged curves of their sections, shelf {shelf} was far hotter than "
        "{other}, by about {apart_delta_c}."
    ),
    "cold_and_hot": N_(
        "Held against the logged curves of their sections, shelf {shelf} was colder and {other} "
        "hotter, {apart_delta_c} apart."
    ),
}
_SOME_COLD = N_(
    "Colder than the log says, by about {shared_delta_c}: {shelves}. The cones of the other "
    "shelves leave it open."
)
_SOME_HOT = N_(
    "Hotter than the log says, by about {shared_delta_c}: {shelves}. The cones of the other "
    "shelves leave it open."
)


def shelf_observation(shelves: Sequence[ShelfHeat], firing: AlignedFiring) -> Observation | None:
    """Return what the cones of all shelves say together.

    Where every section has a probe, a shelf is compared with its own section: an uneven kiln
    then shows in the probes, and cones that agree with them do not speak against it.
    """
    offsets = {s.shelf: o for s in shelves if (o := _offset(s)) is not None}
    if not offsets:
        return None
    values = np.array(list(offsets.values()))
    hidden_c = hidden_top_c(firing.log.elapsed_h, firing.reading_c)
    values -= np.clip(np.median(values), 0.0, hidden_c)  # what the log may have missed is no sign
    shared_c, ends = float(np.median(values)), _ends(shelves)
    apart = above(ends.apart_c, APART_C, APART_WIDTH_C)
    pattern = _pattern(values)
    bounded = all(s.offset_c is None for s in shelves if s.shelf in offsets)
    shares = _together(shared_c, 1.0 - apart, bounded=bounded)
    shares[pattern] = shares.get(pattern, 0.0) + apart
    agree = _others_agree(shelves, shared_c)
    if len(offsets) == 1 and len(shelves) > 1 and not agree:
        shares = _alone(shares)
    named = (ends.hot, ends.cold) if pattern == "one_hot" else (ends.cold, ends.hot)
    figures: Figures = {
        "shared_delta_c": abs(shared_c),
        "apart_delta_c": ends.apart_c,
        "shelf": named[0],
        "other": named[1],
        "shelves": tuple(offsets),
    }
    told = Observation("shelves", shares, figures, None, named[0] if apart > 0.5 else "")
    if told.seen != "even" and apart <= 0.5 and len(offsets) < len(shelves) and not agree:
        told = replace(told, text=_SOME_COLD if shared_c < 0.0 else _SOME_HOT)
    by_section = sum(c.role is ChannelRole.SECTION for c in firing.log.temperatures) > 1
    return _from_own_curves(told) if by_section else told


def _from_own_curves(told: Observation) -> Observation:
    """Return what was told of shelves that were each held against the probe of their section."""
    blind = replace(told, shares=_blind_to_sections(told.shares))
    if told.text or blind.seen not in BETWEEN:
        return blind
    return replace(blind, text=_FROM_OWN_CURVES.get(told.seen, _FROM_OWN_CURVES["even"]))


def _together(shared_c: float, share: float, *, bounded: bool) -> dict[str, float]:
    """Spread a share over how far all shelves lie from their curve together."""
    off = share * above(abs(shared_c), SHARED_C, SHARED_WIDTH_C)
    limits = (FAR_FROM_BOUND_C, FROM_BOUND_WIDTH_C) if bounded else (FAR_C, FAR_WIDTH_C)
    far = off * max(above(abs(shared_c), *limits), FAR_UNSEEN if bounded else 0.0)
    side = "cold" if shared_c < 0.0 else "hot"
    return {"even": share - off, f"all_{side}": off - far, f"all_far_{side}": far}


def _others_agree(shelves: Sequence[ShelfHeat], shared_c: float) -> bool:
    """Tell whether every shelf that is bounded lies to the side of the one that tells."""
    each = [_bounds(s) for s in shelves]
    if shared_c > 0.0:
        return all(low >= 0.0 for low, _ in each)
    return all(high <= 0.0 for _, high in each)


def _alone(shares: dict[str, float]) -> dict[str, float]:
    """Where one shelf only tells, it may be the only one that is off."""
    cold = shares.get("all_cold", 0.0) + shares.get("all_far_cold", 0.0)
    hot = shares.get("all_hot", 0.0) + shares.get("all_far_hot", 0.0)
    return _scaled({**shares, "one_cold": cold, "one_hot": hot})


def _blind_to_sections(shares: Mapping[str, float]) -> dict[str, float]:
    """Spread "even" over all patterns between sections that such cones cannot see."""
    even = shares.get("even", 0.0)
    spread = {name: shares.get(name, 0.0) + even for name in BETWEEN}
    return _scaled({**shares, **spread, "even": even})


def _scaled(shares: dict[str, float]) -> dict[str, float]:
    total = sum(shares.values()) or 1.0
    return {name: share / total for name, share in shares.items()}


def _bounds(shelf: ShelfHeat) -> tuple[float, float]:
    """Return the lowest and highest offset a shelf may have [°C]; infinite where open."""
    if shelf.offset_c is not None:
        return shelf.offset_c, shelf.offset_c
    at_least, at_most = (shelf.figures.get(f"at_{s}_delta_c") for s in ("least", "most"))
    low = float(at_least) if isinstance(at_least, float | int) else -math.inf
    high = float(at_most) if isinstance(at_most, float | int) else math.inf
    return low, high


@dataclass(frozen=True)
class _Ends:
    """The two shelves that lie furthest apart for sure, and how far at least [°C]."""

    cold: str = ""
    hot: str = ""
    apart_c: float = 0.0


def _ends(shelves: Sequence[ShelfHeat]) -> _Ends:
    """Return the two ends; a shelf that is only bounded is taken to lie beyond its bound."""
    each = {s.shelf: _bounds(s) for s in shelves}
    hot, cold = max(each, key=lambda n: each[n][0]), min(each, key=lambda n: each[n][1])
    low, high = each[hot][0], each[cold][1]
    if not math.isfinite(low) or not math.isfinite(high) or low <= high:
        return _Ends()
    exact = {o for o, p in each.values() if o == p}
    beyond = BOUND_BEYOND_C * ((low not in exact) + (high not in exact))
    return _Ends(cold, hot, low - high + beyond)


def _offset(shelf: ShelfHeat) -> float | None:
    if shelf.offset_c is not None:
        return shelf.offset_c
    low, high = _bounds(shelf)
    # a bound that leaves room for an even shelf says nothing
    if high < -TELLING_BOUND_C:
        return high - BOUND_BEYOND_C
    return low + BOUND_BEYOND_C if low > TELLING_BOUND_C else None


def _pattern(values: Floats) -> str:
    lowest, highest, middle = np.min(values), np.max(values), np.median(values)
    if lowest < -BOTH_WAYS_C and highest > BOTH_WAYS_C:
        return "cold_and_hot"
    return "one_cold" if middle - lowest >= highest - middle else "one_hot"


def goal_observation(
    contradictions: Sequence[Said], *, asked: bool, as_meant: bool
) -> Observation | None:
    """Return whether the cone numbers fit each other.

    A log that has the heat work of another cone speaks of the goal only if the firing went as
    its schedule meant it.
    """
    if any(c.text not in LOG_TEXTS for c in contradictions):
        return surely("goal", "contradicts")
    if contradictions:
        return surely("goal", "contradicts") if as_meant else None
    return surely("goal", "fits") if asked else None
