"""A step inside a firing: from one temperature on a part of the power is missing."""

from dataclasses import dataclass, replace

import numpy as np

from firing_review.analysis.climb_and_fall import GRID_C, WINDOW_MIN
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.results import ElementsJudged
from firing_review.firing.said import N_, Figures, Said
from firing_review.firing.units import Floats
from firing_review.physics.circuits import named_steps_within

LEAST_SIDE = 4
"""Temperatures that must lie on either side of a step."""
STEP_LEAST, STEP_NOISE = 0.07, 4.0
"""A step inside the firing: at least this share of power, and this many times the scatter."""
UNSURE_LEAST = 0.12
"""The least step where the output was not logged: its start at full output is not sharp."""
ROWS_APART_H = 5.0 / 60.0
"""Where rows are farther apart and the output was not logged, full output begins within a row or
two of where it seems to: what lies between them looks like a step [h]."""
STEP_SD = 0.02
"""What wall storage alone leaves open in a step of the sum ratio."""
SETTLED = 0.25
"""After a step the ratio counts as settled within this part of the step."""


@dataclass(frozen=True, eq=False)
class PowerStep:
    """Where power fell, and by how much.

    Attributes
    ----------
    index : int
        Index of GRID_C at which it fell.
    settled : int
        Index from which the new level holds; a dying neighbor is felt with a lag.
    from_h : float or None
        When the climb passed that temperature [h].
    left, low, high : float
        Power after it as a share of that before, with 90 % range.
    """

    index: int
    settled: int
    from_h: float | None
    left: float
    low: float
    high: float

    @property
    def at_c(self) -> float:
        """Temperature at which power fell [°C]."""
        return float(GRID_C[self.index])

    def after(self, values: Floats) -> Floats:
        """Return values over temperature with those before the step blanked."""
        return np.where(np.arange(len(values)) >= self.settled, values, np.nan)


def find_step(sums: Floats, firing: AlignedFiring, *, sure: bool) -> PowerStep | None:
    """Find where the ratio to the earlier firing falls to a lasting lower level.

    Parameters
    ----------
    sums : array, shape of GRID_C
        Ratio of (climb + fall) / output.
    sure : bool
        Whether the output was logged.
    """
    if not sure and float(np.median(np.diff(firing.log.elapsed_h))) > ROWS_APART_H:
        return None
    good = np.flatnonzero(np.isfinite(sums))
    best, best_gain = None, 0.0
    for cut in range(LEAST_SIDE, len(good) - LEAST_SIDE + 1):
        low, high = sums[good[:cut]], sums[good[cut:]]
        fall = float(np.median(low) - np.median(high))
        noise = float(np.hypot(_scatter(low), _scatter(high)))
        gain = fall * np.sqrt(cut * (len(good) - cut))
        least = STEP_LEAST if sure else UNSURE_LEAST
        if fall > max(least, STEP_NOISE * noise) and gain > best_gain:
            best, best_gain = cut, gain
    return _step_at(sums, good, best, firing) if best is not None else None


def _scatter(values: Floats) -> float:
    return float(np.median(np.abs(values - np.median(values))))


def _step_at(sums: Floats, good: np.ndarray, cut: int, firing: AlignedFiring) -> PowerStep:
    before, after = float(np.median(sums[good[:cut]])), float(np.median(sums[good[cut:]]))
    tail = good[cut:]
    near = np.abs(sums[tail] - np.median(sums[tail[len(tail) // 2 :]])) < SETTLED * (
        before - after
    )
    settled = tail[np.flatnonzero(near)[0]] if near.any() else tail[0]
    settled = min(int(settled), int(tail[-LEAST_SIDE]))
    last = float(np.median(sums[tail[tail >= settled]]))
    edge = before - 0.5 * (before - last)
    early = good[(good < settled) & (sums[good] > edge)]
    index = int(early[-1]) if len(early) else int(good[cut - 1])
    left, wide = last / before, 1.645 * STEP_SD
    return PowerStep(index, settled, _passed_h(firing, index), left, left - wide, left + wide)


def _passed_h(firing: AlignedFiring, index: int) -> float | None:
    climbing = (firing.log.elapsed_h <= firing.peak_h) & (firing.reading_c >= GRID_C[index])
    climbing &= firing.log.elapsed_h >= firing.start_h
    if not climbing.any():
        return None
    return float(firing.log.elapsed_h[np.flatnonzero(climbing)[0]])


def say_step(judged: ElementsJudged, step: PowerStep) -> ElementsJudged:
    """Return the judgment with the step in words and figures."""
    figures: Figures = {
        "step_at_c": step.at_c,
        "step_h": step.from_h,
        "step_within_min": WINDOW_MIN,
        "step_lost_pct": 100.0 * (1.0 - step.left),
        "step_lost_low_pct": 100.0 * (1.0 - step.high),
        "step_lost_high_pct": 100.0 * (1.0 - step.low),
    }
    text = N_(
        "From {step_h} (about {step_at_c}) on, {step_lost_pct} of the power was missing "
        "({step_lost_low_pct} to {step_lost_high_pct})."
    )
    said = [Said(text, figures)]
    names = named_steps_within(step.low, step.high)
    if names:
        known: Figures = {"shares": ", ".join(names)}
        text = N_("Shares of power that one lost part usually leaves and that fit: {shares}.")
        said.append(Said(text, known))
    return replace(judged, basis=(*judged.basis, *said), figures={**judged.figures, **figures})
