"""What panels, dialogs and tables of the window have in common."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QFrame,
    QHBoxLayout,
    QPushButton,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from firing_review.ui.in_sight import KeyPage
from firing_review.ui.scrolled import Scrolled

SIDES, EDGE = 20, 16
"""About what stands in a dialog [px]."""
FRAME_PX = 40
"""Room for the title that the system puts above a window."""


def fill(place: QWidget, *parts: QWidget) -> QVBoxLayout:
    """Lay parts one under the other over the whole of a place, without a margin."""
    layout = QVBoxLayout(place)
    layout.setContentsMargins(0, 0, 0, 0)
    for part in parts:
        layout.addWidget(part)
    return layout


def fill_dialog(dialog: QDialog, page: QWidget, button: QPushButton) -> Scrolled:
    """Lay a page that scrolls over a dialog, its button below; return what scrolls."""
    inside = page.layout()
    if inside is not None:
        inside.setContentsMargins(SIDES, EDGE, SIDES, EDGE // 2)
    below = QHBoxLayout()
    below.setContentsMargins(SIDES, 0, SIDES, EDGE)
    below.addStretch(1)
    below.addWidget(button)
    whole, scrolled = KeyPage(), Scrolled(page)
    fill(dialog, whole)
    column = fill(whole, scrolled)
    column.setSpacing(0)
    column.addLayout(below)
    return scrolled


def size_within_screen(window: QWidget, wanted: QSize) -> None:
    """Give a window of its own the size it wants, or as much as its screen has inside a frame."""
    window.resize(wanted.boundedTo(window.screen().availableSize() - QSize(0, FRAME_PX)))


def read_only(table: QTableView) -> None:
    """Make a table one of whole rows that are chosen and read, and never typed into."""
    table.setFrameShape(QFrame.Shape.NoFrame)
    table.setShowGrid(False)
    table.setTabKeyNavigation(False)
    table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
    table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
    table.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
    table.verticalHeader().hide()
    table.horizontalHeader().setHighlightSections(False)
    head_at_left(table)


def head_at_left(table: QTableView) -> None:
    """Let the headings begin where the cells below them begin."""
    left = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
    table.horizontalHeader().setDefaultAlignment(left)
