"""A log laid beside its schedule: which stretch of the log is which part of the plan."""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from firing_review.firing.log import Channel, FiringLog
from firing_review.firing.schedule import Intended
from firing_review.firing.units import Floats


class StretchKind(StrEnum):
    """The three things a kiln can be asked to do."""

    CLIMB = "climb"
    HOLD = "hold"
    COOL = "cool"


@dataclass(frozen=True)
class Stretch:
    """One ramp or hold of the plan (or found in the log), and what came of it.

    Attributes
    ----------
    number : int
        Segment number in the schedule, from 1.
    planned_rate_c_per_h, planned_target_c, planned_hold_min : float or None
        As asked; None where nothing was asked (or rate "full").
    start_h, end_h : float or None
        Where it lies in the log [h]; None if the firing never came there.
    start_c, reached_c : float or None
        Reading at its beginning, and the highest (climb) or lowest (cool) it came to [°C].
    rate_c_per_h : float or None
        Robust slope over the stretch [°C/h].
    hold_min : float or None
        Time within tolerance of the target [min].
    droop_c : float or None
        How far the reading sank below the target during a hold [°C].
    left_line_h : float or None
        When the reading fell off the asked line for good [h].
    behind_min : float or None
        How much longer than planned the stretch took [min]; negative is sooner.
    complete : bool
        Whether the target was reached.
    """

    number: int
    kind: StretchKind
    planned_rate_c_per_h: float | None
    planned_target_c: float | None
    planned_hold_min: float | None
    full_rate: bool = False
    start_h: float | None = None
    end_h: float | None = None
    start_c: float | None = None
    reached_c: float | None = None
    rate_c_per_h: float | None = None
    hold_min: float | None = None
    droop_c: float | None = None
    left_line_h: float | None = None
    behind_min: float | None = None
    complete: bool = False


@dataclass(frozen=True, eq=False)
class AlignedFiring:
    """A firing: the log, the plan, and how the two fit.

    Attributes
    ----------
    log : FiringLog
        The log that was looked at: a dense one is thinned, so its rows are not those of the file.
    reading_c : array, shape (rows,)
        The reading that stands for the chamber: bad samples bridged, sections averaged [°C].
    rate_c_per_h : array, shape (rows,)
        Local robust rate of the reading [°C/h].
    line_c : array, shape (rows,) or None
        What was asked, each segment begun where the kiln began it [°C]; NaN outside.
    plan_h, plan_c : array, shape (corners,) or None
        Corners of the schedule by the clock, from the found start [h of the log, °C].
    full_output : array of bool, shape (rows,)
        Where the kiln ran at full output (logged or inferred).
    start_h, heating_end_h, peak_h : float
        First sustained climb, last sustained demand, and highest reading [h].
    crossings_h : tuple of (h, word)
        For a clock curve: when the reading went "ahead" or "behind".
    curves : tuple of (Channel, array)
        Each temperature channel with bad samples out and short gaps bridged, shape (rows,) [°C].
    """

    log: FiringLog
    intended: Intended | None
    reading_c: Floats
    rate_c_per_h: Floats
    line_c: Floats | None
    plan_h: Floats | None
    plan_c: Floats | None
    full_output: NDArray[np.bool_]
    start_h: float
    heating_end_h: float
    peak_h: float
    peak_c: float
    stretches: tuple[Stretch, ...]
    crossings_h: tuple[tuple[float, str], ...] = ()
    curves: tuple[tuple[Channel, Floats], ...] = ()
