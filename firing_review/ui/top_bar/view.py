"""The top bar's layout."""

from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSizePolicy,
    QToolButton,
    QWidget,
)

from firing_review.firing.units import TemperatureUnit
from firing_review.firing.wording import tr
from firing_review.ui.chooser import Chooser
from firing_review.ui.elided import Elided
from firing_review.ui.preferences import TimeShown
from firing_review.ui.switch import Switch


class TopBarView(QFrame):
    """Layout only."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("topbar")
        self.title = Elided()
        self.title.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.title.setAccessibleName(tr("What is open"))
        self.kept = QLabel()
        self.kept.setProperty("part", "quiet")
        self.goal = Chooser()
        self.goal.setMaxVisibleItems(14)
        self.goal.setMinimumContentsLength(18)
        self.goal.setAccessibleName(tr("Goal cone"))
        self.goal.setAccessibleDescription(
            tr("The cone this firing was meant for, with its temperature at 60 °C an hour")
        )
        self.goal.setToolTip(self.goal.accessibleDescription())
        units = [(TemperatureUnit.CELSIUS, "°C"), (TemperatureUnit.FAHRENHEIT, "°F")]
        self.units = Switch(tr("Temperatures in"), units)
        times = [(TimeShown.ELAPSED, tr("Hours")), (TimeShown.CLOCK, tr("Clock"))]
        self.times = Switch(tr("Time as"), times)
        self.undo = QPushButton(tr("Undo"))
        self.redo = QPushButton(tr("Redo"))
        for button in (self.undo, self.redo):
            button.setProperty("part", "half")
        self.menu = QToolButton()
        self.menu.setText(tr("&Menu"))
        self.menu.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self._lay_out()

    def _lay_out(self) -> None:
        layout = QHBoxLayout(self)
        layout.setContentsMargins(16, 6, 12, 6)
        layout.setSpacing(10)
        layout.addWidget(self.title, 1)
        for widget in (self.kept, self.goal, self.units, self.times, self.undo, self.redo):
            layout.addWidget(widget)
        layout.addWidget(self.menu)
