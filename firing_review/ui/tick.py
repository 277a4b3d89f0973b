"""A box to tick whose tick is drawn by the program, large enough to hit."""

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QCheckBox, QStyle, QStyleOptionButton


class Tick(QCheckBox):
    """A check box in the program's own look."""

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw the box, then the tick."""
        super().paintEvent(event)
        if not self.isChecked():
            return
        option = QStyleOptionButton()
        self.initStyleOption(option)
        place = QStyle.SubElement.SE_CheckBoxIndicator
        box = QRectF(self.style().subElementRect(place, option, self))
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(self.palette().windowText().color(), box.width() / 8))
        at = ((0.22, 0.52), (0.42, 0.74), (0.80, 0.28))
        corner, size = box.topLeft(), box.width()
        painter.drawPolyline(QPolygonF([corner + QPointF(x, y) * size for x, y in at]))
