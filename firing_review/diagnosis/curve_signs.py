"""What else the curve answers: gaps of power, cooling, waves, steam."""

import numpy as np

from firing_review.diagnosis.found import Found, figure
from firing_review.diagnosis.observations import Observation, surely
from firing_review.firing.aligned import AlignedFiring, StretchKind
from firing_review.firing.findings import FindingKind

LEAST_H = 1.0
"""A shorter record says nothing of gaps [h]."""
COOLED_SHARE, COOLED_C = 0.5, 200.0
"""A record that follows the cooling this far shows how the kiln cooled."""
SLOW_COOLING_STAYS = 0.5
"""Slow cooling is heat left on, or a load that holds heat: as likely the one as the other."""
LOW_TARGET_C = 450.0
"""Poor control shows at the first low targets, hardly at the top [°C]."""
LEAST_HOLD_MIN = 12.0
SETTLING_C = 8.0
"""Falling back by more than this is no steam [°C]."""


def curve_observations(firing: AlignedFiring, found: Found) -> list[Observation]:
    """Return what the curve answers; facts it cannot answer are left out."""
    seen = [
        _gap(firing, found),
        _after(firing, found),
        _waves(firing, found),
        _steam(firing, found),
    ]
    return [o for o in seen if o is not None]


def _gap(firing: AlignedFiring, found: Found) -> Observation | None:
    gap = found.first(FindingKind.POWER_GAP)
    if gap is None:
        return surely("gap", "none") if firing.log.hours > LEAST_H else None
    for_good = gap.start_h >= firing.peak_h - 0.1 and "asked_c" in gap.figures
    outcome = "for_good" if for_good else "resumed"
    return surely("gap", outcome, dict(gap.figures), gap.start_h)


def _after(firing: AlignedFiring, found: Found) -> Observation | None:
    stays = found.first(FindingKind.HEATS_WITHOUT_DEMAND)
    if stays is not None:
        return surely("after", "stays_hot", dict(stays.figures), stays.start_h)
    slow = found.first(FindingKind.SLOW_COOLING)
    if slow is not None:
        shares = {"stays_hot": SLOW_COOLING_STAYS, "by_itself": 1.0 - SLOW_COOLING_STAYS}
        return Observation("after", shares, dict(slow.figures), slow.start_h)
    opened = found.first(FindingKind.FAST_COOLING)
    if opened is not None:
        return surely("after", "opened", dict(opened.figures), opened.start_h)
    values = firing.reading_c[np.isfinite(firing.reading_c)]
    cooled = len(values) and values[-1] < max(COOLED_SHARE * firing.peak_c, COOLED_C)
    return surely("after", "by_itself") if cooled else None


def _waves(firing: AlignedFiring, found: Found) -> Observation | None:
    waves = found.first(FindingKind.HUNTING)
    if waves is not None:
        return surely("waves", "swings", dict(waves.figures), waves.start_h)
    for over in found.all(FindingKind.OVERSHOOT):
        if figure(over, "asked_c", 1e9) < LOW_TARGET_C:
            return surely("waves", "overshoots", dict(over.figures), over.start_h)
    held = any(
        s.kind is StretchKind.HOLD and (s.hold_min or 0.0) > LEAST_HOLD_MIN
        for s in firing.stretches
    )
    return surely("waves", "steady") if held else None


def _steam(firing: AlignedFiring, found: Found) -> Observation | None:
    spot = found.first(FindingKind.DAMP_FLAT_SPOT)
    if spot is None:
        return surely("steam", "no")
    before = firing.reading_c[firing.log.elapsed_h < spot.start_h]
    if np.nanmax(before, initial=-1e9) > figure(spot, "at_c") + SETTLING_C:
        return None  # it fell back to there after an overshoot
    return surely("steam", "lingers", dict(spot.figures), spot.start_h)
