"""Two or more words of which one holds: °C or °F, hours or clock."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QPushButton, QSizePolicy, QWidget


class Switch(QWidget):
    """Buttons side by side; arrow keys go from one to the next.

    Signals
    -------
    chosen : the value of the button that was pressed.
    """

    chosen = Signal(object)

    def __init__(
        self,
        name: str,
        choices: Sequence[tuple[object, str]],
        part: str = "half",
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self._values = [value for value, _ in choices]
        self._group = QButtonGroup(self)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        for place, (_, text) in enumerate(choices):
            button = QPushButton(text)
            button.setProperty("part", part)
            button.setCheckable(True)
            button.setAccessibleName(f"{name}: {text}".replace("&", ""))
            self._group.addButton(button, place)
            layout.addWidget(button)
        self._group.idClicked.connect(self._on_clicked)

    def button(self, value: object) -> QPushButton:
        """Return the button of a value."""
        return self._group.button(self._values.index(value))

    def show_value(self, value: object) -> None:
        """Press the button of a value without telling anyone; Tab stops at it from now on."""
        self.button(value).setChecked(True)
        for button in self._group.buttons():
            stops = Qt.FocusPolicy.StrongFocus if button.isChecked() else Qt.FocusPolicy.ClickFocus
            button.setFocusPolicy(stops)

    def set_text(self, value: object, text: str) -> None:
        """Write another text on the button of a value."""
        self.button(value).setText(text)

    @Slot(int)
    def _on_clicked(self, place: int) -> None:
        self.chosen.emit(self._values[place])

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Go to the neighbour with the arrow keys."""
        step = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}.get(event.key(), 0)
        place = self._group.checkedId() + step
        if step and 0 <= place < len(self._values):
            button = self._group.button(place)
            button.setFocus()
            button.click()
            return
        super().keyPressEvent(event)
