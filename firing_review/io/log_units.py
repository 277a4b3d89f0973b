"""Is a log in °C or °F: by what it says, else by start and peak together."""

import re
from collections.abc import Iterable

import numpy as np

from firing_review.firing.errors import DoubtError
from firing_review.firing.units import Floats, TemperatureUnit
from firing_review.firing.wording import tr

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
    raise DoubtError(
        source,
        tr("a log that says whether it is in °C or °F"),
        tr("no unit, a start at {start:.0f} and a peak at {peak:.0f}").format(
            start=start, peak=peak
        ),
        tr("Say which with --unit C or --unit F (or choose it when opening the log)."),
    )
