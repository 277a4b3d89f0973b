"""The strip of the guide: which step, what there is to see, on, back or out."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QFrame, QHBoxLayout, QLabel, QPushButton, QWidget

from firing_review.firing.wording import tr
from firing_review.ui.guide.steps import STEPS
from firing_review.ui.wrapped import Wrapped

WORDS_LEAST_SIGNS = 48
"""Average signs on a line of words; with fewer the strip is higher than with buttons below."""


class GuideStrip(QFrame):
    """One step in words, and the buttons.

    Signals
    -------
    nextAsked : the person is done with this step.
    backAsked : the person wants to see the step before.
    leaveAsked : the person has seen enough.
    """

    nextAsked = Signal()
    backAsked = Signal()
    leaveAsked = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("guide")
        self.count = QLabel()
        self.count.setProperty("part", "small")
        self.text = Wrapped()
        for label in (self.count, self.text):
            label.setTextFormat(Qt.TextFormat.PlainText)
        self.back = QPushButton(tr("Back"))
        self.next = QPushButton(tr("Next"))
        self.next.setProperty("part", "main")
        self.leave = QPushButton(tr("Leave the guide"))
        self._told, self._ways = QHBoxLayout(), QHBoxLayout()
        self._told.addWidget(self.count)
        self._told.addWidget(self.text, 1)
        for button in (self.back, self.next, self.leave):
            self._ways.addWidget(button)
        self._rows = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self._rows.setContentsMargins(16, 8, 12, 8)
        for layout in (self._told, self._ways, self._rows):
            layout.setSpacing(16)
        self._rows.addLayout(self._told, 1)
        self._rows.addLayout(self._ways)
        self.next.clicked.connect(self.nextAsked)
        self.back.clicked.connect(self.backAsked)
        self.leave.clicked.connect(self.leaveAsked)
        self.hide()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Put the buttons below the words where both have no room side by side."""
        super().resizeEvent(event)
        signs = WORDS_LEAST_SIGNS * self.text.fontMetrics().averageCharWidth()
        needed = signs + self._ways.sizeHint().width() + self.count.sizeHint().width()
        ways = QBoxLayout.Direction
        self._rows.setDirection(ways.TopToBottom if needed > self.width() else ways.LeftToRight)

    def show_step(self, at: int) -> None:
        """Show a step by its place in the row of steps."""
        count = tr("Step {number} of {count}").format(number=at + 1, count=len(STEPS))
        text = tr(STEPS[at].text)
        last = at == len(STEPS) - 1
        self.count.setText(count)
        self.text.setText(text)
        self.next.setText(tr("Done") if last else tr("Next"))
        self.next.setAccessibleDescription(f"{count}. {text}")
        if at == 0 and self.back.hasFocus():
            self.next.setFocus()
        self.back.setVisible(at > 0)
        self.leave.setVisible(not last)
        self.setAccessibleName(f"{tr('Guide')}. {count}")
        self.show()
