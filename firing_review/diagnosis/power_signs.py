"""What the heat balance answers: power, load, loss, a step."""

from collections.abc import Sequence

import numpy as np

from firing_review.analysis.climb_and_fall import GRID_C, climb_and_fall
from firing_review.diagnosis.grades import above, normal_below
from firing_review.diagnosis.observations import Observation, surely
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.results import ElementsJudged
from firing_review.firing.said import Figures

NORMAL_FROM, FAR_BELOW = 0.935, 0.74
"""Within 6 % is the scatter of heating elements; a quarter gone is a part, not wear."""
NINETY_WIDTH = 3.29
HEAVIER, HEAVIER_WIDTH = 1.13, 0.03
LEAKIER, LEAKIER_WIDTH = 1.09, 0.02
HEAT_LEFT_ON = 0.4
COMPARED_FROM_C = 400.0
LEAST_POINTS = 4
CAUSE_NO_LEAK = 0.05
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


def _power(elements: ElementsJudged) -> Observation | None:
    ratio, low, high = elements.power_ratio, elements.power_low, elements.power_high
    if ratio is None or low is None or high is None:
        return _power_bounds(elements)
    sd = max((high - low) / NINETY_WIDTH, 0.01)
    far = normal_below(FAR_BELOW, ratio, sd)
    down = normal_below(NORMAL_FROM, ratio, sd) - far
    figures: Figures = {"power_pct": 100 * ratio, "low_pct": 100 * low, "high_pct": 100 * high}
    return Observation(
        "power", {"normal": 1.0 - far - down, "down": down, "far_down": far}, figures
    )


def _power_bounds(elements: ElementsJudged) -> Observation | None:
    at_least = elements.figures.get("power_at_least_ratio")
    at_most = elements.figures.get("power_at_most_ratio")
    if isinstance(at_least, float) and at_least > 0.9:
        figures: Figures = {"power_pct": 100 * at_least}
        return Observation("power", {"normal": 0.9, "down": 0.1}, figures)
    if isinstance(at_most, float) and at_most < 0.95:
        figures = {"power_pct": 100 * at_most, "low_pct": None, "high_pct": 100 * at_most}
        return Observation("power", {"normal": 0.1, "down": 0.7, "far_down": 0.2}, figures)
    return None


def _step(elements: ElementsJudged) -> Observation | None:
    stepped = elements.figures.get("step_h")
    if stepped is not None:
        return surely("step", "sudden", dict(elements.figures))
    return surely("step", "none") if elements.power_ratio is not None else None


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
    mass = elements.mass_ratio
    if mass is None and cooling is not None and cooling[0] > HEAT_LEFT_ON:
        mass = 1.0 / cooling[0] if cooling[0] < 1.0 else 1.0
    if mass is None:
        return None
    heavier = above(mass, HEAVIER, HEAVIER_WIDTH)
    figures: Figures = {"more_pct": 100.0 * (mass - 1.0)}
    return Observation("load", {"usual": 1.0 - heavier, "heavier": heavier}, figures)


def _loss(elements: ElementsJudged, cooling: tuple[float, float] | None) -> Observation | None:
    loss = elements.loss_ratio
    if loss is None and cooling is not None:
        loss = cooling[0] if cooling[1] > CAUSE_NO_LEAK or cooling[0] > 1.25 else 1.0
    if loss is None:
        return None
    more = above(loss, LEAKIER, LEAKIER_WIDTH)
    return Observation(
        "loss", {"usual": 1.0 - more, "more": more}, {"more_pct": 100.0 * (loss - 1.0)}
    )
