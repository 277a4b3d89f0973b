"""A place by itself, before a firing is open."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from firing_review.firing.wording import tr


class ByItself(QWidget):
    """A place with its name and a way back.

    Signals
    -------
    left : the person wants to go back to the start page.
    """

    left = Signal()

    def __init__(self, name: str, place: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.place = place
        self.back = QPushButton(tr("S&tart page"))
        self.back.clicked.connect(self.left)
        heading = QLabel(name)
        heading.setProperty("part", "title")
        bar = QWidget()
        bar.setObjectName("panel")
        top = QHBoxLayout(bar)
        top.setContentsMargins(16, 6, 12, 6)
        top.addWidget(heading, 1)
        top.addWidget(self.back)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(bar)
        layout.addWidget(place, 1)
