"""The load before the kiln, and whether it may be fired again."""

from html import escape

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from firing_review.firing.wording import tr
from firing_review.report.cause_text import again_line, load_lines
from firing_review.report.wording import Show
from firing_review.review.review import Review
from firing_review.ui.wrapped import Wrapped

PARAGRAPH = '<p style="margin: 0 0 6px 0">{}</p>'


class Advice(QWidget):
    """What to do with the pieces, shelf by shelf from the top; then the next firing."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.load_head, self.load = _heading(tr("The load")), _words()
        self.again_head, self.again = _heading(tr("May it be fired again?")), _words()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 8, 0, 8)
        layout.setSpacing(4)
        for label in (self.load_head, self.load, self.again_head, self.again):
            if label is self.again_head:
                layout.addSpacing(8)
            layout.addWidget(label)

    def show_review(self, review: Review, show: Show) -> None:
        """Show the advice; a part that has nothing to say is not shown."""
        again = again_line(review, show)
        for head, words, lines in (
            (self.load_head, self.load, load_lines(review, show)),
            (self.again_head, self.again, [again] if again else []),
        ):
            words.setText("".join(PARAGRAPH.format(escape(line)) for line in lines))
            words.setAccessibleName(" ".join(lines))
            head.setVisible(bool(lines))
            words.setVisible(bool(lines))


def _heading(text: str) -> QLabel:
    label = QLabel(text)
    label.setProperty("part", "heading")
    return label


def _words() -> QLabel:
    label = Wrapped(selectable=True)
    label.setTextFormat(Qt.TextFormat.RichText)
    return label
