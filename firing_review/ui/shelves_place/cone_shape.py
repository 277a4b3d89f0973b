"""A cone as it stands: a slim pyramid that leans, then bends about its foot."""

import math

from PySide6.QtCore import QPointF
from PySide6.QtGui import QPainterPath

from firing_review.physics.bend_law import START_DEG

UPRIGHT_LEAN_DEG = 4.0
"""Lean of the foot itself; the rest of the bend is spread along the cone [°]."""
FLATTEST_DEG = 176.0
"""A cone past its end point lies down; its centre line turns no farther than this [°]."""
STEPS = 24
FOOT_SHARE, TIP_SHARE = 0.24, 0.05
"""Width of foot and tip as a share of the length."""


def lean_deg(bend_deg: float) -> float:
    """Return the angle from foot to tip against the vertical [°]: 8 unmoved, 90 end point."""
    return START_DEG + bend_deg * (90.0 - START_DEG) / 90.0


def bend_from_tip(foot: QPointF, tip: QPointF) -> float:
    """Return the bend for a tip dragged to a place [°], from 0 to 130."""
    angle = math.degrees(math.atan2(tip.x() - foot.x(), foot.y() - tip.y()))
    if angle < -90.0:
        angle += 360.0
    bend = (angle - START_DEG) * 90.0 / (90.0 - START_DEG)
    return min(max(bend, 0.0), 130.0)


def centre_line(bend_deg: float, length: float) -> list[QPointF]:
    """Return points from foot (0, 0) to tip; y grows downwards as on a screen."""
    turn = min(2.0 * (lean_deg(bend_deg) - UPRIGHT_LEAN_DEG), FLATTEST_DEG)
    squash = 1.0 if bend_deg <= 90.0 else max(1.0 - (bend_deg - 90.0) / 50.0, 0.25)
    points, x, y = [QPointF(0.0, 0.0)], 0.0, 0.0
    for step in range(STEPS):
        heading = math.radians(UPRIGHT_LEAN_DEG + turn * (step + 0.5) / STEPS)
        x += math.sin(heading) * length / STEPS
        y -= math.cos(heading) * length / STEPS
        points.append(QPointF(x, y * squash))
    return points


def cone_path(bend_deg: float, length: float) -> QPainterPath:
    """Return the outline of a cone with its foot at (0, 0)."""
    line = centre_line(bend_deg, length)
    left, right = [], []
    for index, point in enumerate(line):
        before, after = line[max(index - 1, 0)], line[min(index + 1, len(line) - 1)]
        dx, dy = after.x() - before.x(), after.y() - before.y()
        norm = math.hypot(dx, dy) or 1.0
        share = index / (len(line) - 1)
        half = length * (FOOT_SHARE + (TIP_SHARE - FOOT_SHARE) * share) / 2.0
        across = QPointF(-dy / norm * half, dx / norm * half)
        left.append(point + across)
        right.append(point - across)
    path = QPainterPath(left[0])
    for point in [*left[1:], *reversed(right)]:
        path.lineTo(point)
    path.closeSubpath()
    return path


def tip_of(bend_deg: float, length: float) -> QPointF:
    """Return where the tip of a cone with its foot at (0, 0) is."""
    return centre_line(bend_deg, length)[-1]
