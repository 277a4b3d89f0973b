"""The lanes of the chart: plots stacked over one time axis, drawn in the program's own colors."""

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPen

from firing_review.firing.wording import written
from firing_review.report.chart_lines import Line, LineRole, value_at
from firing_review.report.columns import Seen, dashed, flattened
from firing_review.ui.appearance import Appearance
from firing_review.ui.firing_chart.axes import NamesAxis, RoundAxis, TimeAxis
from firing_review.ui.firing_chart.backdrop import Backdrop
from firing_review.ui.firing_chart.foreground import Foreground
from firing_review.ui.firing_chart.plot import Plot
from firing_review.ui.firing_chart.range_boxes import RangeBox
from firing_review.ui.firing_chart.range_names import RangeNames
from firing_review.ui.look import Colors

# Bands lie under the grid, what was asked under what was read, the cursor over all.
Z_BAND, Z_ASKED, Z_SET_POINT, Z_READING, Z_CURSOR = -20, 2, 4, 6, 20

LEAST_SEEN_PX, ROUGH_PX = 0.5, 2.0
"""Flatter than half a pixel is flat; while the view moves columns are two pixels wide."""
LEFT_EDGE, NAMES_EDGE = 52, 164
PEAK_SIDES_PX = 8
"""About the words at the highest reading, within their item [px]."""
LONG_DASH, DASH_DOT, SHORT_DASH = [8.0, 4.0], [8.0, 3.0, 1.5, 3.0], [4.0, 3.0]
READING_DASHES: tuple[list[float] | None, ...] = (None, LONG_DASH, DASH_DOT, [2.0, 2.0])

EARLIER_DASHES = ([10.0, 6.0], [3.0, 6.0], [10.0, 4.0, 3.0, 4.0])


def pen_for(role: LineRole, place: int, colors: Colors, finer: float = 1.0) -> QPen:
    """Return the pen of a line; opaque and at most 2 px, so that repaints stay quick.

    Parameters
    ----------
    finer : float
        Points of the screen in a pixel; these pens count points.
    """
    look: dict[LineRole, tuple[str, list[float] | None]] = {
        LineRole.SCHEDULE: (colors.muted, SHORT_DASH),
        LineRole.ASKED_RATE: (colors.muted, SHORT_DASH),
        LineRole.SET_POINT: (colors.set_point, [0.6, 2.4]),
        LineRole.READING: (colors.ink, READING_DASHES[place % len(READING_DASHES)]),
        LineRole.RATE: (colors.ink, None),
        LineRole.OUTPUT: (colors.ink, None),
        LineRole.EARLIER: (colors.muted, EARLIER_DASHES[place % len(EARLIER_DASHES)]),
    }
    color, dash = look[role]
    pen = pg.mkPen(color, width=finer * (1 if role is LineRole.EARLIER else 2))
    if dash is not None:
        pen.setDashPattern(dash)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    if role is LineRole.SET_POINT:
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    return pen


_Z = {
    LineRole.EARLIER: Z_ASKED - 1,
    LineRole.SCHEDULE: Z_ASKED,
    LineRole.ASKED_RATE: Z_ASKED,
    LineRole.SET_POINT: Z_SET_POINT,
}


class LaneBox(pg.ViewBox):
    """A view that is dragged along with the left button only; the right one has the menu."""

    def mouseDragEvent(self, event: object, axis: int | None = None) -> None:
        """Move the view, unless the drag is not meant for it."""
        if event.button() is Qt.MouseButton.RightButton:
            event.ignore()
        else:
            super().mouseDragEvent(event, axis)


class Stroke(pg.PlotCurveItem):
    """A curve that is only ever given what is in view."""

    def draw(self, one: Seen, pen: QPen) -> None:
        """Draw points; a solid line piece by piece, which is quicker.

        A dashed one is drawn whole, or its dashes would begin again at every sample.
        """
        self.setSegmentedLineMode("on" if pen.style() == Qt.PenStyle.SolidLine else "off")
        self.setPen(pen)
        self.setData(one.x_h, one.y)

    def boundingRect(self) -> QRectF:
        """Return the view, which is sooner known than the reach of all points."""
        return self.viewRect() or QRectF()

    def viewRangeChanged(self) -> None:
        """Follow the view."""
        self.prepareGeometryChange()


def _strokes(one: Seen, pen: QPen, point_h: float) -> tuple[Seen, QPen]:
    """Return what a pen draws; with very many points its dashes are cut beforehand."""
    pattern = pen.dashPattern()
    if not pattern or not one.is_thinned:
        return one, pen
    lengths_h = [length * pen.widthF() * point_h for length in pattern]
    return dashed(one, lengths_h), pg.mkPen(pen.color(), width=pen.widthF())


class Lane(Plot):
    """One plot of the stack: its curves, bands, cursor, title and the names at the right."""

    def __init__(self, appearance: Appearance, *, pixels_a_mark: int = 44) -> None:
        self.names = NamesAxis(NAMES_EDGE)
        left = RoundAxis(pixels_a_mark)
        axes = {"left": left, "right": self.names, "bottom": TimeAxis()}
        super().__init__(LaneBox(enableMenu=False), axes)
        self._appearance = appearance
        self._lines: tuple[Line, ...] = ()
        self._seen: list[Seen] = []
        self._pens: list[QPen] = []
        self._drawn: list[Stroke] = []
        self.backdrop, self.foreground = Backdrop(appearance, left), Foreground(appearance)
        self.range_names = RangeNames(appearance)
        self._cursor_h: float | None = None
        self._refined = 1.0
        self._title = ""
        self._cursor = pg.InfiniteLine(angle=90, movable=False)
        self._spots = pg.ScatterPlotItem(size=9)
        self._peak = pg.TextItem("", anchor=(0.5, 1.0))
        self._peak_texts: tuple[str, ...] = ()
        self._build()

    def _build(self) -> None:
        for side in ("left", "right", "bottom"):
            self.getAxis(side).setStyle(tickLength=0)
            self.getAxis(side).enableAutoSIPrefix(False)
        self.getAxis("left").setWidth(self._appearance.sizes.px(LEFT_EDGE))
        self.names.setWidth(self._appearance.sizes.px(NAMES_EDGE))
        view = self.getViewBox()
        view.setMouseEnabled(x=True, y=False)
        view.setDefaultPadding(0.0)
        for item, z in ((self._cursor, Z_CURSOR), (self._spots, Z_CURSOR)):
            item.setZValue(z)
            item.setVisible(False)
            self.addItem(item)
        over = Z_READING + 2
        for item, z in (
            (self.backdrop, Z_BAND),
            (self.range_names, over),
            (self.foreground, over),
        ):
            item.setZValue(z)
            self.addItem(item)
        self._peak.setZValue(Z_READING + 1)
        self._peak.setVisible(False)
        self.addItem(self._peak)
        view.sigRangeChanged.connect(self._place_peak)
        view.sigResized.connect(self._place_peak)

    def show_title(self, text: str) -> None:
        """Name the lane and its unit in words, at its right."""
        self._title = text
        self.names.show_title(text, QColor(self._appearance.colors.muted))

    def show_lines(self, lines: tuple[Line, ...]) -> None:
        """Take other curves, on the items there are; :meth:`follow` draws them."""
        while len(self._drawn) < len(lines):
            self._drawn.append(self._new_curve())
        self._lines = lines
        for curve in self._drawn[len(lines) :]:
            curve.setData([], [])
        for line, curve in self.drawn:
            curve.setZValue(_Z.get(line.role, Z_READING))
        self._dress_lines()

    def show_ranges(self, boxes: list[RangeBox]) -> None:
        """Show other ranges that matter for ware, with their names."""
        self.backdrop.show_boxes(boxes)
        self.range_names.show_boxes(boxes)

    def follow(
        self, low_h: float, high_h: float, *, is_moving: bool = False
    ) -> tuple[float, float] | None:
        """Draw what lies between two times; return its lowest and highest, None if nothing.

        While the view moves columns are wider and edges rough, which is quicker.
        """
        view = self.getViewBox()
        width, height = (max(side, 1.0) for side in view.boundingRect().getRect()[2:])
        bottom, top = view.viewRange()[1]
        rough = ROUGH_PX if is_moving else 1.0
        least = rough * LEAST_SEEN_PX * (top - bottom) / height
        self._seen = [line.seen(low_h, high_h, width / rough) for line in self._lines]
        point_h = (high_h - low_h) / width / self._finer
        for curve, one, pen in zip(self._drawn, self._seen, self._pens, strict=False):
            curve.opts["antialias"] = not is_moving
            curve.draw(*_strokes(flattened(one, least), pen, point_h))
        roles = [line.role for line in self._lines]
        self.range_names.show_curves(list(zip(roles, self._seen, strict=True)))
        self._place_names()
        inside = [one.y[(one.x_h >= low_h) & (one.x_h <= high_h)] for one in self._seen]
        values = np.concatenate([*inside, np.zeros(0)])
        values = values[np.isfinite(values)]
        return (float(values.min()), float(values.max())) if len(values) else None

    @property
    def is_thinned(self) -> bool:
        """Whether points are left out of what is drawn now."""
        return any(one.is_thinned for one in self._seen)

    def _dress_lines(self) -> None:
        colors = self._appearance.colors
        finer = self._finer * self._appearance.sizes.scale
        self._pens = [pen_for(line.role, line.place, colors, finer) for line in self._lines]

    @property
    def _finer(self) -> float:
        """Points of the screen, or of a picture, in a pixel."""
        widget = self.getViewWidget()
        return self._refined * (float(widget.devicePixelRatioF()) if widget is not None else 1.0)

    def refine(self, factor: float) -> None:
        """Draw lines for a picture so many times as fine; 1 is the screen again."""
        self._refined = factor
        self._dress_lines()
        self.follow(*self.getViewBox().viewRange()[0])

    def _new_curve(self) -> Stroke:
        curve = Stroke(connect="finite", antialias=True)
        self.addItem(curve)
        return curve

    @property
    def drawn(self) -> list[tuple[Line, Stroke]]:
        """The curves as drawn, each beside what it stands for."""
        return list(zip(self._lines, self._drawn, strict=False))

    def show_cursor(self, at_h: float | None) -> None:
        """Move the line of the cursor, with a spot on every reading, or hide it."""
        shown = at_h is not None
        self._cursor.setVisible(shown)
        self._spots.setVisible(shown)
        self._cursor_h = at_h
        self._place_names()
        if at_h is None:
            return
        self._cursor.setValue(at_h)
        roles = (LineRole.READING, LineRole.RATE, LineRole.OUTPUT)
        values = [value_at(line, at_h) for line in self._lines if line.role in roles]
        y = np.array([value for value in values if np.isfinite(value)], dtype=float)
        self._spots.setData(np.full(len(y), at_h), y)

    def show_peak(self, at: tuple[float, float] | None, texts: tuple[str, ...]) -> None:
        """Write the highest reading at its point, or nothing.

        Parameters
        ----------
        texts : tuple of str
            The longest first; the first that has room is shown, else the last.
        """
        self._peak.setVisible(at is not None)
        self._peak_texts = texts
        if at is not None:
            self._peak.setPos(*at)
            self._dress_peak()
            self._place_peak()

    def _place_peak(self) -> None:
        """Keep the words inside the lane, however near its edge the peak is."""
        view = self.getViewBox()
        room = view.boundingRect().width()
        fitting = [text for text in self._peak_texts if self._width_of(text) <= room]
        text = (fitting or self._peak_texts[-1:] or [""])[0]
        if text != self._peak.toPlainText():
            self._peak.setText(text)
        (low, high), width = view.viewRange()[0], max(self._peak.boundingRect().width(), 1.0)
        peak = (self._peak.pos().x() - low) / ((high - low) or 1.0) * room
        left = min(max(peak - width / 2, 0.0), max(room - width, 0.0))
        self._peak.setAnchor(((peak - left) / width, 1.0))

    def _width_of(self, text: str) -> float:
        font = self._appearance.font(self._appearance.sizes.small)
        return QFontMetricsF(font).horizontalAdvance(text) + PEAK_SIDES_PX

    def _dress_peak(self) -> None:
        self._peak.setFont(self._appearance.font(self._appearance.sizes.small))
        self._peak.setColor(QColor(self._appearance.colors.ink))

    def dress(self) -> None:
        """Put the present colors and sizes on everything."""
        colors, sizes = self._appearance.colors, self._appearance.sizes
        font = self._appearance.font(sizes.small)
        for side in ("left", "bottom"):
            axis = self.getAxis(side)
            axis.setTextPen(pg.mkPen(colors.ink))
            axis.setPen(pg.mkPen(colors.line))
            axis.setStyle(tickFont=font)
            axis.larger = sizes.scale
        self.names.setPen(pg.mkPen(colors.line))
        self.getAxis("left").setWidth(sizes.px(LEFT_EDGE))
        self.names.setWidth(sizes.px(NAMES_EDGE))
        self.names.larger = sizes.scale
        self._cursor.setPen(pg.mkPen(colors.accent, width=2 * self._finer * sizes.scale))
        self._spots.setBrush(pg.mkBrush(colors.accent))
        self._spots.setPen(pg.mkPen(colors.page, width=1))
        self._dress_lines()
        self.show_title(self._title)
        self._dress_peak()
        self.backdrop.update()
        self.range_names.update()
        self.foreground.update()
        self._place_names()

    def _place_names(self) -> None:
        """Write each name where its line leaves the view."""
        high = self.getViewBox().viewRange()[0][1]
        ink, names = QColor(self._appearance.colors.ink), []
        for line, one, pen in zip(self._lines, self._seen, self._pens, strict=False):
            inside = np.flatnonzero((one.x_h <= high) & np.isfinite(one.y))
            if len(inside):
                names.append((self._named(line), float(one.y[inside[-1]]), pen, ink))
        self.names.show_names(names, self._appearance.font(self._appearance.sizes.small))

    def _named(self, line: Line) -> str:
        """Return the name of a line, with its value where the cursor stands."""
        value = value_at(line, self._cursor_h) if self._cursor_h is not None else np.nan
        return f"{line.name} {written(f'{value:.0f}')}" if np.isfinite(value) else line.name
