"""A figure from firing to firing, with the changes at the kiln marked."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QSizePolicy

from firing_review.book.trends import TrendMark, TrendPoint, TrendSeries
from firing_review.firing.units import fahrenheit_difference
from firing_review.firing.wording import day as day_words
from firing_review.firing.wording import tr
from firing_review.report.wording import Show, render
from firing_review.ui.appearance import Appearance
from firing_review.ui.book_place.change_words import change_text
from firing_review.ui.still_chart import StillChart

HEIGHT_PX, MARK_PX, DATES_SHOWN = 250, 11, 3
SHAPES = ("o", "s", "t1", "d", "+", "x")
SHAPE_WORDS = {"o": "●", "s": "■", "t1": "▲", "d": "◆", "+": "+", "x": "×"}
IN_PERCENT = 100.0


@dataclass(frozen=True)
class TrendLine:
    """Points that belong together, with their name: firings of one goal, or of one kiln."""

    name: str
    points: tuple[TrendPoint, ...]


class TrendChart(StillChart):
    """Firings along, oldest at the left; a click chooses one.

    Signals
    -------
    chosen : number of the firing in the book.
    """

    chosen = Signal(int)

    def __init__(self, appearance: Appearance) -> None:
        super().__init__(appearance, tr("Figure from firing to firing"))
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    def show_series(
        self,
        series: TrendSeries,
        lines: Sequence[TrendLine],
        marks: Sequence[TrendMark],
        show: Show,
    ) -> None:
        """Draw the lines of one figure in the unit of the screen, and the changes."""
        self.clear()
        self.setFixedHeight(self._appearance.sizes.px(HEIGHT_PX))
        self.dress_axes(left=unit_words(series.unit, show), bottom=tr("Firings, oldest first"))
        factor = _factor(series.unit, show)
        for place, line in enumerate(lines):
            self._draw(SHAPES[place % len(SHAPES)], line, factor)
        self._date(lines)
        for mark in marks:
            self._mark(mark)
        self.setAccessibleDescription(render(series.said, show))
        self.enableAutoRange()

    def _draw(self, shape: str, line: TrendLine, factor: float) -> None:
        colors = self._appearance.colors
        x = np.array([p.number for p in line.points], dtype=float)
        y = np.array([p.value for p in line.points]) * factor
        self._draw_ranges(line, x, y, factor)
        pen = pg.mkPen(colors.line, width=1)
        item = self.plot(
            x, y, pen=pen, symbol=shape, symbolSize=self._appearance.sizes.px(MARK_PX),
            symbolBrush=QColor(colors.ink), symbolPen=pg.mkPen(colors.page, width=1),
            data=[p.firing_id for p in line.points],
        )  # fmt: skip
        item.sigPointsClicked.connect(self._on_points)

    def _draw_ranges(self, line: TrendLine, x: np.ndarray, y: np.ndarray, factor: float) -> None:
        known = np.array([p.low is not None and p.high is not None for p in line.points])
        if not known.any():
            return
        low = np.array([p.low or 0.0 for p in line.points]) * factor
        high = np.array([p.high or 0.0 for p in line.points]) * factor
        self.addItem(
            pg.ErrorBarItem(
                x=x[known], y=y[known], top=(high - y)[known], bottom=(y - low)[known],
                beam=0.3, pen=pg.mkPen(self._appearance.colors.muted, width=1),
            )
        )  # fmt: skip

    def _date(self, lines: Sequence[TrendLine]) -> None:
        """Write a few dates under the firings."""
        days = {p.number: p.when for line in lines for p in line.points}
        numbers = sorted(days)
        step = max(1, -(-len(numbers) // DATES_SHOWN))
        ticks = []
        for number in numbers[::step]:
            when = days[number]
            ticks.append((number, str(number) if when is None else day_words(when)))
        self.getAxis("bottom").setTicks([ticks])

    def _mark(self, mark: TrendMark) -> None:
        colors, sizes = self._appearance.colors, self._appearance.sizes
        pen = pg.mkPen(colors.accent, width=2, style=Qt.PenStyle.DashLine)
        line = pg.InfiniteLine(
            pos=mark.number - 0.5, angle=90, pen=pen, label=change_text(mark.change),
            labelOpts={"color": colors.accent, "position": 0.95, "rotateAxis": (1, 0),
                       "anchors": [(1, 0), (1, 1)]},
        )  # fmt: skip
        line.label.setFont(self._appearance.font(sizes.small))
        self.addItem(line)

    def _on_points(self, _item: object, points: Sequence[pg.SpotItem], _event: object) -> None:
        if len(points):
            self.chosen.emit(int(points[0].data()))


def unit_words(unit: str, show: Show) -> str:
    """Return the unit of a figure in words, for an axis."""
    degrees = "°F" if show is Show.FAHRENHEIT else "°C"
    words = {
        "_c_per_h": tr("{unit} per hour"),
        "_delta_c": tr("{unit} difference"),
        "_h": tr("hours"),
        "_kwh": "kWh",
        "_ratio": tr("percent"),
    }
    return words[unit].format(unit=degrees)


def _factor(unit: str, show: Show) -> float:
    """Return what a kept figure is multiplied by to be drawn."""
    if unit == "_ratio":
        return IN_PERCENT
    degrees = unit in ("_c_per_h", "_delta_c") and show is Show.FAHRENHEIT
    return float(fahrenheit_difference(1.0)) if degrees else 1.0
