"""The start page's layout."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.menu_button import MenuButton
from firing_review.ui.start_page.card import Card
from firing_review.ui.wrapped import Wrapped

NARROW_PX = 1100


class StartView(QScrollArea):
    """Layout only: what this is, a place to drop, unfinished work, recent files, demos."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.back = QPushButton(tr("&Back to the open firing"))
        self.menu = MenuButton()
        self.open_file = QPushButton(tr("&Open a log or a firing sheet…"))
        self.open_file.setProperty("part", "main")
        self.open_folder = QPushButton(tr("Open a firing &folder…"))
        self.new_book = QPushButton(tr("&New kiln book…"))
        self.blank = QPushButton(tr("Blan&k sheets to print…"))
        self.guide = QPushButton(tr("A gu&ide in five steps"))
        self.drop = QFrame()
        self.drop.setObjectName("drop")
        self.unfinished = QVBoxLayout()
        self.recent = QVBoxLayout()
        self.demos = QGridLayout()
        self.columns = QHBoxLayout()
        self.steps = _numbered(
            [
                tr("Drop or open the log."),
                tr("Type or paste the schedule you meant to fire."),
                tr("Choose the goal cone, and say how the cones on the shelves bent."),
            ],
            tr("The answer grows with each step; none but the first is needed."),
        )
        self.unfinished_heading = _heading(tr("Left unfinished"))
        self.recent_heading = _heading(tr("Opened lately"))
        self.demos_heading = _heading(tr("Look at a demo firing"))
        self.demos_about = Wrapped(
            tr("Invented firings of an invented workshop. Each opens as your own would.")
        )
        self._lay_out()

    def _lay_out(self) -> None:
        page = QWidget()
        page.setObjectName("page")
        outer = QVBoxLayout(page)
        outer.setContentsMargins(40, 28, 40, 28)
        outer.setSpacing(16)
        head = QHBoxLayout()
        head.addWidget(Wrapped(tr("What happened in last night's firing?"), "title"), 1)
        for button in (self.back, self.menu):
            head.addWidget(button, 0, Qt.AlignmentFlag.AlignTop)
        outer.addLayout(head)
        self.columns.setSpacing(40)
        self.columns.addLayout(self._left(), 4)
        self.columns.addLayout(self._right(), 7)
        outer.addLayout(self.columns)
        outer.addStretch(1)
        self.setWidget(page)

    def _left(self) -> QVBoxLayout:
        left = QVBoxLayout()
        left.setSpacing(10)
        self._fill_drop()
        left.addWidget(self.drop)
        left.addWidget(self.steps)
        for heading, rows in (
            (self.unfinished_heading, self.unfinished),
            (self.recent_heading, self.recent),
        ):
            rows.setSpacing(6)
            left.addSpacing(6)
            left.addWidget(heading)
            left.addLayout(rows)
        left.addStretch(1)
        return left

    def _fill_drop(self) -> None:
        words = QLabel(tr("Drop the kiln's log here"))
        words.setProperty("part", "heading")
        words.setAlignment(Qt.AlignmentFlag.AlignCenter)
        about = Wrapped(
            tr(
                "A table of times and temperatures, as a logger saved it or typed by hand "
                "(CSV or text). It is only read, never changed. "
                "A table copied from a spreadsheet opens with Ctrl+V."
            )
        )
        about.setProperty("part", "muted")
        about.setAlignment(Qt.AlignmentFlag.AlignCenter)
        layout = QVBoxLayout(self.drop)
        layout.setContentsMargins(20, 24, 20, 20)
        layout.setSpacing(10)
        buttons = (self.open_file, self.open_folder, self.new_book, self.blank)
        for widget in (words, about, *buttons):
            layout.addWidget(widget)

    def _right(self) -> QVBoxLayout:
        right = QVBoxLayout()
        right.setSpacing(8)
        self.demos_about.setProperty("part", "muted")
        self.demos.setSpacing(10)
        about = QHBoxLayout()
        about.addWidget(self.demos_about, 1)
        about.addWidget(self.guide)
        right.addWidget(self.demos_heading)
        right.addLayout(about)
        right.addLayout(self.demos)
        right.addStretch(1)
        return right

    def show_narrow(self, *, narrow: bool) -> None:
        """Put the columns side by side, or one under the other."""
        directions = QHBoxLayout.Direction
        self.columns.setDirection(directions.TopToBottom if narrow else directions.LeftToRight)

    def fill(self, layout: QVBoxLayout, cards: list[QWidget]) -> None:
        """Put other cards into a column."""
        _empty(layout)
        for card in cards:
            layout.addWidget(card)

    def fill_demos(self, cards: list[Card], columns: int) -> None:
        """Put other cards into the grid of demos."""
        _empty(self.demos)
        for place, card in enumerate(cards):
            self.demos.addWidget(card, place // columns, place % columns)


def _heading(text: str) -> QLabel:
    label = QLabel(text)
    label.setProperty("part", "heading")
    return label


def _numbered(steps: list[str], end: str) -> QWidget:
    """Return steps whose lines all begin beside their number, and a sentence below."""
    part = QWidget()
    grid = QGridLayout(part)
    grid.setContentsMargins(0, 0, 0, 0)
    grid.setHorizontalSpacing(10)
    grid.setVerticalSpacing(4)
    grid.setColumnStretch(1, 1)
    for row, step in enumerate(steps):
        number = QLabel(str(row + 1))
        number.setProperty("part", "muted")
        grid.addWidget(number, row, 0, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(Wrapped(step, "muted"), row, 1)
    grid.addWidget(Wrapped(end, "muted"), len(steps), 0, 1, 2)
    return part


def _empty(layout: QVBoxLayout | QGridLayout) -> None:
    while layout.count():
        widget = layout.takeAt(0).widget()
        if widget is not None:
            widget.hide()
            widget.deleteLater()
