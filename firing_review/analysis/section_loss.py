"""Heat lost while climbing, section by section, where each section has a probe of its own.

When one section hangs behind, the mean reading climbs with less loss than a kiln cooling evenly
at that mean. The loss of each section at its own temperature, taken from the earlier firing's
cooling, puts that right; what sections give each other cancels in the sum.
"""

import numpy as np

from firing_review.analysis.climb_and_fall import GRID_C, ClimbAndFall, at_grid, climb_and_fall
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.log import Channel, ChannelRole
from firing_review.firing.units import Floats

LEAST_POINTS = 6
"""Temperatures of a section's cooling that a curve is laid through."""


def shared_sections(firing: AlignedFiring, base: AlignedFiring) -> list[tuple[Channel, Channel]]:
    """Return the probes of sections that both firings have, by name; fewer than two are none."""
    earlier = {c.name: c for c in base.log.temperatures if c.role is ChannelRole.SECTION}
    pairs = [
        (channel, earlier[channel.name])
        for channel in firing.log.temperatures
        if channel.role is ChannelRole.SECTION and channel.name in earlier
    ]
    return pairs if len(pairs) > 1 else []


def loss_while_climbing(firing: AlignedFiring, base: AlignedFiring) -> Floats | None:
    """Return the loss at each mean temperature of the climb, by the earlier firing's cooling.

    Returns
    -------
    array, shape of GRID_C, or None
        [°C/h] of natural cooling; None without a probe in each section or a cooling record.
    """
    losses = []
    for now, before in shared_sections(firing, base):
        curve = _loss_curve(climb_and_fall(base, before.values))
        if curve is None:
            return None
        losses.append(np.maximum(np.polyval(curve, now.values), 0.0))
    if not losses:
        return None
    climbing = (firing.log.elapsed_h >= firing.start_h) & (firing.log.elapsed_h <= firing.peak_h)
    return at_grid(firing.reading_c, np.mean(losses, axis=0), climbing)


def _loss_curve(fallen: ClimbAndFall) -> Floats | None:
    """Return a parabola through the cooling over temperature, so that it can be carried on."""
    good = np.isfinite(fallen.down)
    if np.count_nonzero(good) < LEAST_POINTS:
        return None
    return np.asarray(np.polyfit(GRID_C[good], fallen.down[good], 2))
