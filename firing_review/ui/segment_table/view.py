"""The segment table's layout."""

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QSize, Qt
from PySide6.QtGui import QFontMetrics, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from firing_review.firing.wording import tr
from firing_review.report.segment_rows import CONE, WORD
from firing_review.report.shown_text import kept_together
from firing_review.ui.appearance import Appearance
from firing_review.ui.columns import EDGES, fit_columns
from firing_review.ui.layouts import read_only
from firing_review.ui.scrolled import MayScroll
from firing_review.ui.segment_table.model import ROW_ROLE

ROWS_SHOWN, ROW, BETWEEN = 5, 34, 12


class _WordPainter(QStyledItemDelegate):
    """Bold where a segment did not go as asked."""

    def initStyleOption(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        """Make the word bold when there is something to remark; keep figures on one line."""
        super().initStyleOption(option, index)
        option.text = kept_together(option.text)
        row = index.data(ROW_ROLE)
        option.font.setBold(index.column() == WORD and row is not None and not row.plain)

    def sizeHint(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        """Ask for one line of width, and for the height of the lines at the present width."""
        self.initStyleOption(option, index)
        metrics, view = QFontMetrics(option.font), self.parent()
        wide = metrics.size(0, option.text).width() + EDGES  # the advance alone is rounded down
        room = QRect(0, 0, view.columnWidth(index.column()) - EDGES, 10_000)
        high = metrics.boundingRect(room, Qt.TextFlag.TextWordWrap, option.text).height()
        return QSize(wide, high + BETWEEN)


class SegmentView(QTableView, MayScroll):
    """Layout only."""

    _is_whole = False
    _shared_px = 0

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        read_only(self)
        self.setWordWrap(True)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setItemDelegate(_WordPainter(self))
        header = self.horizontalHeader()
        header.setSectionsClickable(False)
        header.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.setAccessibleName(tr("Segments, asked and got"))
        self.dress()

    def dress(self) -> None:
        """Follow the present sizes."""
        self.verticalHeader().setMinimumSectionSize(self._appearance.sizes.px(ROW))
        self.fit()

    def show_whole(self, *, is_whole: bool) -> None:
        """Ask for the height of all rows, or of a few."""
        if is_whole is not self._is_whole:
            self._is_whole = is_whole
            self.fit()

    @property
    def spare_px(self) -> int:
        """By how much it would be lower with a few rows [px]."""
        rows = range(ROWS_SHOWN, self.model().rowCount() if self._is_whole else 0)
        return sum(map(self.rowHeight, rows)) if self.isVisible() else 0

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Share out the new width; the room that a bar takes or leaves is seen to where it is."""
        super().resizeEvent(event)
        if self.width() != self._shared_px:
            self._shared_px = self.width()
            self.fit()

    def fit(self) -> None:
        """Share out the width, and ask for the height of a few rows; more are scrolled to."""
        if self.model() is None:
            return
        bars, count = Qt.ScrollBarPolicy, self.model().rowCount()
        scrolls = count > ROWS_SHOWN and not self._is_whole
        self.setVerticalScrollBarPolicy(
            bars.ScrollBarAlwaysOn if scrolls else bars.ScrollBarAlwaysOff
        )
        self.setColumnHidden(CONE, False)
        if not fit_columns(self):
            scrolls = False
            self.setVerticalScrollBarPolicy(bars.ScrollBarAlwaysOff)
            self.setColumnHidden(CONE, True)
            fit_columns(self)
        self.resizeRowsToContents()
        rows = range(ROWS_SHOWN if scrolls else count)
        header = self.horizontalHeader().sizeHint().height()
        self.setFixedHeight(sum(map(self.rowHeight, rows)) + header + 2 * self.frameWidth() + 4)
