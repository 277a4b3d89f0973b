"""Axes of the chart: hours or clock along, round numbers up, names at the lines' ends.

Time is drawn as hours since the first sample; clock times are only labels, made from the log's
own first stamp, so that no time zone and no change of the clock can shift them.
"""

from datetime import datetime, timedelta

import pyqtgraph as pg
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPen

from firing_review.report.axis_marks import (
    clock_text,
    elapsed_text,
    marks,
    round_step,
    time_step_h,
    weekday,
)
from firing_review.ui.look import Colors, blended
from firing_review.ui.preferences import TimeShown

GRID_SHARE = 0.18

SAMPLE = 38
"""Pixels of a line drawn before its name, enough to tell its dash."""


def grid_color(colors: Colors) -> QColor:
    """Return the color of a faint line across a lane; opaque, which is far quicker."""
    return blended(colors.line, colors.page, GRID_SHARE)


class PlainAxis(pg.AxisItem):
    """An axis painted afresh each time, which is several times quicker than a kept picture."""

    larger = 1.0
    """How many times as large as usual its words are; marks stand so much further apart."""

    def box(self) -> QRectF:
        """Return the place of the axis in its own coordinates."""
        return self.mapRectFromParent(self.geometry())

    def shown_range(self) -> tuple[float, float]:
        """Return the range the axis stands for."""
        return float(self.range[0]), float(self.range[1])

    def begin(self, painter: QPainter) -> None:
        """Set the font of the marks."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        font = self.style["tickFont"]
        if font is not None:
            painter.setFont(font)


class TimeAxis(PlainAxis):
    """Hours along the bottom with the clock under them, or the clock alone."""

    PIXELS_A_MARK = 72

    def __init__(self) -> None:
        super().__init__("bottom")
        self._started_at: datetime | None = None
        self._shown = TimeShown.ELAPSED

    def show_time(self, started_at: datetime | None, shown: TimeShown) -> None:
        """Set the first stamp and the way time is shown."""
        self._started_at, self._shown = started_at, shown
        self.update()

    @property
    def lines(self) -> int:
        """How many lines of text the labels have."""
        return 1 if self._started_at is None else 2

    def tickValues(
        self, minVal: float, maxVal: float, size: float
    ) -> list[tuple[float, list[float]]]:
        """Return one level of marks at full steps of hours or of the clock."""
        most = max(int(size / (self.PIXELS_A_MARK * self.larger)), 2)
        step = time_step_h(maxVal - minVal, most)
        return [(step, marks(minVal, maxVal, step, self._origin_h()))]

    def _origin_h(self) -> float:
        """Return where the clock strikes midnight before the log, or 0 for elapsed hours."""
        if self._shown is TimeShown.ELAPSED or self._started_at is None:
            return 0.0
        midnight = self._started_at.replace(hour=0, minute=0, second=0, microsecond=0)
        return -(self._started_at - midnight).total_seconds() / 3600.0

    def tickStrings(self, values: list[float], _scale: float, spacing: float) -> list[str]:
        """Return the label of each mark."""
        return [self.text_at(value, spacing) for value in values]

    def text_at(self, hours: float, step_h: float) -> str:
        """Return the text at one mark."""
        started = self._started_at
        if started is None:
            return elapsed_text(hours, step_h)
        if self._shown is TimeShown.CLOCK:
            text = clock_text(started, hours)
            return f"{text}\n{weekday(started + timedelta(hours=hours, seconds=30))}"
        return f"{elapsed_text(hours, step_h)}\n{clock_text(started, hours)}"

    def paint(self, painter: QPainter, _option: object, _widget: object) -> None:
        """Draw the axis, and its labels if this is the lane that carries them."""
        box = self.box()
        self.begin(painter)
        painter.setPen(self.pen())
        painter.drawLine(QPointF(box.left(), box.top()), QPointF(box.right(), box.top()))
        if not self.style["showValues"]:
            return
        low, high = self.shown_range()
        ((step, places),) = self.tickValues(low, high, box.width())
        painter.setPen(self.textPen())
        half = self.PIXELS_A_MARK * self.larger
        for place in places:
            x = box.left() + (place - low) / ((high - low) or 1.0) * box.width()
            room = QRectF(x - half, box.top() + 2, 2 * half, box.height())
            painter.drawText(
                room,
                Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop,
                self.text_at(place, step),
            )


class RoundAxis(PlainAxis):
    """A left axis with round numbers only."""

    def __init__(self, pixels_a_mark: int = 44) -> None:
        super().__init__("left")
        self._pixels_a_mark = pixels_a_mark
        self._grid: QColor | None = None

    def show_grid(self, colors: Colors) -> None:
        """Draw a faint line under the curves at each number."""
        self._grid = grid_color(colors)
        self.setGrid(self._grid.alpha())
        self.setZValue(-1)

    def places(self, low: float, high: float, pixels: float) -> list[float]:
        """Return the round numbers in a range that so many pixels have room for."""
        ((_, places),) = self.tickValues(low, high, pixels)
        return places

    def tickValues(
        self, minVal: float, maxVal: float, size: float
    ) -> list[tuple[float, list[float]]]:
        """Return one level of round marks."""
        step = round_step(maxVal - minVal, max(int(size / (self._pixels_a_mark * self.larger)), 1))
        return [(step, marks(minVal, maxVal, step))]

    def tickStrings(self, values: list[float], _scale: float, spacing: float) -> list[str]:
        """Return plain numbers with a real minus."""
        digits = 0 if spacing >= 1 else 1
        return [f"{value:.{digits}f}".replace("-", "−") for value in values]

    def paint(self, painter: QPainter, _option: object, _widget: object) -> None:
        """Draw the numbers, and a faint line from each across the lane."""
        box, view = self.box(), self.linkedView()
        if view is None or box.height() <= 0:
            return
        self.begin(painter)
        painter.setPen(self.pen())
        painter.drawLine(QPointF(box.right(), box.top()), QPointF(box.right(), box.bottom()))
        low, high = self.shown_range()
        ((step, places),) = self.tickValues(low, high, box.height())
        far = view.mapRectToItem(self, view.boundingRect()).right()
        painter.setPen(self.textPen())
        half = painter.fontMetrics().height() / 2
        flags = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        for place, text in zip(places, self.tickStrings(places, 1.0, step), strict=True):
            y = box.bottom() - (place - low) / ((high - low) or 1.0) * box.height()
            if self._grid is not None:
                painter.fillRect(QRectF(box.right() + 1, y, far - box.right(), 1), self._grid)
            middle = min(max(y, box.top() + half), box.bottom() - half)
            room = QRectF(box.left(), middle - half, box.width() - 5, 2 * half)
            painter.drawText(room, flags, text)


def spread(wanted: list[float], gap: float, low: float, high: float) -> list[float]:
    """Return places near the wanted ones, in the same order, at least ``gap`` apart.

    Places run from ``low`` to ``high``; when there is not room for all, the gap gives way.
    """
    if not wanted:
        return []
    gap = min(gap, (high - low) / max(len(wanted) - 1, 1))
    order = sorted(range(len(wanted)), key=lambda n: wanted[n])
    placed = [min(max(wanted[n], low), high) for n in order]
    for n in range(1, len(placed)):
        placed[n] = max(placed[n], placed[n - 1] + gap)
    overflow = placed[-1] - high
    if overflow > 0:
        placed[-1] = high
        for n in range(len(placed) - 2, -1, -1):
            placed[n] = min(placed[n], placed[n + 1] - gap)
    result = [0.0] * len(wanted)
    for n, place in zip(order, placed, strict=True):
        result[n] = place
    return result


class NamesAxis(pg.AxisItem):
    """The right edge of a lane, where each line carries its name and a piece of its dash."""

    def __init__(self, width: int) -> None:
        super().__init__("right")
        self.larger = 1.0
        self._names: list[tuple[str, float, QPen, QColor]] = []
        self._font = QFont()
        self._title, self._title_ink = "", QColor()
        self.setWidth(width)

    def show_title(self, title: str, ink: QColor) -> None:
        """Name the lane and its unit in words above the names of its lines."""
        self._title, self._title_ink = title, ink
        self.update()

    def show_names(self, names: list[tuple[str, float, QPen, QColor]], font: QFont) -> None:
        """Show names at values of the lane, each with its pen and its ink."""
        self._names, self._font = names, font
        self.update()

    def tickValues(self, _low: float, _high: float, _size: float) -> list[tuple[float, list]]:
        """Return no marks: this edge carries names only."""
        return []

    def paint(self, painter: QPainter, _option: object, _widget: object) -> None:
        """Draw the names, moved apart where they would touch."""
        view = self.linkedView()
        if view is None:
            return
        box = self.mapRectFromParent(self.geometry())
        painter.setFont(self._font)
        height = painter.fontMetrics().height()
        painter.setPen(self._title_ink)
        painter.drawText(box.adjusted(4, 0, 0, 0), Qt.AlignmentFlag.AlignTop, self._title)
        top = box.top() + height * 1.6
        low, high = view.viewRange()[1]
        shares = [(value - low) / ((high - low) or 1.0) for _, value, _, _ in self._names]
        wanted = [box.bottom() - share * box.height() for share in shares]
        places = spread(wanted, height, top, max(box.bottom() - height / 2, top))
        sample = SAMPLE * self.larger
        for (name, _, pen, ink), y in zip(self._names, places, strict=True):
            painter.setPen(pen)
            painter.drawLine(QPointF(box.left() + 4, y), QPointF(box.left() + sample, y))
            painter.setPen(ink)
            left = box.left() + sample + 5
            room = QRectF(left, y - height / 2, box.right() - left, height)
            shown = painter.fontMetrics().elidedText(
                name, Qt.TextElideMode.ElideMiddle, int(room.width())
            )
            painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, shown)
