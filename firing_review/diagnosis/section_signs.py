"""What the probes of the sections answer, each against the others and against earlier."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from firing_review.diagnosis.found import Found, figure
from firing_review.diagnosis.grades import above
from firing_review.diagnosis.observations import Observation
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.findings import FindingKind
from firing_review.firing.log import Channel, ChannelRole
from firing_review.firing.said import Figures

APART_C, APART_WIDTH_C = 18.0, 3.0
"""Without an earlier firing: more than half a cone apart is noticed, practice [°C]."""
CHANGED_C, CHANGED_WIDTH_C = 7.5, 1.5
"""A section that moved this far against an earlier firing has changed: noise is 1 °C [°C]."""
FAR_C, FAR_WIDTH_C = 32.0, 5.0
"""More than a cone: no small unevenness [°C]."""
ALWAYS_SO = 0.3
"""What a gap still says that was there in the earlier good firing as well."""
FROM_C, LATE_SHARE = 350.0, 0.8
"""Gaps are looked at on the way, and near the top, where a slow load has caught up [°C]."""
LEAST_SAMPLES = 5

Gaps = Mapping[tuple[str, str], float]


def section_observation(
    firing: AlignedFiring, earlier: Sequence[AlignedFiring], found: Found
) -> Observation | None:
    """Return whether one section lay apart from the others, or apart from where it used to."""
    seen = _section_observation(firing, earlier)
    return seen if seen is None else _as_found(seen, found)


def _as_found(seen: Observation, found: Found) -> Observation:
    """Tell a gap in the figures of its finding, and where that lies, if there is one."""
    section = seen.figures["section"]
    for gap in found.all(FindingKind.ZONE_GAP):
        if section in {gap.figures.get("channel"), gap.figures.get("other")}:
            apart = {"apart_delta_c": figure(gap, "size_delta_c")}
            return replace(seen, figures={**seen.figures, **apart}, at_h=gap.start_h)
    return seen


def _section_observation(
    firing: AlignedFiring, earlier: Sequence[AlignedFiring]
) -> Observation | None:
    now = _gaps(firing)
    if not now:
        return None
    before = _gaps(earlier[-1]) if earlier else {}
    if not set(before) >= set(now):
        return _seen(now, above(_widest(now), APART_C, APART_WIDTH_C))
    changes = {key: now[key] - before[key] for key in now}
    shifted = above(_widest(changes), CHANGED_C, CHANGED_WIDTH_C)
    apart = ALWAYS_SO * above(_widest(now), APART_C, APART_WIDTH_C)
    return _seen(changes, shifted) if shifted >= apart else _seen(now, apart)


def _widest(gaps: Gaps) -> float:
    return max(abs(gap) for gap in gaps.values())


def _seen(gaps: Gaps, strong: float) -> Observation:
    """Spread what was seen over cold and hot by the widest gap to each side.

    Where the mean is controlled, one section that stays cold drives another hot.
    """
    shares = {"even": 1.0 - strong}
    cold, hot = min(gaps.values(), default=0.0), max(gaps.values(), default=0.0)
    weights = {"cold": min(cold, 0.0) ** 4, "hot": max(hot, 0.0) ** 4}
    total = sum(weights.values()) or 1.0
    far = above(_widest(gaps), FAR_C, FAR_WIDTH_C)
    for side, weight in weights.items():
        shares[f"one_{side}"] = strong * (1.0 - far) * weight / total
        shares[f"one_far_{side}"] = strong * far * weight / total
    section = max(gaps, key=lambda key: abs(gaps[key]))[0]
    figures: Figures = {"section": section, "apart_delta_c": _widest(gaps)}
    return Observation("sections", shares, figures, None, section if strong > 0.5 else "")


def _gaps(firing: AlignedFiring) -> Gaps:
    """Return how far each section lay from the median of all, on the way and near the top [°C]."""
    channels = [c for c in firing.log.temperatures if c.role is ChannelRole.SECTION]
    if len(channels) < 2:
        return {}
    hot = (firing.log.elapsed_h <= firing.heating_end_h) & (firing.reading_c > FROM_C)
    late = hot & (firing.reading_c > LATE_SHARE * firing.peak_c)
    return {**_in_part(channels, hot & ~late, "way"), **_in_part(channels, late, "top")}


def _in_part(channels: Sequence[Channel], part: np.ndarray, name: str) -> Gaps:
    if np.count_nonzero(part) < LEAST_SAMPLES:
        return {}
    stacked = np.vstack([c.values[part] for c in channels])
    known = np.isfinite(stacked).any(axis=0)
    stacked = stacked[:, known]
    if stacked.shape[1] < LEAST_SAMPLES:
        return {}
    middle = np.nanmedian(stacked, axis=0)
    return {
        (c.title, name): float(np.nanmedian(row - middle))
        for c, row in zip(channels, stacked, strict=True)
        if np.isfinite(row).any()
    }
