"""Rows under headings as Qt asks for them; whoever derives from it says what a cell answers."""

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt

Index = QModelIndex | QPersistentModelIndex


class RowsModel(QAbstractTableModel):
    """A table of rows; what a row is, the deriving model knows."""

    def __init__(self, headings: Sequence[str], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._headings = tuple(headings)
        self._rows: Sequence[Any] = ()

    def set_rows(self, rows: Sequence[Any]) -> None:
        """Show other rows."""
        self.beginResetModel()
        self._rows = rows
        self.endResetModel()

    def rowCount(self, parent: Index | None = None) -> int:
        """Return the number of rows."""
        return 0 if parent is not None and parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index | None = None) -> int:
        """Return the number of columns."""
        return 0 if parent is not None and parent.isValid() else len(self._headings)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:  # noqa: ANN401
        """Return what a view asks for."""
        if not index.isValid() or index.row() >= len(self._rows):
            return None
        return self.answer(index.row(), index.column(), role)

    def answer(self, row: int, column: int, role: int) -> object:
        """Return what a cell answers to a view."""
        raise NotImplementedError

    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> Any:  # noqa: ANN401
        """Return the headings."""
        if role == Qt.ItemDataRole.DisplayRole and orientation is Qt.Orientation.Horizontal:
            return self._headings[section] if section < len(self._headings) else None
        return None
