"""The program's own marks, drawn as vectors: tick, triangle, frame, ring, question.

A mark says by its shape what its color says too, so that nothing rests on color alone.
"""

from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from firing_review.firing.findings import Severity
from firing_review.firing.results import Light
from firing_review.ui.appearance import Appearance
from firing_review.ui.look import Colors


def paint_light(painter: QPainter, box: QRectF, light: Light, colors: Colors) -> None:
    """Draw the mark of a light into ``box``."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    _LIGHTS[light](painter, box, colors)
    painter.restore()


def paint_severity(
    painter: QPainter, box: QRectF, severity: Severity, text: str, colors: Colors
) -> None:
    """Draw a finding's number: boxed for a fault, on a triangle for watch, ringed for a note."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    ink = QColor(colors.ink)
    fill = {
        Severity.FAULT: colors.ink,
        Severity.WATCH: colors.watch,
        Severity.NOTE: colors.page,
    }[severity]
    painter.setPen(QPen(ink if severity is not Severity.WATCH else QColor(fill), 2))
    painter.setBrush(QColor(fill))
    inner = box.adjusted(1.5, 1.5, -1.5, -1.5)
    if severity is Severity.FAULT:
        painter.drawRect(inner)
    elif severity is Severity.WATCH:
        painter.drawPolygon(_house(inner))
    else:
        painter.drawRoundedRect(inner, inner.height() / 2, inner.height() / 2)
    painter.setPen(ink if severity is Severity.NOTE else QColor(colors.page))
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)
    painter.restore()


def _house(box: QRectF) -> QPolygonF:
    """Return a box with a pointed top: a triangle with room for a number."""
    shoulder = box.top() + box.height() * 0.3
    return QPolygonF(
        [
            QPointF(box.center().x(), box.top() - 1),
            QPointF(box.right(), shoulder),
            box.bottomRight(),
            box.bottomLeft(),
            QPointF(box.left(), shoulder),
        ]
    )


def _pen(color: str, box: QRectF) -> QPen:
    pen = QPen(QColor(color), max(2.0, box.width() / 8))
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    return pen


def _tick(painter: QPainter, box: QRectF, colors: Colors) -> None:
    painter.setPen(_pen(colors.fine, box))
    at = [(0.12, 0.55), (0.40, 0.82), (0.90, 0.18)]
    painter.drawPolyline(QPolygonF([_inside(box, x, y) for x, y in at]))


def _triangle(painter: QPainter, box: QRectF, colors: Colors) -> None:
    painter.setPen(_pen(colors.watch, box))
    at = [(0.5, 0.12), (0.94, 0.88), (0.06, 0.88)]
    painter.drawPolygon(QPolygonF([_inside(box, x, y) for x, y in at]))
    painter.drawLine(_inside(box, 0.5, 0.42), _inside(box, 0.5, 0.64))


def _frame(painter: QPainter, box: QRectF, colors: Colors) -> None:
    """Draw danger: a thick frame in ink with a bar across."""
    pen = QPen(QColor(colors.ink), box.width() / 5)
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    painter.setPen(pen)
    inset = box.width() * 0.14
    painter.drawRect(box.adjusted(inset, inset, -inset, -inset))
    painter.drawLine(_inside(box, 0.32, 0.5), _inside(box, 0.68, 0.5))


def _ring(painter: QPainter, box: QRectF, colors: Colors) -> None:
    painter.setPen(_pen(colors.muted, box))
    inset = box.width() * 0.12
    painter.drawEllipse(box.adjusted(inset, inset, -inset, -inset))
    painter.drawLine(_inside(box, 0.36, 0.5), _inside(box, 0.64, 0.5))


def _diamond(painter: QPainter, box: QRectF, colors: Colors) -> None:
    """Draw a question that is still open."""
    painter.setPen(_pen(colors.accent, box))
    at = [(0.5, 0.06), (0.94, 0.5), (0.5, 0.94), (0.06, 0.5)]
    painter.drawPolygon(QPolygonF([_inside(box, x, y) for x, y in at]))
    painter.setBrush(QColor(colors.accent))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.drawEllipse(_inside(box, 0.5, 0.5), box.width() / 10, box.width() / 10)


def _inside(box: QRectF, x: float, y: float) -> QPointF:
    return QPointF(box.left() + x * box.width(), box.top() + y * box.height())


_LIGHTS: dict[Light, Callable[[QPainter, QRectF, Colors], None]] = {
    Light.FINE: _tick,
    Light.WATCH: _triangle,
    Light.STOP: _frame,
    Light.UNKNOWN: _ring,
    Light.NOT_ASKED: _diamond,
}


class LightMark(QWidget):
    """One light as a small widget."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self._light = Light.UNKNOWN
        appearance.changed.connect(self.update)

    def show_light(self, light: Light) -> None:
        """Draw another light."""
        self._light = light
        self.update()

    def sizeHint(self) -> QSize:
        """Ask for a square a little larger than the text."""
        side = self._appearance.sizes.px(22)
        return QSize(side, side)

    def minimumSizeHint(self) -> QSize:
        """Never give way."""
        return self.sizeHint()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw the mark."""
        side = self._appearance.sizes.px(20)
        top = (self.height() - side) / 2
        painter = QPainter(self)
        paint_light(painter, QRectF(1, top, side, side), self._light, self._appearance.colors)
