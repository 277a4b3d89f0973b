"""Stretches of time shaded behind the curves.

Bands are made once and moved: items taken out of a scene while it paints end the process.
"""

from dataclasses import dataclass

import pyqtgraph as pg
from PySide6.QtCore import QLineF, QRectF
from PySide6.QtGui import QColor, QPainter
from PySide6.QtWidgets import QGraphicsItem

from firing_review.ui.appearance import Colors


@dataclass(frozen=True)
class Shade:
    """A band of hours; the chosen one is stronger and has edges."""

    start_h: float
    end_h: float
    chosen: bool


class Band(pg.GraphicsObject):
    """One band over the whole height of its lane."""

    def __init__(self) -> None:
        super().__init__()
        self._shade: Shade | None = None
        self._brush = pg.mkBrush(None)
        self._pen = pg.mkPen(None)
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemClipsToShape, False)
        self.setVisible(False)

    def show_shade(self, shade: Shade | None, colors: Colors) -> None:
        """Move the band, or hide it."""
        self.prepareGeometryChange()
        self._shade = shade
        if shade is not None:
            fill = colors.band_chosen if shade.chosen else colors.band
            self._brush = pg.mkBrush(QColor(fill))
            self._pen = pg.mkPen(colors.accent, width=2) if shade.chosen else pg.mkPen(None)
        self.setVisible(shade is not None)
        self.update()

    def boundingRect(self) -> QRectF:
        """Return the stretch of time over the height of the view."""
        view = self.viewRect()
        if self._shade is None or view is None:
            return QRectF()
        width = self._shade.end_h - self._shade.start_h
        return QRectF(self._shade.start_h, view.top(), width, view.height())

    def viewRangeChanged(self) -> None:
        """Follow the height of the view."""
        self.prepareGeometryChange()

    def paint(self, painter: QPainter, _option: object, _widget: object = None) -> None:
        """Fill the band; draw the edges of the chosen one."""
        box = self.boundingRect()
        painter.fillRect(box, self._brush)
        if self._shade is not None and self._shade.chosen:
            painter.setPen(self._pen)
            painter.drawLine(QLineF(box.topLeft(), box.bottomLeft()))
            painter.drawLine(QLineF(box.topRight(), box.bottomRight()))
