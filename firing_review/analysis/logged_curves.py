"""The logged curves that heat work is counted along, cleaned, with their gaps named."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import wraps
from typing import Concatenate, ParamSpec, TypeVar

import numpy as np

from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.kiln import HOTTEST_KILN_C, Kiln
from firing_review.firing.log import Channel, ChannelRole, FiringLog
from firing_review.firing.remembered import remembered
from firing_review.firing.units import Floats
from firing_review.physics.cones import LEVEL_C, step_lengths_h

Rest = ParamSpec("Rest")
Answer = TypeVar("Answer")

READING = "reading"
"""Name under which the firing's own reading stands among the channels."""
FAR_APART_H = 0.25
"""Rows nearer than this hide no top that matters: at 60 °C/h it is half a cone [h]."""
TOP_OPEN_C = 8.0
"""A top that may lie this much above the hottest row is open: a third of a cone at cone 6 [°C]."""
STEEPEST_FALL_C_PER_H = 650.0
"""No closed kiln falls faster by itself [°C/h]; see ``jump_rate_c_per_h`` of the thresholds."""
NEAR_TOP_C = 100.0
"""The last stretch in which nearly all of a cone's work is done [°C]; heading of the chart."""


@dataclass(frozen=True, eq=False)
class _Curves:
    """The curves of a firing; those of another are the same if they are the very same arrays."""

    firing: AlignedFiring

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, _Curves):
            return NotImplemented
        one, two = self.firing, other.firing
        return one.reading_c is two.reading_c and one.curves is two.curves

    __hash__ = None  # type: ignore[assignment]


def whatever_was_meant(
    work: Callable[Concatenate[AlignedFiring, Rest], Answer],
) -> Callable[Concatenate[AlignedFiring, Rest], Answer]:
    """Return ``work`` so that its last answer is kept on the log of the firing.

    For what asks only for the log and the curves: then another schedule changes nothing.
    """

    @remembered
    @wraps(work)
    def of_log(_: FiringLog, curves: _Curves, /, *args: Rest.args, **named: Rest.kwargs) -> Answer:
        return work(curves.firing, *args, **named)

    @wraps(work)
    def of_firing(firing: AlignedFiring, /, *args: Rest.args, **named: Rest.kwargs) -> Answer:
        return of_log(firing.log, _Curves(firing), *args, **named)

    return of_firing


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


def hidden_top_c(elapsed_h: Floats, values_c: Floats) -> float:
    """Return how much hotter than the hottest row it may have been between rows far apart [°C].

    The climb into the first of the hottest rows may have gone on behind it, for as long as the
    fall to the next row leaves time for. A hottest row that the climb hardly rose to may lie
    behind the top already. Three rows and more at one height are a hold. Less than matters is 0;
    what no kiln reaches is not counted.
    """
    good = np.isfinite(values_c)
    hours, values = elapsed_h[good], values_c[good]
    top = int(np.argmax(values)) if len(values) else 0
    level = np.flatnonzero(values >= values.max(initial=0.0) - LEVEL_C)
    first, last = _run_around(level, top)
    if first == 0 or last - first > 1 or first + 1 >= len(values):
        return 0.0
    peaks = [_peak_behind(hours, values, first)]
    if first > 1 and last == first:
        rates = np.diff(values[first - 2 : first + 1]) / np.diff(hours[first - 2 : first + 1])
        if rates[1] < 0.5 * rates[0]:
            peaks.append(_peak_behind(hours, values, first - 1))
    more_c = min(max(peaks), HOTTEST_KILN_C) - float(values[top])
    return more_c if more_c > TOP_OPEN_C else 0.0


def _run_around(places: np.ndarray, middle: int) -> tuple[int, int]:
    """Return the first and last of the places that follow each other around one of them."""
    runs = np.split(places, np.flatnonzero(np.diff(places) > 1) + 1)
    return next(((int(r[0]), int(r[-1])) for r in runs if middle in r), (0, 0))


def _peak_behind(hours: Floats, values: Floats, row: int) -> float:
    """Return how hot it may have got between a row and the next one [°C]."""
    step_h = float(hours[row + 1] - hours[row])
    if step_h < FAR_APART_H:
        return float(values[row])
    climb = float((values[row] - values[row - 1]) / (hours[row] - hours[row - 1]))
    fall_c = float(values[row] - values[row + 1])
    climbing_h = (STEEPEST_FALL_C_PER_H * step_h - fall_c) / (STEEPEST_FALL_C_PER_H + climb)
    return float(values[row]) + climb * max(climbing_h, 0.0)
