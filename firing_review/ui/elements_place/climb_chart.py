"""Climb against temperature: this firing and the earlier one it is compared with."""

from enum import StrEnum

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QSizePolicy

from firing_review.firing.results import ClimbCurve, ElementsJudged
from firing_review.firing.said import N_
from firing_review.firing.units import (
    TemperatureUnit,
    fahrenheit_difference,
    fahrenheit_from_celsius,
)
from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance

LEAST_PX = 220
DASHES = (None, [8.0, 4.0])


class Quantity(StrEnum):
    """What is drawn over temperature."""

    CLIMB = "climb"
    POWER_OVER_HEAT = "power_over_heat"


TITLES = {
    Quantity.CLIMB: N_("Climb at full output, {unit} per hour"),
    Quantity.POWER_OVER_HEAT: N_("Power over heat taken up, {unit} per hour"),
}


class ClimbChart(pg.PlotWidget):
    """Two lines at most, each named at its end."""

    def __init__(self, appearance: Appearance, quantity: Quantity) -> None:
        super().__init__(enableMenu=False)
        self._appearance, self._quantity = appearance, quantity
        self.setMouseEnabled(x=False, y=False)
        self.hideButtons()
        self.setAccessibleName(tr(TITLES[quantity]).format(unit="°"))
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setMinimumHeight(LEAST_PX)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Ignored)

    def show_curves(self, elements: ElementsJudged, unit: TemperatureUnit) -> None:
        """Draw climb at full output over temperature."""
        self.clear()
        colors, sizes = self._appearance.colors, self._appearance.sizes
        self.setBackground(QColor(colors.page))
        font = self._appearance.font(sizes.small)
        for side in ("left", "bottom"):
            axis = self.getAxis(side)
            axis.setPen(colors.line)
            axis.setTextPen(colors.muted)
            axis.setStyle(tickFont=font)
        degrees = "°F" if unit is TemperatureUnit.FAHRENHEIT else "°C"
        style = {"color": colors.muted, "font-size": f"{sizes.small}px"}
        self.setLabel("bottom", tr("Temperature, {unit}").format(unit=degrees), **style)
        self.setLabel("left", tr(TITLES[self._quantity]).format(unit=degrees), **style)
        names = (tr("this firing"), tr("earlier"))
        for place, curve in enumerate(elements.curves[: len(names)]):
            self._draw(place, names[place], curve, unit)

    def _draw(self, place: int, name: str, curve: ClimbCurve, unit: TemperatureUnit) -> None:
        climbs = self._quantity is Quantity.CLIMB
        x = curve.temperature_c
        y = curve.full_climb_c_per_h if climbs else curve.power_over_heat_c_per_h
        if unit is TemperatureUnit.FAHRENHEIT:
            x, y = fahrenheit_from_celsius(x), fahrenheit_difference(y)
        good = np.isfinite(y)
        if not good.any():
            return
        colors = self._appearance.colors
        pen = pg.mkPen(colors.ink if place == 0 else colors.muted, width=2)
        if DASHES[place]:
            pen.setDashPattern(DASHES[place])
        self.plot(x[good], y[good], pen=pen, connect="finite")
        label = pg.TextItem(name, color=colors.ink if place == 0 else colors.muted, anchor=(0, 1))
        label.setFont(self._appearance.font(self._appearance.sizes.small))
        first = int(np.flatnonzero(good)[0])
        label.setPos(float(x[first]), float(y[first]))
        self.addItem(label)
