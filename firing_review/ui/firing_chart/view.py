"""The chart's layout: a line of values, the findings' bars, the lanes, a quiet line of notes."""

import pyqtgraph as pg
from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QColor, QFocusEvent, QFontMetrics, QKeyEvent
from PySide6.QtWidgets import QFrame, QLabel, QSizePolicy, QVBoxLayout, QWidget

from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.elided import Elided
from firing_review.ui.firing_chart.axes import TimeAxis
from firing_review.ui.firing_chart.finding_strip import FindingStrip
from firing_review.ui.firing_chart.lanes import Lane

LANES_LEAST_PX, AXIS_ROOM_PX = 220, 6
LANE_SHARES = (62, 22, 16)


class Lanes(pg.GraphicsLayoutWidget):
    """Three lanes over one time axis; the lowest that is shown carries the axis.

    Signals
    -------
    keyPressed : a key the chart may know.
    focusMoved : the keyboard came (True) or went (False).
    left : the mouse went away.
    """

    keyPressed = Signal(object)
    focusMoved = Signal(bool)
    left = Signal()

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
            lane.setXLink(self.temperature)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

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
        self.fit_axes()

    def fit_axes(self) -> None:
        """Give the time axis of the lowest lane the height of its lines of text."""
        line = QFontMetrics(self._appearance.font(self._appearance.sizes.small)).lineSpacing()
        for lane in self.all:
            axis = lane.getAxis("bottom")
            is_lowest = lane is self._lowest
            axis.setStyle(showValues=is_lowest)
            axis.setHeight(line * axis.lines + AXIS_ROOM_PX if is_lowest else 1)

    def time_axes(self) -> list[TimeAxis]:
        """Return the time axes of all lanes."""
        return [lane.getAxis("bottom") for lane in self.all]

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


class ChartView(QFrame):
    """Layout only."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self.setObjectName("chartframe")
        self.readout = QLabel()
        self.readout.setProperty("part", "readout")
        self.readout.setTextFormat(Qt.TextFormat.RichText)
        self.readout.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.readout.setAccessibleName(tr("Values at the cursor"))
        self.strip = FindingStrip(appearance)
        self.lanes = Lanes(appearance)
        self.lanes.setAccessibleName(tr("Chart of the firing"))
        self.notes = Elided()
        self.notes.setAccessibleName(tr("How the log was read"))
        self.notes.setProperty("part", "quiet")
        self.notes.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.notes.setContentsMargins(4, 0, 0, 0)
        self._lay_out()
        self.lanes.focusMoved.connect(self.show_focus)

    def _lay_out(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(2, 2, 2, 2)
        layout.setSpacing(2)
        for widget in (self.readout, self.strip, self.lanes, self.notes):
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
        self.lanes.fit_axes()
        self.lanes.setMinimumHeight(self._appearance.sizes.px(LANES_LEAST_PX))
        height = self.readout.fontMetrics().height()
        self.readout.setMinimumHeight(height + self._appearance.sizes.px(6))
