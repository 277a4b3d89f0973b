"""The layout of the page that shows how a log is read."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QGridLayout,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QPushButton,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.chooser import Chooser
from firing_review.ui.layouts import fill, head_at_left
from firing_review.ui.open_log.curve import Curve
from firing_review.ui.tick import Tick
from firing_review.ui.wrapped import Wrapped

NARROW_PX, LEAST_PX = 860, 300
LONG_WORDS = 18
"""Wide letters that a unit of time or a delimiter needs in the longest language."""
ROW_PX, CHOOSER_PX, COLUMN_PX, HEADER_PX = 26, 44, 150, 52
CELL_EDGE_PX = 7
"""What the table leaves free beside a chooser in a cell."""
WIDEST_PX = 320
"""A column is as wide as its cells, but no remark pushes the next one out of sight."""


class OpenLogView(QWidget):
    """Layout only: what is asked, first rows with roles, what was taken for what, the curve."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self.title, self.about, self.wrong = Wrapped(), Wrapped(), Wrapped()
        self.middle, self.buttons = QHBoxLayout(), QHBoxLayout()
        self.foot = QWidget()
        self.foot.setObjectName("panel")
        self.table = QTableWidget()
        self.unit, self.order, self.run = Chooser(), Chooser(), Chooser()
        self.unit_label, self.order_label = QLabel(tr("Unit")), QLabel(tr("Dates"))
        self.run_label = QLabel(tr("Firing"))
        self.time_form, self.time_unit = Wrapped(), Chooser()
        self.delimiter, self.decimal = Chooser(), Chooser()
        for chooser in (self.time_unit, self.delimiter):
            chooser.setMinimumContentsLength(LONG_WORDS)
        self.delimiter_label = QLabel(tr("Cells parted by"))
        self.decimal_label = QLabel(tr("Decimal sign"))
        self.curve = Curve(appearance)
        self.remember = Tick(tr("Re&member for files like this"))
        self.forget = QPushButton(tr("&Forget what was remembered"))
        self.use = QPushButton(tr("&Use this"))
        self.cancel = QPushButton(tr("Cancel"))
        self._dress()
        self._lay_out()

    def _dress(self) -> None:
        self.title.setProperty("part", "heading")
        self.wrong.setProperty("part", "wrong")
        self.use.setProperty("part", "main")
        for label in (self.title, self.about, self.wrong, self.time_form):
            label.setTextFormat(Qt.TextFormat.PlainText)
        table = self.table
        table.setAccessibleName(tr("First rows of the file, with the role of each column"))
        table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        table.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        table.setTabKeyNavigation(False)
        table.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        table.verticalHeader().hide()
        head_at_left(table)
        for header in (table.horizontalHeader(), table.verticalHeader()):
            header.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
            header.setSectionsClickable(False)
            header.setHighlightSections(False)

    def _lay_out(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(32, 18, 32, 18)
        layout.setSpacing(10)
        for widget in (self.title, self.about, self.table):
            layout.addWidget(widget)
        self.middle.setSpacing(24)
        self.middle.addLayout(self._settings(), 1)
        self.middle.addWidget(self.curve, 3)
        layout.addLayout(self.middle, 1)
        self._fill_foot()

    def _fill_foot(self) -> None:
        """Lay out what stays in sight below the page that scrolls."""
        layout = QVBoxLayout(self.foot)
        layout.setContentsMargins(32, 10, 32, 14)
        layout.addWidget(self.wrong)
        self.buttons.setSpacing(8)
        for pair in ((self.use, self.cancel), (self.remember, self.forget)):
            row = QHBoxLayout()
            for widget in pair:
                row.addWidget(widget)
            row.addStretch(1)
            self.buttons.addLayout(row)
        self.buttons.setStretch(1, 1)
        layout.addLayout(self.buttons)
        self.foot.setMinimumWidth(self._appearance.sizes.px(LEAST_PX))

    def show_narrow(self, *, narrow: bool) -> None:
        """Put the buttons, and settings and curve, side by side or one under the other."""
        directions = QHBoxLayout.Direction
        way = directions.TopToBottom if narrow else directions.LeftToRight
        for layout in (self.buttons, self.middle):
            layout.setDirection(way)

    def _settings(self) -> QVBoxLayout:
        grid = QGridLayout()
        grid.setVerticalSpacing(8)
        grid.setColumnMinimumWidth(1, self._appearance.sizes.px(180))
        grid.setColumnStretch(2, 1)
        rows = (
            (self.unit_label, self.unit),
            (QLabel(tr("Time")), self._time()),
            (self.order_label, self.order),
            (self.run_label, self.run),
            (self.delimiter_label, self.delimiter),
            (self.decimal_label, self.decimal),
        )
        for row, (label, widget) in enumerate(rows):
            label.setBuddy(widget)
            widget.setAccessibleName(label.text())
            grid.addWidget(label, row, 0)
            grid.addWidget(widget, row, 1)
        column = QVBoxLayout()
        column.addLayout(grid)
        column.addStretch(1)
        return column

    def _time(self) -> QWidget:
        """Return what the clock counts, and the chooser that stands there where it is open."""
        both = QWidget()
        fill(both, self.time_form, self.time_unit)
        self.time_unit.setAccessibleName(tr("Time"))
        return both

    def fill(self, names: list[str], rows: list[tuple[str, ...]]) -> None:
        """Show other columns; the row above the cells is left for their roles."""
        px, table = self._appearance.sizes.px, self.table
        table.clear()
        table.setColumnCount(len(names))
        table.setRowCount(1 + len(rows))
        table.setHorizontalHeaderLabels(names)
        for down, cells in enumerate(rows, start=1):
            table.setRowHeight(down, px(ROW_PX))
            for right, text in enumerate(cells[: len(names)]):
                table.setItem(down, right, QTableWidgetItem(text.strip()))
        for right in range(len(names)):
            asked = table.sizeHintForColumn(right)
            table.setColumnWidth(right, min(max(asked, px(COLUMN_PX)), px(WIDEST_PX)))
        table.setRowHeight(0, px(CHOOSER_PX))
        table.setFixedHeight(px(CHOOSER_PX) + px(ROW_PX) * len(rows) + px(HEADER_PX))

    def set_role(self, column: int, widget: QWidget) -> None:
        """Put a chooser, or a word, above the cells of a column."""
        self.table.setCellWidget(0, column, widget)
        widget.ensurePolished()
        asked = widget.sizeHint().width() + 2 * CELL_EDGE_PX
        self.table.setColumnWidth(column, max(self.table.columnWidth(column), asked))
