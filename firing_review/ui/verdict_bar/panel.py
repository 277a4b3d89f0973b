"""The verdict of the review that is open."""

from html import escape

from PySide6.QtCore import Signal, Slot
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget

from firing_review.firing.results import CauseWeighed, Check, Light
from firing_review.firing.said import Said
from firing_review.firing.wording import tr
from firing_review.report import wording
from firing_review.report.cause_text import likeliest, likely_word
from firing_review.report.shown_text import NO_BREAK
from firing_review.report.wording import chance
from firing_review.review.review import Review
from firing_review.ui.appearance import Appearance
from firing_review.ui.layouts import fill
from firing_review.ui.showing import Showing
from firing_review.ui.verdict_bar.view import MarkedWord, VerdictView


class VerdictBar(QWidget):
    """Sentence, marks, the likeliest cause and the next check, or what mends it if none is left.

    Signals
    -------
    safetyAsked : the person wants to answer the safety question.
    """

    safetyAsked = Signal()

    def __init__(
        self, appearance: Appearance, showing: Showing, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._showing, self._appearance = showing, appearance
        self._review: Review | None = None
        self.view = VerdictView(appearance)
        fill(self, self.view)
        self.view.answer.clicked.connect(self.safetyAsked)
        showing.changed.connect(self._refresh)
        appearance.changed.connect(self._refresh)

    def show_review(self, review: Review) -> None:
        """Show the verdict of a review."""
        self._review = review
        self._refresh()

    @Slot()
    def _refresh(self) -> None:
        if self._review is None:
            return
        verdict, show = self._review.verdict, self._showing.show
        self.view.sentence.setText(wording.render_all(verdict.sentences, show))
        self._mark(self.view.safety, verdict.lights.safety, verdict.safety_word)
        self._mark(self.view.load, verdict.lights.load, verdict.load_word)
        self._mark(self.view.kiln, verdict.lights.kiln, verdict.kiln_word)
        asked = self._review.given.answers.safety is not None
        self.view.answer.setText(tr("Ch&ange") if asked else tr("&Answer"))
        cause, check = likeliest(self._review), self._review.next_check
        parts = [self._cause(cause)] if cause is not None else []
        if check is not None:
            parts.append(self._check(check))
        elif cause is not None and cause.fix is not None:
            parts.append(self._fix(cause, cause.fix))
        self.view.next_check.setVisible(bool(parts))
        self.view.next_check.setText("<br>".join(parts))
        self.view.fit(self.width())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lay out for the new width."""
        super().resizeEvent(event)
        self.view.fit(event.size().width())

    def _mark(self, marked: MarkedWord, light: Light, word: Said) -> None:
        text = wording.render(word, self._showing.show)
        marked.mark.show_light(light)
        if light is Light.STOP:
            text = tr("stop")
        marked.text.setText(f"<b>{escape(marked.name)}:</b> {escape(text)}")
        marked.text.setAccessibleName(f"{marked.name}: {text}")

    def _cause(self, cause: CauseWeighed) -> str:
        name = wording.render(cause.name, self._showing.show)
        return self._headed(name, f"{likely_word(cause.probability)}, {chance(cause.probability)}")

    def _check(self, check: Check) -> str:
        text = wording.render(check.text, self._showing.show)
        about = f"{tr(check.who)}, {wording.minutes(check.minutes)}"
        return f"{self._headed(tr('Next check'), about)}<br>{escape(text)}"

    def _fix(self, cause: CauseWeighed, fix: Said) -> str:
        text = escape(wording.render(fix, self._showing.show))
        heading, caution = tr("If it is this"), tr("see Causes")
        headed = self._headed(heading, caution) if cause.caution else f"<b>{escape(heading)}</b>"
        return f"{headed}<br>{text}"

    def _headed(self, words: str, about: str) -> str:
        muted = self._appearance.colors.muted
        whole = escape(about).replace(" ", NO_BREAK)
        return f'<b>{escape(words)}</b> <span style="color: {muted}">({whole})</span>'
