"""How the table is laid out, and how a cell that cannot be used is marked."""

from PySide6.QtCore import (
    QEvent,
    QModelIndex,
    QPersistentModelIndex,
    QRect,
    QSize,
    Qt,
    Signal,
    Slot,
)
from PySide6.QtGui import QColor, QGuiApplication, QKeyEvent, QKeySequence, QPainter, QPen
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QHeaderView,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from firing_review.firing.errors import InputError
from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.entry import Entry
from firing_review.ui.in_sight import bring
from firing_review.ui.layouts import head_at_left
from firing_review.ui.scrolled import MayScroll, let_scroll
from firing_review.ui.text_table.model import WRONG_ROLE, TextTableModel

MOST_PASTED_ROWS = 1000
"""Schedules, cones and readings are written by hand; more rows than this are a log."""


class CellPainter(QStyledItemDelegate):
    """A frame and a bar on a cell that cannot be used, and the ring of the keyboard."""

    def __init__(self, appearance: Appearance, parent: QTableView) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self._view = parent

    def createEditor(
        self,
        parent: QWidget,
        _option: QStyleOptionViewItem,
        _index: QModelIndex | QPersistentModelIndex,
    ) -> QWidget:
        """Open a cell that leaves undo to the program until something is typed in it."""
        return Entry(parent)

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        """Paint the text, then the marks round it."""
        super().paint(painter, option, index)
        colors = self._appearance.colors
        box = option.rect.adjusted(1, 1, -2, -2)
        if index.data(WRONG_ROLE):
            painter.setPen(QPen(QColor(colors.watch), 2))
            painter.drawRect(box)
            painter.fillRect(QRect(box.left(), box.top(), 6, box.height()), QColor(colors.watch))
        elif index == self._view.currentIndex() and self._view.hasFocus():
            painter.setPen(QPen(QColor(colors.accent), 2))
            painter.drawRect(box)


class TextTableView(QTableView, MayScroll):
    """Layout, and the keys of a table: paste, clear, edit.

    Signals
    -------
    pasted : text of the clipboard, for the current cell.
    refused : an error a person can act on: more was copied than such a table can be.
    """

    pasted = Signal(str)
    refused = Signal(object)
    _is_whole = False

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        triggers = QAbstractItemView.EditTrigger
        self.setEditTriggers(
            triggers.DoubleClicked
            | triggers.SelectedClicked
            | triggers.EditKeyPressed
            | triggers.AnyKeyPressed
        )
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setTabKeyNavigation(False)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setItemDelegate(CellPainter(appearance, self))
        self.setCornerButtonEnabled(False)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        for header in (self.horizontalHeader(), self.verticalHeader()):
            header.setHighlightSections(False)
            header.setSectionsClickable(False)
        head_at_left(self)
        self.verticalHeader().sectionCountChanged.connect(self._on_rows)
        self.dress()

    def dress(self) -> None:
        """Follow the present sizes."""
        self.verticalHeader().setDefaultSectionSize(self._appearance.sizes.target)
        self.verticalHeader().setMinimumWidth(self._appearance.sizes.px(28))
        self.viewport().update()

    def keep_narrow(self, column: int) -> None:
        """Give a column only what its cells need; the others share what is left."""
        mode = QHeaderView.ResizeMode.ResizeToContents
        self.horizontalHeader().setSectionResizeMode(column, mode)

    def show_whole(self, *, is_whole: bool) -> None:
        """Ask for the height of all rows, or scroll."""
        if is_whole is not self._is_whole:
            self._is_whole = is_whole
            let_scroll(self, scrolls=not is_whole)

    def minimumSizeHint(self) -> QSize:
        """Ask for the height of all rows, or for little."""
        usual = super().minimumSizeHint()
        if not self._is_whole:
            return usual
        head = self.horizontalHeader().sizeHint().height()
        return QSize(usual.width(), head + self.verticalHeader().length() + 2 * self.frameWidth())

    @property
    def spare_px(self) -> int:
        """By how much it would be lower if its rows scrolled [px]."""
        if not self._is_whole:
            return 0
        usual = max(self.sizeHint().height(), self.minimumHeight())
        return max(self.minimumSizeHint().height() - usual, 0)

    @Slot()
    def _on_rows(self) -> None:
        self.updateGeometry()

    def event(self, event: QEvent) -> bool:
        """Keep undo from the program while a cell is wrong: what is wrong is no edit yet."""
        is_asked = event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent)
        if is_asked and event.matches(QKeySequence.StandardKey.Undo) and self._is_wrong:
            event.accept()
            return True
        return super().event(event)

    @property
    def _is_wrong(self) -> bool:
        model = self.model()
        return isinstance(model, TextTableModel) and model.is_wrong

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Paste, clear, take back what is wrong; everything else as a table does."""
        if event.matches(QKeySequence.StandardKey.Undo) and self._is_wrong:
            self.model().take_back()
        elif event.matches(QKeySequence.StandardKey.Paste):
            self.paste()
        elif event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.model().setData(self.currentIndex(), "")
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._begin_typing()
        else:
            super().keyPressEvent(event)

    def currentChanged(self, now: QModelIndex, before: QModelIndex) -> None:
        """Keep the cell that has the keyboard in sight of the page around the table."""
        super().currentChanged(now, before)
        if self.window().focusWidget() is self:
            bring(self)

    def _begin_typing(self) -> None:
        """Open the cell, unless the key was the one that closes it."""
        if self.state() != QAbstractItemView.State.EditingState:
            self.edit(self.currentIndex())

    def paste(self) -> None:
        """Hand the clipboard's text over, unless it is far more than is written by hand."""
        text = QGuiApplication.clipboard().text()
        rows = len(text.splitlines())
        if rows <= MOST_PASTED_ROWS:
            self.pasted.emit(text)
        else:
            self.refused.emit(_too_many(rows))


def _too_many(rows: int) -> InputError:
    return InputError(
        tr("pasted rows"),
        tr("a table written by hand, of {count} rows at most").format(count=MOST_PASTED_ROWS),
        tr("{count} rows").format(count=rows),
        tr("Copy only the rows of this table. A log is pasted on the start page."),
    )
