"""One cause: how likely, what speaks for and against it, what to do."""

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from firing_review.firing.results import CauseWeighed, Check, Sign
from firing_review.firing.wording import tr
from firing_review.report.cause_text import (
    NO_CAUTION,
    cause_name,
    together_text,
    who_text,
)
from firing_review.report.wording import Show, render
from firing_review.review.review import Review
from firing_review.ui.causes_place.sign_button import AGAINST, FOR, SignButton
from firing_review.ui.segment_table.fold import Fold
from firing_review.ui.wrapped import Wrapped

APART = frozenset({"small", "caution"})
"""Lines that stand a little apart from what is above them."""
MOST_OPEN = 4
"""Questions named on a card; the others stand at the right."""


class CauseCard(QFrame):
    """A card under a line that opens and closes it; the caution stands on the same card.

    Signals
    -------
    signChosen : the sign whose evidence is to be shown.
    opened : True when the card was opened, False when it was closed.
    """

    signChosen = Signal(object)
    opened = Signal(bool)

    def __init__(
        self, cause: CauseWeighed, review: Review, show: Show, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setProperty("part", "card")
        self.cause, self._show = cause, show
        self.fold = Fold()
        self.fold.setText(cause_name(cause, show).replace("&", "&&"))
        self.fold.setProperty("part", "causefold")
        self.body = QWidget()
        self._lines = QVBoxLayout(self.body)
        self._lines.setContentsMargins(14, 0, 14, 12)
        self._lines.setSpacing(4)
        self._fill(review)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.fold)
        layout.addWidget(self.body)
        self.fold.opened.connect(self._on_opened)
        self.open(is_open=False)

    def open(self, *, is_open: bool) -> None:
        """Open or close the card."""
        self.fold.setChecked(is_open)
        self.body.setVisible(is_open)

    @Slot(bool)
    def _on_opened(self, is_open: bool) -> None:
        self.body.setVisible(is_open)
        self.opened.emit(is_open)

    def _fill(self, review: Review) -> None:
        cause, show = self.cause, self._show
        if cause.what is not None:
            self._add(render(cause.what, show), "muted")
        self._add(together_text(cause, review, show))
        self._signs(tr("Speaks for it"), cause.signs_for, FOR)
        self._signs(tr("Speaks against it"), cause.signs_against, AGAINST)
        if cause.not_looked_at:
            self._add(tr("Not looked at"), "small")
            for said in cause.not_looked_at[:MOST_OPEN]:
                self._add(f"?  {render(said, show)}")
        if cause.next_check is not None:
            self._check(cause.next_check)
        if cause.fix is not None:
            self._add(tr("If it is this"), "small")
            self._add(render(cause.fix, show))
        if cause.caution is not None and cause.id not in NO_CAUTION:
            self._add(render(cause.caution, show), "caution")

    def _check(self, check: Check) -> None:
        self._add(tr("To settle it: {who}").format(who=who_text(check, self._show)), "small")
        self._add(f"→  {render(check.text, self._show)}")
        if check.settles is not None:
            self._add(render(check.settles, self._show))

    def _signs(self, heading: str, signs: tuple[Sign, ...], side: str) -> None:
        if not signs:
            return
        self._add(heading, "small")
        for sign in signs:
            button = SignButton(sign, side, self._show)
            button.chosen.connect(self.signChosen)
            self._lines.addWidget(button)

    def _add(self, text: str, part: str = "") -> None:
        if not text:
            return
        label = Wrapped(text, part, selectable=True)
        if part in APART:
            self._lines.addSpacing(6)
        self._lines.addWidget(label)
