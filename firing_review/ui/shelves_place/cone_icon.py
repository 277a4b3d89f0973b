"""A small drawing of a bent cone, for the button that chooses it."""

from PySide6.QtCore import QPointF, QSize, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPen, QPixmap, QPolygonF
from PySide6.QtWidgets import QWidget

from firing_review.report.cone_outline import cone_outline
from firing_review.ui.look import Colors

LENGTH, FOOT, GROUND = 0.85, 0.3, 0.92
"""Length of the cone, and where it stands from the left and the top, as shares of the height."""
WIDE = 1.15
"""Width of the drawing as a share of its height: a melted cone reaches as far."""


def cone_icon_size(high: int) -> QSize:
    """Return the size of a drawing of this height [px]."""
    return QSize(round(WIDE * high), high)


def cone_icon(bend_deg: float, high: int, colors: Colors, on: QWidget) -> QIcon:
    """Return a cone at this bend [°], in the present colors and as sharp as the screen is."""
    size, ratio = cone_icon_size(high), on.devicePixelRatioF()
    picture = QPixmap(size * ratio)
    picture.setDevicePixelRatio(ratio)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    foot = QPointF(FOOT * high, GROUND * high)
    painter.setPen(QPen(QColor(colors.line), 1))
    painter.drawLine(QPointF(0.0, foot.y()), QPointF(size.width(), foot.y()))
    painter.setPen(QPen(QColor(colors.ink), 1.5))
    painter.setBrush(QColor(colors.chosen))
    outline = [foot + QPointF(x, y) for x, y in cone_outline(bend_deg, LENGTH * high)]
    painter.drawPolygon(QPolygonF(outline))
    painter.end()
    return QIcon(picture)
