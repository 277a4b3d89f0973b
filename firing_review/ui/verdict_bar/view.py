"""The verdict's layout."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import (
    QBoxLayout,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.marks import LightMark
from firing_review.ui.wrapped import Wrapped

MARKS_APART_PX = 110
CHECK_LEAST_SIGNS = 30
"""Average signs on a line of the next check; in a thinner column beside, words fall apart."""
CHECK_MOST_SHARE = 0.36
"""Share of the width the next check may take at most, so that the sentence stays the larger."""
CHECK_STEP_PX = 8
SIDE_PX, EDGE_PX, APART_PX, LINE_PX = 16, 10, 24, 8
"""Beside and above all of it, between the halves, between sentence and marks [px]."""


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
        layout.addStretch(1)


class VerdictView(QFrame):
    """Layout only."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("verdict")
        self.sentence = Wrapped(part="verdict")
        self.sentence.setAccessibleName(tr("Verdict"))
        self.safety = MarkedWord(appearance, tr("Safety"))
        self.load = MarkedWord(appearance, tr("Load"))
        self.kiln = MarkedWord(appearance, tr("Kiln"))
        self.answer = QPushButton(tr("&Answer"))
        self.answer.setProperty("part", "half")
        self.answer.setAccessibleName(tr("Answer the question about safety"))
        self.next_check = Wrapped()
        self.next_check.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        self.next_check.setAccessibleName(tr("Most likely cause and next check"))
        self._lay_out()

    def _lay_out(self) -> None:
        left = QVBoxLayout()
        left.setSpacing(LINE_PX)
        left.addWidget(self.sentence)
        self._marks = self._make_marks()
        left.addWidget(self._marks)
        left.addStretch(1)
        self._halves = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self._halves.setContentsMargins(SIDE_PX, EDGE_PX, SIDE_PX, EDGE_PX)
        self._halves.addLayout(left)
        self._halves.addWidget(self.next_check)

    def _make_marks(self) -> QWidget:
        marks = QWidget()
        self._row = QBoxLayout(QBoxLayout.Direction.LeftToRight, marks)
        self._row.setContentsMargins(0, 0, 0, 0)
        self._row.setSpacing(24)
        asked = QHBoxLayout()
        asked.setSpacing(12)
        asked.addWidget(self.safety)
        asked.addWidget(self.answer)
        asked.addStretch(1)
        self._row.addLayout(asked)
        self._row.addWidget(self.load)
        self._row.addWidget(self.kiln)
        self._row.addStretch(1)
        return marks

    def minimumSizeHint(self) -> QSize:
        """Ask for no more width than the marks need one under the other."""
        widest = self.safety.sizeHint().width() + self.answer.sizeHint().width() + 60
        return QSize(widest, super().minimumSizeHint().height())

    def fit(self, room: int) -> None:
        """Put marks and next check side by side, or one under the other when there is no room."""
        parts = (self.safety, self.answer, self.load, self.kiln)
        needed = sum(part.sizeHint().width() for part in parts) + MARKS_APART_PX
        directions = QBoxLayout.Direction
        stacked = needed > room
        self._row.setDirection(directions.TopToBottom if stacked else directions.LeftToRight)
        self._row.setSpacing(4 if stacked else 24)
        beside = self.next_check.fontMetrics().averageCharWidth() * CHECK_LEAST_SIGNS
        below = needed + beside > room
        self._halves.setDirection(directions.TopToBottom if below else directions.LeftToRight)
        self._halves.setSpacing(LINE_PX if below else APART_PX)
        width = 0 if below else self._check_width(beside, room, needed)
        self._halves.setStretch(0, room - 2 * SIDE_PX - APART_PX - width)
        self._halves.setStretch(1, width)

    def _check_width(self, least: int, room: int, needed: int) -> int:
        """Return the width at which all is lowest, and the next check has the fewest lines.

        Parameters
        ----------
        least, room, needed : int
            The thinnest column, the width of all, the width of the marks in a row [px].
        """
        inside = room - 2 * SIDE_PX - APART_PX
        most = max(min(room - needed, int(CHECK_MOST_SHARE * room)), least)
        marks = LINE_PX + self._marks.sizeHint().height()

        def heights(width: int) -> tuple[int, int]:
            check = self.next_check.heightForWidth(width)
            sentence = self.sentence.heightForWidth(inside - width)
            return max(check, sentence + marks), check

        for label in (self.sentence, self.next_check):
            label.ensurePolished()
        return min(range(least, most + 1, CHECK_STEP_PX), key=heights)
