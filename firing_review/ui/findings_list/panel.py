"""The findings list: what is selected here is framed in the chart, and the other way round."""

from PySide6.QtCore import QItemSelection, Slot
from PySide6.QtWidgets import QWidget

from firing_review.firing.wording import tr
from firing_review.review.review import Review
from firing_review.ui.appearance import Appearance
from firing_review.ui.findings_list.model import FindingsModel, finding_rows
from firing_review.ui.findings_list.view import FindingsView
from firing_review.ui.layouts import fill
from firing_review.ui.showing import Showing


class FindingsList(QWidget):
    """Findings, numbered as in the chart."""

    def __init__(
        self, appearance: Appearance, showing: Showing, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._showing = showing
        self._review: Review | None = None
        self.model = FindingsModel(self)
        self.view = FindingsView(appearance)
        self.view.rows.setModel(self.model)
        fill(self, self.view)
        self.view.rows.selectionModel().selectionChanged.connect(self._on_selected)
        showing.findingChanged.connect(self._on_finding)
        showing.changed.connect(self._refresh)

    def show_review(self, review: Review) -> None:
        """Show the findings of a review."""
        self._review = review
        self._refresh()

    @Slot()
    def _refresh(self) -> None:
        if self._review is None:
            return
        rows = finding_rows(self._review.findings, self._showing.show)
        self.model.set_rows(rows)
        self.view.rows.setVisible(bool(rows))
        self.view.nothing.setVisible(not rows)
        self.view.nothing.setText(self._nothing_found())
        self.view.rows.scheduleDelayedItemsLayout()
        self._on_finding(self._showing.finding)

    def _nothing_found(self) -> str:
        """Say what was looked at, so that an empty list is an answer."""
        if self._review is None or self._review.given.intended is not None:
            return tr("Nothing stands out in this curve.")
        return tr(
            "Nothing stands out in this curve. With the schedule you meant to fire, more can be "
            "said: type it under Schedule."
        )

    @Slot(QItemSelection, QItemSelection)
    def _on_selected(self, _now: QItemSelection, _before: QItemSelection) -> None:
        chosen = self.view.rows.selectionModel().selectedIndexes()
        self._showing.select_finding(chosen[0].row() if chosen else None)

    @Slot(object)
    def _on_finding(self, place: int | None) -> None:
        rows = self.view.rows
        if place is None or place >= self.model.rowCount():
            rows.clearSelection()
            return
        index = self.model.index(place)
        if not rows.selectionModel().isSelected(index):
            rows.setCurrentIndex(index)
        rows.scrollTo(index)
