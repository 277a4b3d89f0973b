"""The firing as a chart for paper: the plan, the set point, the readings, rate and output."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from firing_review.firing.findings import Finding, Severity
from firing_review.firing.units import Floats, TemperatureUnit, fahrenheit_from_celsius
from firing_review.firing.wording import tr, written
from firing_review.report.axis_marks import (
    clock_text,
    elapsed_text,
    marks,
    round_step,
    time_step_h,
)
from firing_review.report.chart_lines import ChartLines, Line, LineRole, chart_lines
from firing_review.report.columns import flattened
from firing_review.report.paper.page import Picture
from firing_review.report.paper.svg import (
    FAINT,
    INK,
    MUTED,
    PANEL,
    SET_POINT,
    WHITE,
    Spot,
    Svg,
    cut,
    width_of,
)
from firing_review.report.shown_text import shown
from firing_review.report.thin import thinned
from firing_review.report.wording import Show, heat_work_of, hours, temperature
from firing_review.review.review import Review

WIDTH = 520.0
LEFT, RIGHT, FOOT = 54.0, 78.0, 30.0
STRIP_ROW, MOST_ROWS, ROOM = 17.0, 4, 9.0
"""Height of a row of the strip of findings, how many there are, half the width of a number."""
BETWEEN = 12.0
LANES, LOW_LANES = (178.0, 118.0), (54.0, 34.0)
"""Heights of the lanes, at ease and where the page is short."""
COLUMNS = 700
"""Thinned to this many columns a curve looks the same at print size."""
FLAT = 0.3
"""Height that cannot be seen beside the width of a line."""
MOST_BANDS = 4
"""More shaded bands than this hide the curve; the other findings keep their number and line."""
AFTER_HEATING = 0.5
"""The page shows cooling for this share of the heating time; the rest is said in words."""
NAME_SIZE, LABEL_SIZE, PEAK_SIZE, SMALL_SIZE = 9.0, 9.0, 9.0, 8.0
HEADROOM = 26.0
"""Room over the highest line for the words at the peak."""
ROLE_LOOKS = {
    LineRole.SCHEDULE: (MUTED, 1.4, "6 3"),
    LineRole.SET_POINT: (SET_POINT, 1.6, "1.5 3"),
    LineRole.RATE: (INK, 1.2, ""),
    LineRole.ASKED_RATE: (MUTED, 1.2, "6 3"),
    LineRole.OUTPUT: (INK, 1.2, ""),
}
READING_DASHES = ("", "9 3", "9 3 2 3", "4 2", "2 2")
READING_WIDTH = 1.9


@dataclass(frozen=True)
class _Lane:
    """One lane: where it stands on the page and what its scale runs over."""

    top: float
    height: float
    low: float
    high: float
    first_h: float
    last_h: float

    def x(self, at_h: float) -> float:
        span = self.last_h - self.first_h
        return LEFT + (at_h - self.first_h) / span * (WIDTH - LEFT - RIGHT)

    def y(self, value: float) -> float:
        return self.top + self.height * (1.0 - (value - self.low) / (self.high - self.low))


def chart(review: Review, show: Show, *, output: bool = True, low: bool = False) -> Picture | None:
    """Return the chart of a firing; None where the log holds none.

    Parameters
    ----------
    show : Show
        With both units the scale carries both.
    output : bool
        Whether the output has a lane, if it was logged.
    low : bool
        Less high, for a page that is short.
    """
    firing = review.firing
    if firing is None:
        return None
    unit = TemperatureUnit.FAHRENHEIT if show is Show.FAHRENHEIT else TemperatureUnit.CELSIUS
    lines = chart_lines(review, unit)
    last_h = _last_h(review, lines)
    rows = _strip_rows(review.findings, lines.first_h, last_h)
    top = 12.0 + STRIP_ROW * (max(rows, default=-1) + 1)
    lanes = _lanes(lines, last_h, top, (LANES[low], LOW_LANES[low]), output=output)
    svg = Svg(WIDTH, lanes[-1].top + lanes[-1].height + FOOT)
    _bands(svg, lanes, review.findings)
    _temperature_lane(svg, lanes[0], lines.temperature, show)
    _lane_with_title(svg, lanes[1], lines.rate, _rate_title(unit))
    if len(lanes) > 2:
        _lane_with_title(svg, lanes[2], lines.output, tr("output %"))
    _time_axis(svg, lanes[-1], review)
    _peak(svg, lanes[0], review, lines, show)
    _numbers(svg, lanes[0], review.findings, rows)
    return Picture(svg.text(), svg.width, svg.height, _said(review, show))


def _said(review: Review, show: Show) -> str:
    firing = review.firing
    if firing is None:
        return ""
    text = tr("Chart of the firing: highest reading {peak} after {when}.")
    return text.format(peak=temperature(firing.peak_c, show), when=hours(firing.peak_h))


def _last_h(review: Review, lines: ChartLines) -> float:
    """Return where the chart ends: past the heating and the findings, short of long cooling."""
    firing = review.firing
    heating_h = firing.heating_end_h if firing else lines.last_h
    wanted = max([heating_h * (1.0 + AFTER_HEATING), *(f.start_h + 0.5 for f in review.findings)])
    return min(lines.last_h, wanted)


def _lanes(
    lines: ChartLines, last_h: float, at: float, heights: tuple[float, float], *, output: bool
) -> list[_Lane]:
    """Return the lanes from the top down; the temperatures get room for the words at the peak."""
    tall, flat = heights
    known = [v[np.isfinite(v)] for v in (_until(ln, last_h)[1] for ln in lines.temperature)]
    top = max((float(v.max()) for v in known if len(v)), default=1000.0)
    low = min((float(v.min()) for v in known if len(v)), default=0.0)
    low, first_h = min(low, 0.0), lines.first_h
    high = low + max(top - low, 100.0) * tall / (tall - HEADROOM)
    lanes = [_Lane(at, tall, low, high, first_h, last_h)]
    below = at + tall + BETWEEN
    lanes.append(_Lane(below, flat, *lines.rate_range, first_h, last_h))
    if output and lines.output:
        below += flat + BETWEEN
        lanes.append(_Lane(below, flat * 0.7, 0.0, 105.0, first_h, last_h))
    return lanes


def _until(line: Line, last_h: float, least: float = 0.0) -> tuple[Floats, Floats]:
    """Return a line as it is to be drawn; what lies between the columns of paper is not seen.

    Parameters
    ----------
    least : float
        Columns that are flatter than this are drawn with one point.
    """
    one = flattened(line.seen(float(line.x_h[0]), last_h, COLUMNS), least)
    inside = one.x_h <= last_h
    return one.x_h[inside], one.y[inside]


def _draw(svg: Svg, lane: _Lane, line: Line) -> None:
    """Draw a curve; a gap stays a gap."""
    color, width, dash = ROLE_LOOKS.get(
        line.role, (INK, READING_WIDTH, READING_DASHES[line.place % len(READING_DASHES)])
    )
    least = FLAT * (lane.high - lane.low) / lane.height
    x_h, y = thinned(*_until(line, lane.last_h, least), COLUMNS, untouched=4 * COLUMNS)
    spots = list(zip(x_h.tolist(), y.tolist(), strict=True))
    for piece in cut(spots, lane.low, lane.high):
        svg.curve([(lane.x(x), lane.y(v)) for x, v in piece], color, width, dash)


def _frame(svg: Svg, lane: _Lane) -> None:
    bottom = lane.top + lane.height
    svg.line((LEFT, lane.top), (LEFT, bottom), FAINT, 0.8)
    svg.line((LEFT, bottom), (WIDTH - RIGHT, bottom), FAINT, 0.8)


def _temperature_lane(svg: Svg, lane: _Lane, lines: Sequence[Line], show: Show) -> None:
    step = round_step(lane.high - lane.low, 7)
    room = HEADROOM / lane.height * (lane.high - lane.low)
    for value in marks(lane.low, lane.high - 0.6 * room, step):
        y = lane.y(value)
        svg.line((LEFT, y), (WIDTH - RIGHT, y), FAINT, 0.35)
        _degrees(svg, y, value, show, alone=value <= lane.low)
    _frame(svg, lane)
    title = tr("°F") if show is Show.FAHRENHEIT else tr("°C")
    svg.words((LEFT - 5, lane.top - 8), title, LABEL_SIZE, MUTED, "end")
    for line in lines:
        _draw(svg, lane, line)
    _names(svg, lane, lines)


def _degrees(svg: Svg, y: float, value: float, show: Show, *, alone: bool) -> None:
    """Write a mark of the scale; with both units the other stands small below it."""
    svg.words((LEFT - 5, y + 3), written(f"{value:.0f}"), LABEL_SIZE, INK, "end")
    if show is Show.BOTH and not alone:
        other = tr("{degrees} °F").format(degrees=round(fahrenheit_from_celsius(value)))
        svg.words((LEFT - 5, y + 11), other, 7.0, MUTED, "end")


def _names(svg: Svg, lane: _Lane, lines: Sequence[Line]) -> None:
    """Write the names at the ends of the lines, none over another."""
    ends: list[tuple[float, float, Line]] = []
    for line in lines:
        x_h, y = _until(line, lane.last_h)
        known = np.flatnonzero(np.isfinite(y))
        if len(known):
            last = known[-1]
            ends.append((lane.y(float(y[last])), lane.x(float(x_h[last])), line))
    taken = -math.inf
    for at_y, at_x, line in sorted(ends, key=lambda end: end[0]):
        taken = max(at_y, taken + NAME_SIZE + 1.5)
        color, width, dash = ROLE_LOOKS.get(
            line.role, (INK, READING_WIDTH, READING_DASHES[line.place % len(READING_DASHES)])
        )
        at = WIDTH - RIGHT + 4
        if at_x < at - 12:
            svg.line((at_x + 2, at_y), (at - 2, taken), FAINT, 0.4)
        svg.line((at, taken), (at + 16, taken), color, width, dash)
        svg.words((at + 19, taken + 3), shown(line.name, 11), NAME_SIZE, color)


def _rate_title(unit: TemperatureUnit) -> str:
    return tr("°F/h") if unit is TemperatureUnit.FAHRENHEIT else tr("°C/h")


def _lane_with_title(svg: Svg, lane: _Lane, lines: Sequence[Line], title: str) -> None:
    for value in marks(
        lane.low,
        lane.high,
        round_step(lane.high - lane.low, 4),
    ):
        y = lane.y(value)
        svg.line((LEFT, y), (WIDTH - RIGHT, y), FAINT, 0.6 if value == 0.0 else 0.35)
        svg.words((LEFT - 5, y + 3), written(f"{value:.0f}"), LABEL_SIZE, INK, "end")
    _frame(svg, lane)
    svg.words((WIDTH - RIGHT + 4, lane.top + 8), title, NAME_SIZE, MUTED)
    for line in lines:
        _draw(svg, lane, line)


def _time_axis(svg: Svg, lane: _Lane, review: Review) -> None:
    step = time_step_h(lane.last_h - lane.first_h, 9)
    y, log = lane.top + lane.height, review.given.log
    rows = _goes_on(log.hours) if lane.last_h < log.hours - 0.1 else ()
    free_to = WIDTH - max((width_of(row, SMALL_SIZE) + 4.0 for row in rows), default=0.0)
    for at_h in marks(lane.first_h, lane.last_h, step):
        x, text = lane.x(at_h), elapsed_text(at_h, step)
        clock = clock_text(log.started_at, at_h) if log.started_at is not None else ""
        svg.line((x, y), (x, y + 3), FAINT, 0.8)
        if x + max(width_of(text, LABEL_SIZE), width_of(clock, LABEL_SIZE)) / 2.0 > free_to:
            continue
        svg.words((x, y + 12), text, LABEL_SIZE, INK, "middle")
        if clock:
            svg.words((x, y + 22), clock, LABEL_SIZE, MUTED, "middle")
    for place, row in enumerate(rows):
        svg.words((WIDTH, y + 12 + 10 * place), row, SMALL_SIZE, MUTED, "end")


def _goes_on(log_h: float) -> tuple[str, ...]:
    """Return what is said where the picture ends before the record."""
    return tr("record goes on"), tr("to {end}").format(end=hours(log_h))


def _bands(svg: Svg, lanes: Sequence[_Lane], findings: Sequence[Finding]) -> None:
    """Shade where the graver findings lie, through all lanes."""
    lane, bottom = lanes[0], lanes[-1].top + lanes[-1].height
    for finding in findings[:MOST_BANDS]:
        left, right = _span(lane, finding)
        svg.box((left, lane.top), (right - left, bottom - lane.top), PANEL, PANEL, 0.0)
        for x in (left, right):
            svg.line((x, lane.top), (x, bottom), FAINT, 0.5, "2 2")


def _span(lane: _Lane, finding: Finding) -> Spot:
    left = lane.x(min(finding.start_h, lane.last_h))
    right = lane.x(min(finding.end_h, lane.last_h))
    return left, max(right, left + 1.5)


def _strip_rows(findings: Sequence[Finding], first_h: float, last_h: float) -> list[int]:
    """Return the row of each finding in the strip, so that no two stand over each other."""
    per_h = (WIDTH - LEFT - RIGHT) / (last_h - first_h)
    taken: list[list[Spot]] = []
    rows = []
    for finding in findings:
        middle = (min(finding.start_h, last_h) + min(finding.end_h, last_h)) / 2.0
        left = min(finding.start_h, middle - ROOM / per_h)
        right = max(min(finding.end_h, last_h), middle + ROOM / per_h)
        fitting = (
            row
            for row, spans in enumerate(taken)
            if all(right <= begin or left >= end for begin, end in spans)
        )
        row = next(fitting, min(len(taken), MOST_ROWS - 1))
        if row == len(taken):
            taken.append([])
        taken[row].append((left, right))
        rows.append(row)
    return rows


def _numbers(svg: Svg, lane: _Lane, findings: Sequence[Finding], rows: Sequence[int]) -> None:
    """Draw each finding as a bar over its time, with its number on it."""
    for number, (finding, row) in enumerate(zip(findings, rows, strict=True), start=1):
        left, right = _span(lane, finding)
        y = 9.0 + row * STRIP_ROW
        svg.line((left, y), (right, y), INK, 2.2)
        for x in (left, right):
            svg.line((x, y - 3), (x, y + 3), INK, 1.2)
        finding_mark(svg, ((left + right) / 2.0, y), number, finding.severity)


def finding_mark(svg: Svg, middle: Spot, number: int, severity: Severity) -> None:
    """Draw a finding's number: filled box for a fault, house for watch, ring for a note."""
    x, y = middle
    half = 7.5
    if severity is Severity.FAULT:
        svg.box((x - half, y - half), (2 * half, 2 * half), INK)
    elif severity is Severity.WATCH:
        low, roof = y + half, y - half * 0.3
        spots = [(x, y - half - 1), (x + half, roof), (x + half, low), (x - half, low)]
        svg.shape([*spots, (x - half, roof)], WHITE, INK, 1.4)
    else:
        svg.round(middle, half, WHITE)
    color = WHITE if severity is Severity.FAULT else INK
    svg.words((x, y + 3.4), str(number), 9.5, color, "middle", bold=True)


def _peak(svg: Svg, lane: _Lane, review: Review, lines: ChartLines, show: Show) -> None:
    """Write the highest reading over its place, with the heat work it stands for."""
    firing = review.firing
    if firing is None or lines.top is None:
        return
    rows = [temperature(firing.peak_c, show)]
    reading = next(iter(review.heat_work), None)
    if reading is not None and reading.label:
        rows.append(heat_work_of(reading.label, show, at_least=reading.at_least))
    reached = firing.peak_c
    if show is Show.FAHRENHEIT:
        reached = fahrenheit_from_celsius(reached)
    x = lane.x(firing.peak_h)
    svg.round((x, lane.y(reached)), 2.6, INK)
    wide = max(width_of(row, PEAK_SIZE) for row in rows)
    right = x + 8 + wide < WIDTH - RIGHT
    over = lane.y(max(lines.top[1], reached)) - 6
    for place, row in enumerate(reversed(rows)):
        at = (x + 6 if right else x - 6, over - place * (PEAK_SIZE + 2))
        bold = place == len(rows) - 1
        svg.words(at, row, PEAK_SIZE, INK, "start" if right else "end", bold=bold)
