"""Choices that open a list or a calendar, their arrow drawn by the program; and sliders."""

from PySide6.QtCore import QDate, QPointF, QSize
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QWheelEvent
from PySide6.QtWidgets import QComboBox, QDateEdit, QSlider, QWidget

LETTERS = 12


class NoWheel:
    """What the wheel scrolls past: turned over a choice it would answer it unseen."""

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Let the page scroll."""
        event.ignore()


class Chooser(NoWheel, QComboBox):
    """A combo box in the program's own look."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._shows_whole_words = False
        self.setSizeAdjustPolicy(self.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(LETTERS)

    def sizeHint(self) -> QSize:
        """Ask for a little more than the style does, which forgets its own edges."""
        return super().sizeHint() + QSize(self._edges, 0)

    def minimumSizeHint(self) -> QSize:
        """Ask for as little as may be, and the edges."""
        if self._shows_whole_words:
            return self.sizeHint()  # the style's own least is not worked out anew for new words
        return super().minimumSizeHint() + QSize(self._edges, 0)

    @property
    def _edges(self) -> int:
        return self.fontMetrics().height() // 3

    def show_whole_words(self) -> None:
        """Be wide enough for every choice."""
        self._shows_whole_words = True
        self.setSizeAdjustPolicy(self.SizeAdjustPolicy.AdjustToContents)
        self.setMinimumContentsLength(0)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw the box, then a plain arrow."""
        super().paintEvent(event)
        _paint_arrow(self)


class DayChooser(NoWheel, QDateEdit):
    """A day, typed or taken from a calendar, in the program's own look."""

    def __init__(self, day: QDate, parent: QWidget | None = None) -> None:
        super().__init__(day, parent)
        self.setCalendarPopup(True)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw the box, then a plain arrow."""
        super().paintEvent(event)
        _paint_arrow(self)


class Slider(NoWheel, QSlider):
    """A slider that is dragged, or moved with keys."""


def _paint_arrow(widget: QWidget) -> None:
    painter = QPainter(widget)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    size = widget.fontMetrics().height() * 0.28
    middle = QPointF(widget.width() - size * 3, widget.height() / 2 - size / 2)
    painter.setPen(QPen(widget.palette().windowText().color(), 2))
    painter.drawLine(middle + QPointF(-size, 0), middle + QPointF(0, size))
    painter.drawLine(middle + QPointF(0, size), middle + QPointF(size, 0))
