"""The list of firings: its columns, and the mark of a light before its word."""

from collections.abc import Iterable
from datetime import date

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPen, QResizeEvent
from PySide6.QtWidgets import (
    QHeaderView,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from firing_review.firing.wording import day, tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.book_place.model import (
    DATE,
    FIRING,
    GOAL,
    HOURS,
    KILN,
    KILN_LIGHT,
    LIGHT_COLUMNS,
    LIGHT_ROLE,
    LIGHT_WORDS,
    LOAD,
    SAFETY,
    VERDICT,
)
from firing_review.ui.layouts import read_only
from firing_review.ui.marks import paint_light

MARK, GAP, EDGES = 18, 6, 38
LATE_DAYS = tuple(date(2028, month, 28) for month in range(1, 13))
"""No date is wider than the widest of these."""
WIDTHS = {
    DATE: 124,
    FIRING: 132,
    KILN: 104,
    GOAL: 156,
    LOAD: 92,
    KILN_LIGHT: 92,
    SAFETY: 112,
    HOURS: 118,
    VERDICT: 200,
}

GIVEN_UP = (VERDICT, HOURS, GOAL, KILN, SAFETY, KILN_LIGHT)
"""Columns that give way where there is no room, the first one first; under the list they are told
of the firing that is chosen."""


class _LightPainter(QStyledItemDelegate):
    """A mark before the word of a light, and the ring of the keyboard."""

    def __init__(self, appearance: Appearance, parent: QTableView) -> None:
        super().__init__(parent)
        self._appearance, self._view = appearance, parent

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        """Paint the text moved aside, then the mark."""
        light, px = index.data(LIGHT_ROLE), self._appearance.sizes.px
        box = QRectF(option.rect)
        if light is not None:
            option.rect = option.rect.adjusted(px(MARK + GAP), 0, 0, 0)
        super().paint(painter, option, index)
        if light is not None:
            side = px(MARK)
            place = QRectF(box.left() + GAP, box.center().y() - side / 2, side, side)
            paint_light(painter, place, light, self._appearance.colors)
        if index == self._view.currentIndex() and self._view.hasFocus():
            painter.setPen(QPen(QColor(self._appearance.colors.accent), 2))
            painter.drawRect(box.adjusted(1, 1, -2, -2))

    def sizeHint(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        """Ask for one line."""
        hint = super().sizeHint(option, index)
        return QSize(hint.width(), self._appearance.sizes.target)


class FiringsTable(QTableView):
    """Layout only; double click or Enter chooses a firing.

    Signals
    -------
    fitted : other columns have room than before.
    """

    fitted = Signal()

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self._unasked: frozenset[int] = frozenset()
        self.setAccessibleName(tr("Firings in the book"))
        self.setAccessibleDescription(tr("Enter or a double click opens a firing"))
        read_only(self)
        self.setWordWrap(False)
        self.setTextElideMode(Qt.TextElideMode.ElideRight)
        self.setSortingEnabled(True)
        self.setItemDelegate(_LightPainter(appearance, self))
        self.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        self.dress()

    def show_kiln(self, *, shown: bool) -> None:
        """Show of which kiln each firing is, or not where all are of one."""
        self._unasked = frozenset() if shown else frozenset({KILN})
        self.fit()

    @property
    def told_below(self) -> list[int]:
        """The columns that have no room, and are told of the chosen firing."""
        return [n for n in sorted(GIVEN_UP) if self.isColumnHidden(n) and n not in self._unasked]

    def dress(self) -> None:
        """Follow the present sizes."""
        self.verticalHeader().setDefaultSectionSize(self._appearance.sizes.target)
        self.fit()
        self.viewport().update()

    def fit(self) -> None:
        """Show as many columns as have room, so that the list never scrolls sideways."""
        if self.model() is None:
            return
        px, room, told = self._appearance.sizes.px, self.viewport().width(), self.told_below
        widths = {n: max(px(width), self._least(n)) for n, width in WIDTHS.items()}
        widths = {n: width for n, width in widths.items() if n not in self._unasked}
        for column in GIVEN_UP:
            if sum(widths.values()) > room:
                widths.pop(column, None)
        spare = max(room - sum(widths.values()), 0)
        widths[VERDICT if VERDICT in widths else FIRING] += spare
        for column in WIDTHS:
            self.setColumnHidden(column, column not in widths)
        for column, width in widths.items():
            self.setColumnWidth(column, width)
        if told != self.told_below:
            self.fitted.emit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Share out the new width."""
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.fit()

    def _least(self, column: int) -> int:
        """Return the width a column's words need in the language of the screen [px]."""
        least, px = self.horizontalHeader().sectionSizeHint(column), self._appearance.sizes.px
        if column == DATE:
            return max(least, self._longest(map(day, LATE_DAYS)) + px(EDGES) // 2)
        if column not in LIGHT_COLUMNS:
            return least
        return max(least, self._longest(map(tr, LIGHT_WORDS.values())) + px(MARK + EDGES))

    def _longest(self, words: Iterable[str]) -> int:
        return max(self.fontMetrics().horizontalAdvance(word) for word in words)
