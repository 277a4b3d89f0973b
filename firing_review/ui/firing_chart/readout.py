"""The line of values under the cursor, as a sentence of its own."""

import math
from dataclasses import dataclass

from firing_review.firing.wording import tr
from firing_review.report import wording
from firing_review.review.review import Review
from firing_review.ui.firing_chart.axes import clock_text
from firing_review.ui.firing_chart.lines import ChartLines, Line, LineRole, value_at
from firing_review.ui.preferences import TimeShown


@dataclass(frozen=True)
class Readout:
    """What stands at one moment: a name (may be empty) and a value for each."""

    parts: tuple[tuple[str, str], ...]

    @property
    def plain(self) -> str:
        """The same as one line of text, for the screen reader."""
        return ", ".join(f"{name} {value}".strip() for name, value in self.parts)


def readout_at(
    review: Review, lines: ChartLines, at_h: float, unit: str, shown: TimeShown
) -> Readout:
    """Return time, temperatures, rate, output and heat work at a moment.

    Parameters
    ----------
    at_h : float
        Hours since the first sample [h].
    unit : str
        Unit of the lines, ``C`` or ``F``.
    """
    parts = [("", _time(review, at_h, shown))]
    for line in _in_order(lines.temperature):
        text = _number(value_at(line, at_h), f"°{unit}")
        parts.append((line.name, text))
    for line in lines.rate:
        if line.role is LineRole.RATE:
            hourly = tr("{degrees} per hour").format(degrees=f"°{unit}")
            parts.append(("", _number(value_at(line, at_h), hourly)))
    for line in lines.output:
        parts.append((line.name, _number(value_at(line, at_h), "%")))
    parts += _heat_work(review, at_h)
    return Readout(tuple(part for part in parts if part[1]))


def _in_order(lines: tuple[Line, ...]) -> list[Line]:
    """Return readings first, then what was asked."""
    return sorted(lines, key=lambda line: line.role is not LineRole.READING)


def _time(review: Review, at_h: float, shown: TimeShown) -> str:
    started = review.given.log.started_at
    elapsed = wording.hours(at_h)
    if started is None:
        return elapsed
    clock = clock_text(started, at_h, with_day=True)
    return f"{clock} ({elapsed})" if shown is TimeShown.CLOCK else f"{elapsed} ({clock})"


def _number(value: float, unit: str) -> str:
    """Return a whole number with its unit; a dash in a gap, nothing outside the curve."""
    if math.isnan(value):
        return ""
    return f"{value:.0f} {unit}".replace("-", "−")


def _heat_work(review: Review, at_h: float) -> list[tuple[str, str]]:
    """Return how far the heat work has come towards the goal cone."""
    log = review.given.log
    curves = [work.fraction_so_far for work in review.heat_work]
    row = min(int(log.elapsed_h.searchsorted(at_h)), log.rows - 1)
    so_far = [float(curve[row]) for curve in curves if curve is not None and len(curve) > row]
    if review.given.goal_cone is None:
        return []
    least = min((share for share in so_far if not math.isnan(share)), default=math.nan)
    if math.isnan(least):
        return []
    text = tr("{share} % of the goal cone").format(share=f"{100 * least:.0f}")
    return [(tr("heat work"), text)]
