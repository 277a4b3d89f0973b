"""The intended firing as a line in time."""

import numpy as np

from firing_review.firing.schedule import ClockCurve, Intended, Schedule
from firing_review.firing.units import Floats

FULL_RATE_DRAWN_C_PER_H = 400.0
"""Slope at which a ramp "full" is drawn [°C/h]; it asks for no rate of its own."""


def plan_line(intended: Intended, start_c: float) -> tuple[Floats, Floats]:
    """Return the corners of the intended line: hours from the start [h] and temperatures [°C]."""
    if isinstance(intended, ClockCurve):
        return np.array(intended.time_h, float), np.array(intended.temperature_c, float)
    return _ramp_corners(intended, start_c)


def _ramp_corners(schedule: Schedule, start_c: float) -> tuple[Floats, Floats]:
    hours, temperatures = [0.0], [start_c]
    for segment in schedule.segments:
        rate = segment.rate_c_per_h or FULL_RATE_DRAWN_C_PER_H
        hours.append(hours[-1] + abs(segment.target_c - temperatures[-1]) / rate)
        temperatures.append(segment.target_c)
        if segment.hold_min > 0:
            hours.append(hours[-1] + segment.hold_min / 60.0)
            temperatures.append(segment.target_c)
    return np.array(hours), np.array(temperatures)
