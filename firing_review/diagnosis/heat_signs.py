"""What cones and probes by section answer: shelves, sections, contradictions of cone numbers."""

from collections.abc import Sequence

import numpy as np

from firing_review.diagnosis.grades import above
from firing_review.diagnosis.observations import Observation, surely
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.log import ChannelRole
from firing_review.firing.results import ShelfHeat
from firing_review.firing.said import Figures, Said

SHARED_C, SHARED_WIDTH_C = 13.0, 1.6
"""Half a cone: an offset all shelves share beyond it is no scatter of cones [°C]."""
APART_C, APART_WIDTH_C = 27.0, 5.0
"""About one cone: usual difference between shelves, practice [°C]."""
BOTH_WAYS_C = 9.0
"""Each end off by this at least, in opposite directions [°C]."""
TELLING_BOUND_C = 5.0
"""A bound nearer to zero than this excludes nothing usual [°C]."""
BOUND_BEYOND_C = 10.0
"""Where a shelf is only bounded it is taken to lie this far beyond its bound [°C]."""
SECTION_C, SECTION_WIDTH_C = 18.0, 3.0
SECTION_CHANGED_C, CHANGED_WIDTH_C = 7.5, 1.5
"""A section that moved this far against an earlier firing has changed: noise is 1 °C [°C]."""
BETWEEN = ("even", "one_cold", "one_hot", "cold_and_hot")
FROM_C = 500.0


def shelf_observation(shelves: Sequence[ShelfHeat], firing: AlignedFiring) -> Observation | None:
    """Return what the cones of all shelves say together.

    Where every section has a probe, a shelf is compared with its own section: an uneven kiln
    then shows in the probes, and cones that agree with them do not speak against it.
    """
    offsets = {s.shelf: o for s in shelves if (o := _offset(s)) is not None}
    if not offsets:
        return None
    names = list(offsets)
    values = np.array([offsets[n] for n in names])
    shared = float(np.median(values))
    spread = float(values.max() - values.min())
    apart = above(spread, APART_C, APART_WIDTH_C) if len(values) > 1 else 0.0
    cold = (1.0 - apart) * above(-shared, SHARED_C, SHARED_WIDTH_C)
    hot = (1.0 - apart) * above(shared, SHARED_C, SHARED_WIDTH_C)
    pattern, shelf = _pattern(names, values)
    shares = {"all_cold": cold, "all_hot": hot, "even": max(1.0 - apart - cold - hot, 0.0)}
    shares[pattern] = shares.get(pattern, 0.0) + apart
    if sum(c.role is ChannelRole.SECTION for c in firing.log.temperatures) > 1:
        shares = _blind_to_sections(shares)
    figures: Figures = {
        "shared_delta_c": abs(shared),
        "apart_delta_c": spread,
        "shelf": shelf,
    }
    return Observation("shelves", shares, figures)


def _blind_to_sections(shares: dict[str, float]) -> dict[str, float]:
    """Spread "even" over all patterns between sections that such cones cannot see."""
    even = shares.get("even", 0.0)
    spread = {name: shares.get(name, 0.0) + even for name in BETWEEN}
    spread |= {name: share for name, share in shares.items() if name not in spread}
    total = sum(spread.values()) or 1.0
    return {name: share / total for name, share in spread.items()}


def _offset(shelf: ShelfHeat) -> float | None:
    if shelf.offset_c is not None:
        return shelf.offset_c
    at_most, at_least = (shelf.figures.get(f"{side}_delta_c") for side in ("at_most", "at_least"))
    # a bound that leaves room for an even shelf says nothing
    if isinstance(at_most, float) and at_most < -TELLING_BOUND_C:
        return at_most - BOUND_BEYOND_C
    if isinstance(at_least, float) and at_least > TELLING_BOUND_C:
        return at_least + BOUND_BEYOND_C
    return None


def _pattern(names: list[str], values: np.ndarray) -> tuple[str, str]:
    lowest, highest = int(np.argmin(values)), int(np.argmax(values))
    if values[lowest] < -BOTH_WAYS_C and values[highest] > BOTH_WAYS_C:
        return "cold_and_hot", names[lowest]
    middle = float(np.median(values))
    if middle - values[lowest] >= values[highest] - middle:
        return "one_cold", names[lowest]
    return "one_hot", names[highest]


def section_observation(
    firing: AlignedFiring, earlier: Sequence[AlignedFiring]
) -> Observation | None:
    """Return whether one section lay apart from the others, or apart from where it used to."""
    sections = [c for c in firing.log.temperatures if c.role is ChannelRole.SECTION]
    if len(sections) < 2:
        return None
    before = _apart(earlier[-1]) if earlier else {}
    now = _apart(firing)
    changed = {n: now[n] - before.get(n, now[n]) for n in now}
    known = bool(before)
    name, value = max(now.items(), key=lambda item: abs(item[1]), default=("", 0.0))
    moved, move = max(changed.items(), key=lambda item: abs(item[1]), default=("", 0.0))
    large = above(abs(value), SECTION_C, SECTION_WIDTH_C)
    shifted = above(abs(move), SECTION_CHANGED_C, CHANGED_WIDTH_C) if known else 0.0
    if known and abs(move) < SECTION_CHANGED_C:
        large *= 0.3  # it has always been so
    strong = max(large, shifted)
    if shifted >= large:
        name, value = moved, move
    outcome = "one_cold" if value < 0 else "one_hot"
    figures: Figures = {"section": name, "apart_delta_c": abs(value)}
    return Observation("sections", {"even": 1.0 - strong, outcome: strong}, figures)


def _apart(firing: AlignedFiring) -> dict[str, float]:
    """Return how far each section lay from the median of all over the hot part of heating [°C]."""
    channels = [c for c in firing.log.temperatures if c.role is ChannelRole.SECTION]
    hot = (firing.log.elapsed_h <= firing.heating_end_h) & (firing.reading_c > FROM_C)
    late = hot & (firing.reading_c > 0.8 * firing.peak_c)
    if len(channels) < 2 or np.count_nonzero(late) < 5:
        return {}
    stacked = np.vstack([c.values[late] for c in channels])
    if not np.isfinite(stacked).any(axis=0).all():
        return {}
    middle = np.nanmedian(stacked, axis=0)
    return {
        c.title: float(np.nanmedian(row - middle))
        for c, row in zip(channels, stacked, strict=True)
        if np.isfinite(row).any()
    }


def goal_observation(contradictions: Sequence[Said], *, asked: bool) -> Observation | None:
    """Return whether the cone numbers fit each other."""
    if contradictions:
        return surely("goal", "contradicts")
    return surely("goal", "fits") if asked else None
