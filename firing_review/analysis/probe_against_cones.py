"""Probe against cones: whether it is the probe (or the hold), or the kiln and its load.

If all shelves are off by the same, the reading is off or the heat work of the hold was not as
thought; if they differ, it is the kiln or the load. One firing cannot tell a probe that reads
wrong from one that is wrong by an amount that grows with heat: that takes several.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from firing_review.firing.results import ShelfHeat
from firing_review.firing.said import N_, Figures, Said

SD_OF_RANGE = 3.29
"""A 90 % range spans this many standard deviations."""
SAME_WITHIN_C = 10.0
"""Shelves of a sound kiln differ by this much; half a cone (10 to 15 °C) is good practice [°C]."""
NOTHING_WITHIN_C = 5.0
"""A shared offset smaller than this is no matter for a kiln [°C]."""
SURE = 1.64
"""Standard deviations for nineteen in twenty, one-sided."""
BOUND_BEYOND_C = 3.0
"""A bound must lie this far from zero before it counts as an offset [°C]."""
SEVERAL = 2
"""Firings that must agree before a correction is suggested."""
HEAT_SPAN_C = 60.0
"""Tops that lie this far apart can show whether an error changes with heat [°C]."""
GROWS_C_PER_100 = 5.0
"""An error that changes by more than this over 100 °C is not one offset [°C]."""


class ProbeWord(StrEnum):
    """What the cones say of the probe."""

    AGREES = "agrees"
    SHARED = "shared"
    DIFFERS = "differs"
    GROWS_WITH_HEAT = "grows_with_heat"
    CANNOT_TELL = "cannot_tell"


@dataclass(frozen=True)
class ProbeAgainstCones:
    """What the cones say of the probe, with the shared offset and its 90 % range [°C].

    ``offset_c`` is how much hotter the chamber was than logged; a bound leaves one end None.
    """

    word: ProbeWord
    said: Said
    offset_c: float | None = None
    low_c: float | None = None
    high_c: float | None = None


_CANNOT = N_("Cones of one shelf cannot tell the probe from the place: put cones on two or more.")
_DIFFERS = N_(
    "The shelves differ: {hot} was about {apart_delta_c} hotter than {cold} against the log. "
    "That is the kiln or the load, not the probe alone."
)
_AGREES = N_("On every shelf the cones agree with the log.")
_HOTTER = N_(
    "All shelves were about {offset_delta_c} hotter than logged: the probe reads low or sits in a "
    "cool place, or a long hold did more than is reckoned here."
)
_COLDER = N_(
    "All shelves were about {offset_delta_c} colder than logged: the probe reads high or sits in "
    "a hot place, or the ware lagged behind it (a heavy load, a fast last climb)."
)
_ALL_HOTTER = N_("All shelves were at least {offset_delta_c} hotter than logged.")
_ALL_COLDER = N_("All shelves were at least {offset_delta_c} colder than logged.")
_OPEN = N_("The cones cannot tell whether the shelves share one offset or differ.")


def probe_against_cones(shelves: Sequence[ShelfHeat]) -> ProbeAgainstCones:
    """Return whether the shelves share one offset from the log, differ, or cannot tell.

    Parameters
    ----------
    shelves : sequence of ShelfHeat
        As weighed by :func:`firing_review.analysis.shelf_cones.weigh_cones`.
    """
    ranged = [s for s in shelves if s.offset_c is not None]
    if len(ranged) < 2:
        return _from_bounds(shelves)
    offsets = np.array([s.offset_c for s in ranged], dtype=float)
    errors = np.array([((s.high_c or 0.0) - (s.low_c or 0.0)) / SD_OF_RANGE for s in ranged])
    cold, hot = int(offsets.argmin()), int(offsets.argmax())
    apart = float(offsets[hot] - offsets[cold])
    apart_error = SURE * float(np.hypot(errors[cold], errors[hot]))
    if apart - apart_error > SAME_WITHIN_C or _bounds_differ(shelves, offsets):
        figures: Figures = {
            "hot": ranged[hot].shelf,
            "cold": ranged[cold].shelf,
            "apart_delta_c": apart,
        }
        return ProbeAgainstCones(ProbeWord.DIFFERS, Said(_DIFFERS, figures))
    return _shared(offsets, errors, apart)


def _bounds_differ(shelves: Sequence[ShelfHeat], offsets: np.ndarray) -> bool:
    """Tell whether a shelf known by a bound only lies clearly off the others."""
    for shelf in shelves:
        at_least, at_most = _bounds(shelf)
        if at_least is not None and at_least > offsets.max() + SAME_WITHIN_C:
            return True
        if at_most is not None and at_most < offsets.min() - SAME_WITHIN_C:
            return True
    return False


def _bounds(shelf: ShelfHeat) -> tuple[float | None, float | None]:
    values = [shelf.figures.get(f"{side}_delta_c") for side in ("at_least", "at_most")]
    least, most = (float(v) if isinstance(v, int | float) else None for v in values)
    return least, most


def _shared(offsets: np.ndarray, errors: np.ndarray, apart: float) -> ProbeAgainstCones:
    """Judge shelves that may share one offset: the mean, with what shelves usually differ by."""
    spread = max(SAME_WITHIN_C / SD_OF_RANGE, apart / 2.0)
    weights = 1.0 / (errors**2 + spread**2)
    mean = float((weights * offsets).sum() / weights.sum())
    error = SURE / float(np.sqrt(weights.sum()))
    ends = {"offset_c": mean, "low_c": mean - error, "high_c": mean + error}
    if abs(mean) <= NOTHING_WITHIN_C and apart <= 2.0 * SAME_WITHIN_C:
        return ProbeAgainstCones(ProbeWord.AGREES, Said(_AGREES), **ends)
    if ends["low_c"] * ends["high_c"] <= 0.0:
        return ProbeAgainstCones(ProbeWord.CANNOT_TELL, Said(_OPEN), **ends)
    text = _HOTTER if mean > 0 else _COLDER
    said = Said(text, {"offset_delta_c": abs(mean)})
    return ProbeAgainstCones(ProbeWord.SHARED, said, **ends)


def _from_bounds(shelves: Sequence[ShelfHeat]) -> ProbeAgainstCones:
    """Judge shelves most of which are known by a bound only."""
    if len(shelves) < 2:
        return ProbeAgainstCones(ProbeWord.CANNOT_TELL, Said(_CANNOT))
    least = [_bounds(s)[0] if s.low_c is None else s.low_c for s in shelves]
    most = [_bounds(s)[1] if s.high_c is None else s.high_c for s in shelves]
    hotter = [v for v in least if v is not None]
    colder = [v for v in most if v is not None]
    if len(hotter) == len(shelves) and min(hotter) > BOUND_BEYOND_C:
        said = Said(_ALL_HOTTER, {"offset_delta_c": min(hotter)})
        return ProbeAgainstCones(ProbeWord.SHARED, said, low_c=min(hotter))
    if len(colder) == len(shelves) and max(colder) < -BOUND_BEYOND_C:
        said = Said(_ALL_COLDER, {"offset_delta_c": -max(colder)})
        return ProbeAgainstCones(ProbeWord.SHARED, said, high_c=max(colder))
    if hotter and colder and max(hotter) - min(colder) > SAME_WITHIN_C:
        hot = shelves[least.index(max(hotter))].shelf
        cold = shelves[most.index(min(colder))].shelf
        figures: Figures = {"hot": hot, "cold": cold, "apart_delta_c": max(hotter) - min(colder)}
        return ProbeAgainstCones(ProbeWord.DIFFERS, Said(_DIFFERS, figures))
    return ProbeAgainstCones(ProbeWord.CANNOT_TELL, Said(_OPEN))


@dataclass(frozen=True)
class ConeCheck:
    """One firing as a check of the probe: its top [°C] and what its shelves said."""

    top_c: float
    shelves: tuple[ShelfHeat, ...]


_ONE_HOTTER = N_(
    "In {firings} firings the shelves were about {offset_delta_c} hotter than logged, with little "
    "change between them. One offset of the probe would correct that; change it once, then "
    "check with cones."
)
_ONE_COLDER = N_(
    "In {firings} firings the shelves were about {offset_delta_c} colder than logged, with little "
    "change between them. One offset of the probe would correct that; change it once, then "
    "check with cones."
)
_WITH_HEAT = N_(
    "The error of the reading changes with heat, by about {change_delta_c} over 100 °C: one "
    "offset cannot cure that. Have the probe, its type and its leads checked."
)
_FEW = N_("One firing is no ground for an offset of the probe: it takes two or more that agree.")
_DISAGREE = N_("The firings do not agree on one offset: leave the probe's offset as it is.")


def probe_over_firings(checks: Sequence[ConeCheck]) -> ProbeAgainstCones:
    """Return what several firings say together: one offset, an error that grows, or neither.

    Only firings whose shelves share one offset count; a kiln that heats unevenly says nothing
    of its probe.
    """
    each = [(c.top_c, probe_against_cones(c.shelves)) for c in checks]
    usable = [(top, p) for top, p in each if p.offset_c is not None]
    if len(usable) < SEVERAL:
        return ProbeAgainstCones(ProbeWord.CANNOT_TELL, Said(_FEW))
    tops = np.array([top for top, _ in usable])
    offsets = np.array([p.offset_c for _, p in usable], dtype=float)
    errors = np.array([(p.high_c or 0.0) - (p.low_c or 0.0) for _, p in usable]) / SD_OF_RANGE
    grows = _growth(tops, offsets, errors)
    if grows is not None:
        said = Said(_WITH_HEAT, {"change_delta_c": abs(grows)})
        return ProbeAgainstCones(ProbeWord.GROWS_WITH_HEAT, said)
    apart = float(offsets.max() - offsets.min())
    if apart > SAME_WITHIN_C + SURE * float(errors.max()):
        return ProbeAgainstCones(ProbeWord.CANNOT_TELL, Said(_DISAGREE))
    return _one_offset(offsets, errors)


def _growth(tops_c: np.ndarray, offsets: np.ndarray, errors: np.ndarray) -> float | None:
    """Return how the error changes over 100 °C, if it clearly does [°C]."""
    cool, hot = int(tops_c.argmin()), int(tops_c.argmax())
    span = float(tops_c[hot] - tops_c[cool])
    if span < HEAT_SPAN_C:
        return None
    change = float(offsets[hot] - offsets[cool])
    sure = abs(change) > SURE * float(np.hypot(errors[hot], errors[cool]))
    per_100 = change * 100.0 / span
    return per_100 if sure and abs(per_100) > GROWS_C_PER_100 else None


def _one_offset(offsets: np.ndarray, errors: np.ndarray) -> ProbeAgainstCones:
    weights = 1.0 / np.maximum(errors, 1.0) ** 2
    mean = float((weights * offsets).sum() / weights.sum())
    error = SURE * float(np.hypot(1.0 / np.sqrt(weights.sum()), np.std(offsets) / len(offsets)))
    ends = {"offset_c": mean, "low_c": mean - error, "high_c": mean + error}
    if abs(mean) <= NOTHING_WITHIN_C or ends["low_c"] * ends["high_c"] <= 0.0:
        return ProbeAgainstCones(ProbeWord.AGREES, Said(_AGREES), **ends)
    figures: Figures = {"firings": len(offsets), "offset_delta_c": abs(mean)}
    text = _ONE_HOTTER if mean > 0 else _ONE_COLDER
    return ProbeAgainstCones(ProbeWord.SHARED, Said(text, figures), **ends)
