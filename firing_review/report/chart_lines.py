"""A review as curves: plain numbers in the unit of the screen, before any drawing."""

import math
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cached_property
from typing import Protocol

import numpy as np

from firing_review.firing.aligned import AlignedFiring, StretchKind
from firing_review.firing.log import Channel, FiringLog
from firing_review.firing.units import (
    Floats,
    Number,
    TemperatureUnit,
    fahrenheit_difference,
    fahrenheit_from_celsius,
)
from firing_review.firing.wording import tr
from firing_review.report.columns import Seen, seen
from firing_review.report.curves import Curve, log_curves, rate_curve
from firing_review.review.review import Review


class LineRole(StrEnum):
    """What a curve stands for; the look follows from it."""

    SCHEDULE = "schedule"
    SET_POINT = "set_point"
    READING = "reading"
    RATE = "rate"
    ASKED_RATE = "asked_rate"
    OUTPUT = "output"
    EARLIER = "earlier"


def as_it_is(value: Number) -> Number:
    """Return a value that is shown in the unit it is kept in."""
    return value


class Convert(Protocol):
    """Gives a value, or an array of them, in the unit of the screen."""

    def __call__(self, value: Number, /) -> Number:
        """Return the value in that unit."""


@dataclass(frozen=True, eq=False)
class Line:
    """One curve of a lane.

    Attributes
    ----------
    name : str
        As written at its end.
    curve : Curve
        In the unit it is kept in.
    place : int
        Counts curves of the same role, from 0; each place has its own dash.
    convert : callable
        Gives values in the unit of the screen.
    """

    role: LineRole
    name: str
    curve: Curve
    place: int = 0
    convert: Convert = as_it_is

    @property
    def x_h(self) -> Floats:
        """Hours since the first sample [h]."""
        return self.curve.x_h

    @cached_property
    def y(self) -> Floats:
        """Values in the unit of the screen; NaN is a gap."""
        return self.convert(self.curve.y)

    def seen(self, low_h: float, high_h: float, columns: float) -> Seen:
        """Return what of it is to be drawn between two times, in the unit of the screen."""
        one = seen(self.curve.levels, low_h, high_h, columns)
        return replace(one, y=self.convert(one.y))


WORDS_SHARE = 0.15
"""Words over a line take as much of the height of a small chart."""


@dataclass(frozen=True, eq=False)
class ChartLines:
    """Every curve of the chart by lane, and what the chart leaves out."""

    temperature: tuple[Line, ...]
    rate: tuple[Line, ...]
    output: tuple[Line, ...]
    first_h: float
    last_h: float
    rate_range: tuple[float, float]
    top: tuple[float, float] | None


def temperatures_in(unit: TemperatureUnit) -> Convert:
    """Return what gives temperatures [°C] in the unit of the screen."""
    return as_it_is if unit is TemperatureUnit.CELSIUS else fahrenheit_from_celsius


def rates_in(unit: TemperatureUnit) -> Convert:
    """Return what gives rates or differences [°C/h, °C] in the unit of the screen."""
    return as_it_is if unit is TemperatureUnit.CELSIUS else fahrenheit_difference


def chart_lines(review: Review, unit: TemperatureUnit) -> ChartLines:
    """Return the curves of a review in the unit of the screen."""
    log, firing = review.given.log, review.firing
    rate = _rate_lines(firing, unit)
    lines = (*_plan(firing, unit), *_set_point(log, unit), *_readings(log, unit))
    return ChartLines(
        temperature=lines,
        rate=rate,
        output=_output(log),
        first_h=0.0,
        last_h=max(log.hours, 0.1),
        rate_range=_rate_range(rate, unit),
        top=_peak(firing, lines, unit),
    )


def _peak(
    firing: AlignedFiring | None, lines: tuple[Line, ...], unit: TemperatureUnit
) -> tuple[float, float] | None:
    """Return when the peak was, and over what its words stand there.

    They stand over the highest reading, and over what else they would be written across; a line
    far above has nothing to do with them. At the edge of a gap no line may have a value.
    """
    if firing is None:
        return None
    here = [(value_at(line, firing.peak_h), line.role) for line in lines]
    seen = sorted((value, role) for value, role in here if not math.isnan(value))
    peak = temperatures_in(unit)(firing.peak_c)
    top = max((value for value, role in seen if role is LineRole.READING), default=peak)
    for value, _role in seen:
        if top < value <= top + WORDS_SHARE * seen[-1][0]:
            top = value
    return firing.peak_h, top


def _plan(firing: AlignedFiring | None, unit: TemperatureUnit) -> tuple[Line, ...]:
    if firing is None or firing.plan_h is None or firing.plan_c is None:
        return ()
    curve = Curve(firing.plan_h, firing.plan_c)
    return (Line(LineRole.SCHEDULE, tr("schedule"), curve, convert=temperatures_in(unit)),)


def _set_point(log: FiringLog, unit: TemperatureUnit) -> tuple[Line, ...]:
    curve = log_curves(log).set_point
    if curve is None:
        return ()
    return (Line(LineRole.SET_POINT, tr("set point"), curve, convert=temperatures_in(unit)),)


def _readings(log: FiringLog, unit: TemperatureUnit) -> tuple[Line, ...]:
    channels, curves = log.temperatures, log_curves(log).readings
    names = [reading_name(channel, alone=len(channels) == 1) for channel in channels]
    return tuple(
        Line(LineRole.READING, name, curve, place, temperatures_in(unit))
        for place, (name, curve) in enumerate(zip(names, curves, strict=True))
    )


def reading_name(channel: Channel, *, alone: bool) -> str:
    """Return the name of a reading as written at its line's end."""
    if alone:
        return tr("reading")
    bare = channel.name
    for ending in ("_F", "_C", " F", " C", " (°F)", " (°C)", " °F", " °C", "_degC", "_degF"):
        bare = bare.removesuffix(ending)
    return bare.strip() or channel.name


def _rate_lines(firing: AlignedFiring | None, unit: TemperatureUnit) -> tuple[Line, ...]:
    if firing is None:
        return ()
    reading = Line(LineRole.RATE, tr("rate"), rate_curve(firing), convert=rates_in(unit))
    asked = _asked_rate(firing, unit)
    return (reading,) if asked is None else (asked, reading)


def _asked_rate(firing: AlignedFiring, unit: TemperatureUnit) -> Line | None:
    """Return the asked rate as steps over the stretches that were fired."""
    x: list[float] = []
    y: list[float] = []
    for one in firing.stretches:
        rate = one.planned_rate_c_per_h
        if one.start_h is None or one.end_h is None or rate is None:
            continue
        if one.kind is StretchKind.HOLD:
            continue
        asked = -rate if one.kind is StretchKind.COOL else rate
        x += [one.start_h, one.end_h, one.end_h]
        y += [asked, asked, math.nan]
    if not x:
        return None
    curve = Curve(np.array(x), np.array(y))
    return Line(LineRole.ASKED_RATE, tr("asked"), curve, convert=rates_in(unit))


RATE_SHARE = (1.0, 99.0)
"""Percentiles of the rate that the lane must show; what is outside runs off its edge."""
RATE_AT_LEAST_C_PER_H = 60.0


def _rate_range(lines: tuple[Line, ...], unit: TemperatureUnit) -> tuple[float, float]:
    least = rates_in(unit)(RATE_AT_LEAST_C_PER_H)
    low, high = -least / 2, least
    for line in lines:
        values = line.y[np.isfinite(line.y)]
        if not len(values):
            continue
        ends = np.percentile(values, RATE_SHARE)
        low, high = min(low, float(ends[0])), max(high, float(ends[1]))
    room = 0.08 * (high - low)
    return max(low, -1.2 * high) - room, high + room


def _output(log: FiringLog) -> tuple[Line, ...]:
    curve = log_curves(log).output
    return () if curve is None else (Line(LineRole.OUTPUT, tr("output"), curve),)


def value_at(line: Line, at_h: float) -> float:
    """Return a curve's value at a time, straight between its points; NaN in a gap or outside.

    At a point it is that point's own value, whatever lies before.
    """
    x_h, y = line.curve.x_h, line.curve.y
    if not len(x_h) or at_h < x_h[0] or at_h > x_h[-1]:
        return math.nan
    after = min(int(np.searchsorted(x_h, at_h)), len(y) - 1)
    before = max(after - 1, 0)
    y_before, y_after = line.convert(float(y[before])), line.convert(float(y[after]))
    span = float(x_h[after] - x_h[before])
    if span <= 0 or at_h == x_h[after]:
        return y_after
    return y_before + (y_after - y_before) * (at_h - float(x_h[before])) / span
