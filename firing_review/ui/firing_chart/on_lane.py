"""What is painted on a lane in pixels, under its curves or over them.

Each is one item for the whole lane that is made once: items taken out of a scene while it paints
end the process, and one item is quicker than many.
"""

import pyqtgraph as pg
from PySide6.QtCore import QRectF
from PySide6.QtGui import QFont, QPainter, QTransform

from firing_review.ui.appearance import Appearance
from firing_review.ui.look import Colors


class OnLane(pg.GraphicsObject):
    """Base of an item that paints a lane in pixels of its view."""

    def __init__(self, appearance: Appearance) -> None:
        super().__init__()
        self._appearance = appearance
        self._hours, self._values = (0.0, 1.0), (0.0, 1.0)

    @property
    def colors(self) -> Colors:
        """The colors of now."""
        return self._appearance.colors

    def px(self, pixels: float) -> int:
        """Return a length at the present size."""
        return self._appearance.sizes.px(pixels)

    def small(self, *, bold: bool = False) -> QFont:
        """Return the font of words on a lane."""
        return self._appearance.font(self._appearance.sizes.small, bold=bold)

    def boundingRect(self) -> QRectF:
        """Return the whole view, in its own units."""
        return self.viewRect() or QRectF()

    def viewRangeChanged(self) -> None:
        """Follow the view."""
        self.prepareGeometryChange()

    def paint(self, painter: QPainter, _option: object, _widget: object = None) -> None:
        """Paint in pixels whatever the lane has to show."""
        view = self.getViewBox()
        if view is None:
            return
        self.take_view(view)
        painter.save()
        painter.setTransform(_from_view(self, view) * painter.transform())
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        self.paint_pixels(painter, QRectF(view.boundingRect()))
        painter.restore()

    def take_view(self, view: pg.ViewBox) -> None:
        """Take the hours and values a view shows now."""
        self._hours, self._values = view.viewRange()

    def x_of(self, at_h: float, box: QRectF) -> float:
        """Return the pixel of a moment, or of each of many."""
        low, high = self._hours
        return box.left() + (at_h - low) / ((high - low) or 1.0) * box.width()

    def y_of(self, value: float, box: QRectF) -> float:
        """Return the pixel of a value, or of each of many."""
        low, high = self._values
        return box.bottom() - (value - low) / ((high - low) or 1.0) * box.height()

    def paint_pixels(self, painter: QPainter, box: QRectF) -> None:
        """Paint; ``box`` is the view in pixels."""
        raise NotImplementedError


def _from_view(item: OnLane, view: pg.ViewBox) -> QTransform:
    """Return what turns pixels of the view into the units of the item."""
    return item.itemTransform(view)[0].inverted()[0]
