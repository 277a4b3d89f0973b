"""A plot: axes about a view, and nothing else."""

from collections.abc import Mapping

import pyqtgraph as pg
from PySide6.QtWidgets import QGraphicsGridLayout, QGraphicsItem, QSizePolicy

PLACES = {"left": (0, 0), "right": (0, 2), "bottom": (1, 1)}
"""Row and column of each axis; the view stands at (0, 1)."""


class Plot(pg.GraphicsWidget):
    """Axes about a view.

    The plot of pyqtgraph also makes a menu of several dozen controls, never opened here: for three
    lanes that took a third of the time in which the place "Firing" is made.
    """

    def __init__(self, view: pg.ViewBox, axes: Mapping[str, pg.AxisItem]) -> None:
        super().__init__()
        self._view, self._axes = view, axes
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        grid = QGraphicsGridLayout(self)
        grid.setContentsMargins(1, 1, 1, 1)
        grid.setSpacing(0)
        grid.addItem(view, 0, 1)
        for side, axis in axes.items():
            axis.linkToView(view)
            grid.addItem(axis, *PLACES[side])

    def getViewBox(self) -> pg.ViewBox:
        """Return the view."""
        return self._view

    def getAxis(self, side: str) -> pg.AxisItem:
        """Return the axis at a side."""
        return self._axes[side]

    def addItem(self, item: QGraphicsItem) -> None:
        """Draw an item in the view; what is in view does not follow it."""
        self._view.addItem(item, ignoreBounds=True)
