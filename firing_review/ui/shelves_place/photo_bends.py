"""Bends taken off a phone picture: the shelf line, then foot and tip of each cone."""

import math

from PySide6.QtCore import QBuffer, QLineF, QPointF, QRect, QRectF, QSize, Qt, Signal, Slot
from PySide6.QtGui import (
    QColor,
    QImageReader,
    QKeyEvent,
    QPainter,
    QPen,
    QPixmap,
    QResizeEvent,
)
from PySide6.QtWidgets import (
    QGraphicsItem,
    QGraphicsScene,
    QGraphicsSceneMouseEvent,
    QGraphicsView,
    QHBoxLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from firing_review.firing.errors import InputError
from firing_review.firing.sheet import Picture
from firing_review.firing.wording import tr
from firing_review.physics.bend_law import START_DEG
from firing_review.ui.appearance import Appearance
from firing_review.ui.layouts import size_within_screen
from firing_review.ui.wrapped import Wrapped

PHOTO_ERROR_DEG = 9.0
"""A picture is taken from a side and a height of its own: common practice, no source [°]."""
SIZE = (1000, 700)
MOST_PX = 1600
"""A wider picture is drawn this wide; a cone stays some hundred points tall [px]."""
STEP, FINE_STEP, CROSS = 1 / 50, 1 / 500, 1 / 60
"""Share of the picture's width that a key moves the cross, and how far its arms reach."""


def bend_off_picture(line: tuple[QPointF, QPointF], foot: QPointF, tip: QPointF) -> float:
    """Return the bend of a cone from four points of a picture [°], 0 to 130.

    The lean is measured from the normal of the shelf line, to whichever side the cone fell.
    """
    along = line[1] - line[0]
    tilt = math.atan2(along.y(), along.x())
    reach = tip - foot
    across = reach.x() * math.cos(tilt) + reach.y() * math.sin(tilt)
    upwards = reach.x() * math.sin(tilt) - reach.y() * math.cos(tilt)
    if along.x() < 0:
        upwards = -upwards
    lean = math.degrees(math.atan2(abs(across), upwards))
    return min(max((lean - START_DEG) * 90.0 / (90.0 - START_DEG), 0.0), 130.0)


def _pixmap(picture: Picture) -> QPixmap:
    store = QBuffer()
    store.setData(picture.data)
    reader = QImageReader(store)
    # a phone held upright writes the picture lying, with a mark that says so
    reader.setAutoTransform(True)
    pixmap = QPixmap.fromImage(reader.read())
    if pixmap.isNull():
        found, remedy = tr("a file that is none"), tr("Choose a JPEG or PNG file.")
        raise InputError(picture.name, tr("a picture"), found, remedy)
    smooth = Qt.TransformationMode.SmoothTransformation
    wide = pixmap.width() > MOST_PX
    return pixmap.scaledToWidth(MOST_PX, smooth) if wide else pixmap


class _Scene(QGraphicsScene):
    """A picture that says where it was pressed."""

    pressed = Signal(QPointF)

    def mousePressEvent(self, event: QGraphicsSceneMouseEvent) -> None:
        """Hand the place on."""
        self.pressed.emit(event.scenePos())
        event.accept()


class _PictureView(QGraphicsView):
    """The picture, with a cross that the arrow keys move; Shift takes smaller steps.

    Signals
    -------
    marked : the place of the cross, where Enter or the space bar was pressed.
    """

    marked = Signal(QPointF)

    def __init__(self, scene: QGraphicsScene, color: QColor) -> None:
        super().__init__(scene)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setAccessibleName(tr("The picture"))
        self.at = scene.sceneRect().center()
        self._color = color

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Show the whole picture, however large it is."""
        super().resizeEvent(event)
        self.fitInView(self.scene().sceneRect(), Qt.AspectRatioMode.KeepAspectRatio)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Move the cross, or mark where it stands."""
        ways = {
            Qt.Key.Key_Left: (-1, 0), Qt.Key.Key_Right: (1, 0),
            Qt.Key.Key_Up: (0, -1), Qt.Key.Key_Down: (0, 1),
        }  # fmt: skip
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            self.marked.emit(self.at)
        elif event.key() in ways:
            fine = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
            self._move(*ways[Qt.Key(event.key())], fine=fine)
        else:
            super().keyPressEvent(event)

    def _move(self, across: int, down: int, *, fine: bool) -> None:
        box = self.scene().sceneRect()
        step = box.width() * (FINE_STEP if fine else STEP)
        x = min(max(self.at.x() + across * step, box.left()), box.right())
        y = min(max(self.at.y() + down * step, box.top()), box.bottom())
        self.at = QPointF(x, y)
        self.viewport().update()

    def drawForeground(self, painter: QPainter, rect: QRectF | QRect) -> None:
        """Draw the cross while the keyboard is on the picture."""
        super().drawForeground(painter, rect)
        if self.hasFocus():
            pen = QPen(self._color, 2)
            pen.setCosmetic(True)
            painter.setPen(pen)
            reach = self.scene().sceneRect().width() * CROSS
            for way in (QPointF(reach, 0), QPointF(0, reach)):
                painter.drawLine(QLineF(self.at - way, self.at + way))


class PhotoBends(QWidget):
    """A window of its own with the picture; it never waits for an answer.

    Signals
    -------
    taken : the picture, and the bends in the order in which the cones were marked.
    """

    taken = Signal(object, object)

    def __init__(self, appearance: Appearance, picture: Picture, parent: QWidget) -> None:
        pixmap = _pixmap(picture)
        super().__init__(parent, Qt.WindowType.Window)
        self._appearance, self._picture = appearance, picture
        self.points: list[QPointF] = []
        self._drawn: list[list[QGraphicsItem]] = []
        self.setWindowTitle(tr("Bends from a photo"))
        self.scene = _Scene()
        self.scene.addPixmap(pixmap)
        self.scene.pressed.connect(self.mark)
        self.view = _PictureView(self.scene, QColor(appearance.colors.accent))
        self.view.marked.connect(self.mark)
        self.view.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        self.hint, self.use = Wrapped(), QPushButton(tr("Put into the table"))
        self.back = QPushButton(tr("Take the last mark back"))
        self.cancel = QPushButton(tr("Cancel"))
        self.cancel.setShortcut(Qt.Key.Key_Escape)
        self._lay_out()
        self._say()
        self.view.setFocus()
        size_within_screen(self, QSize(*SIZE))

    def _lay_out(self) -> None:
        self.use.clicked.connect(self._on_use)
        self.back.clicked.connect(self.take_back)
        self.cancel.clicked.connect(self.close)
        self.use.setProperty("part", "main")
        row = QHBoxLayout()
        for button in (self.back, self.cancel, self.use):
            button.setMinimumHeight(self._appearance.sizes.target)
            row.addWidget(button)
        layout = QVBoxLayout(self)
        for widget in (self.hint, self.view):
            layout.addWidget(widget)
        layout.setStretchFactor(self.view, 1)
        layout.addLayout(row)

    @property
    def bends(self) -> list[float]:
        """Bends of the cones marked so far [°]."""
        if len(self.points) < 4:
            return []
        line = (self.points[0], self.points[1])
        marks = self.points[2:]
        pairs = zip(marks[::2], marks[1::2], strict=False)
        return [round(bend_off_picture(line, foot, tip)) for foot, tip in pairs]

    @Slot(QPointF)
    def mark(self, point: QPointF) -> None:
        """Take the next mark."""
        pen = QPen(QColor(self._appearance.colors.accent), 4)
        drawn: list[QGraphicsItem] = [
            self.scene.addEllipse(point.x() - 8, point.y() - 8, 16, 16, pen)
        ]
        if len(self.points) % 2 == 1:
            drawn.append(self.scene.addLine(QLineF(self.points[-1], point), pen))
        self.points.append(point)
        self._drawn.append(drawn)
        self._say()

    @Slot()
    def take_back(self) -> None:
        """Take the last mark back."""
        if self.points:
            self.points.pop()
            for item in self._drawn.pop():
                self.scene.removeItem(item)
        self._say()

    def _say(self) -> None:
        count = len(self.points)
        if count < 2:
            line = tr("Mark the line of the shelf: a point at its left, then one at its right.")
            keys = tr("Arrow keys move a cross, with Shift in small steps; Enter marks.")
            text = f"{line} {keys}"
        elif count % 2 == 0:
            text = tr("Mark the foot of the next cone, from the left. So far: {bends}").format(
                bends=", ".join(f"{b:.0f}°" for b in self.bends) or "–"
            )
        else:
            text = tr("Now mark its tip.")
        self.hint.setText(text)
        self.use.setEnabled(bool(self.bends))

    @Slot()
    def _on_use(self) -> None:
        self.taken.emit(self._picture, self.bends)
        self.close()
