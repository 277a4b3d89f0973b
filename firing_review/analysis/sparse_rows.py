"""Rows that lie far apart, as a person writes them: what may have happened between two of them."""

import numpy as np

from firing_review.analysis.logged_curves import FAR_APART_H, hidden_top_c
from firing_review.analysis.thresholds import Thresholds
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.findings import Finding, FindingKind, Severity
from firing_review.firing.said import N_, Figures

LEAST_ROWS = 5
"""Fewer rows lie on a straight line by themselves."""


def find_rows_far_apart(firing: AlignedFiring, _limits: Thresholds) -> tuple[Finding, ...]:
    """Find that the rows around the top leave open how hot it got."""
    more_c = top_left_open_c(firing)
    if not more_c:
        return ()
    step_h = step_around_h(firing, firing.peak_h)
    figures: Figures = {
        "reached_c": firing.peak_c,
        "step_min": 60.0 * step_h,
        "more_delta_c": more_c,
    }
    text = N_(
        "Around the top the rows are {step_min} apart; between them the kiln may have been up to "
        "{more_delta_c} hotter than {reached_c}."
    )
    begin_h = max(firing.peak_h - step_h, 0.0)
    end_h = min(firing.peak_h + step_h, firing.log.hours)
    return (Finding(FindingKind.ROWS_FAR_APART, Severity.NOTE, begin_h, end_h, text, figures),)


def top_left_open_c(firing: AlignedFiring) -> float:
    """Return how much hotter than its hottest row the firing may have been [°C]."""
    return hidden_top_c(firing.log.elapsed_h, firing.reading_c)


def step_around_h(firing: AlignedFiring, at_h: float) -> float:
    """Return the longer of the steps from one row to the next that meet at a time [h]."""
    hours = firing.log.elapsed_h[np.isfinite(firing.reading_c)]
    steps = np.diff(hours)
    place = int(np.searchsorted(hours, at_h - 1e-9))
    return float(steps[max(place - 1, 0) : place + 1].max(initial=0.0))


def usual_step_min(firing: AlignedFiring) -> float:
    """Return the usual time from row to row [min], 0 where rows are near enough to tell all."""
    steps = np.diff(firing.log.elapsed_h[np.isfinite(firing.reading_c)])
    usual_h = float(np.median(steps)) if len(steps) else 0.0
    return 60.0 * usual_h if usual_h >= FAR_APART_H else 0.0
