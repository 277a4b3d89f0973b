"""The cursor of the chart, what stands under it, and the measure between two points."""

from html import escape

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QAccessible, QAccessibleValueChangeEvent

from firing_review.firing.wording import tr
from firing_review.report.chart_lines import ChartLines, LineRole, value_at
from firing_review.report.shown_text import kept_together
from firing_review.review.review import Review
from firing_review.ui.appearance import Appearance
from firing_review.ui.firing_chart.measure import measured
from firing_review.ui.firing_chart.readout import moment_text, readout_at
from firing_review.ui.firing_chart.view import ChartView
from firing_review.ui.showing import Showing

NOWHERE = float("nan")


class Cursor(QObject):
    """One moment of the firing, moved by mouse and by keys alike; in words over the chart.

    Signals
    -------
    moved : the moment [h], or None.
    measuring : whether two points are being measured.
    """

    moved = Signal(object)
    measuring = Signal(bool)

    def __init__(
        self, view: ChartView, appearance: Appearance, showing: Showing, parent: QObject
    ) -> None:
        super().__init__(parent)
        self._view, self._appearance, self._showing = view, appearance, showing
        self._review: Review | None = None
        self._lines: ChartLines | None = None
        self._points_h: tuple[float, ...] = ()
        self.at_h: float | None = None
        self.is_measuring = False

    def take(self, review: Review, lines: ChartLines) -> None:
        """Read from other curves; of another log nothing is kept."""
        if self._review is not None and self._review.given.log is not review.given.log:
            self.at_h, self._points_h = None, ()
        self._review, self._lines = review, lines
        self.show()

    def move(self, at_h: float | None) -> None:
        """Put the cursor at a moment of the record, or take it away."""
        if at_h is not None and self._lines is not None:
            at_h = min(max(at_h, self._lines.first_h), self._lines.last_h)
        self.at_h = at_h
        self.show()
        self.moved.emit(at_h)

    # measuring

    def measure(self, is_on: bool) -> None:
        """Begin or end measuring; either way no point is set any more."""
        self._points_h = ()
        if is_on != self.is_measuring:
            self.is_measuring = is_on
            self._view.make_room("")
            self.measuring.emit(is_on)
        self.show()

    def set_point(self) -> None:
        """Set the first point where the cursor stands, then the second, then a first again."""
        if self.at_h is None:
            return
        before = self._points_h if len(self._points_h) < 2 else ()
        self._points_h = (*before, self.at_h)
        self.show()

    def _measured_h(self) -> tuple[float, ...]:
        """Return the points, the cursor standing for the second while it is not set."""
        waits = self.is_measuring and len(self._points_h) == 1 and self.at_h is not None
        return (*self._points_h, self.at_h) if waits else self._points_h

    # what is shown

    def show(self) -> None:
        """Show the cursor, the points, and what they say."""
        lanes, points = self._view.lanes, self._measured_h()
        for lane in lanes.all:
            lane.show_cursor(self.at_h)
        marks = [(at_h, self._height(at_h)) for at_h in points]
        lanes.temperature.foreground.show_points(marks)
        for lane in (lanes.rate, lanes.output):
            lane.foreground.show_points([(at_h, NOWHERE) for at_h in points])
        if self._review is not None and self._lines is not None:
            self._say_all(self._review, self._lines)

    def _height(self, at_h: float) -> float:
        lines = self._lines.temperature if self._lines is not None else ()
        readings = (line for line in lines if line.role is LineRole.READING)
        return next((value_at(line, at_h) for line in readings), NOWHERE)

    def tell(self, text: str) -> None:
        """Say a sentence over the chart until the cursor moves."""
        self._say(escape(text), text)

    def _say_all(self, review: Review, lines: ChartLines) -> None:
        """Say what is measured, or what stands at the cursor."""
        if self.is_measuring:
            text = self._measure_text(review, lines)
            self._say(escape(text), text)
            self._view.make_room(text)
        elif self.at_h is None:
            hint = tr("Mouse or arrow keys read values; + and − zoom, 0 shows all.")
            self._say(self._muted(hint), hint)
        else:
            showing = self._showing
            readout = readout_at(review, lines, self.at_h, showing.unit.value, showing.time_shown)
            shown = [
                f"{self._muted(name)} {escape(value)}".strip() for name, value in readout.shown
            ]
            self._say(" &nbsp; ".join(shown), readout.plain)
            self._view.make_room("   ".join(f"{name} {value}" for name, value in readout.shown))

    def _measure_text(self, review: Review, lines: ChartLines) -> str:
        points = self._measured_h()
        if len(points) == 2:
            return measured(lines, *points, self._showing.unit)
        if points:
            return tr("First point: {time}. Now the second.").format(
                time=moment_text(review, points[0], self._showing.time_shown)
            )
        return tr("Click the first point, or go there with the arrow keys and press Enter.")

    def _muted(self, text: str) -> str:
        color = self._appearance.colors.muted
        return f'<span style="color: {color}">{escape(text)}</span>' if text else ""

    def _say(self, rich: str, plain: str) -> None:
        self._view.readout.setText(kept_together(rich))
        self._view.readout.setAccessibleDescription(plain)
        self._view.lanes.setAccessibleDescription(plain)
        if QAccessible.isActive():
            event = QAccessibleValueChangeEvent(self._view.lanes, plain)
            QAccessible.updateAccessibility(event)
