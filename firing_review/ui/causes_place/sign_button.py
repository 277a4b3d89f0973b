"""One thing that speaks for or against a cause, to be gone to with a click or a key."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from firing_review.firing.results import Sign
from firing_review.firing.wording import tr
from firing_review.report.cause_text import sign_text
from firing_review.report.wording import Show
from firing_review.ui.carrier import WrappingCarrier
from firing_review.ui.wrapped import Wrapped

FOR, AGAINST = "+", "−"


class SignButton(WrappingCarrier):
    """A sentence of evidence; it carries its sign."""

    def __init__(self, sign: Sign, side: str, show: Show, parent: QWidget | None = None) -> None:
        text = sign_text(sign, show)
        super().__init__(sign, [Wrapped(f"{side}  {text}  ›")], parent)
        self.setProperty("part", "sign")
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.lines.setContentsMargins(6, 5, 6, 5)
        word = tr("speaks for it") if side == FOR else tr("speaks against it")
        self.setAccessibleName(f"{word}: {text}")
        self.setAccessibleDescription(tr("Shows where this is seen."))
