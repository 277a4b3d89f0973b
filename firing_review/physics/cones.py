"""Heat work of a curve: the share of a cone's work it did, and the cone it brings down."""

from dataclasses import dataclass

import numpy as np

from firing_review.firing.cones import CONE_SCALE
from firing_review.firing.units import Floats
from firing_review.physics.cone_law import (
    REFERENCE_C_PER_H,
    ConeLaw,
    end_point_c,
    end_points_c,
    fit_laws,
    law_of,
    log_integral,
)

__all__ = [
    "ConeLaw",
    "Dwell",
    "cone_equivalent",
    "dwell_of",
    "end_point_c",
    "equivalent_from_works",
    "fit_laws",
    "law_of",
    "log_work_done",
    "log_works",
    "rank_label",
    "rank_temperature_c",
    "step_lengths_h",
    "work_so_far",
]

HOT_SPAN_C = 250.0
"""Below the top by more than this a curve adds less than 1e-4 of any cone's work [°C]."""
LONGEST_STEP_H = 20.0 / 60.0
"""A longer silence of the log is a gap and is not bridged, unless all its steps are long [h]."""
STEPS_OF_USUAL = 2.5
"""A step longer than this many usual ones is a gap (and longer than LONGEST_STEP_H)."""
LEVEL_C = 5.0
LONGEST_LEVEL_H = 2.0
"""A silence up to this long between readings this close is a hold [°C], [h]."""
FLAT_STEP_C = 0.5
"""Steps flatter than this are taken at their middle; the error is below 1e-4 [°C]."""


@dataclass(frozen=True, eq=False)
class Dwell:
    """How long a curve stayed at each temperature; order does not matter to a cone.

    Attributes
    ----------
    temperature_c, hours : array, shape (levels,)
        Levels of about one degree [°C] and the time spent there [h].
    """

    temperature_c: Floats
    hours: Floats

    def __add__(self, other: "Dwell") -> "Dwell":
        """Return both stays together."""
        return Dwell(
            np.concatenate((self.temperature_c, other.temperature_c)),
            np.concatenate((self.hours, other.hours)),
        )

    def times(self, factor: float) -> "Dwell":
        """Return the stay made longer by a factor."""
        return Dwell(self.temperature_c, self.hours * factor)

    def shifted(self, by_c: float) -> "Dwell":
        """Return the same stay at temperatures higher by ``by_c`` [°C]."""
        return Dwell(self.temperature_c + by_c, self.hours)


def step_lengths_h(elapsed_h: Floats, temperature_c: Floats) -> Floats:
    """Return the lengths of the steps between samples [h]; gaps count nothing, shape (rows-1,).

    A gap is a step that is long in itself and against the usual step, so that a log written by
    hand every half hour has none. A silence between equal readings is a hold: some loggers write
    only when the reading changes.
    """
    steps = np.diff(elapsed_h)
    if not len(steps):
        return steps
    longest = max(LONGEST_STEP_H, STEPS_OF_USUAL * float(np.median(steps)))
    level = (np.abs(np.diff(temperature_c)) <= LEVEL_C) & (steps <= LONGEST_LEVEL_H)
    return np.where((steps <= longest) | level, steps, 0.0)


def dwell_of(elapsed_h: Floats, temperature_c: Floats, span_c: float = HOT_SPAN_C) -> Dwell:
    """Return how long a curve stayed at each level within ``span_c`` of its top.

    Parameters
    ----------
    elapsed_h, temperature_c : array, shape (rows,)
        Any sampling [h], [°C]. Short gaps are bridged by straight lines in time, long ones
        count nothing: the work is then a lower bound.
    """
    hours, first, last = _steps(elapsed_h, temperature_c)
    if not len(hours):
        return Dwell(np.zeros(0), np.zeros(0))
    hot = np.maximum(first, last) > max(first.max(), last.max()) - span_c
    hours, first, last = hours[hot], first[hot], last[hot]
    parts = np.maximum(1, np.ceil(np.abs(last - first)).astype(int))
    place = np.arange(parts.sum()) - np.repeat(np.cumsum(parts) - parts, parts)
    along = (place + 0.5) / np.repeat(parts, parts)
    levels = np.repeat(first, parts) + along * np.repeat(last - first, parts)
    return _by_degree(levels, np.repeat(hours / parts, parts))


def _by_degree(levels_c: Floats, hours: Floats) -> Dwell:
    """Gather stays by whole degrees, each shared out so that its mean temperature is kept."""
    floor = np.floor(levels_c)
    lowest = int(floor.min())
    index = (floor - lowest).astype(int)
    upper = levels_c - floor
    size = int(index.max()) + 2
    total: Floats = np.bincount(index, hours * (1.0 - upper), size).astype(float)
    total += np.bincount(index + 1, hours * upper, size)
    return Dwell(lowest + np.arange(size, dtype=float), total)


def _steps(elapsed_h: Floats, temperature_c: Floats) -> tuple[Floats, Floats, Floats]:
    """Return length [h], first and last temperature [°C] of each step between good samples."""
    good = np.isfinite(temperature_c)
    values = temperature_c[good]
    return step_lengths_h(elapsed_h[good], values), values[:-1], values[1:]


def log_work_done(dwell: Dwell, law: ConeLaw, shift_c: Floats | float = 0.0) -> Floats:
    """Return ln of the share of the cone's work done by a stay; 0 is the end point.

    Parameters
    ----------
    shift_c : float or array, shape (shifts,)
        Degrees the place was hotter than the curve [°C].

    Returns
    -------
    array, shape () or (shifts,); minus infinity for an empty stay.
    """
    shift = np.atleast_1d(np.asarray(shift_c, dtype=float))
    exponent = law.log_share_per_h(dwell.temperature_c[None, :] + shift[:, None])
    with np.errstate(divide="ignore"):
        work = np.log(np.exp(np.clip(exponent, -600.0, 60.0)) @ dwell.hours)
    return work if np.ndim(shift_c) else np.asarray(work[0])


def log_works(dwell: Dwell, laws: tuple[ConeLaw, ...], shift_c: float = 0.0) -> Floats:
    """Return ln of the share done of each cone's work, shape (cones,); 0 is its end point."""
    energies = np.array([law.e_over_r_k for law in laws])
    constants = np.array([law.log_work for law in laws])
    kelvin = np.maximum(dwell.temperature_c + shift_c + 273.15, 200.0)
    exponent = np.clip(-energies[:, None] / kelvin[None, :] - constants[:, None], -600.0, 60.0)
    with np.errstate(divide="ignore"):
        return np.asarray(np.log(np.exp(exponent) @ dwell.hours))


def work_so_far(elapsed_h: Floats, temperature_c: Floats, law: ConeLaw) -> Floats:
    """Return the share of the cone's work done up to each sample, shape (rows,).

    Each step is a straight line in time, and its work the closed form
    [I(T₂) − I(T₁)] Δt / (T₂ − T₁); so splitting a step changes nothing.
    """
    good = np.isfinite(temperature_c)
    if good.sum() < 2:
        return np.zeros(len(elapsed_h))
    hours, first, last = _steps(elapsed_h, temperature_c)
    done = np.concatenate(([0.0], np.cumsum(_mean_share_per_h(first, last, law) * hours)))
    return np.interp(elapsed_h, elapsed_h[good], done)


def _mean_share_per_h(first_c: Floats, last_c: Floats, law: ConeLaw) -> Floats:
    """Return the mean work per hour along straight steps, shape (steps,)."""
    flat = np.exp(np.clip(law.log_share_per_h((first_c + last_c) / 2.0), -600.0, 60.0))
    steep = np.abs(last_c - first_c) > FLAT_STEP_C
    if not steep.any():
        return np.asarray(flat)
    integrals = [
        np.exp(np.clip(log_integral(t[steep], law.e_over_r_k) - law.log_work, -600.0, 60.0))
        for t in (first_c, last_c)
    ]
    flat[steep] = (integrals[1] - integrals[0]) / (last_c[steep] - first_c[steep])
    return np.asarray(flat)


def cone_equivalent(
    elapsed_h: Floats, temperature_c: Floats, laws: tuple[ConeLaw, ...]
) -> tuple[float | None, str | None]:
    """Return which cone a curve brings just to its end point: rank with tenths, and its name.

    None if not even the coolest fitted cone ended.
    """
    dwell = dwell_of(elapsed_h, temperature_c)
    if not len(dwell.hours) or not laws:
        return None, None
    return equivalent_from_works(log_works(dwell, laws), laws)


def equivalent_from_works(
    works: Floats, laws: tuple[ConeLaw, ...]
) -> tuple[float | None, str | None]:
    """Return rank and name from ln work of each cone, cool to hot.

    Interpolated in ln work between the hottest cone that ended and its neighbour. Beyond the
    last cone of the chart the rank stays there.
    """
    down = np.flatnonzero(works >= 0.0)
    if not len(down):
        return None, None
    last = int(down[-1])
    rank = float(laws[last].cone.rank)
    if last + 1 < len(laws):
        upper = float(laws[last + 1].cone.rank)
        part = works[last] / (works[last] - works[last + 1])
        rank += float(np.clip(part, 0.0, 1.0)) * (upper - rank)
    return rank, rank_label(rank)


def rank_label(rank: float) -> str:
    """Return a rank with tenths as text: ``5.4``, or ``04 + 0.3`` among the zero numbers.

    Tenths count towards the next number of the scale; between 5 and 6 (through 5.5) they are
    the decimals of the number itself. A plain decimal after a zero number would read backwards:
    the scale falls from 022 to 01, and 05.5 is a cone of its own.
    """
    low = min(int(np.floor(rank + 1e-9)), len(CONE_SCALE) - 1)
    tenths = round((rank - low) * 10.0)
    if tenths == 10:
        low, tenths = low + 1, 0
    name = CONE_SCALE[min(low, len(CONE_SCALE) - 1)]
    if tenths == 0 or low + 1 >= len(CONE_SCALE):
        return name
    if name.startswith("0"):
        return f"{name} + {tenths / 10:.1f}"
    step = float(CONE_SCALE[low + 1]) - float(name)
    return f"{float(name) + step * tenths / 10.0:.1f}"


def rank_temperature_c(
    rank: float, laws: tuple[ConeLaw, ...], rate_c_per_h: float = REFERENCE_C_PER_H
) -> float | None:
    """Return the end point of a rank with tenths on a straight climb [°C]; None outside."""
    ranks = [float(law.cone.rank) for law in laws]
    if not ranks or not ranks[0] <= rank <= ranks[-1]:
        return None
    return float(np.interp(rank, ranks, end_points_c(laws, rate_c_per_h)))
