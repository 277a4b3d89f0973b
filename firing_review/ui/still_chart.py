"""A chart that is only looked at: nothing in it can be moved, and Tab goes past it."""

import pyqtgraph as pg
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor

from firing_review.ui.appearance import Appearance


class StillChart(pg.PlotWidget):
    """Axes in the present colors and sizes; what is drawn comes from whoever derives from it."""

    def __init__(self, appearance: Appearance, name: str, **options: object) -> None:
        super().__init__(enableMenu=False, **options)
        self._appearance = appearance
        self.setMouseEnabled(x=False, y=False)
        self.hideButtons()
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleName(name)

    def dress_axes(self, **words: str) -> None:
        """Follow the present colors and sizes, and name the axes, as in ``left="Hours"``."""
        colors, sizes = self._appearance.colors, self._appearance.sizes
        self.setBackground(QColor(colors.page))
        # the highest number stands half above the axis
        self.getPlotItem().layout.setContentsMargins(1.0, 0.7 * sizes.small, 1.0, 1.0)
        style = {"color": colors.muted, "font-size": f"{sizes.small}px"}
        for side in ("left", "bottom"):
            axis = self.getAxis(side)
            axis.enableAutoSIPrefix(False)
            axis.setPen(colors.line)
            axis.setTextPen(colors.muted)
            axis.setStyle(tickFont=self._appearance.font(sizes.small))
            if side in words:
                self.setLabel(side, words[side], **style)
