"""Under the curves: bands of findings, and the ranges that matter for ware."""

from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen

from firing_review.ui.appearance import Appearance
from firing_review.ui.firing_chart.axes import RoundAxis, grid_color, spread
from firing_review.ui.firing_chart.on_lane import OnLane
from firing_review.ui.look import blended

CLEAR_PX = 3
RANGE_SHARE = 0.14
"""How strong a range of ware is filled, as a share of its color."""


@dataclass(frozen=True)
class Shade:
    """A band of hours; the chosen one is stronger and has edges."""

    start_h: float
    end_h: float
    chosen: bool


@dataclass(frozen=True)
class RangeBox:
    """A range that matters for ware: the hours the kiln was in it, its ends, its way, its name."""

    name: str
    start_h: float
    end_h: float
    low: float
    high: float
    climbing: bool


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
        self._paint_ranges(painter, box)

    def _paint_shade(self, painter: QPainter, shade: Shade, box: QRectF) -> None:
        left, right = self.x_of(shade.start_h, box), self.x_of(shade.end_h, box)
        fill = self.colors.band_chosen if shade.chosen else self.colors.band
        painter.fillRect(QRectF(left, box.top(), right - left, box.height()), QColor(fill))
        if shade.chosen:
            painter.setPen(QPen(QColor(self.colors.accent), 2))
            for x in (left, right):
                painter.drawLine(QLineF(x, box.top(), x, box.bottom()))

    def _paint_ranges(self, painter: QPainter, box: QRectF) -> None:
        """Paint each range as a box, and the names beside their boxes, moved apart."""
        areas = [self._area(one, box) for one in self.boxes]
        shown = [(one, area) for one, area in zip(self.boxes, areas, strict=True) if area]
        for _, area in shown:
            self._paint_box(painter, area)
        painter.setFont(self.small())
        painter.setPen(QColor(self.colors.muted))
        for climbing in (True, False):
            side = [pair for pair in shown if pair[0].climbing is climbing]
            self._paint_names(painter, side, box, climbing=climbing)

    def _paint_names(
        self,
        painter: QPainter,
        side: list[tuple[RangeBox, QRectF]],
        box: QRectF,
        *,
        climbing: bool,
    ) -> None:
        """Write names right of their boxes: below a climbing curve, above a falling one."""
        metrics = QFontMetricsF(painter.font())
        half = metrics.height() / 2
        wanted = [
            area.top() + half if climbing else area.bottom() - half - CLEAR_PX for _, area in side
        ]
        low, high = box.top() + half, box.bottom() - half
        if climbing:
            middles = spread(wanted, 2 * half, low, high)
        else:  # names that touch move up, away from the falling curve
            middles = [-y for y in spread([-y for y in wanted], 2 * half, -high, -low)]
        for (one, area), middle in zip(side, middles, strict=True):
            width = metrics.horizontalAdvance(one.name) + 2
            left = min(area.right() + self.px(6), box.right() - width)
            room = QRectF(left, middle - half, width, 2 * half)
            painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, one.name)

    def _area(self, one: RangeBox, box: QRectF) -> QRectF | None:
        """Return where a range lies in view, or nothing."""
        left, right = self.x_of(one.start_h, box), self.x_of(one.end_h, box)
        top, bottom = self.y_of(one.high, box), self.y_of(one.low, box)
        area = QRectF(QPointF(left, top), QPointF(right, bottom)).intersected(box)
        return area if area.width() > 1 and area.height() > 1 else None

    def _paint_box(self, painter: QPainter, area: QRectF) -> None:
        painter.fillRect(area, blended(self.colors.watch, self.colors.page, RANGE_SHARE))
        pen = QPen(QColor(self.colors.line), 1)
        pen.setDashPattern([2.0, 2.0])
        painter.setPen(pen)
        painter.drawLine(area.topLeft(), area.topRight())
        painter.drawLine(area.bottomLeft(), area.bottomRight())
