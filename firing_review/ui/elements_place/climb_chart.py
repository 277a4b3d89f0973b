"""Climb against temperature: this firing and the earlier one it is compared with."""

from enum import StrEnum

import numpy as np
import pyqtgraph as pg
from PySide6.QtGui import QPen
from PySide6.QtWidgets import QSizePolicy

from firing_review.firing.results import ClimbCurve, ElementsJudged
from firing_review.firing.said import N_
from firing_review.firing.units import (
    Floats,
    TemperatureUnit,
    fahrenheit_difference,
    fahrenheit_from_celsius,
)
from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.firing_chart.axes import RoundAxis
from firing_review.ui.still_chart import StillChart

LEAST_PX = 220
DASHES = (None, [8.0, 4.0])
LABEL_AT = 1 / 3
"""Share of the lower line at which both are named: curves fall, so beside it there is room."""


class Quantity(StrEnum):
    """What is drawn over temperature."""

    CLIMB = "climb"
    POWER_OVER_HEAT = "power_over_heat"


TITLES = {
    Quantity.CLIMB: N_("Climb at full output, {unit} per hour"),
    Quantity.POWER_OVER_HEAT: N_("Power over heat taken up, {unit} per hour"),
}


class ClimbChart(StillChart):
    """Two lines at most, each named where it has room; the title stands over them."""

    def __init__(self, appearance: Appearance, quantity: Quantity) -> None:
        name = tr(TITLES[quantity]).format(unit="°")
        super().__init__(appearance, name, axisItems={"left": RoundAxis()})
        self._quantity = quantity
        self.setMinimumHeight(appearance.sizes.px(LEAST_PX))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Ignored)

    def show_curves(self, elements: ElementsJudged, unit: TemperatureUnit) -> None:
        """Draw climb at full output over temperature."""
        self.clear()
        degrees = "°F" if unit is TemperatureUnit.FAHRENHEIT else "°C"
        self._dress(degrees)
        names = (tr("this firing"), tr("earlier"))
        drawn = [
            (name, place, *self._points(curve, unit))
            for place, (name, curve) in enumerate(zip(names, elements.curves, strict=False))
        ]
        drawn = [one for one in drawn if len(one[2])]
        self.setVisible(bool(drawn))
        for _, place, x, y in drawn:
            self.plot(x, y, pen=self._pen(place), connect="finite", antialias=True)
        for name, place, x, y in drawn:
            above = all(np.median(y) >= np.median(other[3]) for other in drawn)
            self._name(name, place, x, y, above=above)

    def _dress(self, degrees: str) -> None:
        colors, sizes = self._appearance.colors, self._appearance.sizes
        self.dress_axes(bottom=tr("Temperature, {unit}").format(unit=degrees))
        for side in ("left", "bottom"):
            self.getAxis(side).setStyle(maxTickLevel=0)
        self.getAxis("left").show_grid(colors)
        self.getAxis("left").larger = sizes.scale
        self.getAxis("left").setWidth(sizes.px(44))
        words = tr(TITLES[self._quantity]).format(unit=degrees)
        self.setTitle(words, color=colors.ink, size=f"{sizes.small}px")

    def _pen(self, place: int) -> QPen:
        colors = self._appearance.colors
        width = 2 * self.devicePixelRatioF() * self._appearance.sizes.scale
        pen = pg.mkPen(colors.ink if place == 0 else colors.muted, width=width)
        if DASHES[place]:
            pen.setDashPattern(DASHES[place])
        return pen

    def _points(self, curve: ClimbCurve, unit: TemperatureUnit) -> tuple[Floats, Floats]:
        climbs = self._quantity is Quantity.CLIMB
        x = curve.temperature_c
        y = curve.full_climb_c_per_h if climbs else curve.power_over_heat_c_per_h
        if unit is TemperatureUnit.FAHRENHEIT:
            x, y = fahrenheit_from_celsius(x), fahrenheit_difference(y)
        good = np.isfinite(y)
        return x[good], y[good]

    def _name(self, name: str, place: int, x: Floats, y: Floats, *, above: bool) -> None:
        """Write a name right above its line, or left below it."""
        colors = self._appearance.colors
        color = colors.ink if place == 0 else colors.muted
        label = pg.TextItem(name, color=color, anchor=(0, 1) if above else (1, 0))
        label.setFont(self._appearance.font(self._appearance.sizes.small))
        at = int(LABEL_AT * (len(x) - 1))
        label.setPos(float(x[at]), float(y[at]))
        self.addItem(label)
