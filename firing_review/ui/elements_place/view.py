"""The layout of the place "Elements"."""

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QBoxLayout,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from firing_review.firing.said import N_
from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.elements_place.climb_chart import ClimbChart, Quantity
from firing_review.ui.elements_place.share_bars import ShareBars
from firing_review.ui.entry import Entry
from firing_review.ui.layouts import fill
from firing_review.ui.text_table.view import TextTableView
from firing_review.ui.with_side import SideSizes, WithSide
from firing_review.ui.wrapped import Wrapped

SIZES = SideSizes(side=392)
THIN_PX = 640
CAUTION = N_(
    "Volts and amps under power: only a licensed electrician. Ω: cold, unplugged, one end off."
)


class ElementsView(QWidget):
    """Layout only: bars and charts at the left, words and readings beside or below."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self.bars = ShareBars(appearance)
        self.charts = tuple(ClimbChart(appearance, quantity) for quantity in Quantity)
        self.save_test = QPushButton(tr("Save the &test climb as a schedule…"))
        self.compare, self.alone = QPushButton(), QPushButton(tr("&Without it"))
        self.words = Wrapped(selectable=True)
        self.at_rest, self.at_load = Entry(), Entry()
        for entry, name in (
            (self.at_rest, tr("Supply at rest, volts")),
            (self.at_load, tr("Supply at full power, volts")),
        ):
            entry.setAccessibleName(name)
        self.table = TextTableView(appearance)
        self.table.setAccessibleName(tr("Meter readings by section"))
        self.message, self.sums = Wrapped(part="wrong"), Wrapped()
        self._lay_out()
        self.dress()

    @property
    def volts(self) -> tuple[Entry, Entry]:
        """Where the volts of the supply are typed: at rest, at full power."""
        return (self.at_rest, self.at_load)

    def _lay_out(self) -> None:
        main, inner = QWidget(), QWidget()
        fill(self, WithSide(self._appearance, main, inner, SIZES))
        left, side = QVBoxLayout(main), QVBoxLayout(inner)
        left.setContentsMargins(0, 0, 0, 0)
        left.addWidget(self.bars)
        self._lanes = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        for chart in self.charts:
            self._lanes.addWidget(chart, 1)
        left.addLayout(self._lanes, 1)
        form = QFormLayout()
        form.addRow(tr("Supply at &rest, V"), self.at_rest)
        form.addRow(tr("Supply at full &power, V"), self.at_load)
        side.addWidget(self.words)
        comparing = QHBoxLayout()
        comparing.addWidget(self.compare, 1)
        comparing.addWidget(self.alone)
        side.addLayout(comparing)
        side.addWidget(self.save_test)
        head = QLabel(tr("Meter readings"))
        head.setProperty("part", "heading")
        side.addWidget(head)
        side.addWidget(Wrapped(tr(CAUTION), "quiet"))
        side.addLayout(form)
        side.addWidget(self.message)
        side.addWidget(self.table, 1)
        side.addWidget(self.sums)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lay out for the new width."""
        super().resizeEvent(event)
        self.fit()

    def fit(self) -> None:
        """Put the charts one under the other where both have no room side by side."""
        thin, ways = self.width() < self._appearance.sizes.px(THIN_PX), QBoxLayout.Direction
        self._lanes.setDirection(ways.TopToBottom if thin else ways.LeftToRight)

    def dress(self) -> None:
        """Follow the present sizes."""
        self.fit()
        self.table.setMinimumHeight(self._appearance.sizes.target * 5)
        for entry in (self.at_rest, self.at_load, self.compare, self.alone, self.save_test):
            entry.setMinimumHeight(self._appearance.sizes.target)
        self.bars.dress()
        self.table.dress()
