"""A page that scrolls when there is not room for all of it."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QScrollArea, QWidget


class Scrolled(QScrollArea):
    """A scroll area for one page; it never scrolls sideways."""

    def __init__(self, page: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        page.setObjectName("page")
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setWidget(page)

    def read_with_keys(self, name: str) -> None:
        """Let Tab stop here, with a ring, so that the arrow keys scroll what is only read."""
        self.setObjectName("keys")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(name)
