"""One cone on the screen: drag its tip, or turn it with the keys."""

from math import inf

from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QFont,
    QFontMetricsF,
    QKeyEvent,
    QPainter,
    QPainterPath,
    QPen,
)
from PySide6.QtWidgets import (
    QGraphicsItem,
    QGraphicsObject,
    QGraphicsSceneMouseEvent,
    QStyleOptionGraphicsItem,
    QWidget,
)

from firing_review.firing.cones import BEND_DEG, ShelfCone
from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.shelves_place.cone_shape import bend_from_tip, cone_path, tip_of

LENGTH = 46.0
DRAWINGS = tuple(BEND_DEG.values())
KEY_STEP_DEG, LARGE_STEP_DEG = 1.0, 10.0


class ConeItem(QGraphicsObject):
    """A cone that can be bent.

    Signals
    -------
    bent : place of the cone in the review, new bend [°]; sent when the hand lets go. What it
        leads to may end this item, so it must reach others once the event is over.
    chosen : place of the cone that took the keyboard.
    """

    bent = Signal(int, float)
    chosen = Signal(int)

    def __init__(
        self, place: int, cone: ShelfCone, appearance: Appearance, room: float = inf
    ) -> None:
        """Make a cone with ``room`` [px] to the next one: its bend is written where it fits."""
        super().__init__()
        self.place, self.cone, self.bend_deg = place, cone, cone.bend_deg
        self._appearance = appearance
        self._scale = appearance.sizes.scale
        self._dragging = False
        widest = QFontMetricsF(self._font()).horizontalAdvance(f"{cone.cone.text} · 130° ")
        self._brief = widest > room
        flags = QGraphicsItem.GraphicsItemFlag
        self.setFlag(flags.ItemIsFocusable)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setToolTip(self.words)

    @property
    def words(self) -> str:
        """What is read out of the cone."""
        return tr("cone {cone} on {shelf}, bent {bend} degrees of 90").format(
            cone=self.cone.cone.text, shelf=self.cone.shelf, bend=round(self.bend_deg)
        )

    @property
    def length(self) -> float:
        """Length of the cone on the screen [px]."""
        return LENGTH * self._scale

    def boundingRect(self) -> QRectF:
        """Return all that is painted, number and ring included."""
        size = self.length
        return QRectF(-0.5 * size, -1.15 * size, 1.75 * size, 1.75 * size)

    def shape(self) -> QPainterPath:
        """Return where a press counts: generously round the cone."""
        path = QPainterPath()
        path.addRect(self.boundingRect())
        return path

    def paint(
        self,
        painter: QPainter,
        _option: QStyleOptionGraphicsItem,
        _widget: QWidget | None = None,
    ) -> None:
        """Paint the cone, its end-point line, its number, and the ring of the keyboard."""
        colors = self._appearance.colors
        size = self.length
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(QColor(colors.line), 1, Qt.PenStyle.DashLine))
        painter.drawLine(QPointF(0.0, 0.0), QPointF(0.85 * size, 0.0))
        painter.setPen(QPen(QColor(colors.ink), 2))
        painter.setBrush(QColor(colors.chosen))
        painter.drawPath(cone_path(self.bend_deg, size))
        if self._dragging or self.hasFocus():
            painter.setBrush(QColor(colors.accent))
            painter.drawEllipse(tip_of(self.bend_deg, size), 5, 5)
        painter.setPen(QColor(colors.ink))
        painter.setFont(self._font())
        below = QRectF(-0.42 * size, 0.12 * size, 1.6 * size, 0.45 * size)
        painter.drawText(below, Qt.AlignmentFlag.AlignLeft, self.label)
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(colors.accent), 2))
            painter.drawRect(self.boundingRect().adjusted(2, 2, -2, -2))

    def _font(self) -> QFont:
        return self._appearance.font(self._appearance.sizes.small, bold=True)

    @property
    def label(self) -> str:
        """What is written under the cone."""
        number = self.cone.cone.text
        if self._brief and not self.hasFocus() and not self._dragging:
            return number
        return f"{number} · {round(self.bend_deg)}°"

    def bend(self, bend_deg: float, *, done: bool) -> None:
        """Bend the cone; ``done`` hands the bend over as an edit."""
        self.bend_deg = min(max(float(bend_deg), 0.0), 130.0)
        self.setToolTip(self.words)
        self.update()
        if done and self.bend_deg != self.cone.bend_deg:
            self.bent.emit(self.place, self.bend_deg)

    def mousePressEvent(self, event: QGraphicsSceneMouseEvent) -> None:
        """Take hold of the tip."""
        self.setFocus()
        self._dragging = True
        self.chosen.emit(self.place)
        event.accept()

    def mouseMoveEvent(self, event: QGraphicsSceneMouseEvent) -> None:
        """Follow the hand."""
        if self._dragging:
            self.bend(bend_from_tip(QPointF(0.0, 0.0), event.pos()), done=False)

    def mouseReleaseEvent(self, event: QGraphicsSceneMouseEvent) -> None:
        """Let go: the bend counts."""
        self._dragging = False
        self.bend(round(self.bend_deg), done=True)
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Turn by degrees, choose one of the seven drawings with 1 to 7; Escape ends a drag."""
        steps = {
            Qt.Key.Key_Right: KEY_STEP_DEG,
            Qt.Key.Key_Left: -KEY_STEP_DEG,
            Qt.Key.Key_PageDown: LARGE_STEP_DEG,
            Qt.Key.Key_PageUp: -LARGE_STEP_DEG,
        }
        number = event.key() - Qt.Key.Key_1
        if event.key() == Qt.Key.Key_Escape and self._dragging:
            self._dragging = False
            self.bend(self.cone.bend_deg, done=False)
        elif event.key() in steps:
            self.bend(self.bend_deg + steps[Qt.Key(event.key())], done=False)
        elif 0 <= number < len(DRAWINGS):
            self.bend(DRAWINGS[number], done=True)
        else:
            super().keyPressEvent(event)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        """Hand the bend over when the key is let go: one edit, however long it was held."""
        super().keyReleaseEvent(event)
        if not event.isAutoRepeat():
            self.bend(self.bend_deg, done=True)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Hand over what a key that is still held has made of the bend."""
        super().focusOutEvent(event)
        if not self._dragging:
            self.bend(self.bend_deg, done=True)
