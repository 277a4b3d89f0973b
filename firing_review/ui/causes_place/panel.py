"""The place "Causes": cards at the left, questions at the right; an answer ranks anew at once."""

from functools import partial

from PySide6.QtCore import Signal, Slot
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from firing_review.firing.wording import tr
from firing_review.report.text import review_text
from firing_review.review.review import Review
from firing_review.ui.appearance import Appearance
from firing_review.ui.causes_place.card import CauseCard
from firing_review.ui.causes_place.questions import QUESTIONS, Question, answered
from firing_review.ui.chooser import Chooser
from firing_review.ui.scrolled import Scrolled
from firing_review.ui.showing import Showing

SIDE_PX = 380
SHOWN_FROM, MOST_SHOWN = 0.03, 5
SKIPPED = "–"


class CausesPlace(QWidget):
    """Ranked cards and questions; the one next check stands beside the verdict.

    Signals
    -------
    answersEdited : the answers as they now stand.
    """

    answersEdited = Signal(object)

    def __init__(
        self, appearance: Appearance, showing: Showing, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._appearance, self._showing = appearance, showing
        self._review: Review | None = None
        self.cards = QVBoxLayout()
        self.choosers: dict[str, Chooser] = {}
        self.copy = QPushButton(tr("&Copy all as text"))
        self.copy.clicked.connect(self._on_copy)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(12, 8, 8, 8)
        layout.addWidget(Scrolled(self._left()), 1)
        self._side = Scrolled(self._right())
        layout.addWidget(self._side)
        appearance.changed.connect(self._on_look)
        showing.changed.connect(self._on_look)
        self._dress()

    def _left(self) -> QWidget:
        left = QWidget()
        layout = QVBoxLayout(left)
        layout.setContentsMargins(0, 0, 8, 0)
        layout.addLayout(self.cards)
        layout.addStretch(1)
        return left

    def _right(self) -> QWidget:
        right = QWidget()
        layout = QVBoxLayout(right)
        head = QLabel(tr("Questions that would settle more"))
        head.setProperty("part", "heading")
        layout.addWidget(head)
        for question in QUESTIONS:
            self._add(layout, question)
        layout.addWidget(self.copy)
        layout.addStretch(1)
        return right

    def _add(self, layout: QVBoxLayout, question: Question) -> None:
        chooser = Chooser()
        chooser.setAccessibleName(tr(question.text))
        chooser.setAccessibleDescription(tr(question.settles))
        chooser.addItem(SKIPPED, None)
        for value, word in question.choices:
            chooser.addItem(tr(word), value)
        chooser.activated.connect(partial(self._on_answer, question))
        label = QLabel(tr(question.text))
        label.setWordWrap(True)
        label.setBuddy(chooser)
        why = QLabel(tr(question.settles))
        why.setProperty("part", "quiet")
        why.setWordWrap(True)
        for widget in (label, chooser, why):
            layout.addWidget(widget)
        self.choosers[question.key] = chooser

    def show_review(self, review: Review) -> None:
        """Show the causes of a review and the answers it has."""
        self._review = review
        for question in QUESTIONS:
            value = getattr(review.given.answers, question.key)
            self.choosers[question.key].setCurrentIndex(_place(question, value))
        self._draw()

    def _draw(self) -> None:
        while self.cards.count():
            item = self.cards.takeAt(0)
            if item.widget() is not None:
                item.widget().setParent(None)
        review, show = self._review, self._showing.show
        if review is None:
            return
        shown = [c for c in review.causes if c.probability >= SHOWN_FROM][:MOST_SHOWN]
        for cause in shown:
            self.cards.addWidget(CauseCard(cause, show))
        if not shown:
            self.cards.addWidget(QLabel(tr("Without a firing there is nothing to weigh.")))

    @Slot()
    def _on_look(self) -> None:
        self._dress()
        self._draw()

    def _dress(self) -> None:
        self._side.setFixedWidth(self._appearance.sizes.px(SIDE_PX))
        for widget in (*self.choosers.values(), self.copy):
            widget.setMinimumHeight(self._appearance.sizes.target)

    def _on_answer(self, question: Question, place: int) -> None:
        if self._review is not None:
            value = self.choosers[question.key].itemData(place)
            self.answersEdited.emit(answered(self._review.given.answers, question.key, value))

    @Slot()
    def _on_copy(self) -> None:
        if self._review is not None:
            QGuiApplication.clipboard().setText(review_text(self._review, self._showing.show))


def _place(question: Question, value: object) -> int:
    """Return the choice that stands for an answer; a count stands for its range."""
    if value is None:
        return 0
    if question.key == "firings_since_elements" and isinstance(value, int):
        return 1 if value < 60 else 3 if value > 130 else 2
    values = [choice for choice, _ in question.choices]
    return values.index(value) + 1 if value in values else 0
