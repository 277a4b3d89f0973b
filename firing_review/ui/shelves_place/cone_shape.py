"""A cone as a shape of the screen: its path, its tip, and the bend of a tip that was dragged."""

import math

from PySide6.QtCore import QPointF
from PySide6.QtGui import QPainterPath, QPolygonF

from firing_review.physics.bend_law import START_DEG
from firing_review.report.cone_outline import centre_line, cone_outline


def bend_from_tip(foot: QPointF, tip: QPointF) -> float:
    """Return the bend for a tip dragged to a place [°], from 0 to 130."""
    angle = math.degrees(math.atan2(tip.x() - foot.x(), foot.y() - tip.y()))
    if angle < -90.0:
        angle += 360.0
    bend = (angle - START_DEG) * 90.0 / (90.0 - START_DEG)
    return min(max(bend, 0.0), 130.0)


def cone_path(bend_deg: float, length: float) -> QPainterPath:
    """Return the outline of a cone with its foot at (0, 0)."""
    path = QPainterPath()
    path.addPolygon(QPolygonF([QPointF(x, y) for x, y in cone_outline(bend_deg, length)]))
    path.closeSubpath()
    return path


def tip_of(bend_deg: float, length: float) -> QPointF:
    """Return where the tip of a cone with its foot at (0, 0) is."""
    return QPointF(*centre_line(bend_deg, length)[-1])
