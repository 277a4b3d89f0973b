"""What was typed into the controller, against what was meant."""

import numpy as np

from firing_review.analysis.segmenting import Piece, straight_pieces
from firing_review.analysis.thresholds import Thresholds
from firing_review.firing.aligned import AlignedFiring, Stretch, StretchKind
from firing_review.firing.findings import Finding, FindingKind, Severity
from firing_review.firing.log import ChannelRole
from firing_review.firing.said import N_, Said
from firing_review.firing.schedule import Schedule

SET_POINT_STEP_C = 2.5
"""A set point is straight to its display step and its wait for the kiln [°C]."""


def find_schedule_differs(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Find segments that were run as typed, but were not what the schedule says."""
    if not isinstance(firing.intended, Schedule):
        return ()
    return (*_top_differs(firing, limits), *_rates_differ(firing, limits))


def _top_differs(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    """Compare the highest set point with the highest target."""
    asked = firing.log.first(ChannelRole.SET_POINT)
    if asked is None or firing.intended is None:
        return ()
    heating = firing.log.elapsed_h <= firing.peak_h + 0.1
    typed_c = float(np.nanmax(asked.values[heating], initial=-1e9))
    difference_c = typed_c - firing.intended.top_c
    followed = firing.peak_c > typed_c - 2.0 * limits.line_tolerance_c
    if abs(difference_c) <= limits.differs_top_c or typed_c < 0 or not followed:
        return ()
    figures = {"typed_c": typed_c, "meant_c": firing.intended.top_c, "what": "top"}
    text = N_("The set point went to {typed_c}; the schedule says {meant_c}.")
    return (_differs(firing.peak_h - 0.3, firing.peak_h, Said(text, figures)),)


def _rates_differ(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    found = []
    for stretch in firing.stretches:
        asked = stretch.planned_rate_c_per_h
        if stretch.kind is not StretchKind.CLIMB or asked is None or stretch.start_h is None:
            continue
        typed = _typed_rate(firing, stretch, limits)
        if typed is None or abs(typed - asked) <= limits.differs_rate_share * asked:
            continue
        figures = {
            "typed_c_per_h": typed,
            "meant_c_per_h": asked,
            "segment": stretch.number,
            "what": "rate",
        }
        text = N_(
            "Segment {segment} was run at a steady {typed_c_per_h}; "
            "the schedule says {meant_c_per_h}."
        )
        found.append(
            _differs(stretch.start_h, stretch.end_h or stretch.start_h, Said(text, figures))
        )
    return tuple(found)


def _differs(start_h: float, end_h: float, said: Said) -> Finding:
    return Finding(
        FindingKind.SCHEDULE_DIFFERS, Severity.WATCH, max(start_h, 0.0), end_h, said, said.figures
    )


def _typed_rate(firing: AlignedFiring, stretch: Stretch, limits: Thresholds) -> float | None:
    """Return the rate that was asked of the kiln in a climb [°C/h], if it can be told.

    From the set point where it is logged and the reading followed it; otherwise from the reading,
    if it was straight throughout and the kiln was not at full output: a kiln at its limit
    climbs in a curve that flattens.
    """
    elapsed_h = firing.log.elapsed_h
    inside = (elapsed_h >= (stretch.start_h or 0.0)) & (elapsed_h <= (stretch.end_h or 0.0))
    asked = firing.log.first(ChannelRole.SET_POINT)
    values = asked.values if asked is not None else firing.reading_c
    if not inside.any() or not np.isfinite(values[inside]).any():
        return None
    if asked is not None:
        lag = np.nanpercentile(values[inside] - firing.reading_c[inside], 80)
        if lag > limits.line_tolerance_c:
            return None
    elif (
        firing.log.first(ChannelRole.OUTPUT) is not None
        and firing.full_output[inside].mean() > 0.1
    ):
        return None
    return _one_straight_rate(
        straight_pieces(elapsed_h[inside], values[inside], limits.straight_rms_c)
    )


def _one_straight_rate(pieces: tuple[Piece, ...]) -> float | None:
    """Return the rate if one straight piece makes up nearly all of the climb."""
    if not pieces:
        return None
    whole_h = pieces[-1].end_h - pieces[0].start_h
    longest = max(pieces, key=lambda p: p.end_h - p.start_h)
    share = (longest.end_h - longest.start_h) / max(whole_h, 1e-9)
    return longest.rate_c_per_h if share > 0.85 and whole_h > 0.25 else None
