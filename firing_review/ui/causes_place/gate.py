"""The gate: one question before all advice, and what danger puts in its place."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from firing_review.diagnosis.questions import SAFETY
from firing_review.firing.results import Light
from firing_review.firing.sheet import NO_SIGN
from firing_review.firing.wording import tr
from firing_review.report.wording import render
from firing_review.review.review import Review
from firing_review.ui.wrapped import Wrapped

NONE = (NO_SIGN,)


class Gate(QFrame):
    """The question about safety while it is open, a framed warning in danger, else nothing.

    Signals
    -------
    safe : nothing of what is asked was noticed.
    asked : the person wants to say what was noticed.
    """

    safe = Signal()
    asked = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.text = Wrapped(part="heading")
        self.setObjectName("danger")
        self.none = QPushButton(tr("&None of these"))
        self.some = QPushButton(tr("&One of these…"))
        self.none.clicked.connect(self.safe)
        self.some.clicked.connect(self.asked)
        buttons = QHBoxLayout()
        buttons.setSpacing(8)
        buttons.addWidget(self.none)
        buttons.addWidget(self.some)
        buttons.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 8, 12, 10)
        layout.setSpacing(8)
        layout.addWidget(self.text)
        layout.addLayout(buttons)

    def show_review(self, review: Review) -> None:
        """Show the question or the warning; once nothing was noticed the marks above say it."""
        light = review.verdict.lights.safety
        open_one = light is Light.NOT_ASKED
        question = tr("First of all: {question}").format(question=render(SAFETY.text))
        self.text.setText(question if open_one else render(review.verdict.safety_word))
        self.none.setVisible(open_one)
        self.some.setText(tr("&One of these…") if open_one else tr("&Change…"))
        self.setVisible(open_one or light is Light.STOP)

    def dress(self, height: int) -> None:
        """Follow the present sizes."""
        for button in (self.none, self.some):
            button.setMinimumHeight(height)
