"""The chart's own menu, at its button and under the right mouse button."""

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QMenu, QWidget

from firing_review.firing.said import N_
from firing_review.firing.wording import tr
from firing_review.ui.firing_chart.earlier import LaidOver

LAID_WORDS = {
    LaidOver.NOT: N_("Do not show earlier firings"),
    LaidOver.START: N_("Lay earlier firings over the &start"),
    LaidOver.TEMPERATURE: N_("Lay earlier firings over {temperature} on the way &up"),
    LaidOver.TOP: N_("Lay earlier firings over the &top"),
}


class ChartMenu(QObject):
    """What can be switched on the chart, and taken from it.

    Signals
    -------
    laid : how earlier firings are laid over this one.
    """

    laid = Signal(object)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.menu = QMenu(parent)
        self.note = self.menu.addAction(tr("Pin a &note here…"))
        self.whole = self.menu.addAction(tr("Show the &whole firing"))
        self.menu.addSeparator()
        self.ranges = self.menu.addAction(tr("&Ranges that matter for ware"))
        self.ranges.setCheckable(True)
        self.menu.addSeparator()
        self._group = QActionGroup(self)
        self._laid = {laid: self._add_laid(laid) for laid in LaidOver}
        self._laid[LaidOver.NOT].setChecked(True)
        self._group.triggered.connect(self._on_laid)
        self.menu.addSeparator()
        self.copy_picture = self.menu.addAction(tr("Copy the &picture"))
        self.copy_data = self.menu.addAction(tr("Copy the &figures in view"))
        self.save_picture = self.menu.addAction(tr("Sa&ve the picture…"))

    def _add_laid(self, laid: LaidOver) -> QAction:
        action = self.menu.addAction(tr(LAID_WORDS[laid]))
        action.setCheckable(True)
        action.setData(laid.value)
        self._group.addAction(action)
        return action

    def show_earlier(self, count: int, temperature: str) -> None:
        """Say where earlier firings would be laid over; without any there is nothing to lay."""
        for laid, action in self._laid.items():
            action.setEnabled(count > 0)
            action.setText(tr(LAID_WORDS[laid]).format(temperature=temperature))

    def choose(self, laid: LaidOver) -> None:
        """Show a choice as made."""
        self._laid[laid].setChecked(True)

    @Slot(QAction)
    def _on_laid(self, action: QAction) -> None:
        self.laid.emit(LaidOver(action.data()))
