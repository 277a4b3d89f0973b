"""Segments as rows: asked, got, behind, word."""

from PySide6.QtCore import QObject, Qt

from firing_review.firing.wording import tr
from firing_review.report.segment_rows import HEADINGS
from firing_review.ui.rows_model import RowsModel

ROW_ROLE = Qt.ItemDataRole.UserRole


class SegmentsModel(RowsModel):
    """Rows of segments for a table view."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__([tr(heading) for heading in HEADINGS], parent)

    def answer(self, row: int, column: int, role: int) -> object:
        """Return a cell, what is read out of it, or the whole row."""
        segment = self._rows[row]
        if role == Qt.ItemDataRole.DisplayRole:
            return segment.cells[column]
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{self._headings[column]}: {segment.cells[column]}"
        return segment if role == ROW_ROLE else None
