"""How far a shelf may be from the goal cone and still be as meant."""

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtWidgets import QHBoxLayout, QLabel, QWidget

from firing_review.firing.wording import as_typed, tr
from firing_review.ui.chooser import Chooser

CHOICES_CONES = (0.25, 0.5, 1.0)
"""A quarter for exacting glazes, a half as usual, one for bisque [cones]."""


class Within(QWidget):
    """A choice beside its label.

    Signals
    -------
    chosen : the tolerance [cones].
    """

    chosen = Signal(float)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.label, self.choice = QLabel(tr("As meant within")), Chooser()
        self.label.setBuddy(self.choice)
        self.choice.setAccessibleName(tr("How far a shelf may be from the goal and be as meant"))
        self.choice.show_whole_words()
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.label)
        layout.addWidget(self.choice)
        self.choice.activated.connect(self._on_activated)

    def show_tolerance(self, tolerance_cones: float) -> None:
        """Show what holds now, be it none of the usual choices."""
        self.choice.clear()
        for cones in sorted({*CHOICES_CONES, tolerance_cones}):
            words = as_typed(f"{cones:g}")
            self.choice.addItem(tr("± {number} cone").format(number=words), cones)
        at = self.choice.findData(tolerance_cones)
        self.choice.setCurrentIndex(at)

    def dress(self, height: int) -> None:
        """Follow the present sizes."""
        self.choice.setMinimumHeight(height)

    @Slot(int)
    def _on_activated(self, row: int) -> None:
        self.chosen.emit(float(self.choice.itemData(row, Qt.ItemDataRole.UserRole)))
