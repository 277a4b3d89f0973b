"""Over the curves: words in long gaps, pins of notes, and the two points of a measure."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen

from firing_review.firing.wording import tr
from firing_review.report import wording
from firing_review.report.chart_lines import Line
from firing_review.report.curves import LONG_GAP_H
from firing_review.ui.appearance import Appearance
from firing_review.ui.firing_chart.on_lane import OnLane

POINT_PX = 5


@dataclass(frozen=True)
class Gap:
    """A stretch without any reading, and what is written in it."""

    start_h: float
    end_h: float

    @property
    def text(self) -> str:
        """The words in the gap."""
        return tr("no reading, {length}").format(length=wording.hours(self.end_h - self.start_h))


def long_gaps(lines: Sequence[Line]) -> list[Gap]:
    """Return the stretches in which no line of these has a value, if they are long."""
    lines = [line for line in lines if len(line.x_h)]
    if not lines:
        return []
    gaps = list(lines[0].curve.long_gaps_h)
    for line in lines[1:]:
        gaps = _common(gaps, line.curve.long_gaps_h)
    return [Gap(start, end) for start, end in gaps if end - start >= LONG_GAP_H]


def _common(
    some: Sequence[tuple[float, float]], others: Sequence[tuple[float, float]]
) -> list[tuple[float, float]]:
    """Return what lies in a gap of both."""
    found = []
    for start, end in some:
        for other_start, other_end in others:
            low, high = max(start, other_start), min(end, other_end)
            if low < high:
                found.append((low, high))
    return found


class Foreground(OnLane):
    """Words, pins and points over one lane."""

    def __init__(self, appearance: Appearance) -> None:
        super().__init__(appearance)
        self.gaps: list[Gap] = []
        self.pins_h: list[float] = []
        self.points: list[tuple[float, float]] = []

    def show_gaps(self, gaps: list[Gap]) -> None:
        """Show other gaps."""
        self.gaps = gaps
        self.update()

    def show_pins(self, pins_h: list[float]) -> None:
        """Show a line at each of these moments."""
        self.pins_h = pins_h
        self.update()

    def show_points(self, points: list[tuple[float, float]]) -> None:
        """Show the points of a measure, as hours and values; NaN has no value there."""
        self.points = points
        self.update()

    def paint_pixels(self, painter: QPainter, box: QRectF) -> None:
        """Paint pins, gaps and points."""
        self._paint_pins(painter, box)
        self._paint_gaps(painter, box)
        self._paint_points(painter, box)

    def _paint_pins(self, painter: QPainter, box: QRectF) -> None:
        pen = QPen(QColor(self.colors.muted), 1)
        pen.setDashPattern([1.0, 3.0])
        painter.setPen(pen)
        for at_h in self.pins_h:
            x = self.x_of(at_h, box)
            painter.drawLine(QLineF(x, box.top(), x, box.bottom()))

    def _paint_gaps(self, painter: QPainter, box: QRectF) -> None:
        painter.setFont(self.small())
        metrics = QFontMetricsF(painter.font())
        painter.setPen(QColor(self.colors.muted))
        for gap in self.gaps:
            left, right = self.x_of(gap.start_h, box), self.x_of(gap.end_h, box)
            if right < box.left() or left > box.right():
                continue
            width = metrics.horizontalAdvance(gap.text) + 2
            middle = (max(left, box.left()) + min(right, box.right())) / 2
            start = min(max(middle - width / 2, box.left()), box.right() - width)
            top = box.bottom() - 1.5 * metrics.height()
            room = QRectF(start, top, width, metrics.height())
            painter.fillRect(room, QColor(self.colors.page))
            painter.drawText(room, Qt.AlignmentFlag.AlignCenter, gap.text)
            y = room.bottom() + 2
            painter.drawLine(QLineF(left, y, right, y))
            for x in (left, right):
                painter.drawLine(QLineF(x, y - 4, x, y + 4))

    def _paint_points(self, painter: QPainter, box: QRectF) -> None:
        pen = QPen(QColor(self.colors.accent), 2)
        pen.setDashPattern([3.0, 2.0])
        places = [QPointF(self.x_of(at_h, box), self.y_of(y, box)) for at_h, y in self.points]
        good = [place for place in places if not np.isnan(place.y())]
        painter.setPen(pen)
        for place in places:
            painter.drawLine(QLineF(place.x(), box.top(), place.x(), box.bottom()))
        painter.setPen(QPen(QColor(self.colors.accent), 2))
        painter.setBrush(QColor(self.colors.page))
        if len(good) == 2:
            painter.drawLine(QLineF(good[0], good[1]))
        size = self.px(POINT_PX)
        for place in good:
            painter.drawEllipse(place, size, size)
