"""What was typed into the controller, against what was meant."""

import numpy as np

from firing_review.analysis.power import find_power_gap
from firing_review.analysis.segmenting import Piece, one_straight_piece, straight_pieces
from firing_review.analysis.sparse_rows import LEAST_ROWS
from firing_review.analysis.thresholds import Thresholds
from firing_review.firing.aligned import AlignedFiring, Stretch, StretchKind
from firing_review.firing.findings import Finding, FindingKind, Severity
from firing_review.firing.log import ChannelRole
from firing_review.firing.said import N_, Figures
from firing_review.firing.schedule import Schedule

SET_POINT_STEP_C = 2.5
"""A set point is straight to its display step and its wait for the kiln [°C]."""


def followed_set_point(
    firing: AlignedFiring, start_h: float, end_h: float, limits: Thresholds
) -> bool:
    """Tell whether the reading kept to the set point between two times [h].

    A controller that waits for its kiln holds the set point a fixed band above the reading:
    that is the kiln's climb, not a typed one.
    """
    asked = firing.log.first(ChannelRole.SET_POINT)
    if asked is None:
        return False
    elapsed_h = firing.log.elapsed_h
    lag = (asked.values - firing.reading_c)[(elapsed_h >= start_h) & (elapsed_h <= end_h)]
    lag = lag[np.isfinite(lag)]
    return bool(len(lag) and abs(float(np.median(lag))) < limits.follow_c)


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
    if find_power_gap(firing, limits):
        return ()
    if abs(difference_c) <= limits.differs_top_c or typed_c < 0 or not followed:
        return ()
    figures: Figures = {"typed_c": typed_c, "meant_c": firing.intended.top_c, "what": "top"}
    text = N_("The set point went to {typed_c}; the schedule says {meant_c}.")
    return (_differs(firing.peak_h - 0.3, firing.peak_h, text, figures),)


def _rates_differ(firing: AlignedFiring, limits: Thresholds) -> tuple[Finding, ...]:
    asked = firing.log.first(ChannelRole.SET_POINT)
    typed_pieces = _typed_by_set_point if asked is not None else _typed_by_reading
    found: list[Finding] = []
    late_min = 0.0
    for stretch in firing.stretches:
        meant = stretch.planned_rate_c_per_h
        catching_up = late_min >= limits.behind_note_min / 2.0
        late_min += stretch.behind_min or 0.0
        if stretch.kind is not StretchKind.CLIMB or meant is None or stretch.start_h is None:
            continue
        if catching_up and asked is None:
            continue  # a controller that goes by the clock hurries; nobody typed that
        found += [
            _rate_differs(stretch, piece, meant)
            for piece in typed_pieces(firing, stretch, limits)
            if abs(piece.rate_c_per_h - meant) > limits.differs_rate_share * meant
        ]
    return tuple(found)


def _rate_differs(stretch: Stretch, piece: Piece, meant: float) -> Finding:
    figures: Figures = {
        "typed_c_per_h": piece.rate_c_per_h,
        "meant_c_per_h": meant,
        "from_c": piece.start_c,
        "segment": stretch.number,
        "what": "rate",
    }
    text = N_(
        "From {from_c} the kiln was run at a steady {typed_c_per_h}; "
        "segment {segment} of the schedule says {meant_c_per_h}."
    )
    return _differs(piece.start_h, piece.end_h, text, figures)


def _differs(start_h: float, end_h: float, text: str, figures: Figures) -> Finding:
    return Finding(
        FindingKind.SCHEDULE_DIFFERS, Severity.WATCH, max(start_h, 0.0), end_h, text, figures
    )


def _inside(firing: AlignedFiring, stretch: Stretch) -> np.ndarray:
    elapsed_h = firing.log.elapsed_h
    return np.asarray(
        (elapsed_h >= (stretch.start_h or 0.0)) & (elapsed_h <= (stretch.end_h or 0.0))
    )


def _typed_by_set_point(
    firing: AlignedFiring, stretch: Stretch, limits: Thresholds
) -> tuple[Piece, ...]:
    """Return the straight pieces of the set point in a climb that the reading followed."""
    asked = firing.log.first(ChannelRole.SET_POINT)
    inside = _inside(firing, stretch)
    if asked is None or np.count_nonzero(inside) < 3:
        return ()
    pieces = straight_pieces(firing.log.elapsed_h[inside], asked.values[inside], SET_POINT_STEP_C)
    least_h = limits.typed_piece_min / 60.0
    return tuple(
        piece
        for piece in pieces
        if piece.end_h - piece.start_h >= least_h
        and piece.rate_c_per_h > 0
        and followed_set_point(firing, piece.start_h, piece.end_h, limits)
    )


def _typed_by_reading(
    firing: AlignedFiring, stretch: Stretch, limits: Thresholds
) -> tuple[Piece, ...]:
    """Return the climb as one piece, if it was straight and the kiln not at its limit.

    A kiln at its limit climbs in a curve that flattens; a controlled ramp is straight.
    """
    inside = _inside(firing, stretch)
    if not stretch.complete or _at_its_limit(firing, inside):
        return ()
    if np.count_nonzero(inside) < LEAST_ROWS:
        return ()
    elapsed_h, reading_c = firing.log.elapsed_h[inside], firing.reading_c[inside]
    piece = one_straight_piece(elapsed_h, reading_c, limits.straight_rms_c)
    return (piece,) if piece is not None and piece.end_h - piece.start_h > 0.25 else ()


def _at_its_limit(firing: AlignedFiring, inside: np.ndarray) -> bool:
    """Tell whether the logged output says that the kiln gave all it had."""
    logged = firing.log.first(ChannelRole.OUTPUT) is not None
    return logged and bool(firing.full_output[inside].mean() > 0.1)
