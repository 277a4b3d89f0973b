"""The top bar's layout."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSizePolicy,
    QWidget,
)

from firing_review.firing.units import TemperatureUnit
from firing_review.firing.wording import tr
from firing_review.ui.chooser import Chooser
from firing_review.ui.menu_button import MenuButton
from firing_review.ui.preferences import TimeShown
from firing_review.ui.switch import Switch
from firing_review.ui.top_bar.title import Title

TITLE_LEAST_PX = 180


class TopBarView(QFrame):
    """Layout only."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("topbar")
        self.title = Title()
        self.title.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.kept = QLabel()
        self.kept.setProperty("part", "quiet")
        self.goal = Chooser()
        self.goal.setMaxVisibleItems(14)
        self.goal.show_whole_words()
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
        self.menu = MenuButton()
        self._lay_out()

    def _lay_out(self) -> None:
        self.shown = _row(self.goal, self.units, self.times)
        self.edits = _row(self.kept, self.undo, self.redo)
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(16, 6, 12, 6)
        self._grid.setHorizontalSpacing(10)
        self._grid.setVerticalSpacing(4)
        self._grid.setColumnStretch(0, 1)
        self._grid.addWidget(self.title, 0, 0)
        self._grid.addWidget(self.shown, 0, 1)
        self._grid.addWidget(self.edits, 0, 2)
        self._grid.addWidget(self.menu, 0, 3)

    def minimumSizeHint(self) -> QSize:
        """Ask for no more than the narrow layout needs, so that the window can shrink to it."""
        edges = self._grid.contentsMargins()
        width = self.shown.minimumSizeHint().width() + edges.left() + edges.right()
        return QSize(width, super().minimumSizeHint().height())

    def fit(self, room: int) -> None:
        """Put the choices beside the title, or below it when there is no room."""
        parts = (self.shown, self.edits, self.menu)
        needed = sum(part.sizeHint().width() for part in parts) + TITLE_LEAST_PX
        self._grid.removeWidget(self.shown)
        if needed > room:
            self._grid.addWidget(self.shown, 1, 0, 1, 4, Qt.AlignmentFlag.AlignLeft)
        else:
            self._grid.addWidget(self.shown, 0, 1)


def _row(*widgets: QWidget) -> QWidget:
    part = QWidget()
    row = QHBoxLayout(part)
    row.setContentsMargins(0, 0, 0, 0)
    row.setSpacing(10)
    for widget in widgets:
        row.addWidget(widget)
    return part
