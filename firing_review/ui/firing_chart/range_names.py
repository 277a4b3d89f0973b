"""Over the curves: names of the ranges that matter for ware, where neither line nor name runs."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from PySide6.QtCore import QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter

from firing_review.report.chart_lines import LineRole
from firing_review.report.columns import Floats, Seen
from firing_review.ui.appearance import Appearance
from firing_review.ui.firing_chart.on_lane import OnLane
from firing_review.ui.firing_chart.range_boxes import RangeBox, areas_in_view

BESIDE_PX, CLEAR_PX = 6.0, 3.0
"""From a box to its name; free on every side of a name [px]."""
BEYOND_LINES = 1.5
"""A name that is farther above or below its box would be taken for another's [lines]."""
OVER_DOTS_LINES = 3.0
"""So far a name moves before it covers the dots of the set point [lines]."""
LEFT_LINES, WRONG_WAY_LINES = 2.0, 0.25
"""So far a name moves to stand right of its box, and away from the curve [lines]."""


@dataclass(frozen=True)
class Course:
    """Between which heights a line runs in each column of pixels; NaN where it does not [px]."""

    left: float
    upper: Floats
    lower: Floats

    @classmethod
    def of(cls, x: Floats, y: Floats, view: QRectF) -> "Course":
        """Return the course of a line through these points, x increasing [px]."""
        count = int(view.width()) + 1
        known = np.isfinite(x)
        x, y = x[known] - view.left(), y[known]
        heights = np.full(count + 1, np.nan)
        if len(x):
            heights = np.interp(np.arange(count + 1), x, y, np.nan, np.nan)
        upper = np.fmin(heights[:-1], heights[1:])
        lower = np.fmax(heights[:-1], heights[1:])
        inside = (x >= 0) & (x < count)
        columns = x[inside].astype(int)
        np.fmin.at(upper, columns, y[inside])  # a corner within a column
        np.fmax.at(lower, columns, y[inside])
        return cls(view.left(), upper, lower)

    def meets(self, place: QRectF) -> bool:
        """Tell whether the line runs through a place."""
        first = max(int(place.left() - self.left), 0)
        columns = slice(first, int(place.right() - self.left) + 1)
        crossed = (self.lower[columns] >= place.top()) & (self.upper[columns] <= place.bottom())
        return bool(crossed.any())


@dataclass(frozen=True)
class Around:
    """What a name has to keep clear of: lines, dots it may cover if it must, and boxes."""

    view: QRectF
    lines: Sequence[Course]
    dots: Sequence[Course]
    boxes: Sequence[QRectF]

    def place(
        self, area: QRectF, size: QSizeF, taken: Sequence[QRectF], *, climbing: bool
    ) -> QRectF | None:
        """Return the nearest free place for the name of a box, None if there is none."""
        own = [one for one in self.boxes if one.intersects(area)]
        others = [_wider(one, 2 * BESIDE_PX) for one in self.boxes if not one.intersects(area)]
        tried = self._tried(area, size, climbing=climbing)
        free = [
            (lines_away + OVER_DOTS_LINES * self.covers_dots(place), number, place)
            for number, (place, lines_away) in enumerate(tried)
            if self.view.contains(place)
            and not any(place.intersects(one) for one in (*taken, *own, *others))
            and not any(line.meets(_wider(place, CLEAR_PX)) for line in self.lines)
        ]
        return min(free)[2] if free else None

    def covers_dots(self, place: QRectF) -> bool:
        """Tell whether a name here covers dots of the set point."""
        return any(line.meets(_wider(place, CLEAR_PX)) for line in self.dots)

    def _tried(
        self, area: QRectF, size: QSizeF, *, climbing: bool
    ) -> Iterator[tuple[QRectF, float]]:
        """Go through places beside a box, each with how far it is from the best one [lines]."""
        high = size.height()
        reach = int(2 * (BEYOND_LINES + area.height() / 2 / high))
        for step in range(-reach, reach + 1):
            away = (step < 0) if climbing else (step > 0)
            cost = abs(step) / 2 + away * WRONG_WAY_LINES
            top = area.center().y() + (step - 1) * high / 2
            row = QRectF(self.view.left(), top, self.view.width(), high)
            near = [one for one in self.boxes if one.intersects(row) and one.intersects(area)]
            right = max([area.right(), *(one.right() for one in near)]) + BESIDE_PX
            left = min([area.left(), *(one.left() for one in near)]) - BESIDE_PX
            last = self.view.right() - size.width()
            for at in {right, min(right, last)}:
                yield QRectF(at, top, size.width(), high), cost
            yield QRectF(left - size.width(), top, size.width(), high), cost + LEFT_LINES


class RangeNames(OnLane):
    """The names of the ranges, the smallest range nearest to its box; one without room is left."""

    def __init__(self, appearance: Appearance) -> None:
        super().__init__(appearance)
        self.boxes: list[RangeBox] = []
        self._curves: list[tuple[LineRole, Seen]] = []

    def show_boxes(self, boxes: list[RangeBox]) -> None:
        """Name other ranges."""
        self.boxes = boxes
        self.update()

    def show_curves(self, curves: list[tuple[LineRole, Seen]]) -> None:
        """Keep clear of other curves."""
        self._curves = curves

    def places(self, view: QRectF) -> list[tuple[RangeBox, QRectF]]:
        """Return where each name stands [px]; one that has no room is not in it."""
        return self._places(self._around(view))

    def _around(self, view: QRectF) -> Around:
        dots, lines = [], []
        for role, one in self._curves:
            course = Course.of(self.x_of(one.x_h, view), self.y_of(one.y, view), view)
            (dots if role is LineRole.SET_POINT else lines).append(course)
        areas = [area for _, area in areas_in_view(self.boxes, self, view)]
        return Around(view, lines, dots, areas)

    def _places(self, around: Around) -> list[tuple[RangeBox, QRectF]]:
        metrics = QFontMetricsF(self.small())
        shown = areas_in_view(self.boxes, self, around.view)
        found: list[tuple[RangeBox, QRectF]] = []
        for one, area in sorted(shown, key=lambda pair: pair[0].high - pair[0].low):
            size = QSizeF(metrics.horizontalAdvance(one.name) + 2, metrics.height())
            taken = [place for _, place in found]
            place = around.place(area, size, taken, climbing=one.climbing)
            if place is not None:
                found.append((one, place))
        return found

    def paint_pixels(self, painter: QPainter, box: QRectF) -> None:
        """Write the names; a name over the dots of the set point covers them."""
        if not self.boxes:
            return
        painter.setFont(self.small())
        painter.setPen(QColor(self.colors.muted))
        around = self._around(box)
        for one, place in self._places(around):
            if around.covers_dots(place):
                painter.fillRect(place, QColor(self.colors.page))
            painter.drawText(place, Qt.AlignmentFlag.AlignVCenter, one.name)


def _wider(place: QRectF, by: float) -> QRectF:
    return place.adjusted(-by, -by, by, by)
