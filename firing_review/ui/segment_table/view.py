"""The segment table's layout."""

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QHeaderView,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from firing_review.firing.wording import tr
from firing_review.report.segment_rows import WORD
from firing_review.ui.appearance import Appearance
from firing_review.ui.segment_table.model import ROW_ROLE

ROWS_SHOWN = 5


class _WordPainter(QStyledItemDelegate):
    """Bold where a segment did not go as asked."""

    def initStyleOption(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        """Make the word bold when there is something to remark."""
        super().initStyleOption(option, index)
        row = index.data(ROW_ROLE)
        option.font.setBold(index.column() == WORD and row is not None and not row.plain)


class SegmentView(QTableView):
    """Layout only."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setTabKeyNavigation(False)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setItemDelegate(_WordPainter(self))
        self.verticalHeader().hide()
        header = self.horizontalHeader()
        header.setHighlightSections(False)
        header.setSectionsClickable(False)
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setStretchLastSection(True)
        header.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft)
        self.setAccessibleName(tr("Segments, asked and got"))
        self.dress()

    def dress(self) -> None:
        """Follow the present sizes."""
        self.verticalHeader().setDefaultSectionSize(self._appearance.sizes.px(34))

    def fit(self, rows: int) -> None:
        """Ask for the height of a few rows; more are scrolled to."""
        px = self._appearance.sizes.px
        self.setFixedHeight(px(34) * min(rows, ROWS_SHOWN) + px(38))
