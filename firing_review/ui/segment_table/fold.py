"""One line over a part of the window that opens and closes it."""

from PySide6.QtCore import QPointF, Qt, Signal, Slot
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QPushButton, QSizePolicy, QWidget


class Fold(QPushButton):
    """A flat button with an arrow that points right when closed and down when open.

    Signals
    -------
    opened : True when it was opened, False when it was closed.
    """

    opened = Signal(bool)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("part", "fold")
        self.setCheckable(True)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.toggled.connect(self._on_toggled)

    @Slot(bool)
    def _on_toggled(self, is_open: bool) -> None:
        self.opened.emit(is_open)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw the button, then the arrow."""
        super().paintEvent(event)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(self.palette().buttonText().color(), 2))
        size = self.fontMetrics().height() * 0.26
        middle = QPointF(self.fontMetrics().height(), self.height() / 2)
        ahead, aside = QPointF(0, size), QPointF(size, 0)
        if not self.isChecked():
            ahead, aside = aside, ahead
        corners = [middle - aside - ahead / 2, middle + ahead / 2, middle + aside - ahead / 2]
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPolyline(corners)
