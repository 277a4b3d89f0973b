"""One quiet line: what is being done, how far it is, and a way to end it."""

import time

from PySide6.QtCore import QTimer, Slot
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QProgressBar, QPushButton, QWidget

from firing_review.firing.wording import tr
from firing_review.ui.working import Working

EVERY_MS, STEPS, BAR_PX = 1000, 100, 160
WORTH_A_WORD_MS = 300
"""Whoever waits longer than this wants to know what for."""


class BusyLine(QFrame):
    """Shown while its background is busy; nothing in it moves but the bar, once a step.

    What is soon over is not worth a word: the line would come and go, and the page with it.
    """

    def __init__(self, background: Working, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("panel")
        self._words, self._began_s = "", 0.0
        self.text, self.bar = QLabel(), QProgressBar()
        self.cancel = QPushButton(tr("Cance&l"))
        self.bar.setRange(0, STEPS)
        self.bar.setTextVisible(False)
        self.bar.setFixedWidth(BAR_PX)
        self.bar.setAccessibleName(tr("How far it is"))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(16, 4, 12, 4)
        layout.setSpacing(12)
        layout.addWidget(self.text, 1)
        layout.addWidget(self.bar)
        layout.addWidget(self.cancel)
        self._clock = QTimer(self)
        self._clock.setInterval(EVERY_MS)
        self._clock.timeout.connect(self._say)
        self._late = QTimer(self, singleShot=True, interval=WORTH_A_WORD_MS)
        self._late.timeout.connect(self.show)
        self.cancel.clicked.connect(background.cancel)
        background.began.connect(self._on_began)
        background.progressed.connect(self._on_progress)
        background.ended.connect(self._on_ended)
        self.hide()
        if background.is_busy:
            self._on_began(background.words)

    @Slot(str)
    def _on_began(self, words: str) -> None:
        self._began_s = time.monotonic()
        self._clock.start()
        self._on_progress(0.0, words)
        self._late.start()

    @Slot(float, str)
    def _on_progress(self, share: float, words: str) -> None:
        self._words = words
        self.cancel.setAccessibleName(tr("Cancel: {what}").format(what=words))
        self.bar.setValue(round(share * STEPS))
        self._say()

    @Slot()
    def _say(self) -> None:
        seconds = round(time.monotonic() - self._began_s)
        words = tr("{what} … {seconds} s").format(what=self._words, seconds=seconds)
        self.text.setText(words)

    @Slot()
    def _on_ended(self) -> None:
        self._clock.stop()
        self._late.stop()
        self.hide()
