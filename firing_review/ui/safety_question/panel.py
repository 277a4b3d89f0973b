"""The safety question: an answer changes the verdict at once; silence is never "fine"."""

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QWidget

from firing_review.firing.sheet import NO_SIGN
from firing_review.review.review import Review
from firing_review.ui.layouts import fill
from firing_review.ui.safety_question.view import SafetyView
from firing_review.ui.scrolled import Scrolled


class SafetyQuestion(QWidget):
    """Signs of danger to tick.

    Signals
    -------
    answered : the signs noticed, ("none",), or None for a question left open.
    """

    answered = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._answer: tuple[str, ...] | None = None
        self.view = SafetyView()
        fill(self, Scrolled(self.view, self))
        for box in self.view.signs.values():
            box.clicked.connect(self._on_sign)
        self.view.none.clicked.connect(self._on_none)
        self.view.clear.clicked.connect(self._on_clear)

    def show_review(self, review: Review) -> None:
        """Show the answer as it stands."""
        self._answer = review.given.answers.safety
        noticed = set(self._answer or ()) - {NO_SIGN}
        for sign, box in self.view.signs.items():
            box.setChecked(sign in noticed)
        self.view.stop.setVisible(bool(noticed))
        self.view.none.setEnabled(not noticed)
        self.view.clear.setEnabled(self._answer is not None)

    def focus_first(self) -> None:
        """Put the keyboard on the first sign."""
        next(iter(self.view.signs.values())).setFocus()

    @Slot()
    def _on_sign(self) -> None:
        noticed = tuple(sign for sign, box in self.view.signs.items() if box.isChecked())
        self._say(noticed or None)

    @Slot()
    def _on_none(self) -> None:
        self._say((NO_SIGN,))

    @Slot()
    def _on_clear(self) -> None:
        self._say(None)

    def _say(self, answer: tuple[str, ...] | None) -> None:
        if answer != self._answer:
            self.answered.emit(answer)
