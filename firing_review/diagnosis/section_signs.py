"""What the probes of the sections answer, each against the others and against earlier."""

from collections.abc import Mapping, Sequence

import numpy as np

from firing_review.diagnosis.grades import above
from firing_review.diagnosis.observations import Observation
from firing_review.firing.aligned import AlignedFiring
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
    firing: AlignedFiring, earlier: Sequence[AlignedFiring]
) -> Observation | None:
    """Return whether one section lay apart from the others, or apart from where it used to."""
    now = _gaps(firing)
    if not now:
        return None
    before = _gaps(earlier[-1]) if earlier else {}
    if set(before) >= set(now):
        return _changed(now, {key: now[key] - before[key] for key in now})
    key = max(now, key=lambda k: abs(now[k]))
    return _seen(key[0], now[key], above(abs(now[key]), APART_C, APART_WIDTH_C))


def _changed(now: Gaps, changes: Gaps) -> Observation:
    moved = max(changes, key=lambda k: abs(changes[k]))
    shifted = above(abs(changes[moved]), CHANGED_C, CHANGED_WIDTH_C)
    key = max(now, key=lambda k: abs(now[k]))
    apart = ALWAYS_SO * above(abs(now[key]), APART_C, APART_WIDTH_C)
    if shifted >= apart:
        return _seen(moved[0], changes[moved], shifted)
    return _seen(key[0], now[key], apart)


def _seen(section: str, gap_c: float, strong: float) -> Observation:
    far = strong * above(abs(gap_c), FAR_C, FAR_WIDTH_C)
    side = "cold" if gap_c < 0 else "hot"
    shares = {"even": 1.0 - strong, f"one_{side}": strong - far, f"one_far_{side}": far}
    figures: Figures = {"section": section, "apart_delta_c": abs(gap_c)}
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
