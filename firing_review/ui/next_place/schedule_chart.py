"""The new schedule drawn over the old one."""

import numpy as np
import pyqtgraph as pg
from PySide6.QtWidgets import QSizePolicy

from firing_review.analysis.plan_line import plan_line
from firing_review.firing.schedule import Schedule
from firing_review.firing.units import TemperatureUnit, fahrenheit_from_celsius
from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.still_chart import StillChart

ROOM_C = 20.0
LEAST_PX = 180


class ScheduleChart(StillChart):
    """Two lines: as it was (dashes) and as it would be."""

    def __init__(self, appearance: Appearance) -> None:
        super().__init__(appearance, tr("The new schedule over the old one"))
        self.setMinimumHeight(appearance.sizes.px(LEAST_PX))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Ignored)

    def show_schedules(self, old: Schedule, new: Schedule, unit: TemperatureUnit) -> None:
        """Draw both."""
        self.clear()
        colors, sizes = self._appearance.colors, self._appearance.sizes
        degrees = "°F" if unit is TemperatureUnit.FAHRENHEIT else "°C"
        temperature = tr("Temperature, {unit}").format(unit=degrees)
        self.dress_axes(left=temperature, bottom=tr("Hours"))
        dashes = pg.mkPen(colors.muted, width=2)
        dashes.setDashPattern([4.0, 3.0])
        lines = (
            (old, dashes, tr("as it was")),
            (new, pg.mkPen(colors.accent, width=2), tr("next")),
        )
        self.setYRange(
            0.0, 1.15 * (fahrenheit_from_celsius(new.top_c) if degrees == "°F" else new.top_c)
        )
        for place, (schedule, pen, name) in enumerate(lines):
            hours, values = plan_line(schedule, ROOM_C)
            values = fahrenheit_from_celsius(values) if degrees == "°F" else values
            self.plot(hours, np.asarray(values), pen=pen)
            if place == 0 and old == new:
                continue
            label = pg.TextItem(name, color=pen.color(), anchor=(1, -0.3 if place == 0 else 1.1))
            label.setFont(self._appearance.font(sizes.small))
            label.setPos(float(hours[-1]), float(values[-1]))
            self.addItem(label)
