"""What lies between two points of the chart, in words: degrees, hours, rate."""

import math

from firing_review.firing.units import TemperatureUnit, celsius_from_fahrenheit
from firing_review.firing.wording import tr
from firing_review.report import wording
from firing_review.report.chart_lines import ChartLines, Line, LineRole, value_at

SAME_MOMENT_H = 0.5 / 3600
"""Nearer than half a second is no length of time to divide by [h]."""


def measured(lines: ChartLines, first_h: float, second_h: float, unit: TemperatureUnit) -> str:
    """Return degrees, time and rate of every reading between two moments, in either order."""
    start_h, end_h = sorted((first_h, second_h))
    show = wording.Show(unit.value)
    span = tr("From {start} to {end}").format(start=_time(start_h), end=_time(end_h))
    if end_h - start_h < SAME_MOMENT_H:
        return tr("Both points stand at {time}.").format(time=_time(start_h))
    readings = [line for line in lines.temperature if line.role is LineRole.READING]
    length = _time(end_h - start_h)
    parts = [_change(line, start_h, end_h, show, alone=len(readings) == 1) for line in readings]
    return f"{span}, {length}: {'; '.join(parts)}."


def _time(hours_h: float) -> str:
    return wording.hours(hours_h)


def _change(line: Line, start_h: float, end_h: float, show: wording.Show, *, alone: bool) -> str:
    """Return what one reading did: ``389 °C hotter, 141 °C per hour``."""
    ends = [_celsius(value_at(line, at_h), show) for at_h in (start_h, end_h)]
    if any(math.isnan(end) for end in ends):
        text = tr("no reading at one of the points")
    else:
        delta = ends[1] - ends[0]
        rate = wording.rate(delta / (end_h - start_h), show)
        text = f"{_hotter_or_colder(delta, show)}, {rate}"
    return text if alone else f"{line.name} {text}"


def _hotter_or_colder(delta_c: float, show: wording.Show) -> str:
    words = tr("{degrees} hotter") if delta_c >= 0 else tr("{degrees} colder")
    return words.format(degrees=wording.difference(abs(delta_c), show))


def _celsius(value: float, show: wording.Show) -> float:
    return celsius_from_fahrenheit(value) if show is wording.Show.FAHRENHEIT else value
