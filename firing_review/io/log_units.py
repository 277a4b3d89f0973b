"""Is a log in °C or °F: by what it says, else by start and peak together."""

import re
from collections.abc import Iterable

import numpy as np

from firing_review.firing.errors import DoubtError
from firing_review.firing.kiln import HOTTEST_KILN_C
from firing_review.firing.units import Floats, TemperatureUnit
from firing_review.firing.wording import tr
from firing_review.io import log_gaps

_LETTER = r"(°|\ufffd|\?|deg\s?)\s?{0}\b|[_\s(\[]{0}[)\]]?\s*$|^\[?\(?{0}\)?\]?$"
_C = re.compile(_LETTER.format("c") + "|celsius", re.IGNORECASE)
_F = re.compile(_LETTER.format("f") + "|fahrenheit", re.IGNORECASE)
_ANY_C = re.compile(r"(°|\ufffd|\?|deg\.?\s?)c\b|celsius|\d\s?c\b", re.IGNORECASE)
_ANY_F = re.compile(r"(°|\ufffd|\?|deg\.?\s?)f\b|fahrenheit|\d\s?f\b", re.IGNORECASE)
ROOM_C, ROOM_F = (2.0, 42.0), (45.0, 105.0)
"""A cold kiln's reading in either unit; between them they overlap hardly."""
HOTTEST_C = 1400.0
"""No pottery kiln goes above it [°C]; a higher peak is °F."""
NO_FIRING_RISE = 100.0
"""Below this rise the unit changes nothing that is concluded."""
FROST_F = 32.0
"""A cold kiln reads more in °F [°F]; a record that starts below it starts in °C."""
MOST_LEAPS = 0.5
"""A column that leaps at more of its steps up there is a failing probe, not a climb."""


def own_unit(*labels: str) -> TemperatureUnit | None:
    """Return the unit that a column's name, unit row or values name; None if none or both."""
    return _named(labels, _C, _F)


def unit_above(preamble: Iterable[str]) -> TemperatureUnit | None:
    """Return the unit that the lines above the data name; None if none or both."""
    return _named(tuple(preamble), _ANY_C, _ANY_F)


def _named(
    texts: tuple[str, ...], celsius: re.Pattern[str], fahrenheit: re.Pattern[str]
) -> TemperatureUnit | None:
    c, f = (any(mark.search(t) for t in texts) for mark in (celsius, fahrenheit))
    if c == f:
        return None
    return TemperatureUnit.CELSIUS if c else TemperatureUnit.FAHRENHEIT


def unit_by_values(columns: list[Floats], source: str) -> tuple[TemperatureUnit, float]:
    """Return the unit by start and peak together, and how sure that is.

    Raises
    ------
    DoubtError
        If start and peak fit both units, or neither.
    """
    tops = [float(np.nanpercentile(c, 99.5)) for c in columns if np.isfinite(c).any()]
    if not tops:
        return TemperatureUnit.CELSIUS, 0.5
    first = [float(c[np.isfinite(c)][:3].min()) for c in columns if np.isfinite(c).any()]
    peak, start = float(np.median(tops)), float(np.median(first))
    if peak - start < NO_FIRING_RISE:
        return TemperatureUnit.CELSIUS, 0.5
    room_c, room_f = ROOM_C[0] <= start <= ROOM_C[1], ROOM_F[0] <= start <= ROOM_F[1]
    if peak > HOTTEST_C:
        return TemperatureUnit.FAHRENHEIT, 0.95 if room_f else 0.8
    if room_c and not room_f:
        return TemperatureUnit.CELSIUS, 0.9
    found = tr("no unit, a start at {start:.0f} and a peak at {peak:.0f}")
    raise _doubt(source, found.format(start=start, peak=peak))


def doubt_of_celsius(column: Floats, hours: Floats, source: str) -> DoubtError | None:
    """Return the doubt about a column that names °C and climbs on to what is hot only in °F.

    A start that is cold in °C alone speaks for its name; what leaps up there is no climb.
    """
    if not np.fmax.reduce(column, initial=0.0) > HOTTEST_KILN_C:
        return None
    curve = reading_of(column, hours)
    good = np.isfinite(curve)
    values, hours = curve[good], hours[good]
    beyond = values > HOTTEST_KILN_C
    if not beyond.any() or float(values[:3].min()) < FROST_F:
        return None
    steps = np.abs(np.diff(values))[beyond[1:] | beyond[:-1]]
    step_h = np.diff(hours)[beyond[1:] | beyond[:-1]]
    leaps = (steps > log_gaps.LEAP_C) & (steps > log_gaps.LEAP_C_PER_H * step_h)
    if not len(leaps) or leaps.mean() > MOST_LEAPS:
        return None
    found = tr("°C named, but a climb to {peak:.0f}, which no kiln reaches in °C")
    return _doubt(source, found.format(peak=float(values.max())))


def _doubt(source: str, found: str) -> DoubtError:
    remedy = tr("Say which with --unit C or --unit F (or choose it when opening the log).")
    return DoubtError(source, tr("a log that says whether it is in °C or °F"), found, remedy)


def reading_of(column: Floats, hours: Floats) -> Floats:
    """Return a column without what is no reading in either unit."""
    bad = log_gaps.open_probe(column, hours, hottest=log_gaps.HOTTEST_F)
    return np.where(bad, np.nan, column)
