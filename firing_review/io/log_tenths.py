"""Columns of numbers, and those of them that count whole tenths of a degree."""

import re
from dataclasses import dataclass, field

import numpy as np

from firing_review.firing.units import Floats

_IN_TENTHS = re.compile(
    r"\b0?[.,]1\s?°?\s?[CF]\b|\b1/10\b|[x*×]\s?10\b|\bd°?[CF]\b|tenths", re.IGNORECASE
)
HOTTEST_ANY = 2600.0
"""No kiln reads higher in °C or °F; whole numbers that climb beyond it count tenths."""
COLD_TENTHS = (50.0, 1100.0)
"""A cold kiln counted in tenths, in either unit."""


@dataclass(frozen=True, eq=False)
class Numbers:
    """The number columns of a table, and the unit that is stuck to the values of some."""

    columns: dict[int, Floats] = field(default_factory=dict)
    stuck: dict[int, str] = field(default_factory=dict)


def said_in_tenths(label: str) -> bool:
    """Tell whether a name or unit says that a column counts tenths of a degree."""
    return bool(_IN_TENTHS.search(label))


def counts_tenths(column: Floats) -> bool:
    """Tell whether a temperature column counts tenths of a degree: 12225 for 1222.5."""
    if not np.fmax.reduce(column, initial=0.0) > HOTTEST_ANY:
        return False
    good = column[np.isfinite(column)]
    if len(good) < 8 or not np.all(good == np.round(good)):
        return False
    top, start = float(np.percentile(good, 98)), float(good[:3].min())
    steps = np.abs(np.diff(good))
    smooth = float(np.median(steps)) < 0.1 * (top - start)
    many = len(np.unique(good[good > HOTTEST_ANY])) > 3
    return top > HOTTEST_ANY and COLD_TENTHS[0] <= start <= COLD_TENTHS[1] and smooth and many
