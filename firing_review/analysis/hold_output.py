"""Share of output that a hold needs: a second look at power, independent of any climb.

Near the end of a hold power times output balances the loss, so with walls as before the ratio of
the shares is the ratio of the powers. The wall is never fully soaked: 10 to 30 % more in the first
minutes, which cancels between firings of the same schedule.
"""

from dataclasses import dataclass

import numpy as np

from firing_review.firing.aligned import AlignedFiring, StretchKind
from firing_review.firing.log import ChannelRole

LEAST_HOLD_MIN = 8.0
"""Shorter holds are all settling [min]."""
SAME_HOLD_C = 12.0
"""Holds this near in temperature are compared [°C]."""
SAME_LENGTH = 1.6
"""Holds that differ more in length have soaked their walls differently (factor)."""
HOT_C = 500.0
"""Below it a hold dries ware and says little of the walls [°C]."""


@dataclass(frozen=True)
class HoldOutput:
    """A hold: its temperature [°C], length [min] and share of output over its second half."""

    at_c: float
    hold_min: float
    share: float


def hold_outputs(firing: AlignedFiring) -> tuple[HoldOutput, ...]:
    """Return the share of output needed in each hot hold of a firing with logged output."""
    logged = firing.log.first(ChannelRole.OUTPUT)
    if logged is None:
        return ()
    found = []
    for stretch in firing.stretches:
        start_h, end_h = stretch.start_h, stretch.end_h
        if stretch.kind is not StretchKind.HOLD or start_h is None or end_h is None:
            continue
        if (end_h - start_h) * 60.0 < LEAST_HOLD_MIN or (stretch.start_c or 0.0) < HOT_C:
            continue
        late = (firing.log.elapsed_h >= 0.5 * (start_h + end_h)) & (
            firing.log.elapsed_h <= min(end_h, firing.heating_end_h)
        )
        share = logged.values[late]
        if np.isfinite(share).any():
            at_c = float(np.nanmedian(firing.reading_c[late]))
            minutes = (end_h - start_h) * 60.0
            found.append(HoldOutput(at_c, minutes, float(np.nanmean(share)) / 100.0))
    return tuple(found)


def compare_holds(
    now: tuple[HoldOutput, ...], before: tuple[HoldOutput, ...]
) -> tuple[HoldOutput, HoldOutput] | None:
    """Return the hottest hold that both firings have, now and before."""
    pairs = [
        (one, other)
        for one in now
        for other in before
        if abs(one.at_c - other.at_c) < SAME_HOLD_C
        and max(one.hold_min, other.hold_min) < SAME_LENGTH * min(one.hold_min, other.hold_min)
        and min(one.share, other.share) > 0.0
    ]
    return max(pairs, key=lambda pair: pair[0].at_c) if pairs else None
