"""The layout of the place "Kiln book"."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLineEdit,
    QMenu,
    QPushButton,
    QSplitter,
    QStackedWidget,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.book_place.changes import ChangesPart
from firing_review.ui.book_place.kilns_table import KilnsTable
from firing_review.ui.book_place.table import FiringsTable
from firing_review.ui.book_place.trend_chart import TrendChart
from firing_review.ui.chooser import Chooser
from firing_review.ui.elided import Elided
from firing_review.ui.scrolled import Scrolled
from firing_review.ui.wrapped import Wrapped

SIDE_PX, SIDE_MOST_PX, FIND_PX = 400, 560, 170


class BookView(QStackedWidget):
    """Layout only: what a book is for, or the firings with their trends at the side."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self.create = QPushButton(tr("&New kiln book…"))
        self.create.setProperty("part", "main")
        self.open = QPushButton(tr("Open a &kiln book…"))
        self.name = Elided()
        self.name.setProperty("part", "heading")
        self.kiln = Chooser()
        self.kiln.setAccessibleName(tr("Kiln"))
        self.find = QLineEdit()
        self.find.setPlaceholderText(tr("Find in the list"))
        self.find.setAccessibleName(tr("Find in the list"))
        self.find.setClearButtonEnabled(True)
        self.add = QPushButton(tr("Put this &firing in"))
        self.add.setProperty("part", "main")
        self.more = QToolButton()
        self.more.setText(tr("&Book"))
        self.more.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self.menu = QMenu(self)
        self.more.setMenu(self.menu)
        self.message = Wrapped()
        self.message.setTextFormat(Qt.TextFormat.PlainText)
        self.table = FiringsTable(appearance)
        self.chosen = Wrapped()
        self.chosen.setTextFormat(Qt.TextFormat.PlainText)
        self._make_side(appearance)
        self.addWidget(self._empty())
        self.addWidget(self._filled())
        self.dress()

    def _make_side(self, appearance: Appearance) -> None:
        self.figure = Chooser()
        self.figure.setAccessibleName(tr("Figure to follow"))
        self.chart = TrendChart(appearance)
        self.key, self.said, self.life = (Wrapped(selectable=True) for _ in range(3))
        for label in (self.key, self.said, self.life):
            label.setTextFormat(Qt.TextFormat.PlainText)
        self.key.setProperty("part", "quiet")
        self.kilns = KilnsTable(appearance)
        self.changes = ChangesPart(appearance)

    def _empty(self) -> QWidget:
        page = QWidget()
        layout = QVBoxLayout(page)
        layout.setContentsMargins(40, 28, 40, 28)
        layout.setSpacing(12)
        heading = Wrapped(tr("A kiln book keeps every firing of a kiln together"))
        heading.setProperty("part", "heading")
        about = Wrapped(
            tr(
                "One file with the logs, the cones, the readings and your notes. "
                "With each firing it tells more: whether the power falls, how the shelves differ, "
                "and how many firings the heating elements still have. "
                "Everything you change is kept in it at once."
            )
        )
        for label in (heading, about):
            layout.addWidget(label)
        row = QHBoxLayout()
        row.addWidget(self.create)
        row.addWidget(self.open)
        row.addStretch(1)
        layout.addLayout(row)
        layout.addStretch(1)
        return page

    def _filled(self) -> QWidget:
        page = QWidget()
        top = QHBoxLayout()
        top.setSpacing(10)
        top.addWidget(self.name, 1)
        for widget in (self.kiln, self.find, self.add, self.more):
            top.addWidget(widget)
        self.splitter = QSplitter()
        self.splitter.setChildrenCollapsible(False)
        self.splitter.addWidget(self._list())
        self.splitter.addWidget(self._side())
        self.splitter.setStretchFactor(0, 1)
        layout = QVBoxLayout(page)
        layout.setContentsMargins(12, 8, 8, 8)
        layout.addLayout(top)
        layout.addWidget(self.message)
        layout.addWidget(self.splitter, 1)
        return page

    def _list(self) -> QWidget:
        page = QWidget()
        layout = QVBoxLayout(page)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.chosen)
        return page

    def _side(self) -> QWidget:
        inner = QWidget()
        side = QVBoxLayout(inner)
        side.setContentsMargins(8, 0, 8, 0)
        side.setSpacing(8)
        parts = (
            self.life, self.kilns, self.figure, self.chart, self.key, self.said, self.changes,
        )  # fmt: skip
        for part in parts:
            side.addWidget(part)
        side.addStretch(1)
        self._scrolled = Scrolled(inner)
        return self._scrolled

    def dress(self) -> None:
        """Follow the present sizes."""
        sizes = self._appearance.sizes
        self._scrolled.setMinimumWidth(min(sizes.px(SIDE_PX), SIDE_MOST_PX))
        self.find.setFixedWidth(sizes.px(FIND_PX))
        self.table.dress()
        self.kilns.dress()
        self.changes.dress()
