"""What the files do not say, asked in the order in which people who answer ask.

A row stays where it is once it is answered, so that nothing moves under the hand.
"""

from dataclasses import replace
from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from firing_review.diagnosis.questions import QUESTIONS
from firing_review.firing.results import Question
from firing_review.firing.said import N_
from firing_review.firing.sheet import Answers, Given
from firing_review.firing.wording import listed, tr
from firing_review.report.wording import Show, render
from firing_review.review.review import Review
from firing_review.ui.causes_place.answer_fields import ChoiceField, NumberField, TextField
from firing_review.ui.causes_place.spots import ASKED_ELSEWHERE
from firing_review.ui.top_bar.cone_choices import cone_choices
from firing_review.ui.wrapped import Wrapped

GOAL = "goal_cone"
NUMBERS = {"usual_hours": False, "firings_since_elements": True}
"""Whether the number is counted."""
TEXTS = frozenset({"changed", "load_place"})
CONES = frozenset({GOAL, "ware_rated_cone"})
DARK = "sections_dark"
NOT_HERE = frozenset({"safety"})
"""The gate has a frame of its own above everything."""
KEPT_ABOVE = frozenset({GOAL})
"""Once answered it stands in the bar at the top."""

WAY_WORDS = {
    "shelves": N_("Enter them in Shelves…"),
    "elements": N_("Enter it in Elements…"),
    "firing": N_("Enter it beside the chart…"),
}
Field = ChoiceField | TextField


class QuestionRow(QWidget):
    """One question, a field for its answer, and what the answer would settle.

    Signals
    -------
    answered : the answer, None for left open.
    elsewhere : where in the window it is answered.
    """

    answered = Signal(object)
    elsewhere = Signal(object)

    def __init__(self, question: Question, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.question = question
        self.field = _field(question)
        self._way: QPushButton | None = None
        self._lay_out()

    def _lay_out(self) -> None:
        self._label, self._settles = Wrapped(), Wrapped(part="quiet")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 10)
        layout.setSpacing(4)
        layout.addWidget(self._label)
        if self.field is not None:
            self._label.setBuddy(self.field)
            self.field.answered.connect(self.answered)
            layout.addWidget(self.field)
        elif self.question.key in ASKED_ELSEWHERE:
            self._way = QPushButton(tr(WAY_WORDS[ASKED_ELSEWHERE[self.question.key].place]))
            self._way.clicked.connect(self._on_way)
            layout.addWidget(self._way)
        layout.addWidget(self._settles)

    def _on_way(self) -> None:
        self.elsewhere.emit(ASKED_ELSEWHERE[self.question.key])

    def show_review(self, review: Review, show: Show) -> None:
        """Show the answer there is; a question that is neither open nor answered is not shown."""
        value = value_of(review.given, self.question.key)
        is_open = any(q.key == self.question.key for q in review.questions)
        self.setVisible(is_open or (self.field is not None and value is not None))
        self._settles.setVisible(value is None)
        self._name(render(self.question.text, show))
        what = render(self.question.settles, show)
        self._settles.setText(tr("Settles: {what}").format(what=what))
        if isinstance(self.field, ChoiceField):
            self.field.set_choices(_choices(self.question, review.given, show))
        if self.field is not None:
            self.field.show_value(value)

    def _name(self, text: str) -> None:
        self._label.setText(text)
        if self.field is not None:
            self.field.setAccessibleName(text)
        if self._way is not None:
            self._way.setAccessibleName(f"{text} {self._way.text()}")

    def dress(self, height: int) -> None:
        """Follow the present sizes."""
        for widget in (self.field, self._way):
            if widget is not None:
                widget.setMinimumHeight(height)


class Questions(QWidget):
    """All questions, those that are open or answered shown.

    Signals
    -------
    answersEdited : all answers as they now stand.
    goalChosen : the cone meant.
    elsewhere : where in the window a question is answered.
    """

    answersEdited = Signal(object)
    goalChosen = Signal(object)
    elsewhere = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.rows: dict[str, QuestionRow] = {}
        self._review: Review | None = None
        self._above: set[str] = set()
        self._head = Wrapped(part="heading")
        self._hint = QLabel(tr("Each may be left open."))
        self._hint.setProperty("part", "quiet")
        self._said_head = QLabel(tr("Said already"))
        self._said_head.setProperty("part", "heading")
        self._open, self._said = QVBoxLayout(), QVBoxLayout()
        layout = QVBoxLayout(self)
        layout.addWidget(self._head)
        layout.addWidget(self._hint)
        layout.addLayout(self._open)
        layout.addWidget(self._said_head)
        layout.addLayout(self._said)
        layout.addStretch(1)
        self._make_rows()

    def _make_rows(self) -> None:
        for question, _ in QUESTIONS:
            if question.key not in NOT_HERE:
                row = self.rows[question.key] = QuestionRow(question)
                row.answered.connect(partial(self._on_answer, question.key))
                row.elsewhere.connect(self.elsewhere)
                self._open.addWidget(row)

    def begin(self, review: Review) -> None:
        """Put what the files say apart from what is open; after that no row moves."""
        for key, row in self.rows.items():
            said = value_of(review.given, key) is not None and key not in KEPT_ABOVE
            (self._said if said else self._open).addWidget(row)
        self._above = {k for k in KEPT_ABOVE if value_of(review.given, k) is not None}

    def show_review(self, review: Review, show: Show) -> None:
        """Show what is open and what was answered."""
        self._review = review
        for key, row in self.rows.items():
            row.show_review(review, show)
            if key in self._above:
                row.hide()
        left = [q for q in review.questions if q.key not in NOT_HERE]
        self._hint.setVisible(bool(left))
        text = tr("Questions that would settle more") if left else tr("Nothing is left to ask")
        self._head.setText(text)
        said = (self._said.itemAt(place).widget() for place in range(self._said.count()))
        self._said_head.setVisible(any(not row.isHidden() for row in said))

    @property
    def in_order(self) -> list[QuestionRow]:
        """The rows as they stand, from the top."""
        layouts = (self._open, self._said)
        return [lay.itemAt(n).widget() for lay in layouts for n in range(lay.count())]

    def dress(self, height: int) -> None:
        """Follow the present sizes."""
        for row in self.rows.values():
            row.dress(height)

    def ask(self, key: str) -> None:
        """Put the keyboard on a question."""
        field = self.rows[key].field if key in self.rows else None
        if field is not None:
            field.setFocus()

    def _on_answer(self, key: str, value: object) -> None:
        if self._review is None:
            return
        if key == GOAL:
            self.goalChosen.emit(value)
        else:
            self.answersEdited.emit(answered(self._review.given.answers, key, value))


def answered(answers: Answers, key: str, value: object) -> Answers:
    """Return the answers with one of them set, or taken back with None."""
    return replace(answers, **{key: value})


def value_of(given: Given, key: str) -> object:
    """Return the answer to a question; None if it is open or asked elsewhere."""
    return given.goal_cone if key == GOAL else getattr(given.answers, key, None)


def _field(question: Question) -> Field | None:
    key = question.key
    if question.choices or key in CONES or key == DARK:
        return ChoiceField()
    if key in NUMBERS:
        return NumberField(counted=NUMBERS[key])
    return TextField() if key in TEXTS else None


def _choices(question: Question, given: Given, show: Show) -> list[tuple[object, str]]:
    if question.key in CONES:
        return [choice for choice in cone_choices(show) if choice[0] is not None]
    if question.key == DARK:
        return _sections(given)
    return [(value, render(said)) for value, said in question.choices]


def _sections(given: Given) -> list[tuple[object, str]]:
    """Return which section stayed dark; where none has a name, that one did."""
    names = [s.name for s in given.kiln.sections] if given.kiln is not None else []
    dark = [((n,), tr("{section} stayed dark").format(section=n)) for n in names]
    several = given.answers.sections_dark or ()
    if len(several) > 1:
        dark.append((several, tr("{sections} stayed dark").format(sections=listed(several))))
    elif several and several[0] not in names:
        dark.append((several, tr("{section} stayed dark").format(section=several[0])))
    return [((), tr("all glow")), *(dark or [((tr("one section"),), tr("one stayed dark"))])]
