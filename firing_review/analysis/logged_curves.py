"""The logged curves that heat work is counted along, cleaned, with their gaps named."""

import re

import numpy as np

from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.kiln import Kiln
from firing_review.firing.log import Channel, ChannelRole
from firing_review.firing.units import Floats
from firing_review.physics.cones import step_lengths_h

READING = "reading"
"""Name under which the firing's own reading stands among the channels."""
NEAR_TOP_C = 100.0
"""The last stretch in which nearly all of a cone's work is done [°C]; heading of the chart."""


def heat_curves(firing: AlignedFiring) -> tuple[tuple[str, Floats], ...]:
    """Return the firing's reading, then each temperature channel if there are several [°C]."""
    curves = [(READING, firing.reading_c)]
    if len(firing.log.temperatures) > 1:
        curves += [(channel.name, values) for channel, values in firing.curves]
    return tuple(curves)


def shelf_curve(firing: AlignedFiring, shelf: str, kiln: Kiln | None) -> Floats:
    """Return the logged curve that stands for a shelf: its section's, else the firing's own.

    A section whose record is broken near the top cannot stand for anything; the firing's own
    reading serves then.
    """
    if len(firing.log.temperatures) < 2:
        return firing.reading_c
    section = _section_of(shelf, kiln)
    column = _probe_column(section, kiln)
    for channel, values in firing.curves:
        mine = channel.name == column if column else _names(channel, section)
        if mine and gap_near_top_h(firing.log.elapsed_h, values) == 0.0:
            return values
    return firing.reading_c


def _section_of(shelf: str, kiln: Kiln | None) -> str:
    """Return the section a shelf stands in; without a word in the sheet the nearest in order."""
    if kiln is None:
        return shelf
    names = [s.name for s in kiln.shelves]
    if shelf not in names:
        return shelf
    place = names.index(shelf)
    told = kiln.shelves[place].section
    if told or not kiln.sections:
        return told or shelf
    return kiln.sections[place * len(kiln.sections) // len(names)].name


def _probe_column(section: str, kiln: Kiln | None) -> str | None:
    sections = kiln.sections if kiln else ()
    return next((s.probe_column for s in sections if s.name == section), None)


def _names(channel: Channel, section: str) -> bool:
    """Tell whether a column is named after a section, in words: ``top_C`` but not ``stop``."""
    if channel.role is not ChannelRole.SECTION:
        return False
    heading, wanted = _words(channel.name), _words(section)
    return bool(wanted) and all(word in heading for word in wanted)


def _words(text: str) -> list[str]:
    return re.findall(r"[^\W_]+", text.lower())


def gap_near_top_h(elapsed_h: Floats, values_c: Floats) -> float:
    """Return how long the record is silent within 100 °C of its top [h]; 0 if it is whole.

    Heat work counted over such a gap is a lower bound.
    """
    good = np.isfinite(values_c)
    if good.sum() < 2:
        return float(elapsed_h[-1] - elapsed_h[0]) if len(elapsed_h) else 0.0
    hours, values = elapsed_h[good], values_c[good]
    silent = np.diff(hours) - step_lengths_h(hours, values)
    near = np.maximum(values[1:], values[:-1]) > values.max() - NEAR_TOP_C
    return float(silent[near].sum())
