"""The verdict's layout."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.marks import LightMark


class MarkedWord(QWidget):
    """A mark, what it stands for, and its word."""

    def __init__(self, appearance: Appearance, name: str) -> None:
        super().__init__()
        self.name = name
        self.mark = LightMark(appearance)
        self.text = QLabel()
        self.text.setTextFormat(Qt.TextFormat.RichText)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        layout.addWidget(self.mark)
        layout.addWidget(self.text)


class VerdictView(QFrame):
    """Layout only."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("verdict")
        self.sentence = QLabel()
        self.sentence.setProperty("part", "verdict")
        self.sentence.setWordWrap(True)
        self.sentence.setAccessibleName(tr("Verdict"))
        self.safety = MarkedWord(appearance, tr("Safety"))
        self.load = MarkedWord(appearance, tr("Load"))
        self.kiln = MarkedWord(appearance, tr("Kiln"))
        self.answer = QPushButton(tr("&Answer"))
        self.answer.setProperty("part", "half")
        self.answer.setAccessibleName(tr("Answer the question about safety"))
        self.next_check = QLabel()
        self.next_check.setWordWrap(True)
        self.next_check.setAccessibleName(tr("Next check"))
        self._lay_out()

    def _lay_out(self) -> None:
        left = QVBoxLayout()
        left.setSpacing(8)
        left.addWidget(self.sentence)
        left.addWidget(self._marks())
        layout = QHBoxLayout(self)
        layout.setContentsMargins(16, 10, 16, 10)
        layout.setSpacing(24)
        layout.addLayout(left, 3)
        layout.addWidget(self.next_check, 1)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)

    def _marks(self) -> QWidget:
        marks = QWidget()
        row = QHBoxLayout(marks)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(12)
        row.addWidget(self.safety)
        row.addWidget(self.answer)
        row.addSpacing(12)
        row.addWidget(self.load)
        row.addSpacing(12)
        row.addWidget(self.kiln)
        row.addStretch(1)
        return marks
