"""The chart's behaviour: cursor by mouse and keys, zoom, selection of findings."""

from html import escape

from PySide6.QtCore import QPointF, Qt, QTimer, Signal, Slot
from PySide6.QtGui import QAccessible, QAccessibleValueChangeEvent, QKeyEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from firing_review.firing.findings import Severity
from firing_review.firing.wording import tr
from firing_review.report import wording
from firing_review.report.chart_lines import ChartLines, chart_lines
from firing_review.review.review import Review
from firing_review.ui.appearance import Appearance
from firing_review.ui.firing_chart.bands import Shade
from firing_review.ui.firing_chart.finding_strip import Bar
from firing_review.ui.firing_chart.lanes import MOST_BANDS
from firing_review.ui.firing_chart.notes import reading_notes
from firing_review.ui.firing_chart.peak import peak_text
from firing_review.ui.firing_chart.readout import readout_at
from firing_review.ui.firing_chart.time_view import TimeView
from firing_review.ui.firing_chart.view import ChartView
from firing_review.ui.showing import Showing

SMALL_STEP, LARGE_STEP = 1 / 240, 1 / 20
"""Share of the view that the cursor moves for one press of an arrow key."""
HEADROOM_PX = 28
"""Kept free over the curve for the words at the peak."""
ZOOM = 0.7
SETTLE_MS = 120
"""A view that stood still for so long is drawn once more, with smooth edges."""


class FiringChart(QWidget):
    """Temperature, rate and output over time, with the findings on them."""

    cursorMoved = Signal(object)

    def __init__(
        self, appearance: Appearance, showing: Showing, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._appearance, self._showing = appearance, showing
        self._review: Review | None = None
        self._lines: ChartLines | None = None
        self._cursor_h: float | None = None
        self._said_thinned = False
        self._settle = QTimer(self)
        self._settle.setSingleShot(True)
        self._settle.timeout.connect(self._on_settled)
        self.view = ChartView(appearance)
        boxes = [lane.getViewBox() for lane in self.view.lanes.all]
        self.time = TimeView(boxes, self)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.view)
        self._connect()
        self._dress()

    def _connect(self) -> None:
        lanes = self.view.lanes
        lanes.keyPressed.connect(self._on_key)
        lanes.left.connect(self._on_mouse_left)
        lanes.scene().sigMouseMoved.connect(self._on_mouse_moved)
        lanes.scene().sigMouseClicked.connect(self._on_click)
        self.time.moved.connect(self._on_range)
        self.view.strip.picked.connect(self._showing.select_finding)
        self._showing.changed.connect(self._redraw)
        self._showing.findingChanged.connect(self._on_finding)
        self._appearance.changed.connect(self._dress)

    # what is shown

    def show_review(self, review: Review) -> None:
        """Draw a review; the view stays where it is while the log stays the same."""
        another = self._review is None or self._review.given.log is not review.given.log
        self._review = review
        if another:
            self._cursor_h = None
        self._redraw()
        if another:
            self.time.fit()

    @Slot()
    def _redraw(self) -> None:
        if self._review is None:
            return
        lines = chart_lines(self._review, self._showing.unit)
        self._lines = lines
        lanes = self.view.lanes
        lanes.temperature.show_lines(lines.temperature)
        lanes.rate.show_lines(lines.rate)
        lanes.output.show_lines(lines.output)
        for axis in lanes.time_axes():
            axis.show_time(self._review.given.log.started_at, self._showing.time_shown)
        lanes.show_lanes(rate=bool(lines.rate), output=bool(lines.output))
        self._show_titles()
        self._show_peak()
        self._show_bars()
        self._limit_views()
        self._on_range()
        self._on_settled()
        self._show_notes()
        self._show_cursor()

    def _show_titles(self) -> None:
        unit = f"°{self._showing.unit.value}"
        lanes = self.view.lanes
        lanes.temperature.show_title(tr("Temperature, {unit}").format(unit=unit))
        lanes.rate.show_title(tr("Rate, {unit} per hour").format(unit=unit))
        lanes.output.show_title(tr("Output, %"))

    def _show_peak(self) -> None:
        """Mark the highest reading, with the cone it came to."""
        lines, review = self._lines, self._review
        if lines is None or review is None or review.firing is None or lines.top is None:
            self.view.lanes.temperature.show_peak(None, "")
            return
        self.view.lanes.temperature.show_peak(lines.top, peak_text(review, self._showing.show))

    def _show_bars(self) -> None:
        review = self._review
        if review is None:
            return
        bars = [
            Bar(
                place + 1,
                finding.severity,
                finding.start_h,
                finding.end_h,
                wording.render(finding.summary, self._showing.show),
            )
            for place, finding in enumerate(review.findings)
        ]
        self.view.strip.show_bars(bars)
        self._on_finding(self._showing.finding)

    @Slot(object)
    def _on_finding(self, place: int | None) -> None:
        self.view.strip.choose(place)
        shades = self._shades(place)
        for lane in self.view.lanes.all:
            lane.show_bands(shades)
        if place is not None:
            self._bring_into_view(place)

    def _shades(self, chosen: int | None) -> list[Shade]:
        """Return at most three bands: the chosen one and the gravest others."""
        if self._review is None:
            return []
        findings = self._review.findings
        grave = {Severity.FAULT: 0, Severity.WATCH: 1}
        order = sorted(
            (place for place, one in enumerate(findings) if one.severity in grave),
            key=lambda place: grave[findings[place].severity],
        )
        others = [place for place in order if place != chosen]
        room = MOST_BANDS - (chosen is not None)
        shown = [(place, False) for place in others[:room]]
        if chosen is not None and chosen < len(findings):
            shown.append((chosen, True))
        return [Shade(findings[n].start_h, findings[n].end_h, mark) for n, mark in shown]

    def _bring_into_view(self, place: int) -> None:
        if self._review is None or place >= len(self._review.findings):
            return
        finding = self._review.findings[place]
        self.time.bring(finding.start_h, finding.end_h)

    def _show_notes(self) -> None:
        """Say how the log was read, and what the chart leaves out."""
        if self._review is None or self._lines is None:
            return
        notes = reading_notes(self._review.given.log, self._showing.show)
        self._said_thinned = any(lane.is_thinned for lane in self.view.lanes.all)
        if self._said_thinned:
            notes.insert(0, tr("Drawn thinned: each column shows lowest and highest."))
        self.view.notes.show_text(" ".join(notes))

    # the view along the time axis

    def _limit_views(self) -> None:
        lines = self._lines
        if lines is None:
            return
        whole = (lines.first_h, lines.last_h)
        self.time.limit(*whole, whole)
        self.view.lanes.rate.setYRange(*lines.rate_range, padding=0)
        self.view.lanes.output.setYRange(-4, 112, padding=0)

    @Slot()
    def _on_range(self) -> None:
        """Move the bars and the curves along."""
        low, high = self.time.range_h
        box = self.view.lanes.temperature.getViewBox().sceneBoundingRect()
        self.view.strip.show_view(low, high, box.left(), box.right())
        if self._lines is None:
            return
        self._draw_view(is_moving=True)
        self._settle.start(SETTLE_MS)

    @Slot()
    def _on_settled(self) -> None:
        """Draw with smooth edges once the view stands still."""
        self._draw_view(is_moving=False)

    def _draw_view(self, *, is_moving: bool) -> None:
        """Draw what is in view, fit the height to it, and say if it is thinned."""
        low, high = self.time.range_h
        lanes = self.view.lanes
        extent = lanes.temperature.follow(low, high, is_moving=is_moving)
        for lane in (lanes.rate, lanes.output):
            lane.follow(low, high, is_moving=is_moving)
        if self._said_thinned != any(lane.is_thinned for lane in self.view.lanes.all):
            self._show_notes()
        if extent is not None:
            bottom, top = extent
            span = max(top - bottom, 10.0)
            height = max(self.view.lanes.temperature.getViewBox().height(), 80.0)
            share = min(self._appearance.sizes.px(HEADROOM_PX) / height, 0.4)
            self.view.lanes.temperature.setYRange(
                bottom - 0.04 * span, bottom + span / (1 - share), padding=0
            )

    # the cursor

    def move_cursor(self, at_h: float | None) -> None:
        """Put the cursor at a moment, or take it away."""
        if at_h is not None and self._lines is not None:
            at_h = min(max(at_h, self._lines.first_h), self._lines.last_h)
        self._cursor_h = at_h
        self._show_cursor()
        self.cursorMoved.emit(at_h)

    def _show_cursor(self) -> None:
        for lane in self.view.lanes.all:
            lane.show_cursor(self._cursor_h)
        if self._review is None or self._lines is None:
            return
        if self._cursor_h is None:
            hint = tr(
                "Move over the chart or press its arrow keys to read values; + and − zoom, "
                "0 shows all."
            )
            self._say(self._muted(hint), hint)
            return
        readout = readout_at(
            self._review,
            self._lines,
            self._cursor_h,
            self._showing.unit.value,
            self._showing.time_shown,
        )
        shown = [f"{self._muted(name)} {escape(value)}".strip() for name, value in readout.shown]
        self._say("&nbsp;&nbsp; ".join(shown), readout.plain)

    def _muted(self, text: str) -> str:
        color = self._appearance.colors.muted
        return f'<span style="color: {color}">{escape(text)}</span>' if text else ""

    def _say(self, rich: str, plain: str) -> None:
        self.view.readout.setText(rich)
        self.view.readout.setAccessibleDescription(plain)
        self.view.lanes.setAccessibleDescription(plain)
        if QAccessible.isActive():
            event = QAccessibleValueChangeEvent(self.view.lanes, plain)
            QAccessible.updateAccessibility(event)

    @Slot(object)
    def _on_mouse_moved(self, where: QPointF) -> None:
        hours = self._hours_at(where)
        if hours is not None:
            self.move_cursor(hours)

    @Slot()
    def _on_mouse_left(self) -> None:
        if not self.view.lanes.hasFocus():
            self.move_cursor(None)

    def _hours_at(self, where: QPointF) -> float | None:
        for lane in self.view.lanes.all:
            view = lane.getViewBox()
            if lane.isVisible() and view.sceneBoundingRect().contains(where):
                return float(view.mapSceneToView(where).x())
        return None

    @Slot(object)
    def _on_click(self, event: object) -> None:
        where = event.scenePos()
        hours = self._hours_at(where)
        if hours is None:
            return
        if event.double():
            self.time.fit()
        else:
            self.move_cursor(hours)
            self.pick_at(hours)

    def pick_at(self, at_h: float) -> None:
        """Select the shortest finding at a moment; none clears the selection."""
        if self._review is None:
            return
        here = [
            (one.end_h - one.start_h, place)
            for place, one in enumerate(self._review.findings)
            if one.start_h <= at_h <= one.end_h
        ]
        self._showing.select_finding(min(here)[1] if here else None)

    # keys

    @Slot(object)
    def _on_key(self, event: QKeyEvent) -> None:
        key = event.key()
        actions = {
            Qt.Key.Key_Plus: lambda: self.time.zoom(ZOOM, self._cursor_h),
            Qt.Key.Key_Equal: lambda: self.time.zoom(ZOOM, self._cursor_h),
            Qt.Key.Key_Minus: lambda: self.time.zoom(1 / ZOOM, self._cursor_h),
            Qt.Key.Key_0: self.time.fit,
            Qt.Key.Key_Home: lambda: self._step_to(0.0),
            Qt.Key.Key_End: lambda: self._step_to(1.0),
            Qt.Key.Key_Escape: lambda: self.move_cursor(None),
            Qt.Key.Key_Return: self._pick_under_cursor,
            Qt.Key.Key_Enter: self._pick_under_cursor,
        }
        steps = {
            Qt.Key.Key_Left: -SMALL_STEP,
            Qt.Key.Key_Right: SMALL_STEP,
            Qt.Key.Key_PageUp: -LARGE_STEP,
            Qt.Key.Key_PageDown: LARGE_STEP,
        }
        if key in steps:
            large = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
            self._step(steps[key] * (LARGE_STEP / SMALL_STEP if large else 1.0))
        elif key in actions:
            actions[key]()
        else:
            return
        event.accept()

    def _step_to(self, share: float) -> None:
        low, high = self.time.range_h
        self.move_cursor(low + share * (high - low))

    def _step(self, share: float) -> None:
        low, high = self.time.range_h
        start = self._cursor_h if self._cursor_h is not None else (low + high) / 2
        self.move_cursor(start + share * (high - low))
        if self._cursor_h is not None:
            self.time.follow(self._cursor_h)

    def _pick_under_cursor(self) -> None:
        if self._cursor_h is not None:
            self.pick_at(self._cursor_h)

    @Slot()
    def _dress(self) -> None:
        self.view.dress()
        self._redraw()
