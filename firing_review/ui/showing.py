"""How a review is shown: unit, hours or clock, and the one selection that runs through all."""

from PySide6.QtCore import QObject, Signal

from firing_review.firing.units import TemperatureUnit
from firing_review.report.wording import Show
from firing_review.ui.preferences import Preferences, TimeShown


class Showing(QObject):
    """Choices of the screen; they change how a review reads, never what it says.

    Signals
    -------
    changed : unit or time axis changed.
    findingChanged : another finding, or none, is selected; carries its place in the review.
    """

    changed = Signal()
    findingChanged = Signal(object)

    def __init__(self, preferences: Preferences, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._preferences = preferences
        self.unit = preferences.unit
        self.time_shown = preferences.time_shown
        self.finding: int | None = None

    @property
    def show(self) -> Show:
        """The unit as sentences want it."""
        return Show(self.unit.value)

    def choose_unit(self, unit: TemperatureUnit) -> None:
        """Show temperatures in another unit, now and next time."""
        self._preferences.unit = unit
        self._set_unit(unit)

    def switch_unit(self) -> None:
        """Change from °C to °F or back."""
        units = (TemperatureUnit.CELSIUS, TemperatureUnit.FAHRENHEIT)
        self.choose_unit(units[self.unit is units[0]])

    def switch_time(self) -> None:
        """Change from hours to the clock or back."""
        times = (TimeShown.ELAPSED, TimeShown.CLOCK)
        self.choose_time(times[self.time_shown is times[0]])

    def follow_log(self, unit: TemperatureUnit) -> None:
        """Show the log's own unit as long as the person chose none."""
        if not self._preferences.unit_is_chosen:
            self._set_unit(unit)

    def _set_unit(self, unit: TemperatureUnit) -> None:
        if unit is not self.unit:
            self.unit = unit
            self.changed.emit()

    def choose_time(self, shown: TimeShown) -> None:
        """Show hours since the first sample, or the clock."""
        self._preferences.time_shown = shown
        if shown is not self.time_shown:
            self.time_shown = shown
            self.changed.emit()

    def select_finding(self, place: int | None) -> None:
        """Select a finding by its place in the review, or none."""
        if place != self.finding:
            self.finding = place
            self.findingChanged.emit(place)
