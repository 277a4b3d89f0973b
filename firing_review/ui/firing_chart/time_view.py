"""The stretch of time that all lanes show: moved, made shorter or longer, and fitted."""

import pyqtgraph as pg
from PySide6.QtCore import QObject, Signal

SHORTEST_H = 5 / 60
EDGE_SHARE = 0.02
"""Kept free before the first and after the last sample, as a share of the record."""


class TimeView(QObject):
    """Hours in view; the lanes are linked, so the first one carries them for all.

    Signals
    -------
    moved : other hours are in view, or the lanes have another width.
    """

    moved = Signal()

    def __init__(self, lanes: list[pg.ViewBox], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._boxes = lanes
        self._whole_h = (0.0, 1.0)
        self._boxes[0].sigXRangeChanged.connect(self.moved)
        self._boxes[0].sigResized.connect(self.moved)

    @property
    def range_h(self) -> tuple[float, float]:
        """The first and the last hour in view."""
        low, high = self._boxes[0].viewRange()[0]
        return float(low), float(high)

    def limit(self, first_h: float, last_h: float, most_h: tuple[float, float]) -> None:
        """Take the record's ends, and how far the view may go beyond them."""
        room = EDGE_SHARE * (last_h - first_h)
        self._whole_h = (first_h - room, last_h + room)
        low, high = (
            min(self._whole_h[0], most_h[0] - room),
            max(self._whole_h[1], most_h[1] + room),
        )
        for box in self._boxes:
            box.setLimits(xMin=low, xMax=high, minXRange=SHORTEST_H)

    def show(self, low_h: float, high_h: float) -> None:
        """Show these hours."""
        self._boxes[0].setXRange(low_h, high_h, padding=0)

    def fit(self) -> None:
        """Show the whole firing."""
        self.show(*self._whole_h)

    def zoom(self, factor: float, about_h: float | None = None) -> None:
        """Show ``factor`` times as many hours; ``about_h`` stays where it is."""
        low, high = self.range_h
        about = (low + high) / 2 if about_h is None or not low <= about_h <= high else about_h
        self.show(about - (about - low) * factor, about + (high - about) * factor)

    def pan(self, share: float) -> None:
        """Move on by a share of what is in view; at the end of the record it stops."""
        low, high = self.range_h
        least, most = self._boxes[0].state["limits"]["xLimits"]
        shift = min(max(share * (high - low), least - low), most - high)
        self.show(low + shift, high + shift)

    def bring(self, start_h: float, end_h: float) -> None:
        """Move on if a stretch is out of sight, so far that its middle is the view's."""
        low, high = self.range_h
        if end_h < low or start_h > high:
            middle, half = (start_h + end_h) / 2, (high - low) / 2
            self.show(middle - half, middle + half)

    def follow(self, at_h: float) -> None:
        """Move on just so far that a moment is in view."""
        low, high = self.range_h
        if not low <= at_h <= high:
            shift = at_h - (high if at_h > high else low)
            self.show(low + shift, high + shift)
