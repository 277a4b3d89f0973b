"""°C and °F. Temperatures convert with the offset of 32, differences and rates without it."""

from enum import StrEnum
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Number = TypeVar("Number", float, Floats)


class TemperatureUnit(StrEnum):
    """The two units in use at kilns."""

    CELSIUS = "C"
    FAHRENHEIT = "F"


class TimeUnit(StrEnum):
    """What a column of elapsed time counts."""

    MILLISECONDS = "milliseconds"
    SECONDS = "seconds"
    MINUTES = "minutes"
    HOURS = "hours"
    DAYS = "days"


def fahrenheit_from_celsius(temperature_c: Number) -> Number:
    """Return temperatures [°F] for temperatures [°C]."""
    return temperature_c * 9.0 / 5.0 + 32.0


def celsius_from_fahrenheit(temperature_f: Number) -> Number:
    """Return temperatures [°C] for temperatures [°F]."""
    return (temperature_f - 32.0) * 5.0 / 9.0


def fahrenheit_difference(difference_c: Number) -> Number:
    """Return differences or rates in Fahrenheit degrees for the same in Celsius degrees."""
    return difference_c * 9.0 / 5.0


def celsius_difference(difference_f: Number) -> Number:
    """Return differences or rates in Celsius degrees for the same in Fahrenheit degrees."""
    return difference_f * 5.0 / 9.0
