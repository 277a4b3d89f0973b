"""The chart's layout: a line of values, the findings' bars, the lanes, a quiet line of notes."""

import pyqtgraph as pg
from PySide6.QtCore import QEvent, QPoint, QPointF, QRect, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QContextMenuEvent,
    QFocusEvent,
    QFontMetrics,
    QKeyEvent,
    QNativeGestureEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import (
    QFrame,
    QGestureEvent,
    QLabel,
    QPinchGesture,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from firing_review.firing.wording import tr
from firing_review.report.shown_text import kept_together
from firing_review.ui.appearance import Appearance
from firing_review.ui.firing_chart.axes import TimeAxis
from firing_review.ui.firing_chart.finding_strip import FindingStrip
from firing_review.ui.firing_chart.lanes import Lane
from firing_review.ui.firing_chart.note_line import NoteLine
from firing_review.ui.firing_chart.note_strip import NoteStrip
from firing_review.ui.firing_chart.tool_row import ToolRow
from firing_review.ui.scrolled import is_in_scrolling

LANES_LEAST_PX, AXIS_ROOM_PX = 220, 6
LANE_SHARES, LANE_LEAST_PX = (62, 22, 16), (110, 62, 54)
WHEEL_STEP, WHEEL_NOTCH = 0.8, 120.0
"""One notch of a wheel shows so many times the hours."""


class Lanes(pg.GraphicsLayoutWidget):
    """Three lanes over one time axis; the lowest that is shown carries the axis.

    Signals
    -------
    keyPressed : a key the chart may know.
    focusMoved : the keyboard came (True) or went (False).
    left : the mouse went away.
    stretched : the wheel or two fingers want so many times the hours, about a place of the scene.
    pushed : the wheel or two fingers want to move on by so many pixels.
    menuAsked : the right mouse button or the menu key, with the place on the screen.
    """

    keyPressed = Signal(object)
    focusMoved = Signal(bool)
    left = Signal()
    stretched = Signal(float, QPointF)
    pushed = Signal(float)
    menuAsked = Signal(QPoint)

    def __init__(self, appearance: Appearance) -> None:
        super().__init__()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setViewportUpdateMode(self.ViewportUpdateMode.FullViewportUpdate)
        self.ci.layout.setSpacing(6)
        self.ci.layout.setContentsMargins(0, 0, 0, 0)
        self._appearance = appearance
        self.temperature = Lane(appearance)
        self.rate = Lane(appearance, pixels_a_mark=22)
        self.output = Lane(appearance, pixels_a_mark=22)
        self._lowest = self.output
        for row, lane in enumerate(self.all):
            self.addItem(lane, row=row, col=0)
            self.ci.layout.setRowStretchFactor(row, LANE_SHARES[row])
        for lane in (self.rate, self.output):
            lane.getViewBox().setXLink(self.temperature.getViewBox())
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.viewport().grabGesture(Qt.GestureType.PinchGesture)

    @property
    def all(self) -> tuple[Lane, Lane, Lane]:
        """The lanes from the top."""
        return self.temperature, self.rate, self.output

    def show_lanes(self, *, rate: bool, output: bool) -> None:
        """Show only the lanes that have something, the time axis under the lowest."""
        shown = {self.temperature: True, self.rate: rate, self.output: output}
        for lane, is_shown in shown.items():
            lane.setVisible(is_shown)
            lane.setMaximumHeight(100_000 if is_shown else 0)
        self._lowest = [lane for lane, is_shown in shown.items() if is_shown][-1]
        self.fit_lanes()

    def fit_lanes(self) -> None:
        """Give each lane its least height, and the lowest the lines of the time axis too."""
        line = QFontMetrics(self._appearance.font(self._appearance.sizes.small)).lineSpacing()
        for lane in self.all:
            axis = lane.getAxis("bottom")
            is_lowest = lane is self._lowest
            axis.setStyle(showValues=is_lowest)
            axis.setHeight(line * axis.lines + AXIS_ROOM_PX if is_lowest else 1)
        for row, lane in enumerate(self.all):
            least = self._appearance.sizes.px(LANE_LEAST_PX[row]) if lane.isVisible() else 0
            under = lane.getAxis("bottom").height() if lane.isVisible() else 0
            self.ci.layout.setRowMinimumHeight(row, least + under)

    def sizeHint(self) -> QSize:
        """Ask for the least there must be, not for the size of the last drawing."""
        least = self._appearance.sizes.px(LANES_LEAST_PX)
        return QSize(least, least)

    def time_axes(self) -> list[TimeAxis]:
        """Return the time axes of all lanes."""
        return [lane.getAxis("bottom") for lane in self.all]

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Change how many hours are in view; sideways, or with Shift, move on.

        In a page that scrolls the wheel does that, as anywhere on it, unless Ctrl is held.
        """
        turned, keys = event.angleDelta(), Qt.KeyboardModifier
        plain = not event.modifiers() & (keys.ControlModifier | keys.ShiftModifier)
        if plain and abs(turned.y()) > abs(turned.x()) and is_in_scrolling(self):
            event.ignore()
            return
        sideways = event.modifiers() & keys.ShiftModifier
        if sideways or abs(turned.x()) > abs(turned.y()):
            self.pushed.emit(-float(turned.x() or turned.y()))
        elif turned.y():
            where = self.mapToScene(event.position().toPoint())
            self.stretched.emit(WHEEL_STEP ** (turned.y() / WHEEL_NOTCH), where)
        event.accept()

    def viewportEvent(self, event: QEvent) -> bool:
        """Take two fingers on a touch pad or a screen."""
        if isinstance(event, QNativeGestureEvent):
            if event.gestureType() is Qt.NativeGestureType.ZoomNativeGesture:
                where = self.mapToScene(event.position().toPoint())
                self.stretched.emit(1.0 / max(1.0 + event.value(), 0.1), where)
                return True
        elif event.type() is QEvent.Type.Gesture and isinstance(event, QGestureEvent):
            pinch = event.gesture(Qt.GestureType.PinchGesture)
            if isinstance(pinch, QPinchGesture) and pinch.scaleFactor() > 0:
                middle = self.viewport().mapFromGlobal(pinch.centerPoint().toPoint())
                self.stretched.emit(1.0 / pinch.scaleFactor(), self.mapToScene(middle))
                return True
        return super().viewportEvent(event)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """Ask for the chart's own menu."""
        self.menuAsked.emit(event.globalPos())
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Hand every key to the panel; it passes on what it does not know."""
        event.ignore()
        self.keyPressed.emit(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show the focus ring."""
        super().focusInEvent(event)
        self.focusMoved.emit(True)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Hide the focus ring."""
        super().focusOutEvent(event)
        self.focusMoved.emit(False)

    def leaveEvent(self, event: QEvent) -> None:
        """Tell that the mouse went away."""
        super().leaveEvent(event)
        self.left.emit()


class Readout(QLabel):
    """Words over the chart; it wraps, but its height is told to it.

    A label that asks for a height by its width makes the whole page ask for its largest one.
    """

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("part", "readout")
        self.setTextFormat(Qt.TextFormat.RichText)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(tr("Values at the cursor"))

    def hasHeightForWidth(self) -> bool:
        """Return that the height is fixed."""
        return False

    def make_room(self, text: str, spare: int) -> None:
        """Take more lines if a text needs them; no text gives them back."""
        self.ensurePolished()  # before that the font is not yet the readout's own
        room = QRect(0, 0, max(self.width(), 1), 1000)
        metrics = self.fontMetrics()
        needed = metrics.boundingRect(room, Qt.TextFlag.TextWordWrap, kept_together(text)).height()
        height = (needed if text else metrics.height()) + spare
        self.setWordWrap(bool(text))
        self.setFixedHeight(max(height, self.height()) if text else height)


class ChartView(QFrame):
    """Layout only."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self.setObjectName("chartframe")
        self.readout = Readout()
        self.strip = FindingStrip(appearance)
        self.lanes = Lanes(appearance)
        self.lanes.setAccessibleName(tr("Chart of the firing"))
        self.note_strip = NoteStrip(appearance)
        self.note_line = NoteLine(appearance)
        self.tools = ToolRow(appearance)
        self._lay_out()
        self.lanes.focusMoved.connect(self.show_focus)

    def _lay_out(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(2, 2, 2, 2)
        layout.setSpacing(2)
        parts = (self.readout, self.strip, self.lanes, self.note_strip, self.note_line, self.tools)
        for widget in parts:
            layout.addWidget(widget)
        layout.setStretchFactor(self.lanes, 1)

    def show_focus(self, focused: bool) -> None:
        """Draw the focus ring round the whole chart."""
        self.setProperty("focused", focused)
        self.style().unpolish(self)
        self.style().polish(self)

    def dress(self) -> None:
        """Put the present colors on the chart."""
        self.lanes.setBackground(QColor(self._appearance.colors.page))
        for lane in self.lanes.all:
            lane.dress()
        self.lanes.fit_lanes()
        self.tools.dress()
        self.note_line.dress()
        self.lanes.setMinimumHeight(self._appearance.sizes.px(LANES_LEAST_PX))
        self.make_room("")

    def make_room(self, text: str) -> None:
        """Give the words over the chart as many lines as they need; none takes them back."""
        self.readout.make_room(text, self._appearance.sizes.px(6))
