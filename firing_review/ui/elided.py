"""A label that cuts its text to the room there is."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QLabel


class Elided(QLabel):
    """One line of plain text, cut at its end with an ellipsis; the whole is in the tool tip."""

    def show_text(self, text: str) -> None:
        """Show another text."""
        self.setText(text)
        self.setToolTip(text)
        self.setAccessibleDescription(text)

    def minimumSizeHint(self) -> QSize:
        """Give way to everything else."""
        return QSize(0, super().minimumSizeHint().height())

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw what fits."""
        painter = QPainter(self)
        painter.setFont(self.font())
        painter.setPen(self.palette().windowText().color())
        side = Qt.TextElideMode.ElideRight
        shown = self.fontMetrics().elidedText(self.text(), side, self.width())
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignVCenter, shown)
