"""Cells as typed, with a blank row at the end to go on in, and what is wrong with which cell."""

from collections.abc import Mapping, Sequence
from typing import Any

from PySide6.QtCore import QModelIndex, QObject, Qt, Signal

from firing_review.firing.wording import tr
from firing_review.ui.rows_model import Index, RowsModel
from firing_review.ui.text_table.blocks import block_of

WRONG_ROLE = Qt.ItemDataRole.UserRole
Cells = tuple[str, ...]


class TextTableModel(RowsModel):
    """Rows of text cells.

    Signals
    -------
    edited : the person changed cells; not sent when rows are set by the program.
    """

    edited = Signal()

    def __init__(self, headings: Sequence[str], parent: QObject | None = None) -> None:
        super().__init__(headings, parent)
        self._rows: list[Cells] = [self._blank]
        self._wrong: dict[tuple[int, int], str] = {}
        self._sound: list[Cells] = []

    @property
    def _blank(self) -> Cells:
        return ("",) * len(self._headings)

    @property
    def rows(self) -> list[Cells]:
        """All rows as typed, without the blank one at the end."""
        return self._rows[:-1]

    def set_headings(self, headings: Sequence[str]) -> None:
        """Name the columns anew."""
        self._headings = tuple(headings)
        self.headerDataChanged.emit(Qt.Orientation.Horizontal, 0, len(headings) - 1)

    def set_rows(self, rows: Sequence[Cells]) -> None:
        """Show other rows, all of which can be used; the current cell stays where it is."""
        self._sound = list(rows)
        self._show_rows(rows)

    def _show_rows(self, rows: Sequence[Cells]) -> None:
        if list(rows) == self.rows:
            return
        self._wrong = {}
        before, after = len(self._rows), len(rows) + 1
        if after < before:
            self.beginRemoveRows(QModelIndex(), after, before - 1)
            del self._rows[after:]
            self.endRemoveRows()
        elif after > before:
            self.beginInsertRows(QModelIndex(), before, after - 1)
            self._rows += [self._blank] * (after - before)
            self.endInsertRows()
        self._rows = [*rows, self._blank]
        self.dataChanged.emit(self.index(0, 0), self.index(after - 1, len(self._headings) - 1))

    def set_wrong(self, wrong: Mapping[tuple[int, int], str]) -> None:
        """Mark the cells that cannot be used, each with its sentence."""
        if not wrong:
            self._sound = self.rows
        if dict(wrong) == self._wrong:
            return
        self._wrong = dict(wrong)
        last = self.index(len(self._rows) - 1, len(self._headings) - 1)
        self.dataChanged.emit(self.index(0, 0), last)

    @property
    def is_wrong(self) -> bool:
        """Whether a cell cannot be used."""
        return bool(self._wrong)

    def take_back(self) -> None:
        """Put the cells back to when all of them could last be used."""
        self._show_rows(self._sound)
        self.edited.emit()

    def put(self, row: int, column: int, block: Sequence[Sequence[str]]) -> None:
        """Write a block of cells from a cell on; what does not fit to the right is left out."""
        rows = [list(cells) for cells in self._rows]
        while len(rows) < row + len(block):
            rows.append(list(self._blank))
        for down, cells in enumerate(block):
            for right, text in enumerate(cells):
                if column + right < len(self._headings):
                    rows[row + down][column + right] = _tidy(text)
        while rows and not any(rows[-1]):
            rows.pop()
        self._show_rows([tuple(cells) for cells in rows])
        self.edited.emit()

    def paste(self, at: Index, text: str, *, whole_rows: bool = False) -> None:
        """Write copied text from a cell on, or from the first where it begins if none is current.

        With ``whole_rows`` text of several columns goes from the first column on.
        """
        block = block_of(text)
        if block:
            from_first = whole_rows and len(block[0]) > 1
            self.put(max(at.row(), 0), 0 if from_first else max(at.column(), 0), block)

    def insert_row(self, row: int) -> None:
        """Put a blank row before ``row``."""
        self.beginInsertRows(QModelIndex(), row, row)
        self._rows.insert(row, self._blank)
        self.endInsertRows()

    def remove_row(self, row: int) -> None:
        """Take a row away; the blank one at the end stays."""
        if not 0 <= row < len(self._rows) - 1:
            return
        self.beginRemoveRows(QModelIndex(), row, row)
        del self._rows[row]
        self.endRemoveRows()
        self.edited.emit()

    def answer(self, row: int, column: int, role: int) -> object:
        """Return a cell as typed, what is read out of it, or what is wrong with it."""
        text, wrong = self._rows[row][column], self._wrong.get((row, column))
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return text
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return self._spoken(row, column, text, wrong)
        return wrong if role in (WRONG_ROLE, Qt.ItemDataRole.ToolTipRole) else None

    def _spoken(self, row: int, column: int, text: str, wrong: str | None) -> str:
        heading = self._headings[column].replace("\n", " ")
        spoken = tr("row {row}, {heading}: {text}").format(
            row=row + 1, heading=heading, text=text or tr("blank")
        )
        return f"{spoken}. {wrong}" if wrong else spoken

    def setData(
        self,
        index: Index,
        value: Any,  # noqa: ANN401
        role: int = Qt.ItemDataRole.EditRole,
    ) -> bool:
        """Take what was typed, whatever it is."""
        if role != Qt.ItemDataRole.EditRole or not index.isValid():
            return False
        text = _tidy(str(value))
        cells = list(self._rows[index.row()])
        if cells[index.column()] == text:
            return False
        cells[index.column()] = text
        self._rows[index.row()] = tuple(cells)
        self.dataChanged.emit(index, index)
        if index.row() == len(self._rows) - 1:
            self.insert_row(len(self._rows))
        self.edited.emit()
        return True

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Every cell can be typed into."""
        flags = super().flags(index)
        return flags | Qt.ItemFlag.ItemIsEditable if index.isValid() else flags

    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> Any:  # noqa: ANN401
        """Return headings, and row numbers at the side."""
        if role != Qt.ItemDataRole.DisplayRole or orientation is Qt.Orientation.Horizontal:
            return super().headerData(section, orientation, role)
        return "" if section == len(self._rows) - 1 else str(section + 1)


def _tidy(text: str) -> str:
    """Return a cell's text on one line, without quotes that a table of text would trip over."""
    return " ".join(text.replace('"', " ").split())
