"""A review as curves: plain numbers in the unit of the screen, before any drawing."""

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from firing_review.firing.aligned import AlignedFiring, StretchKind
from firing_review.firing.log import Channel, ChannelRole, FiringLog
from firing_review.firing.units import (
    Floats,
    TemperatureUnit,
    fahrenheit_difference,
    fahrenheit_from_celsius,
)
from firing_review.firing.wording import tr
from firing_review.report.thin import with_holes, without_repeats
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


@dataclass(frozen=True, eq=False)
class Line:
    """One curve of a lane.

    Attributes
    ----------
    name : str
        As written at its end.
    place : int
        Counts curves of the same role, from 0; each place has its own dash.
    x_h, y : array, shape (points,)
        Hours since the first sample, and values in the unit of the screen; NaN is a gap.
    """

    role: LineRole
    name: str
    x_h: Floats
    y: Floats
    place: int = 0


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


def shown_temperature(values_c: Floats, unit: TemperatureUnit) -> Floats:
    """Return temperatures in the unit of the screen."""
    return values_c if unit is TemperatureUnit.CELSIUS else fahrenheit_from_celsius(values_c)


def shown_rate(values_c_per_h: Floats, unit: TemperatureUnit) -> Floats:
    """Return rates or differences in the unit of the screen."""
    if unit is TemperatureUnit.CELSIUS:
        return values_c_per_h
    return fahrenheit_difference(values_c_per_h)


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
        top=_peak(firing, lines),
    )


def _peak(firing: AlignedFiring | None, lines: tuple[Line, ...]) -> tuple[float, float] | None:
    """Return when the peak was, and the highest of all lines there: words stand over them."""
    if firing is None:
        return None
    here = [value_at(line, firing.peak_h) for line in lines]
    return firing.peak_h, max((value for value in here if not math.isnan(value)), default=0.0)


def _plan(firing: AlignedFiring | None, unit: TemperatureUnit) -> tuple[Line, ...]:
    if firing is None or firing.plan_h is None or firing.plan_c is None:
        return ()
    y = shown_temperature(firing.plan_c, unit)
    return (Line(LineRole.SCHEDULE, tr("schedule"), firing.plan_h, y),)


def _set_point(log: FiringLog, unit: TemperatureUnit) -> tuple[Line, ...]:
    channel = log.first(ChannelRole.SET_POINT)
    if channel is None:
        return ()
    x_h, values = with_holes(log.elapsed_h, channel.values)
    return (Line(LineRole.SET_POINT, tr("set point"), x_h, shown_temperature(values, unit)),)


def _readings(log: FiringLog, unit: TemperatureUnit) -> tuple[Line, ...]:
    channels = log.temperatures
    lines = []
    for place, channel in enumerate(channels):
        x_h, values = with_holes(log.elapsed_h, channel.values)
        name = reading_name(channel, alone=len(channels) == 1)
        lines.append(Line(LineRole.READING, name, x_h, shown_temperature(values, unit), place))
    return tuple(lines)


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
    x_h, values = with_holes(firing.log.elapsed_h, firing.rate_c_per_h)
    reading = Line(LineRole.RATE, tr("rate"), x_h, shown_rate(values, unit))
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
    shown = shown_rate(np.array(y), unit)
    return Line(LineRole.ASKED_RATE, tr("asked"), np.array(x), shown)


RATE_SHARE = (1.0, 99.0)
"""Percentiles of the rate that the lane must show; what is outside runs off its edge."""
RATE_AT_LEAST_C_PER_H = 60.0


def _rate_range(lines: tuple[Line, ...], unit: TemperatureUnit) -> tuple[float, float]:
    least = float(shown_rate(np.array([RATE_AT_LEAST_C_PER_H]), unit)[0])
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
    channel = log.first(ChannelRole.OUTPUT)
    if channel is None:
        return ()
    x_h, y = without_repeats(*with_holes(log.elapsed_h, channel.values))
    return (Line(LineRole.OUTPUT, tr("output"), x_h, y),)


def value_at(line: Line, at_h: float) -> float:
    """Return a curve's value at a time, straight between its points; NaN in a gap or outside."""
    finite = len(line.x_h) > 0
    if not finite or at_h < line.x_h[0] or at_h > line.x_h[-1]:
        return math.nan
    after = int(np.searchsorted(line.x_h, at_h))
    before = max(after - 1, 0)
    y_before, y_after = float(line.y[before]), float(line.y[min(after, len(line.y) - 1)])
    span = float(line.x_h[min(after, len(line.x_h) - 1)] - line.x_h[before])
    if span <= 0:
        return y_after
    return y_before + (y_after - y_before) * (at_h - float(line.x_h[before])) / span
