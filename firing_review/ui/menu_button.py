"""The button that opens the menu; on every page of the window it is the same."""

from PySide6.QtWidgets import QToolButton, QWidget

from firing_review.firing.wording import tr


class MenuButton(QToolButton):
    """Opens the menu at a press."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setText(tr("&Menu"))
        self.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
