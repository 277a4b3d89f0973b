"""Findings as numbered bars over the chart, on the same time axis."""

from dataclasses import dataclass

from PySide6.QtCore import QEvent, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QHelpEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from firing_review.firing.findings import Severity
from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.marks import paint_severity

BADGE = 24
ROW = 27
MOST_ROWS = 3


@dataclass(frozen=True)
class Bar:
    """One finding on the time axis, with the sentence that is read out."""

    number: int
    severity: Severity
    start_h: float
    end_h: float
    sentence: str


def rows_for(spans: list[tuple[float, float]], badge: float, most: int) -> list[int]:
    """Return a row for each span, highest first, so that nothing of a row touches.

    Spans come in order of importance. When no row is free, a span goes where at least its
    number, ``badge`` wide at its left, covers no other number.
    """
    taken: list[list[tuple[float, float]]] = [[] for _ in range(most)]
    numbers: list[list[tuple[float, float]]] = [[] for _ in range(most)]
    rows = []
    for left, right in spans:
        number = (left, left + badge)
        free = [row for row in range(most) if _is_free(taken[row], (left, right))]
        bearable = [row for row in range(most) if _is_free(numbers[row], number)]
        row = (free or bearable[::-1] or [most - 1])[0]
        taken[row].append((left, right))
        numbers[row].append(number)
        rows.append(row)
    return rows


def _is_free(taken: list[tuple[float, float]], span: tuple[float, float]) -> bool:
    return all(span[1] <= other[0] or span[0] >= other[1] for other in taken)


class FindingStrip(QWidget):
    """The bars; a click on one picks it.

    Signals
    -------
    picked : place of the finding in the review.
    """

    picked = Signal(object)

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self._bars: list[Bar] = []
        self._rows: list[int] = []
        self._chosen: int | None = None
        self._view: tuple[float, float, float, float] = (0.0, 1.0, 0.0, 1.0)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(tr("Findings along the firing"))

    def show_bars(self, bars: list[Bar]) -> None:
        """Show other findings."""
        self._bars = bars
        self._lay_out()

    def show_view(self, low_h: float, high_h: float, left: float, right: float) -> None:
        """Follow the chart: hours at the left and right pixel of its plot."""
        view = (low_h, high_h, left, right)
        if view != self._view:
            self._view = view
            self._lay_out()

    def choose(self, place: int | None) -> None:
        """Frame one bar."""
        self._chosen = place
        self.update()

    def _lay_out(self) -> None:
        spans = [(box.left() - 4, box.right() + 4) for box in map(self._reach, self._bars)]
        self._rows = rows_for(spans, self._appearance.sizes.px(BADGE), MOST_ROWS)
        self.updateGeometry()
        self.update()

    def _pixel(self, hours: float) -> float:
        low, high, left, right = self._view
        return left + (hours - low) / ((high - low) or 1.0) * (right - left)

    def _reach(self, bar: Bar) -> QRectF:
        """Return the box of a bar in row 0; at least as wide as its number."""
        badge = self._appearance.sizes.px(BADGE)
        start, end = self._pixel(bar.start_h), self._pixel(bar.end_h)
        width = max(end - start, float(badge))
        left = start if end - start >= badge else (start + end - badge) / 2
        return QRectF(left, 2, width, badge)

    def box_of(self, place: int) -> QRectF:
        """Return where a bar is drawn, cut to the plot."""
        row = self._appearance.sizes.px(ROW)
        box = self._reach(self._bars[place]).translated(0, self._rows[place] * row)
        _, _, left, right = self._view
        return box.intersected(QRectF(left - 14, 0, right - left + 28, 10_000))

    def sizeHint(self) -> QSize:
        """Ask for as many rows as the bars need."""
        rows = max(self._rows, default=-1) + 1
        return QSize(100, rows * self._appearance.sizes.px(ROW))

    def minimumSizeHint(self) -> QSize:
        """Never hide a row."""
        return QSize(0, self.sizeHint().height())

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw the bars on the screen."""
        self.paint_on(QPainter(self))

    def paint_on(self, painter: QPainter) -> None:
        """Draw the bars, the chosen one last."""
        painter.setFont(self._appearance.font(self._appearance.sizes.small, bold=True))
        places = sorted(range(len(self._bars)), key=lambda place: place == self._chosen)
        for place in places:
            box = self.box_of(place)
            if not box.isEmpty():
                self._paint_bar(painter, place, box)

    def _paint_bar(self, painter: QPainter, place: int, box: QRectF) -> None:
        colors, bar = self._appearance.colors, self._bars[place]
        if place == self._chosen:
            painter.setPen(QPen(QColor(colors.accent), 2))
            painter.setBrush(QColor(colors.band_chosen))
            painter.drawRect(box.adjusted(-1, -1, 1, 1))
        color = {
            Severity.FAULT: colors.ink,
            Severity.WATCH: colors.watch,
            Severity.NOTE: colors.line,
        }[bar.severity]
        middle = box.center().y()
        badge = self._appearance.sizes.px(BADGE)
        if box.width() > badge + 4:
            width = 4 if bar.severity is Severity.FAULT else 2
            pen = QPen(QColor(color), width)
            pen.setCapStyle(Qt.PenCapStyle.FlatCap)
            painter.setPen(pen)
            painter.drawLine(int(box.left()) + badge, int(middle), int(box.right()), int(middle))
        spot = QRectF(box.left(), box.top(), badge, badge)
        paint_severity(painter, spot, bar.severity, str(bar.number), colors)

    def place_at(self, x: float, y: float) -> int | None:
        """Return the bar under a point, if any."""
        slack = 3.0
        for place in range(len(self._bars)):
            if self.box_of(place).adjusted(-slack, -slack, slack, slack).contains(x, y):
                return place
        return None

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Pick the bar under the mouse."""
        place = self.place_at(event.position().x(), event.position().y())
        if place is not None:
            self.picked.emit(place)

    def event(self, event: QEvent) -> bool:
        """Show the sentence of the bar under the mouse; the list shows it too."""
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            place = self.place_at(event.pos().x(), event.pos().y())
            text = self._bars[place].sentence if place is not None else ""
            QToolTip.showText(event.globalPos(), text, self)
            return True
        return super().event(event)
