"""The row under the chart: how the log was read, and what can be done with the chart."""

from PySide6.QtWidgets import QHBoxLayout, QPushButton, QSizePolicy, QWidget

from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.elided import Elided


class ToolRow(QWidget):
    """Layout only: quiet words at the left, buttons at the right."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self.notes = Elided()
        self.notes.setAccessibleName(tr("How the log was read"))
        self.notes.setProperty("part", "quiet")
        self.notes.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.notes.setContentsMargins(4, 0, 0, 0)
        self.wider = _button("−", tr("Show more hours"))
        self.nearer = _button("+", tr("Show fewer hours"))
        self.whole = _button(tr("Whole firing"), tr("Show the whole firing"))
        self.measure = _button(tr("Measure"), tr("Measure between two points"))
        self.measure.setCheckable(True)
        self.note = _button(tr("Note…"), tr("Pin a note to a moment"))
        self.more = _button(tr("More"), tr("More for the chart: ranges, earlier firings, copies"))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 4, 2)
        layout.setSpacing(4)
        layout.addWidget(self.notes, 1)
        for button in self.buttons:
            layout.addWidget(button)

    @property
    def buttons(self) -> tuple[QPushButton, ...]:
        """The buttons in their order."""
        return (self.wider, self.nearer, self.whole, self.measure, self.note, self.more)

    def dress(self) -> None:
        """Follow the present sizes."""
        sizes = self._appearance.sizes
        for button in self.buttons:
            button.setMinimumSize(sizes.target, sizes.target)


def _button(words: str, spoken: str) -> QPushButton:
    button = QPushButton(words)
    button.setProperty("part", "chart")
    button.setAccessibleName(spoken)
    button.setToolTip(spoken)
    return button
