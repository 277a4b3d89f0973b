"""The small curve of a log as it would be read."""

import numpy as np
import pyqtgraph as pg
from PySide6.QtWidgets import QSizePolicy

from firing_review.firing.log import FiringLog
from firing_review.firing.units import TemperatureUnit, fahrenheit_from_celsius
from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.still_chart import StillChart

LEAST_PX = 170
LINES = 12
"""More channels than this cannot be told apart in a small picture."""


class Curve(StillChart):
    """Every temperature over the hours; it cannot be moved or zoomed."""

    def __init__(self, appearance: Appearance) -> None:
        super().__init__(appearance, tr("The curve as it would be read"))
        self.setMinimumHeight(appearance.sizes.px(LEAST_PX))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Ignored)

    def show_log(self, log: FiringLog | None, *, unit_is_open: bool = False) -> None:
        """Draw the temperatures of an outline in the unit they are read in, nothing without one.

        While the unit is open the axis names none.
        """
        self.clear()
        self._dress(None if log is None or unit_is_open else log.unit_read)
        if log is None:
            return
        colors = self._appearance.colors
        for place, channel in enumerate(log.temperatures[:LINES]):
            values = channel.values
            if log.unit_read is TemperatureUnit.FAHRENHEIT:
                values = fahrenheit_from_celsius(values)
            color = (colors.accent, colors.cold, colors.fine, colors.set_point)[place % 4]
            pen = pg.mkPen(color, width=2)
            self.plot(log.elapsed_h, np.asarray(values), pen=pen, connect="finite")

    def _dress(self, unit: TemperatureUnit | None) -> None:
        words = tr("Temperature, {unit}") if unit else tr("Temperature as in the file")
        degrees = words.format(unit=f"°{unit.value}") if unit else words
        self.dress_axes(left=degrees, bottom=tr("Hours"))
