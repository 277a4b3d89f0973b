"""Under the curves: bands of findings, and the ranges that matter for ware."""

from dataclasses import dataclass

from PySide6.QtCore import QLineF, QRectF
from PySide6.QtGui import QColor, QPainter, QPen

from firing_review.ui.appearance import Appearance
from firing_review.ui.firing_chart.axes import RoundAxis, grid_color
from firing_review.ui.firing_chart.on_lane import OnLane
from firing_review.ui.firing_chart.range_boxes import RangeBox, areas_in_view
from firing_review.ui.look import blended

RANGE_SHARE = 0.14
"""How strong a range of ware is filled, as a share of its color."""


@dataclass(frozen=True)
class Shade:
    """A band of hours; the chosen one is stronger and has edges."""

    start_h: float
    end_h: float
    chosen: bool


class Backdrop(OnLane):
    """Bands over the whole height of the lane, boxes where the curve is in a range."""

    def __init__(self, appearance: Appearance, axis: RoundAxis) -> None:
        super().__init__(appearance)
        self._axis = axis
        self.shades: list[Shade] = []
        self.boxes: list[RangeBox] = []

    def show_shades(self, shades: list[Shade]) -> None:
        """Show other bands; the chosen one lies over the others."""
        self.shades = sorted(shades, key=lambda shade: shade.chosen)
        self.update()

    def show_boxes(self, boxes: list[RangeBox]) -> None:
        """Show other ranges."""
        self.boxes = boxes
        self.update()

    def paint_pixels(self, painter: QPainter, box: QRectF) -> None:
        """Paint bands, over them the grid, over both the ranges."""
        for shade in self.shades:
            self._paint_shade(painter, shade, box)
        color = grid_color(self.colors)
        for value in self._axis.places(*self._values, box.height()):
            painter.fillRect(QRectF(box.left(), self.y_of(value, box), box.width(), 1), color)
        for _, area in areas_in_view(self.boxes, self, box):
            self._paint_box(painter, area)

    def _paint_shade(self, painter: QPainter, shade: Shade, box: QRectF) -> None:
        left, right = self.x_of(shade.start_h, box), self.x_of(shade.end_h, box)
        fill = self.colors.band_chosen if shade.chosen else self.colors.band
        painter.fillRect(QRectF(left, box.top(), right - left, box.height()), QColor(fill))
        if shade.chosen:
            painter.setPen(QPen(QColor(self.colors.accent), 2))
            for x in (left, right):
                painter.drawLine(QLineF(x, box.top(), x, box.bottom()))

    def _paint_box(self, painter: QPainter, area: QRectF) -> None:
        painter.fillRect(area, blended(self.colors.watch, self.colors.page, RANGE_SHARE))
        pen = QPen(QColor(self.colors.line), 1)
        pen.setDashPattern([2.0, 2.0])
        painter.setPen(pen)
        painter.drawLine(area.topLeft(), area.topRight())
        painter.drawLine(area.bottomLeft(), area.bottomRight())
