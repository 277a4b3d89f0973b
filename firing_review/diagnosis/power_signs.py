"""What the heat balance answers: power, load, loss, a step."""

import math
from collections.abc import Sequence

import numpy as np

from firing_review.analysis.climb_and_fall import GRID_C, climb_and_fall
from firing_review.diagnosis.grades import above, normal_below
from firing_review.diagnosis.observations import Observation, surely
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.results import ElementsJudged
from firing_review.firing.said import Figures

NORMAL_FROM, DOWN_BELOW, FAR_BELOW = 0.94, 0.88, 0.74
"""Within 6 % is the scatter of heating elements; 12 % down is wear; a quarter gone is a part."""
NINETY_WIDTH = 3.29
"""A 90 % range is this many standard deviations wide."""
LEAST_SD = 0.01
HEAVIER, FAR_HEAVIER, LOAD_WIDTH = 1.12, 1.35, 0.03
LEAKIER, FAR_LEAKIER, LOSS_WIDTH = 1.09, 1.25, 0.02
WIDE = 0.05
"""A range that goes beyond a limit by this to both sides says nothing of it."""
HEAT_LEFT_ON = 0.4
"""A cooling ratio below this is no load: heat was left on."""
COMPARED_FROM_C = 400.0
LEAST_POINTS = 4
CAUSE_NO_LEAK, MOST_LIGHTER = 0.05, 1.25
"""A cooling ratio that does not grow with temperature is a lighter load, up to this ratio."""
BOUND_NORMAL, BOUND_DOWN = 0.9, 0.95
ELSEWHERE = ("readings", "sheet")
"""Power that does not come from the curve is no sign of its own: readings are told signs, and a
kiln sheet alone says too little."""


def power_observations(
    firing: AlignedFiring, earlier: Sequence[AlignedFiring], elements: ElementsJudged
) -> list[Observation]:
    """Return what climb and cooling say against an earlier firing."""
    cooling = _cooling_ratio(firing, earlier)
    seen = [_load(elements, cooling), _loss(elements, cooling)]
    if elements.figures.get("power_from") not in ELSEWHERE:
        seen = [_power(elements), _step(elements), *seen]
    return [o for o in seen if o is not None]


def _finite(*values: float | None) -> bool:
    return all(v is not None and math.isfinite(v) for v in values)


def _power(elements: ElementsJudged) -> Observation | None:
    ratio, low, high = elements.power_ratio, elements.power_low, elements.power_high
    if ratio is None or low is None or high is None or not _finite(ratio, low, high):
        return _power_bounds(elements)
    below = [_below(limit, ratio, low, high) for limit in (FAR_BELOW, DOWN_BELOW, NORMAL_FROM)]
    figures: Figures = {"power_pct": 100 * ratio, "low_pct": 100 * low, "high_pct": 100 * high}
    shares = {
        "far_down": below[0],
        "down": below[1] - below[0],
        "low": below[2] - below[1],
        "normal": 1.0 - below[2],
    }
    return Observation("power", shares, figures)


def _below(limit: float, ratio: float, low: float, high: float) -> float:
    """Return the share below a limit of a value whose 90 % range is wider to one side."""
    end = high if limit > ratio else low
    return normal_below(limit, ratio, max(2.0 * abs(end - ratio) / NINETY_WIDTH, LEAST_SD))


def _power_bounds(elements: ElementsJudged) -> Observation | None:
    at_least = elements.figures.get("power_at_least_ratio")
    at_most = elements.figures.get("power_at_most_ratio")
    if isinstance(at_least, float) and at_least > BOUND_NORMAL:
        figures: Figures = {"power_pct": 100 * at_least}
        return Observation("power", {"normal": 0.8, "low": 0.2}, figures)
    if isinstance(at_most, float) and at_most < BOUND_DOWN:
        figures = {"power_pct": 100 * at_most, "low_pct": None, "high_pct": 100 * at_most}
        shares = {"normal": 0.1, "low": 0.3, "down": 0.4, "far_down": 0.2}
        return Observation("power", shares, figures)
    return None


def _step(elements: ElementsJudged) -> Observation | None:
    step_h = elements.figures.get("step_h")
    if isinstance(step_h, float | int):
        if elements.power_ratio is None or elements.power_ratio > NORMAL_FROM:
            return None  # no power is missing after it
        return surely("step", "sudden", dict(elements.figures), float(step_h))
    return surely("step", "none") if _finite(elements.power_ratio) else None


def _unknown(elements: ElementsJudged, name: str, limit: float) -> bool:
    """Tell whether the range of a ratio reaches over the limit from a value well below it.

    Without a cooling to compare, the climb alone hardly parts power, load and loss.
    """
    low, high = (elements.figures.get(f"{name}_{end}_ratio") for end in ("low", "high"))
    cooled = isinstance(elements.figures.get("cooling_ratio"), float)
    if cooled or not isinstance(low, float) or not isinstance(high, float):
        return False
    return low < limit - WIDE and high > limit + WIDE


def _cooling_ratio(
    firing: AlignedFiring, earlier: Sequence[AlignedFiring]
) -> tuple[float, float] | None:
    """Return the ratio of coolings to an earlier firing, and its growth over 500 °C."""
    if not earlier:
        return None
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio = climb_and_fall(firing).down / climb_and_fall(earlier[-1]).down
    good = np.isfinite(ratio) & (GRID_C >= COMPARED_FROM_C)
    if np.count_nonzero(good) < LEAST_POINTS:
        return None
    growth = float(np.polyfit(GRID_C[good], ratio[good], 1)[0] * 500.0)
    return float(np.median(ratio[good])), growth


def _load(elements: ElementsJudged, cooling: tuple[float, float] | None) -> Observation | None:
    mass = elements.mass_ratio if _finite(elements.mass_ratio) else None
    if mass is None and cooling is not None and cooling[0] > HEAT_LEFT_ON:
        mass = 1.0 / cooling[0] if cooling[0] < 1.0 else 1.0
    if mass is None:
        return None
    if _unknown(elements, "mass", HEAVIER):
        return None
    far = above(mass, FAR_HEAVIER, LOAD_WIDTH)
    heavier = above(mass, HEAVIER, LOAD_WIDTH) - far
    shares = {"usual": 1.0 - heavier - far, "heavier": heavier, "far_heavier": far}
    return Observation("load", shares, {"more_pct": 100.0 * (mass - 1.0)})


def _loss(elements: ElementsJudged, cooling: tuple[float, float] | None) -> Observation | None:
    loss = elements.loss_ratio if _finite(elements.loss_ratio) else None
    if loss is None and cooling is not None:
        leaks = cooling[1] > CAUSE_NO_LEAK or cooling[0] > MOST_LIGHTER
        loss = cooling[0] if leaks else 1.0
    if loss is None:
        return None
    if _unknown(elements, "loss", LEAKIER):
        return None
    far = above(loss, FAR_LEAKIER, LOSS_WIDTH)
    more = above(loss, LEAKIER, LOSS_WIDTH) - far
    shares = {"usual": 1.0 - more - far, "more": more, "far_more": far}
    return Observation("loss", shares, {"more_pct": 100.0 * (loss - 1.0)})
