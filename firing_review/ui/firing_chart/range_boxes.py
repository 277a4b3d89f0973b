"""The ranges that matter for ware, as boxes of hours and temperatures on a lane."""

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF

from firing_review.ui.firing_chart.on_lane import OnLane


@dataclass(frozen=True)
class RangeBox:
    """A range that matters for ware: the hours the kiln was in it, its ends, its way, its name."""

    name: str
    start_h: float
    end_h: float
    low: float
    high: float
    climbing: bool


def areas_in_view(
    boxes: list[RangeBox], lane: OnLane, view: QRectF
) -> list[tuple[RangeBox, QRectF]]:
    """Return the boxes in view, each with where it lies [px]."""
    found = []
    for one in boxes:
        left, right = lane.x_of(one.start_h, view), lane.x_of(one.end_h, view)
        top, bottom = lane.y_of(one.high, view), lane.y_of(one.low, view)
        area = QRectF(QPointF(left, top), QPointF(right, bottom)).intersected(view)
        if area.width() > 1 and area.height() > 1:
            found.append((one, area))
    return found
