"""A button that carries a title and some lines below it."""

from PySide6.QtWidgets import QLabel, QWidget

from firing_review.ui.carrier import WrappingCarrier


class Card(WrappingCarrier):
    """One thing to open."""

    def __init__(
        self, carried: object, title: str, about: str, parent: QWidget | None = None
    ) -> None:
        heading, below = QLabel(title), QLabel(about)
        heading.setStyleSheet("font-weight: 600;")
        below.setProperty("part", "muted")
        super().__init__(carried, [heading, below], parent)
        self.setProperty("part", "card")
        self.setAccessibleName(title)
        self.setAccessibleDescription(about)
        self.lines.setContentsMargins(14, 10, 14, 10)
        below.setVisible(bool(about))
