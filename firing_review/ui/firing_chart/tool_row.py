"""The row under the chart: how the log was read, and what can be done with the chart."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QHBoxLayout, QPushButton, QWidget

from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.wrapped import Wrapped

NOTES_PX = 260
"""Width below which the words stand above the buttons, at scale 1."""


class ToolRow(QWidget):
    """Layout only: quiet words at the left or above, buttons at the right."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self.notes = Wrapped(part="quiet")
        self.notes.setAccessibleName(tr("How the log was read"))
        self.notes.setContentsMargins(4, 0, 0, 0)
        self.wider = _button("−", tr("Show more hours"))
        self.nearer = _button("+", tr("Show fewer hours"))
        self.whole = _button(tr("Whole firing"), tr("Show the whole firing"))
        self.measure = _button(tr("Measure"), tr("Measure between two points"))
        self.measure.setCheckable(True)
        self.note = _button(tr("Note…"), tr("Pin a note to a moment"))
        self.more = _button(tr("More"), tr("More for the chart: ranges, earlier firings, copies"))
        self._lay_out()

    def _lay_out(self) -> None:
        self._buttons = QWidget()
        row = QHBoxLayout(self._buttons)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(4)
        for button in self.buttons:
            row.addWidget(button)
        self._box = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self._box.setContentsMargins(0, 0, 4, 2)
        self._box.setSpacing(4)
        self._box.addWidget(self.notes, 1)
        self._box.addWidget(self._buttons, 0, Qt.AlignmentFlag.AlignRight)

    @property
    def buttons(self) -> tuple[QPushButton, ...]:
        """The buttons in their order."""
        return (self.wider, self.nearer, self.whole, self.measure, self.note, self.more)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Put the words above the buttons where there is no room beside them."""
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        room = self.width() - self._buttons.sizeHint().width()
        above, ways = room < self._appearance.sizes.px(NOTES_PX), QBoxLayout.Direction
        self._box.setDirection(ways.TopToBottom if above else ways.LeftToRight)

    def dress(self) -> None:
        """Follow the present sizes."""
        sizes = self._appearance.sizes
        for button in self.buttons:
            button.setMinimumSize(sizes.target, sizes.target)
        self._fit()


def _button(words: str, spoken: str) -> QPushButton:
    button = QPushButton(words)
    button.setProperty("part", "chart")
    button.setAccessibleName(spoken)
    button.setToolTip(spoken)
    return button
