"""A cone as it stands: a slim pyramid that leans, then bends about its foot.

Points are (x, y) with the foot at (0, 0); y grows downwards, as on a screen or a page.
"""

import math

from firing_review.physics.bend_law import START_DEG

Point = tuple[float, float]

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


def centre_line(bend_deg: float, length: float) -> list[Point]:
    """Return points from foot to tip of a cone of some length, bent by ``bend_deg`` [°]."""
    turn = min(2.0 * (lean_deg(bend_deg) - UPRIGHT_LEAN_DEG), FLATTEST_DEG)
    squash = 1.0 if bend_deg <= 90.0 else max(1.0 - (bend_deg - 90.0) / 50.0, 0.25)
    points, x, y = [(0.0, 0.0)], 0.0, 0.0
    for step in range(STEPS):
        heading = math.radians(UPRIGHT_LEAN_DEG + turn * (step + 0.5) / STEPS)
        x += math.sin(heading) * length / STEPS
        y -= math.cos(heading) * length / STEPS
        points.append((x, y * squash))
    return points


def cone_outline(bend_deg: float, length: float) -> list[Point]:
    """Return the corners of a cone seen from the side, up one flank and down the other."""
    line = centre_line(bend_deg, length)
    left, right = [], []
    for index, (x, y) in enumerate(line):
        before, after = line[max(index - 1, 0)], line[min(index + 1, len(line) - 1)]
        dx, dy = after[0] - before[0], after[1] - before[1]
        norm = math.hypot(dx, dy) or 1.0
        share = index / (len(line) - 1)
        half = length * (FOOT_SHARE + (TIP_SHARE - FOOT_SHARE) * share) / 2.0
        across = (-dy / norm * half, dx / norm * half)
        left.append((x + across[0], y + across[1]))
        right.append((x - across[0], y - across[1]))
    return [*left, *reversed(right)]
