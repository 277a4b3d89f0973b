"""Segments as rows: asked, got, behind, word."""

from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt

from firing_review.firing.wording import tr
from firing_review.report.segment_rows import HEADINGS, SegmentRow

ROW_ROLE = Qt.ItemDataRole.UserRole
Index = QModelIndex | QPersistentModelIndex


class SegmentsModel(QAbstractTableModel):
    """Rows of segments for a table view."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._rows: list[SegmentRow] = []

    def set_rows(self, rows: list[SegmentRow]) -> None:
        """Show other rows."""
        self.beginResetModel()
        self._rows = rows
        self.endResetModel()

    def rowCount(self, parent: Index | None = None) -> int:
        """Return the number of segments."""
        return 0 if parent is not None and parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index | None = None) -> int:
        """Return the number of columns."""
        return 0 if parent is not None and parent.isValid() else len(HEADINGS)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:  # noqa: ANN401
        """Return what a view asks for."""
        if not index.isValid() or index.row() >= len(self._rows):
            return None
        row = self._rows[index.row()]
        if role == Qt.ItemDataRole.DisplayRole:
            return row.cells[index.column()]
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{self._heading(index.column())}: {row.cells[index.column()]}"
        return row if role == ROW_ROLE else None

    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> Any:  # noqa: ANN401
        """Return the headings, aligned as the cells are."""
        if orientation is not Qt.Orientation.Horizontal:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return self._heading(section)
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        return None

    def _heading(self, column: int) -> str:
        return tr(HEADINGS[column])
