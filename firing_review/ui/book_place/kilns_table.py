"""The kilns of a workshop side by side."""

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QHeaderView,
    QTableWidget,
    QTableWidgetItem,
    QWidget,
)

from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.layouts import read_only


@dataclass(frozen=True)
class KilnRow:
    """One kiln: name, firings, firings since the heating elements were changed, last power."""

    cells: tuple[str, str, str, str]


class KilnsTable(QTableWidget):
    """Read only; it is as high as it has kilns."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(0, 4, parent)
        self._appearance = appearance
        self.setAccessibleName(tr("Kilns side by side"))
        self.setHorizontalHeaderLabels(
            [tr("Kiln"), tr("Firings"), tr("Since change"), tr("Power")]
        )
        self.setToolTip(tr("Since change: firings since the heating elements were changed"))
        read_only(self)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        header = self.horizontalHeader()
        header.setSectionsClickable(False)
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)

    def show_kilns(self, rows: Sequence[KilnRow]) -> None:
        """Show the kilns."""
        self.setRowCount(len(rows))
        for place, row in enumerate(rows):
            for column, text in enumerate(row.cells):
                self.setItem(place, column, QTableWidgetItem(text))
        self.dress()

    def dress(self) -> None:
        """Follow the present sizes."""
        target = self._appearance.sizes.target
        self.verticalHeader().setMinimumSectionSize(target)
        self.resizeRowsToContents()
        self.setFixedHeight(sum(map(self.rowHeight, range(self.rowCount()))) + target + 6)
