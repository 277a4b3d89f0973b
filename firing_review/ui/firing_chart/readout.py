"""The line of values under the cursor, as a sentence of its own."""

import math
from dataclasses import dataclass

from firing_review.firing.wording import tr, written
from firing_review.physics.cones import rank_label
from firing_review.report import wording
from firing_review.report.axis_marks import clock_text
from firing_review.report.chart_lines import ChartLines, Line, LineRole, value_at
from firing_review.review.review import Review
from firing_review.ui.preferences import TimeShown

Part = tuple[str, str]


@dataclass(frozen=True)
class Readout:
    """What stands at one moment, as pairs of a name (may be empty) and a value.

    Attributes
    ----------
    shown : the parts of the line over the chart.
    beside : what the chart writes at the ends of its lines: asked, set point, output.
    """

    shown: tuple[Part, ...]
    beside: tuple[Part, ...]

    @property
    def plain(self) -> str:
        """All of it as one line of text, for the screen reader."""
        return ", ".join(f"{name} {value}".strip() for name, value in self.shown + self.beside)


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
    readings = [line for line in lines.temperature if line.role is LineRole.READING]
    asked = [line for line in lines.temperature if line.role is not LineRole.READING]
    hourly = tr("{degrees} per hour").format(degrees=f"°{unit}")
    parts = [
        ("", moment_text(review, at_h, shown)),
        *_readings(readings, at_h, f"°{unit}"),
        *(_part("", line, at_h, hourly) for line in lines.rate if line.role is LineRole.RATE),
        ("", _heat_work(review, at_h, wording.Show(unit))),
    ]
    beside = [
        *(_part(line.name, line, at_h, f"°{unit}") for line in asked),
        *(_part(line.name, line, at_h, "%") for line in lines.output),
    ]
    return Readout(_with_value(parts), _with_value(beside))


def _with_value(parts: list[Part]) -> tuple[Part, ...]:
    return tuple(part for part in parts if part[1])


def moment_text(review: Review, at_h: float, shown: TimeShown) -> str:
    """Return a moment as hours of the firing and, where there is one, on the clock."""
    started = review.given.log.started_at
    elapsed = wording.hours(at_h)
    if started is None:
        return elapsed
    clock = clock_text(started, at_h, with_day=True)
    return f"{clock} ({elapsed})" if shown is TimeShown.CLOCK else f"{elapsed} ({clock})"


def _readings(lines: list[Line], at_h: float, unit: str) -> list[Part]:
    """Return the readings, the unit once behind the last; a gap is said to be one."""
    parts = [(line.name, _number(value_at(line, at_h))) for line in lines]
    spoken = [(name, value or tr("gap")) for name, value in parts]
    if any(value for _, value in parts):
        spoken[-1] = (spoken[-1][0], f"{spoken[-1][1]} {unit}")
    return spoken


def _part(name: str, line: Line, at_h: float, unit: str) -> Part:
    number = _number(value_at(line, at_h))
    return name, f"{number} {unit}" if number else ""


def _number(value: float) -> str:
    """Return a whole number with a real minus; nothing in a gap."""
    return "" if math.isnan(value) else written(f"{value:.0f}")


def _heat_work(review: Review, at_h: float, show: wording.Show) -> str:
    """Return how far the heat work has come towards the goal cone, where it came least."""
    if review.firing is None:
        return ""
    log = review.firing.log
    curves = [work.fraction_so_far for work in review.heat_work]
    row = min(int(log.elapsed_h.searchsorted(at_h)), log.rows - 1)
    so_far = [float(curve[row]) for curve in curves if curve is not None and len(curve) > row]
    least = min((share for share in so_far if not math.isnan(share)), default=math.nan)
    rank = review.heat_work[0].rank_at(row) if review.heat_work else None
    parts = []
    if rank is not None:
        cone = wording.cone_label(rank_label(rank), show)
        parts.append(tr("cone {cone} so far").format(cone=cone))
    if review.given.goal_cone is not None and not math.isnan(least):
        share = f"{100 * least:.0f}"
        parts.append(tr("{share} % of the goal cone's heat work").format(share=share))
    return ", ".join(parts)
