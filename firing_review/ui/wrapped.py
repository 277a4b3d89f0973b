"""Running text that wraps at its width, but never between a figure and its unit."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QWidget

from firing_review.report.shown_text import NO_BREAK, kept_together


class Wrapped(QLabel):
    """A label of several lines."""

    def __init__(
        self,
        text: str = "",
        part: str = "",
        *,
        selectable: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(kept_together(text), parent)
        self.setWordWrap(True)
        if part:
            self.setProperty("part", part)
        if selectable:
            self.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)

    def setText(self, text: str) -> None:
        """Show another text."""
        super().setText(kept_together(text))

    def text(self) -> str:
        """Return what is shown, with ordinary spaces."""
        return super().text().replace(NO_BREAK, " ")
