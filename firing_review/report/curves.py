"""What a log holds as curves in °C, thinned beforehand and kept as long as the log.

A log of a million rows takes a while to thin, so whoever works on such a log beside the window
asks for this as well; to the window it is then ready.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.log import Channel, ChannelRole, FiringLog
from firing_review.firing.remembered import kept_beside
from firing_review.firing.units import Floats
from firing_review.report.columns import Levels, levels_of
from firing_review.report.thin import with_holes, without_repeats

LONG_GAP_H = 10 / 60
"""A gap from this long on is told in words [h]."""


@dataclass(frozen=True, eq=False)
class Curve:
    """Points over time, as logged.

    Attributes
    ----------
    x_h, y : array, shape (points,)
        Hours since the first sample [h], and values [°C, °C/h or %]; NaN is a gap.
    """

    x_h: Floats
    y: Floats

    @cached_property
    def levels(self) -> Levels:
        """The curve thinned to wider and wider columns."""
        return levels_of(self.x_h, self.y)

    @cached_property
    def long_gaps_h(self) -> tuple[tuple[float, float], ...]:
        """From the last value before to the first value after each long gap [h].

        Where a line is drawn from one value to the next there is no gap, however far they are.
        """
        known = np.flatnonzero(np.isfinite(self.y))
        known_h = self.x_h[known]
        jumps = np.flatnonzero((np.diff(known_h) >= LONG_GAP_H) & (np.diff(known) > 1))
        return tuple((float(known_h[jump]), float(known_h[jump + 1])) for jump in jumps)


@dataclass(frozen=True, eq=False)
class LogCurves:
    """The curves of a log: a reading for each of its temperatures, and what else it has."""

    readings: tuple[Curve, ...]
    set_point: Curve | None
    output: Curve | None

    @property
    def all(self) -> tuple[Curve, ...]:
        """Every curve there is."""
        others = (one for one in (self.set_point, self.output) if one is not None)
        return (*self.readings, *others)


@kept_beside
def log_curves(log: FiringLog) -> LogCurves:
    """Return the curves of a log."""
    output = _curve(log, log.first(ChannelRole.OUTPUT))
    return LogCurves(
        tuple(Curve(*with_holes(log.elapsed_h, channel.values)) for channel in log.temperatures),
        _curve(log, log.first(ChannelRole.SET_POINT)),
        None if output is None else Curve(*without_repeats(output.x_h, output.y)),
    )


def _curve(log: FiringLog, channel: Channel | None) -> Curve | None:
    return None if channel is None else Curve(*with_holes(log.elapsed_h, channel.values))


@kept_beside
def rate_curve(firing: AlignedFiring) -> Curve:
    """Return how fast the reading climbed [°C/h]."""
    return Curve(*with_holes(firing.log.elapsed_h, firing.rate_c_per_h))


def make_ready(log: FiringLog, firing: AlignedFiring | None) -> None:
    """Work out all that drawing a log, and the firing in it, will ask for."""
    curves = log_curves(log).all
    if firing is not None:
        curves = (*curves, rate_curve(firing))
    for curve in curves:
        _ = curve.levels, curve.long_gaps_h
