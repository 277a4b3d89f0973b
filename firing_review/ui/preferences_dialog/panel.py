"""Preferences: each is used the moment it is chosen, so there is nothing to confirm."""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QSize, Signal, Slot
from PySide6.QtWidgets import (
    QDialog,
    QGridLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from firing_review.firing.said import N_
from firing_review.firing.units import TemperatureUnit
from firing_review.firing.wording import language, tr
from firing_review.io.languages import NAMES
from firing_review.ui.appearance import SCALES
from firing_review.ui.chooser import Chooser
from firing_review.ui.layouts import EDGE, fill_dialog, size_within_screen
from firing_review.ui.preferences import Brightness, TimeShown
from firing_review.ui.tick import Tick
from firing_review.ui.tools import Tools

BRIGHTNESS_WORDS = {
    Brightness.SYSTEM: N_("As the system"),
    Brightness.LIGHT: N_("Light"),
    Brightness.DARK: N_("Dark"),
}
TIME_WORDS = {TimeShown.ELAPSED: N_("Hours since the start"), TimeShown.CLOCK: N_("Clock")}
UNIT_WORDS = {TemperatureUnit.CELSIUS: "°C", TemperatureUnit.FAHRENHEIT: "°F"}


class PreferencesDialog(QDialog):
    """Language, units, time, brightness, size of text and of what is pressed.

    Signals
    -------
    languageChosen : the language everything is to be shown in, this dialog too.
    """

    languageChosen = Signal(object)

    def __init__(self, tools: Tools, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._tools = tools
        self.setWindowTitle(tr("Preferences"))
        self._rows = QGridLayout()
        self._rows.setHorizontalSpacing(16)
        self._rows.setVerticalSpacing(8)
        self.language = self._choice(tr("Lan&guage"), NAMES, self.languageChosen.emit)
        self.unit = self._choice(tr("&Temperatures in"), UNIT_WORDS, self._on_unit)
        self.time = self._choice(tr("T&ime as"), TIME_WORDS, self._on_time)
        self.brightness = self._choice(tr("&Brightness"), BRIGHTNESS_WORDS, self._on_brightness)
        sizes = {scale: f"{scale:.0%}".replace("%", " %") for scale in SCALES}
        self.scale = self._choice(tr("&Size of text"), sizes, self._on_scale)
        self.large = Tick(tr("&Large buttons, for gloves or a touch screen"))
        self.close_button = QPushButton(tr("&Close"))
        self._lay_out()
        self._show()
        self.large.clicked.connect(self._on_large)
        self.close_button.clicked.connect(self.accept)

    def _choice(
        self, name: str, words: Mapping[object, str], chosen: Callable[[object], None]
    ) -> Chooser:
        chooser = Chooser()
        chooser.setAccessibleName(name.replace("&", ""))
        for value, word in words.items():
            chooser.addItem(tr(word), value)
        chooser.show_whole_words()
        chooser.activated.connect(lambda place: chosen(list(words)[place]))
        label = QLabel(name)
        label.setBuddy(chooser)
        row = self._rows.rowCount()
        self._rows.addWidget(label, row, 0)
        self._rows.addWidget(chooser, row, 1)
        return chooser

    def _lay_out(self) -> None:
        page = QWidget()
        inside = QVBoxLayout(page)
        inside.addLayout(self._rows)
        inside.addWidget(self.large)
        inside.addStretch(1)
        fill_dialog(self, page, self.close_button)
        px = self._tools.appearance.sizes.px
        for widget in self.findChildren(QWidget):
            widget.ensurePolished()  # before that its words are measured in another size
        below = QSize(0, self.close_button.sizeHint().height() + EDGE)
        wanted = (page.minimumSizeHint() + below).expandedTo(QSize(px(520), px(400)))
        size_within_screen(self, wanted)

    def _show(self) -> None:
        preferences, showing = self._tools.preferences, self._tools.showing
        for chooser, value in (
            (self.language, language()),
            (self.unit, showing.unit),
            (self.time, showing.time_shown),
            (self.brightness, preferences.brightness),
        ):
            chooser.setCurrentIndex(chooser.findData(value))
        nearest = min(SCALES, key=lambda scale: abs(scale - preferences.scale))
        self.scale.setCurrentIndex(SCALES.index(nearest))
        self.large.setChecked(preferences.large_targets)

    def _on_unit(self, unit: TemperatureUnit) -> None:
        self._tools.showing.choose_unit(unit)

    def _on_time(self, shown: TimeShown) -> None:
        self._tools.showing.choose_time(shown)

    def _on_brightness(self, brightness: Brightness) -> None:
        self._tools.appearance.choose(brightness)

    def _on_scale(self, scale: float) -> None:
        self._tools.appearance.rescale(scale)

    @Slot()
    def _on_large(self) -> None:
        self._tools.appearance.choose_targets(large=self.large.isChecked())
