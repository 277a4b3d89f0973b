"""The kiln form's layout."""

from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.chooser import Chooser
from firing_review.ui.entry import Entry
from firing_review.ui.kiln_form.values import NUMBERS, SUPPLY_WORDS, THERMOCOUPLE_LETTERS
from firing_review.ui.text_table.view import TextTableView
from firing_review.ui.wrapped import Wrapped


class KilnView(QWidget):
    """Layout only: the name plate, the sections, one line about what is wrong."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self.entries = {"name": Entry(), **{field.key: Entry() for field in NUMBERS}}
        self.supply = Chooser()
        self.supply.addItems([tr(word) for word in SUPPLY_WORDS.values()])
        self.thermocouple = Chooser()
        self.thermocouple.addItems(
            [tr("not given") if one is None else one for one in THERMOCOUPLE_LETTERS]
        )
        self.sections = TextTableView(appearance)
        self.sections.setAccessibleName(tr("Sections from the floor up"))
        self.message = Wrapped(part="wrong")
        self.remove = QPushButton(tr("&Remove section"))
        self.remove.setProperty("part", "half")
        self.from_file = QPushButton(tr("From a kiln &sheet…"))
        self.from_file.setProperty("part", "half")
        self._lay_out()

    def _lay_out(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 12, 12, 12)
        layout.setSpacing(8)
        layout.addLayout(self._plate())
        heading = QLabel(tr("Sections from the floor up"))
        heading.setBuddy(self.sections)
        layout.addWidget(heading)
        layout.addWidget(self.sections)
        layout.addWidget(self.message)
        row = QHBoxLayout()
        row.addWidget(self.remove)
        row.addWidget(self.from_file)
        layout.addLayout(row)
        layout.addStretch(1)

    def _plate(self) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(4)
        grid.setColumnStretch(1, 1)
        self._add(grid, tr("Name"), self.entries["name"], "")
        for field in NUMBERS:
            self._add(grid, tr(field.label), self.entries[field.key], field.unit)
        self._add(grid, tr("Supply"), self.supply, "")
        self._add(grid, tr("Thermocouple"), self.thermocouple, "")
        return grid

    def _add(self, grid: QGridLayout, label: str, widget: QWidget, unit: str) -> None:
        row = grid.rowCount()
        text = QLabel(label)
        text.setBuddy(widget)
        widget.setAccessibleName(f"{label}, {unit}" if unit else label)
        grid.addWidget(text, row, 0)
        if unit:
            grid.addWidget(widget, row, 1)
            grid.addWidget(QLabel(unit), row, 2)
        else:
            grid.addWidget(widget, row, 1, 1, 2)

    def fit_sections(self, rows: int) -> None:
        """Make room for all sections; the form scrolls, not the table in it."""
        sizes = self._appearance.sizes
        self.sections.setFixedHeight(sizes.px(52) + sizes.target * rows)
