"""Ranges of temperature that matter for ware, and when a firing went through them.

One place for all who name such a range. Sources: L. Bloomfield, "Science for Potters" (drying,
chemical water); J. Bartolovic and B. Zakin on quartz inversion (573 °C); where sources differ the
range covers them. The change of cristobalite and the stiffening of glaze: from memory.
"""

from dataclasses import dataclass

import numpy as np

from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.said import N_

QUARTZ_C = 573.0
"""Quartz changes its form here, on the way up and on the way down [°C]."""
QUARTZ_SIDE_C = 30.0
"""The coldest and the hottest piece of a load are about so far from the reading [°C]."""


@dataclass(frozen=True)
class WareRange:
    """A range of temperature with what happens to ware in it.

    Attributes
    ----------
    name : catalogue text, a word or two.
    low_c, high_c : float
        [°C].
    on_climb, on_cooling : bool
        On which way it matters.
    """

    name: str
    low_c: float
    high_c: float
    on_climb: bool = False
    on_cooling: bool = False


WARE_RANGES = (
    WareRange(N_("drying"), 20.0, 120.0, on_climb=True),
    WareRange(N_("chemical water"), 350.0, 650.0, on_climb=True),
    WareRange(
        N_("quartz"),
        QUARTZ_C - QUARTZ_SIDE_C,
        QUARTZ_C + QUARTZ_SIDE_C,
        on_climb=True,
        on_cooling=True,
    ),
    WareRange(N_("glaze stiffens"), 500.0, 650.0, on_cooling=True),
    WareRange(N_("cristobalite"), 220.0, 270.0, on_cooling=True),
)


@dataclass(frozen=True)
class Passage:
    """A range of ware, and the stretch of the climb or the cooling [h] that lay in it."""

    range: WareRange
    start_h: float
    end_h: float
    climbing: bool


def passages(firing: AlignedFiring) -> tuple[Passage, ...]:
    """Return when the firing went through each range that matters, in order of time.

    On the climb from first reaching the lower end to first reaching the upper one, in cooling the
    other way round; a range that was left half way ends at the peak or with the record.
    """
    found = []
    for one in WARE_RANGES:
        if one.on_climb:
            found.append(_passage(firing, one, climbing=True))
        if one.on_cooling:
            found.append(_passage(firing, one, climbing=False))
    return tuple(sorted((one for one in found if one), key=lambda one: one.start_h))


def _passage(firing: AlignedFiring, one: WareRange, *, climbing: bool) -> Passage | None:
    hours, reading = firing.log.elapsed_h, firing.reading_c
    way = (hours <= firing.peak_h) if climbing else (hours >= firing.peak_h)
    hours, reading = hours[way], reading[way]
    entered, left = (
        (reading >= one.low_c, reading >= one.high_c)
        if climbing
        else (reading <= one.high_c, reading <= one.low_c)
    )
    if not entered.any() or (climbing and bool(left[:1].all())):
        return None
    start_h = float(hours[int(np.argmax(entered))])
    end_h = float(hours[int(np.argmax(left))] if left.any() else hours[-1])
    return Passage(one, start_h, end_h, climbing) if end_h > start_h else None
