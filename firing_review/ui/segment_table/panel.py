"""The segment table; choosing a segment puts the chart's cursor at its beginning."""

from PySide6.QtCore import QItemSelection, Signal, Slot
from PySide6.QtWidgets import QVBoxLayout, QWidget

from firing_review.firing.wording import tr, trn, written
from firing_review.physics.cones import rank_label
from firing_review.report.segment_rows import SegmentRow, segment_rows
from firing_review.review.review import Review
from firing_review.ui.appearance import Appearance
from firing_review.ui.segment_table.fold import Fold
from firing_review.ui.segment_table.model import ROW_ROLE, SegmentsModel
from firing_review.ui.segment_table.view import SegmentView
from firing_review.ui.showing import Showing


class SegmentTable(QWidget):
    """Asked, got, behind and a word for each segment.

    Signals
    -------
    chosen : hours at which the chosen segment began.
    """

    chosen = Signal(object)

    def __init__(
        self, appearance: Appearance, showing: Showing, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._showing = showing
        self._review: Review | None = None
        self.model = SegmentsModel(self)
        self.view = SegmentView(appearance)
        self.view.setModel(self.model)
        self.fold = Fold()
        self.fold.opened.connect(self.view.setVisible)
        self.view.hide()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.fold)
        layout.addWidget(self.view)
        self.view.selectionModel().selectionChanged.connect(self._on_selected)
        showing.changed.connect(self._refresh)
        appearance.changed.connect(self._dress)

    def show_review(self, review: Review) -> None:
        """Show the segments of a review."""
        self._review = review
        self._refresh()

    @Slot()
    def _refresh(self) -> None:
        firing = self._review.firing if self._review is not None else None
        stretches = firing.stretches if firing is not None else ()
        rows = segment_rows(stretches, self._showing.show, self._cone_at)
        self.model.set_rows(rows)
        self.fold.setText(summary(rows, asked=firing is not None and firing.intended is not None))
        self.view.fit()
        self.setVisible(bool(stretches))

    def _cone_at(self, at_h: float) -> str:
        """Return the cone brought down by the firing's own reading up to an hour of the log."""
        review = self._review
        if review is None or review.firing is None or not review.heat_work:
            return ""
        log = review.firing.log
        row = int(log.elapsed_h.searchsorted(at_h))
        rank = review.heat_work[0].rank_at(min(row, log.rows - 1))
        return written(rank_label(rank)) if rank is not None else ""

    @Slot()
    def _dress(self) -> None:
        self.view.dress()

    @Slot(QItemSelection, QItemSelection)
    def _on_selected(self, _now: QItemSelection, _before: QItemSelection) -> None:
        rows = self.view.selectionModel().selectedRows()
        row = rows[0].data(ROW_ROLE) if rows else None
        if row is not None and row.start_h is not None:
            self.chosen.emit(row.start_h)


def summary(rows: list[SegmentRow], *, asked: bool) -> str:
    """Return what the closed table says: how many segments did not go as asked, if asked."""
    if not asked:
        text = trn(
            "{count} segment, found in the log", "{count} segments, found in the log", len(rows)
        )
        return text.format(count=len(rows))
    odd = sum(not row.plain for row in rows)
    if odd == 0:
        text = trn("{count} segment, as asked", "{count} segments, all as asked", len(rows))
        return text.format(count=len(rows))
    return tr("Segments: {odd} of {count} not as asked").format(odd=odd, count=len(rows))
