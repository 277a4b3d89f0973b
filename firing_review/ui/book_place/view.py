"""The layout of the place "Kiln book"."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QHBoxLayout,
    QMenu,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.book_place.changes import ChangesPart
from firing_review.ui.book_place.head import BookHead
from firing_review.ui.book_place.kilns_table import KilnsTable
from firing_review.ui.book_place.notes import NotesPart
from firing_review.ui.book_place.table import FiringsTable
from firing_review.ui.book_place.trend_chart import TrendChart
from firing_review.ui.chooser import Chooser
from firing_review.ui.seen_stack import SeenStack
from firing_review.ui.with_side import SideSizes, WithSide
from firing_review.ui.wrapped import Wrapped

SIZES = SideSizes(side=400, share=0.33, main_high=440)


class BookView(SeenStack):
    """Layout only: what a book is for, or the firings with their trends at the side."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self.create = QPushButton(tr("&New kiln book…"))
        self.create.setProperty("part", "main")
        self.open = QPushButton(tr("Open a &kiln book…"))
        head = self.head = BookHead(appearance)
        self.name, self.kiln, self.find = head.name, head.kiln, head.find
        self.add, self.more = head.add, head.more
        self.menu = QMenu(self)
        self.more.setMenu(self.menu)
        self.message = Wrapped()
        self.message.setTextFormat(Qt.TextFormat.PlainText)
        self.table = FiringsTable(appearance)
        self.chosen = Wrapped()
        self.chosen.setTextFormat(Qt.TextFormat.PlainText)
        self._make_side(appearance)
        firings, side = QWidget(), QWidget()
        self.empty = QWidget()
        self.filled = WithSide(appearance, firings, side, SIZES)
        self.add_page(self.empty)
        self.add_page(self.filled)
        self._fill_empty(self.empty)
        self._fill_firings(firings)
        self._fill_side(side)
        self.dress()

    def _make_side(self, appearance: Appearance) -> None:
        self.figure = Chooser()
        self.figure.show_whole_words()
        self.figure.setAccessibleName(tr("Figure to follow"))
        self.chart = TrendChart(appearance)
        self.key, self.said, self.life = (Wrapped(selectable=True) for _ in range(3))
        for label in (self.key, self.said, self.life):
            label.setTextFormat(Qt.TextFormat.PlainText)
        self.key.setProperty("part", "quiet")
        self.kilns = KilnsTable(appearance)
        self.changes, self.notes = ChangesPart(appearance), NotesPart(appearance)

    def _fill_empty(self, page: QWidget) -> None:
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

    def _fill_firings(self, page: QWidget) -> None:
        layout = QVBoxLayout(page)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.head)
        layout.addWidget(self.message)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.chosen)

    def _fill_side(self, inner: QWidget) -> None:
        side = QVBoxLayout(inner)
        side.setContentsMargins(8, 0, 8, 0)
        side.setSpacing(8)
        parts = (
            self.life, self.kilns, self.figure, self.chart, self.key, self.said, self.changes,
            self.notes,
        )  # fmt: skip
        for part in parts:
            side.addWidget(part)
        side.addStretch(1)

    def dress(self) -> None:
        """Follow the present sizes."""
        self.head.fit()
        self.table.dress()
        self.kilns.dress()
        self.changes.dress()
        self.notes.dress()
