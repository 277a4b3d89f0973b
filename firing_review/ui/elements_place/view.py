"""The layout of the place "Elements"."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.elements_place.climb_chart import ClimbChart, Quantity
from firing_review.ui.elements_place.share_bars import ShareBars
from firing_review.ui.scrolled import Scrolled
from firing_review.ui.text_table.view import TextTableView

SIDE_PX = 392
CAUTION = (
    "Volts and amps under power: only a licensed electrician. Ω: cold, unplugged, one end off."
)


class ElementsView(QWidget):
    """Layout only: bars and chart at the left, words and readings at the right."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self.bars = ShareBars(appearance)
        self.charts = tuple(ClimbChart(appearance, quantity) for quantity in Quantity)
        self.save_test = QPushButton(tr("Save the &test climb as a schedule…"))
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.words.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.at_rest, self.at_load = QLineEdit(), QLineEdit()
        for entry, name in (
            (self.at_rest, tr("Supply at rest, volts")),
            (self.at_load, tr("Supply at full power, volts")),
        ):
            entry.setAccessibleName(name)
        self.table = TextTableView(appearance)
        self.table.setAccessibleName(tr("Meter readings by section"))
        self.message = QLabel()
        self.message.setWordWrap(True)
        self.sums = QLabel()
        self.sums.setWordWrap(True)
        self._lay_out()
        self.dress()

    def _lay_out(self) -> None:
        left = QVBoxLayout()
        left.addWidget(self.bars)
        lanes = QHBoxLayout()
        for chart in self.charts:
            lanes.addWidget(chart, 1)
        left.addLayout(lanes, 1)
        form = QFormLayout()
        form.addRow(tr("Supply at &rest, V"), self.at_rest)
        form.addRow(tr("Supply at full &power, V"), self.at_load)
        side = QVBoxLayout()
        side.addWidget(self.words)
        side.addWidget(self.save_test)
        head = QLabel(tr("Meter readings"))
        head.setProperty("part", "heading")
        side.addWidget(head)
        caution = QLabel(tr(CAUTION))
        caution.setProperty("part", "quiet")
        caution.setWordWrap(True)
        side.addWidget(caution)
        side.addLayout(form)
        side.addWidget(self.table, 1)
        side.addWidget(self.message)
        side.addWidget(self.sums)
        inner = QWidget()
        inner.setLayout(side)
        self._side = Scrolled(inner)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(12, 8, 8, 8)
        layout.addLayout(left, 1)
        layout.addWidget(self._side)

    def dress(self) -> None:
        """Follow the present sizes."""
        px = self._appearance.sizes.px
        self._side.setFixedWidth(px(SIDE_PX))
        self.table.setMinimumHeight(px(36) * 5)
        for entry in (self.at_rest, self.at_load, self.save_test):
            entry.setMinimumHeight(self._appearance.sizes.target)
        self.bars.dress()
        self.table.dress()
