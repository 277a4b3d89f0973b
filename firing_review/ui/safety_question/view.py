"""The safety question's layout."""

from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from firing_review.diagnosis.questions import SAFETY
from firing_review.firing.sheet import NO_SIGN
from firing_review.firing.wording import tr
from firing_review.report.wording import render
from firing_review.ui.tick import Tick
from firing_review.ui.wrapped import Wrapped


class SafetyView(QWidget):
    """Layout only: the question, its signs, "none of these", and a caution."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        question = tr("Before anything else: did anyone notice one of these?")
        signs = (choice for choice in SAFETY.choices if choice[0] != NO_SIGN)
        self.signs = {sign: Tick(render(words)) for sign, words in signs}
        self.none = QPushButton(tr("&None of these"))
        self.clear = QPushButton(tr("&Leave open"))
        self.clear.setProperty("part", "half")
        self.stop = Wrapped(
            tr(
                "Switch off at the breaker and do not fire. Let the kiln cool shut, then have a "
                "licensed electrician look at it."
            )
        )
        self.stop.setObjectName("danger")
        self.stop.setContentsMargins(12, 10, 12, 10)
        caution = Wrapped(
            tr(
                "Local codes and licensed practice come first. The kiln's own switch does not "
                "make it safe to touch: use the breaker, or pull the plug."
            ),
            "muted",
        )
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 12, 12, 12)
        layout.setSpacing(8)
        layout.addWidget(Wrapped(question, "heading"))
        for widget in (*self.signs.values(), self.none, self.clear, self.stop, caution):
            layout.addWidget(widget)
        layout.addStretch(1)
