"""The top bar's behaviour."""

from PySide6.QtCore import Signal, Slot
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget

from firing_review.firing.cones import ConeNumber
from firing_review.firing.said import Said
from firing_review.firing.wording import tr
from firing_review.report import wording
from firing_review.review.review import Review
from firing_review.ui.layouts import fill
from firing_review.ui.preferences import TimeShown
from firing_review.ui.showing import Showing
from firing_review.ui.top_bar.cone_choices import cone_choices
from firing_review.ui.top_bar.view import TopBarView


class TopBar(QWidget):
    """Title, goal cone, units, undo, menu.

    Signals
    -------
    goalChosen : a cone, or None.
    titleEdited : the title as it was typed.
    """

    goalChosen = Signal(object)
    titleEdited = Signal(str)

    def __init__(self, showing: Showing, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._showing = showing
        self._goals: list[ConeNumber | None] = []
        self._has_clock = True
        self.view = TopBarView()
        fill(self, self.view)
        self.view.units.chosen.connect(showing.choose_unit)
        self.view.times.chosen.connect(showing.choose_time)
        self.view.goal.activated.connect(self._on_goal)
        self.view.title.edited.connect(self.titleEdited)
        showing.changed.connect(self._refresh)
        self._refresh()

    def show_review(self, review: Review) -> None:
        """Show what is open."""
        given = review.given
        self.view.title.show_review(review)
        self._has_clock = given.log.started_at is not None
        self._show_time()
        self.view.goal.setCurrentIndex(self._goals.index(given.goal_cone))

    def show_edits(self, undo: Said | None, redo: Said | None, kept: str) -> None:
        """Show what can be undone, and whether the edits are kept."""
        self.view.undo.setEnabled(undo is not None)
        self.view.redo.setEnabled(redo is not None)
        for button, word, label in (
            (self.view.undo, tr("Undo"), undo),
            (self.view.redo, tr("Redo"), redo),
        ):
            named = f"{word}: {wording.render(label)}" if label is not None else word
            button.setToolTip(named)
            button.setAccessibleName(named)
        self.view.kept.setText(tr(kept))
        self.view.kept.setVisible(bool(kept))

    @Slot()
    def _refresh(self) -> None:
        self.view.units.show_value(self._showing.unit)
        self._show_time()
        chosen = self.view.goal.currentIndex()
        choices = cone_choices(self._showing.show)
        self._goals = [cone for cone, _ in choices]
        self.view.goal.clear()
        self.view.goal.addItems([text for _, text in choices])
        self.view.goal.setCurrentIndex(max(chosen, 0))

    def _show_time(self) -> None:
        """Show what the time is told as: by the clock only where the log has one."""
        self.view.times.button(TimeShown.CLOCK).setEnabled(self._has_clock)
        shown = self._showing.time_shown if self._has_clock else TimeShown.ELAPSED
        self.view.times.show_value(shown)

    @Slot(int)
    def _on_goal(self, place: int) -> None:
        self.goalChosen.emit(self._goals[place])

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lay out for the new width."""
        super().resizeEvent(event)
        self.view.fit(event.size().width())
