"""What the witness cones answer, shelf by shelf, and contradictions of cone numbers."""

import math
from collections.abc import Sequence

import numpy as np

from firing_review.analysis.cone_guard import LOG_TEXTS
from firing_review.analysis.logged_curves import hidden_top_c
from firing_review.diagnosis.grades import above
from firing_review.diagnosis.observations import Observation, surely
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.log import ChannelRole
from firing_review.firing.results import ShelfHeat
from firing_review.firing.said import Figures, Said
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
    shared_c, apart_c = float(np.median(values)), _least_spread_c(shelves)
    apart = above(apart_c, APART_C, APART_WIDTH_C)
    pattern, shelf = _pattern(list(offsets), values)
    bounded = all(s.offset_c is None for s in shelves if s.shelf in offsets)
    shares = _together(shared_c, 1.0 - apart, bounded=bounded)
    shares[pattern] = shares.get(pattern, 0.0) + apart
    if len(offsets) == 1 and len(shelves) > 1 and not _others_agree(shelves, shared_c):
        shares = _alone(shares)
    if sum(c.role is ChannelRole.SECTION for c in firing.log.temperatures) > 1:
        shares = _blind_to_sections(shares)
    figures: Figures = {
        "shared_delta_c": abs(shared_c),
        "apart_delta_c": apart_c,
        "shelf": shelf,
    }
    return Observation("shelves", shares, figures, None, shelf if apart > 0.5 else "")


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


def _blind_to_sections(shares: dict[str, float]) -> dict[str, float]:
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


def _least_spread_c(shelves: Sequence[ShelfHeat]) -> float:
    """Return how far two shelves lie apart at least [°C].

    A shelf that is only bounded is taken to lie a little beyond its bound.
    """
    each = [_bounds(s) for s in shelves]
    low = max((low for low, _ in each), default=-math.inf)
    high = min((high for _, high in each), default=math.inf)
    if not math.isfinite(low) or not math.isfinite(high) or low <= high:
        return 0.0
    exact = {o for o, p in each if o == p}
    beyond = BOUND_BEYOND_C * ((low not in exact) + (high not in exact))
    return low - high + beyond


def _offset(shelf: ShelfHeat) -> float | None:
    if shelf.offset_c is not None:
        return shelf.offset_c
    low, high = _bounds(shelf)
    # a bound that leaves room for an even shelf says nothing
    if high < -TELLING_BOUND_C:
        return high - BOUND_BEYOND_C
    return low + BOUND_BEYOND_C if low > TELLING_BOUND_C else None


def _pattern(names: list[str], values: Floats) -> tuple[str, str]:
    lowest, highest = int(np.argmin(values)), int(np.argmax(values))
    if values[lowest] < -BOTH_WAYS_C and values[highest] > BOTH_WAYS_C:
        return "cold_and_hot", names[lowest]
    middle = float(np.median(values))
    if middle - values[lowest] >= values[highest] - middle:
        return "one_cold", names[lowest]
    return "one_hot", names[highest]


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
