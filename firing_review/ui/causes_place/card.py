"""One cause: how likely, what speaks for and against it, what to do."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QLabel, QVBoxLayout, QWidget

from firing_review.firing.results import CauseWeighed
from firing_review.firing.wording import tr
from firing_review.report.cause_text import likely_word
from firing_review.report.wording import Show, chance, render


def cause_lines(cause: CauseWeighed, show: Show) -> list[str]:
    """Return a cause in words, one line a thing."""
    lines = [f"+ {render(s, show)}" for s in cause.speaks_for]
    lines += [f"− {render(s, show)}" for s in cause.speaks_against]
    if cause.not_looked_at:
        asked = " ".join(render(s, show) for s in cause.not_looked_at[:4])
        lines.append(tr("Not looked at: {questions}").format(questions=asked))
    if cause.next_check is not None:
        check = cause.next_check
        lines.append(
            tr("Check ({who}, about {minutes} min): {text}").format(
                who=tr(check.who), minutes=round(check.minutes), text=render(check.text, show)
            )
        )
    if cause.fix is not None:
        lines.append(tr("Then: {fix}").format(fix=render(cause.fix, show)))
    return lines


class CauseCard(QFrame):
    """A card of words; the caution stands on the same card."""

    def __init__(self, cause: CauseWeighed, show: Show, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("part", "card")
        name = render(cause.name, show)
        share = chance(cause.probability)
        head = QLabel(f"{name} · {likely_word(cause.probability)}, {share}")
        head.setProperty("part", "heading")
        head.setWordWrap(True)
        layout = QVBoxLayout(self)
        layout.setSpacing(4)
        layout.addWidget(head)
        for line in cause_lines(cause, show):
            layout.addWidget(_line(line))
        if cause.caution is not None and cause.id not in {"none", "other"}:
            caution = _line(render(cause.caution, show))
            caution.setProperty("part", "caution")
            layout.addWidget(caution)
        self.setAccessibleName(f"{name}, {share}")


def _line(text: str) -> QLabel:
    label = QLabel(text)
    label.setWordWrap(True)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label
