"""The message strip; what was open stays open below it."""

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import Qt, Slot
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QFrame, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from firing_review.firing.errors import DoubtError, FiringReviewError, InputError
from firing_review.firing.wording import tr
from firing_review.ui.wrapped import Wrapped

SPARE_PX = 80
"""Edges, and some air between a sentence and the buttons beside it."""


@dataclass(frozen=True)
class Way:
    """One way on: what the button says and what it does."""

    text: str
    go: Callable[[], None]


class MessageStrip(QFrame):
    """Where, expected, found; the remedy; buttons for the next step."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("message")
        self._ways: list[tuple[QPushButton, Way]] = []
        self.heading = Wrapped(part="heading", selectable=True)
        self.text = Wrapped(selectable=True)
        for label in (self.heading, self.text):
            label.setTextFormat(Qt.TextFormat.PlainText)
        self.close_button = QPushButton(tr("Close message"))
        self.close_button.clicked.connect(self.dismiss)
        self._buttons = QHBoxLayout()
        self._buttons.addWidget(self.close_button)
        words = QVBoxLayout()
        words.setSpacing(6)
        for widget in (self.heading, self.text):
            words.addWidget(widget)
        self._rows = QBoxLayout(QBoxLayout.Direction.TopToBottom, self)
        self._rows.setContentsMargins(16, 8, 16, 8)
        self._rows.setSpacing(6)
        self._rows.addLayout(words, 1)
        self._rows.addLayout(self._buttons)
        self.hide()

    def fit(self) -> None:
        """Put the ways on beside a sentence that has room on one line, else below it."""
        words = self.heading.fontMetrics().horizontalAdvance(self.heading.text())
        needed = words + self._buttons.sizeHint().width() + SPARE_PX
        beside, ways = self.text.isHidden() and needed < self.width(), QBoxLayout.Direction
        self._rows.setDirection(ways.LeftToRight if beside else ways.TopToBottom)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lay out for the new width."""
        super().resizeEvent(event)
        self.fit()

    def show_error(self, error: FiringReviewError, ways: list[Way]) -> None:
        """Show an error a person can act on, and the ways on."""
        if isinstance(error, InputError):
            self.heading.setText(error.heading)
            in_doubt = isinstance(error, DoubtError) and ways
            self.text.setText(tr("Say which it is.") if in_doubt else error.remedy)
        else:
            self.heading.setText(str(error))
            self.text.setText("")
        self.text.setVisible(bool(self.text.text()))
        self._set_ways(ways)
        self.setAccessibleName(str(error))
        self.show()
        first = self._ways[0][0] if self._ways else self.close_button
        first.setFocus()

    def show_note(self, text: str, ways: list[Way]) -> None:
        """Show a word about what was done and the ways to change it; focus stays as it was."""
        self.heading.setText(text)
        self.text.hide()
        self._set_ways(ways)
        self.setAccessibleName(text)
        self.show()

    def _set_ways(self, ways: list[Way]) -> None:
        while self._buttons.count():
            widget = self._buttons.takeAt(0).widget()
            if widget is not None and widget is not self.close_button:
                widget.hide()
                widget.deleteLater()
        self._ways = []
        for way in ways:
            button = QPushButton(way.text)
            button.clicked.connect(self._on_way)
            self._ways.append((button, way))
            self._buttons.addWidget(button)
        self._buttons.addWidget(self.close_button)
        self._buttons.addStretch(1)
        self.fit()

    @property
    def buttons(self) -> list[QPushButton]:
        """The buttons of the ways on."""
        return [button for button, _ in self._ways]

    @Slot()
    def _on_way(self) -> None:
        pressed = self.sender()
        way = next((way for button, way in self._ways if button is pressed), None)
        self.dismiss()
        if way is not None:
            way.go()

    @Slot()
    def dismiss(self) -> None:
        """Take the message away."""
        self.hide()
