"""The layout of the place "Next firing"."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from firing_review.firing.wording import tr
from firing_review.report.wording import NOT_KNOWN
from firing_review.ui.appearance import Appearance
from firing_review.ui.chooser import Slider
from firing_review.ui.layouts import fill
from firing_review.ui.next_place.outcomes import Outcomes
from firing_review.ui.next_place.schedule_chart import ScheduleChart
from firing_review.ui.with_side import SideSizes, WithSide
from firing_review.ui.wrapped import Wrapped

SIZES = SideSizes(side=420)


class NextView(QWidget):
    """Layout only: sliders and shelves at the left, words and ways at the right."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self.hold, self.rate, self.top = (self._slider() for _ in range(3))
        self.hold_label, self.rate_label, self.top_label = QLabel(), QLabel(), QLabel()
        self.outcomes = Outcomes(appearance)
        self.chart = ScheduleChart(appearance)
        self.words = Wrapped(selectable=True)
        self.ways = QVBoxLayout()
        self.reset = QPushButton(tr("As it &was"))
        self.save = QPushButton(tr("&Save this schedule…"))
        self._lay_out()
        self.dress()

    @staticmethod
    def _slider() -> Slider:
        slider = Slider(Qt.Orientation.Horizontal)
        slider.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        return slider

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(12)
        rows = (
            (tr("&Hold at the top"), self.hold, self.hold_label),
            (tr("&Last climb to the top"), self.rate, self.rate_label),
            (tr("&Top"), self.top, self.top_label),
        )
        for row, (name, slider, value) in enumerate(rows):
            label = QLabel(name)
            label.setBuddy(slider)
            slider.setAccessibleName(name.replace("&", ""))
            grid.addWidget(label, row, 0)
            grid.addWidget(slider, row, 1)
            grid.addWidget(value, row, 2)
        grid.setColumnStretch(1, 1)
        main, inner = QWidget(), QWidget()
        fill(self, WithSide(self._appearance, main, inner, SIZES))
        left, side = QVBoxLayout(main), QVBoxLayout(inner)
        left.setContentsMargins(0, 0, 0, 0)
        left.addLayout(grid)
        left.addWidget(self.outcomes)
        left.addWidget(self.chart, 1)
        side.addWidget(self.words)
        side.addLayout(self.ways)
        row = QHBoxLayout()
        row.addWidget(self.reset)
        row.addWidget(self.save)
        side.addLayout(row)
        side.addStretch(1)

    def show_nothing(self) -> None:
        """Show neither values nor shelves nor a schedule, where there is nothing to plan from."""
        for label in (self.hold_label, self.rate_label, self.top_label):
            label.setText(NOT_KNOWN)
        self.outcomes.show_rows(())
        self.chart.hide()

    def add_way(self, words: str, press: str) -> QPushButton:
        """Add a way in words, with a button that takes it."""
        row = QWidget()
        layout = QHBoxLayout(row)
        layout.setContentsMargins(0, 4, 0, 4)
        button = QPushButton(press)
        button.setMinimumHeight(self._appearance.sizes.target)
        if words:
            button.setAccessibleDescription(words)
            layout.addWidget(Wrapped(words), 1)
        layout.addWidget(button)
        self.ways.addWidget(row)
        return button

    def clear_ways(self) -> None:
        """Take all ways away."""
        while self.ways.count():
            widget = self.ways.takeAt(0).widget()
            if widget is not None:
                widget.setParent(None)
                widget.deleteLater()

    def dress(self) -> None:
        """Follow the present sizes."""
        px = self._appearance.sizes.px
        for slider in (self.hold, self.rate, self.top):
            slider.setMinimumHeight(self._appearance.sizes.target)
        for label in (self.hold_label, self.rate_label, self.top_label):
            label.setMinimumWidth(px(170))
        for button in (self.reset, self.save):
            button.setMinimumHeight(self._appearance.sizes.target)
