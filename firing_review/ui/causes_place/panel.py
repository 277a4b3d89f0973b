"""The place "Causes": safety, load, next firing, causes; an answer at the right ranks anew."""

from dataclasses import replace

from PySide6.QtCore import Signal, Slot
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from firing_review.firing.results import Sign
from firing_review.firing.wording import tr
from firing_review.report.cause_text import SHOWN_FROM, causes_page_text
from firing_review.review.review import Review
from firing_review.ui.appearance import Appearance
from firing_review.ui.causes_place.advice import Advice
from firing_review.ui.causes_place.card import CauseCard
from firing_review.ui.causes_place.gate import NONE, Gate
from firing_review.ui.causes_place.questions import Questions
from firing_review.ui.causes_place.spots import QUESTION_OF, SAFETY, spot_of
from firing_review.ui.layouts import fill
from firing_review.ui.scrolled import Scrolled
from firing_review.ui.showing import Showing
from firing_review.ui.tab_order import set_tab_order
from firing_review.ui.with_side import SideSizes, WithSide

SIZES = SideSizes(side=388)
MOST_SHOWN = 5
OPEN_FROM = 0.25
"""A card is open at first from this probability; the first one always is."""


class CausesPlace(QWidget):
    """Safety first, then the load, then whether to fire again, then ranked cards.

    Signals
    -------
    answersEdited : the answers as they now stand.
    goalChosen : the cone meant.
    spotAsked : where in the window something is to be seen or typed.
    """

    answersEdited = Signal(object)
    goalChosen = Signal(object)
    spotAsked = Signal(object)

    def __init__(
        self, appearance: Appearance, showing: Showing, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._appearance, self._showing = appearance, showing
        self._review: Review | None = None
        self._opened: dict[str, bool] = {}
        self.gate, self.advice, self.questions = Gate(), Advice(), Questions()
        self.cards = QVBoxLayout()
        self.cards.setSpacing(8)
        self.copy = QPushButton(tr("Cop&y as text"))
        left = QWidget()
        fill(self, WithSide(appearance, Scrolled(left), self.questions, SIZES, self))
        self._fill_left(left)
        self._connect()
        self._dress()

    def _fill_left(self, left: QWidget) -> None:
        head = QHBoxLayout()
        self._head = QLabel(tr("What may lie behind it"))
        self._head.setProperty("part", "heading")
        head.addWidget(self._head, 1)
        head.addWidget(self.copy)
        layout = QVBoxLayout(left)
        layout.setContentsMargins(0, 0, 8, 0)
        layout.setSpacing(8)
        layout.addWidget(self.gate)
        layout.addWidget(self.advice)
        layout.addLayout(head)
        layout.addLayout(self.cards)
        layout.addStretch(1)

    def _connect(self) -> None:
        self.copy.clicked.connect(self._on_copy)
        self.gate.safe.connect(self._on_safe)
        self.gate.asked.connect(self._on_safety)
        self.questions.answersEdited.connect(self.answersEdited)
        self.questions.goalChosen.connect(self.goalChosen)
        self.questions.elsewhere.connect(self.spotAsked)
        self._appearance.changed.connect(self._on_look)
        self._showing.changed.connect(self._on_look)

    def show_review(self, review: Review) -> None:
        """Show the causes of a review and the answers it has."""
        if self._review is None or self._review.given.log is not review.given.log:
            self._opened = {}
            self.questions.begin(review)
        self._review = review
        self._draw()

    def _draw(self) -> None:
        review, show = self._review, self._showing.show
        if review is None:
            return
        self.gate.show_review(review)
        self.advice.show_review(review, show)
        self.questions.show_review(review, show)
        self._draw_cards(review)
        set_tab_order([self.gate, self.copy, *self.cause_cards, *self.questions.in_order])

    def _draw_cards(self, review: Review) -> None:
        while self.cards.count():
            widget = self.cards.takeAt(0).widget()
            widget.setParent(None)
            widget.deleteLater()
        shown = [c for c in review.causes if c.probability >= SHOWN_FROM][:MOST_SHOWN]
        for place, cause in enumerate(shown):
            card = CauseCard(cause, review, self._showing.show)
            likely = place == 0 or cause.probability >= OPEN_FROM
            card.open(is_open=self._opened.get(cause.id, likely))
            card.signChosen.connect(self._on_sign)
            card.opened.connect(self._on_opened)
            self.cards.addWidget(card)
        if not shown:
            self.cards.addWidget(QLabel(tr("Without a firing there is nothing to weigh.")))

    @property
    def cause_cards(self) -> list[CauseCard]:
        """The cards, the most probable cause first."""
        found = (self.cards.itemAt(place).widget() for place in range(self.cards.count()))
        return [card for card in found if isinstance(card, CauseCard)]

    @Slot(bool)
    def _on_opened(self, is_open: bool) -> None:
        card = self.sender()
        if isinstance(card, CauseCard):
            self._opened[card.cause.id] = is_open

    @Slot(object)
    def _on_sign(self, sign: Sign) -> None:
        if sign.fact in QUESTION_OF:
            self.questions.ask(QUESTION_OF[sign.fact])
        else:
            self.spotAsked.emit(spot_of(sign))

    @Slot()
    def _on_safe(self) -> None:
        if self._review is not None:
            self.answersEdited.emit(replace(self._review.given.answers, safety=NONE))

    @Slot()
    def _on_safety(self) -> None:
        self.spotAsked.emit(SAFETY)

    @Slot()
    def _on_look(self) -> None:
        self._dress()
        self._draw()

    def _dress(self) -> None:
        sizes = self._appearance.sizes
        self.copy.setMinimumHeight(sizes.target)
        self.questions.dress(sizes.target)
        self.gate.dress(sizes.target)

    @Slot()
    def _on_copy(self) -> None:
        if self._review is not None:
            text = causes_page_text(self._review, self._showing.show)
            QGuiApplication.clipboard().setText(text)
