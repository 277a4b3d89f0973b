"""Heat work of the logged curves: which cone they would have brought down."""

from dataclasses import replace

import numpy as np

from firing_review.analysis.logged_curves import (
    READING,
    gap_near_top_h,
    heat_curves,
    hidden_top_c,
    whatever_was_meant,
)
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.cones import ConeNumber, ConeTable
from firing_review.firing.results import ChannelHeatWork
from firing_review.firing.units import Floats
from firing_review.physics.cone_law import ConeLaw, fit_laws, law_of
from firing_review.physics.cones import cone_equivalent, work_so_far

__all__ = ["READING", "cone_so_far", "weigh_heat"]

MOST_SAMPLES = 4_000
"""Samples the work so far is summed over; a denser log changes it by less than can be shown."""
HOVER_POINTS = 600
"""Points along a log at which the cone so far is worked out; a pixel or two apart on screen."""


@whatever_was_meant
def weigh_heat(
    firing: AlignedFiring, goal_cone: ConeNumber | None, table: ConeTable
) -> tuple[ChannelHeatWork, ...]:
    """Return the heat work of the firing's reading, and of each probe if there are several.

    Parameters
    ----------
    goal_cone : ConeNumber or None
        Without one, or with one outside the fitted range (022 to 020), no share is told.
    """
    laws = fit_laws(table)
    goal = law_of(laws, goal_cone) if goal_cone else None
    reading, *probes = (
        _channel(name, firing.log.elapsed_h, values, laws, goal)
        for name, values in heat_curves(firing)
    )
    return (replace(reading, rank_so_far=cone_so_far(firing, table)), *probes)


def _channel(
    name: str,
    elapsed_h: Floats,
    values: Floats,
    laws: tuple[ConeLaw, ...],
    goal: ConeLaw | None,
) -> ChannelHeatWork:
    rank, label = cone_equivalent(elapsed_h, values, laws)
    so_far = work_so_far(elapsed_h, values, goal) if goal else None
    return ChannelHeatWork(
        name=name,
        cone_equivalent=rank,
        label=label,
        goal_fraction=float(so_far[-1]) if so_far is not None else None,
        fraction_so_far=so_far,
        at_least=gap_near_top_h(elapsed_h, values) + hidden_top_c(elapsed_h, values) > 0.0,
    )


@whatever_was_meant
def cone_so_far(firing: AlignedFiring, table: ConeTable) -> Floats:
    """Return the rank of the cone brought down up to each sample, shape (rows,).

    NaN before the coolest cone of the chart is down. Worked out on a coarse grid of samples.
    """
    laws = fit_laws(table)
    elapsed_h = firing.log.elapsed_h
    sparse = slice(None, None, max(1, len(elapsed_h) // MOST_SAMPLES))
    along_h, along_c = elapsed_h[sparse], firing.reading_c[sparse]
    step = max(1, len(along_h) // HOVER_POINTS)
    keep = np.unique(np.append(np.arange(0, len(along_h), step), len(along_h) - 1))
    shares = np.vstack([work_so_far(along_h, along_c, law)[keep] for law in laws])
    with np.errstate(divide="ignore"):
        works = np.log(shares)
    values = _ranks(works, np.array([float(law.cone.rank) for law in laws]))
    return values[np.searchsorted(along_h[keep], elapsed_h, side="right") - 1]


def _ranks(log_works: Floats, ranks: Floats) -> Floats:
    """Return the rank brought down in each column of ln works, cool cones first; NaN for none."""
    down = log_works >= 0.0
    last = len(ranks) - 1 - np.argmax(down[::-1], axis=0)
    above = np.minimum(last + 1, len(ranks) - 1)
    columns = np.arange(log_works.shape[1])
    reached, missing = log_works[last, columns], log_works[above, columns]
    with np.errstate(invalid="ignore", divide="ignore"):
        part = np.where(above > last, reached / (reached - missing), 0.0)
    found = ranks[last] + np.clip(np.nan_to_num(part), 0.0, 1.0) * (ranks[above] - ranks[last])
    return np.where(down.any(axis=0), found, np.nan)
