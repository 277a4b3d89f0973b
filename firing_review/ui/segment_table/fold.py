"""One line over a part of the window that opens and closes it."""

from PySide6.QtCore import QPointF, QSize, Qt, Signal, Slot
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QPushButton, QSizePolicy, QWidget

from firing_review.report.shown_text import kept_together

BEFORE_WORDS = 2.5
"""Lines' heights that the arrow and the edges take from the width."""


class Fold(QPushButton):
    """A flat button with an arrow that points right when closed and down when open.

    Its words take as many lines as they need.

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
        self._words = ""
        self.toggled.connect(self._on_toggled)

    @Slot(bool)
    def _on_toggled(self, is_open: bool) -> None:
        self.opened.emit(is_open)

    def setText(self, text: str) -> None:
        """Show other words."""
        self._words = text
        self._wrap()

    def text(self) -> str:
        """Return the words, however many lines they take."""
        return self._words

    def minimumSizeHint(self) -> QSize:
        """Give way to everything else."""
        return QSize(0, super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Wrap the words anew."""
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self._wrap()

    def _wrap(self) -> None:
        metrics = self.fontMetrics()
        room = self.width() - BEFORE_WORDS * metrics.height()
        lines = [""]
        for word in kept_together(self._words).split(" "):
            longer = f"{lines[-1]} {word}".strip()
            if lines[-1] and metrics.horizontalAdvance(longer) > room:
                lines.append(word)
            else:
                lines[-1] = longer
        super().setText("\n".join(lines))

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
