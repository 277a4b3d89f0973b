"""The chart's behaviour: what is drawn, what is selected, and how its parts work together."""

from dataclasses import replace

from PySide6.QtCore import QPointF, QTimer, Signal, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget

from firing_review.firing.findings import Severity
from firing_review.firing.wording import tr
from firing_review.report import wording
from firing_review.report.chart_lines import ChartLines, LineRole, chart_lines
from firing_review.review.review import Review
from firing_review.ui.appearance import Appearance
from firing_review.ui.ask import Questions
from firing_review.ui.firing_chart import keys
from firing_review.ui.firing_chart.backdrop import Shade
from firing_review.ui.firing_chart.cursor import Cursor
from firing_review.ui.firing_chart.extras import Extras
from firing_review.ui.firing_chart.finding_strip import Bar
from firing_review.ui.firing_chart.foreground import long_gaps
from firing_review.ui.firing_chart.notes import reading_notes
from firing_review.ui.firing_chart.peak import peak_texts
from firing_review.ui.firing_chart.pinned import PinnedNotes
from firing_review.ui.firing_chart.time_view import TimeView
from firing_review.ui.firing_chart.view import ChartView
from firing_review.ui.layouts import fill
from firing_review.ui.showing import Showing

MOST_BANDS = 3
HEADROOM_PX = 28
"""Kept free over the curve for the words at the peak."""
SETTLE_MS = 120
"""A view that stood still for so long is drawn once more, with smooth edges."""
ASK = Questions()


class FiringChart(QWidget):
    """Temperature, rate and output over time, with the findings on them.

    Signals
    -------
    edited : an edit of the review, made on the chart.
    errand : long work with what is open, to be done beside the window.
    refused : an error a person can act on.
    """

    edited = Signal(object)
    errand = Signal(object)
    refused = Signal(object)

    def __init__(
        self,
        appearance: Appearance,
        showing: Showing,
        questions: Questions = ASK,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._appearance, self._showing = appearance, showing
        self._review: Review | None = None
        self._lines: ChartLines | None = None
        self._said_thinned = False
        self._settle = QTimer(self)
        self._settle.setSingleShot(True)
        self.view = ChartView(appearance)
        self.time = TimeView([lane.getViewBox() for lane in self.view.lanes.all], self)
        self.cursor = Cursor(self.view, appearance, showing, self)
        self.notes = PinnedNotes(self.view, showing, self)
        self.extras = Extras(self.view, self.time, appearance, showing, questions)
        fill(self, self.view)
        self._connect()
        self._connect_tools()
        self._dress()

    def _connect(self) -> None:
        lanes = self.view.lanes
        lanes.keyPressed.connect(self._on_key)
        lanes.left.connect(self._on_mouse_left)
        lanes.stretched.connect(self._on_stretched)
        lanes.pushed.connect(self._on_pushed)
        lanes.scene().sigMouseMoved.connect(self._on_mouse_moved)
        lanes.scene().sigMouseClicked.connect(self._on_click)
        self.time.moved.connect(self._on_range)
        self._settle.timeout.connect(self._on_settled)
        self.view.strip.picked.connect(self._showing.select_finding)
        self.cursor.moved.connect(self.extras.follow_cursor)
        self.notes.edited.connect(self.edited)
        self.extras.changed.connect(self._redraw)
        self.extras.refused.connect(self.refused)
        self.extras.errand.connect(self.errand)
        self.extras.told.connect(self.cursor.tell)
        self._showing.changed.connect(self._redraw)
        self._showing.findingChanged.connect(self._on_finding)
        self._appearance.changed.connect(self._dress)

    def _connect_tools(self) -> None:
        tools, menu = self.view.tools, self.extras.menu
        tools.nearer.clicked.connect(self._on_nearer)
        tools.wider.clicked.connect(self._on_wider)
        tools.whole.clicked.connect(self.time.fit)
        tools.measure.toggled.connect(self.cursor.measure)
        self.cursor.measuring.connect(tools.measure.setChecked)
        tools.note.clicked.connect(self.write_note)
        menu.note.triggered.connect(self.write_note)
        menu.whole.triggered.connect(self.time.fit)

    # what others may ask for

    def show_review(self, review: Review) -> None:
        """Show a review; the view stays where it is while the log stays the same.

        Its lines are drawn again only where something is not the same as before.
        """
        before = self._review
        another = before is None or before.given.log is not review.given.log
        self._review = review
        if before is None or not _drawn_alike(before, review):
            self._redraw()
        else:
            self._take()
        if another:
            self.time.fit()
            self._on_settled()

    def show_time(self, at_h: float) -> None:
        """Put the cursor at a moment [h] and bring it into view."""
        self.cursor.move(at_h)
        if self.cursor.at_h is not None:
            self.time.follow(self.cursor.at_h)

    def show_finding(self, place: int) -> None:
        """Select a finding by its place in the review and bring it into view."""
        if self._review is not None and 0 <= place < len(self._review.findings):
            self._showing.select_finding(place)
            self._bring_into_view(place)

    def move_cursor(self, at_h: float | None) -> None:
        """Put the cursor at a moment, or take it away."""
        self.cursor.move(at_h)

    # what is drawn

    @Slot()
    def _redraw(self) -> None:
        if self._review is None:
            return
        review, unit = self._review, self._showing.unit
        self.extras.take(review)
        lines = chart_lines(review, unit)
        lines = replace(lines, temperature=(*self.extras.earlier_lines(unit), *lines.temperature))
        self._lines = lines
        lanes = self.view.lanes
        lanes.temperature.show_lines(lines.temperature)
        lanes.rate.show_lines(lines.rate)
        lanes.output.show_lines(lines.output)
        lanes.temperature.show_ranges(self.extras.range_boxes(unit))
        readings = [line for line in lines.temperature if line.role is LineRole.READING]
        lanes.temperature.foreground.show_gaps(long_gaps(readings))
        for axis in lanes.time_axes():
            axis.show_time(review.given.log.started_at, self._showing.time_shown)
        lanes.show_lanes(rate=bool(lines.rate), output=bool(lines.output))
        self._show_titles()
        self._show_peak()
        self._show_bars()
        self._limit_views(lines)
        self._on_range()
        self._on_settled()
        self._show_notes()
        self._take()

    def _take(self) -> None:
        """Hand on what is to be read, written and copied of the review, and its notes."""
        if self._review is not None and self._lines is not None:
            self.extras.take(self._review)
            self.notes.take(self._review)
            self.cursor.take(self._review, self._lines)

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
            self.view.lanes.temperature.show_peak(None, ())
            return
        self.view.lanes.temperature.show_peak(lines.top, peak_texts(review, self._showing.show))

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

    def _show_notes(self) -> None:
        """Say how the log was read, and what the chart leaves out."""
        if self._review is None or self._lines is None:
            return
        notes = reading_notes(self._review.given.log, self._showing.show)
        self._said_thinned = any(lane.is_thinned for lane in self.view.lanes.all)
        if self._said_thinned:
            notes.insert(0, tr("Drawn thinned: each column shows lowest and highest."))
        self.view.tools.notes.setText(" ".join(notes))

    # the selected finding

    @Slot(object)
    def _on_finding(self, place: int | None) -> None:
        self.view.strip.choose(place)
        shades = self._shades(place)
        for lane in self.view.lanes.all:
            lane.backdrop.show_shades(shades)
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
        if self._review is not None and place < len(self._review.findings):
            finding = self._review.findings[place]
            self.time.bring(finding.start_h, finding.end_h)

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

    def pick_under_cursor(self) -> None:
        """Select the finding under the cursor."""
        if self.cursor.at_h is not None:
            self.pick_at(self.cursor.at_h)

    # the view along the time axis

    def _limit_views(self, lines: ChartLines) -> None:
        ends = [line.x_h[[0, -1]] for line in lines.temperature if line.role is LineRole.EARLIER]
        first_h = min([lines.first_h, *(float(end[0]) for end in ends)])
        last_h = max([lines.last_h, *(float(end[1]) for end in ends)])
        self.time.limit(lines.first_h, lines.last_h, (first_h, last_h))
        self.view.lanes.rate.getViewBox().setYRange(*lines.rate_range, padding=0)
        self.view.lanes.output.getViewBox().setYRange(-4, 112, padding=0)

    @Slot()
    def _on_range(self) -> None:
        """Move the bars, the notes and the curves along."""
        low, high = self.time.range_h
        box = self.view.lanes.temperature.getViewBox().sceneBoundingRect()
        for strip in (self.view.strip, self.view.note_strip):
            strip.show_view(low, high, box.left(), box.right())
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
        if self._said_thinned != any(lane.is_thinned for lane in lanes.all):
            self._show_notes()
        if extent is not None:
            bottom, top = extent
            span = max(top - bottom, 10.0)
            height = max(lanes.temperature.getViewBox().height(), 80.0)
            share = min(self._appearance.sizes.px(HEADROOM_PX) / height, 0.4)
            lanes.temperature.getViewBox().setYRange(
                bottom - 0.04 * span, bottom + span / (1 - share), padding=0
            )

    # mouse, wheel, fingers

    def _hours_at(self, where: QPointF) -> float | None:
        for lane in self.view.lanes.all:
            view = lane.getViewBox()
            if lane.isVisible() and view.sceneBoundingRect().contains(where):
                return float(view.mapSceneToView(where).x())
        return None

    @Slot(object)
    def _on_mouse_moved(self, where: QPointF) -> None:
        hours = self._hours_at(where)
        if hours is not None:
            self.cursor.move(hours)

    @Slot()
    def _on_mouse_left(self) -> None:
        if not self.view.lanes.hasFocus():
            self.cursor.move(None)

    @Slot(float, QPointF)
    def _on_stretched(self, factor: float, where: QPointF) -> None:
        self.time.zoom(factor, self._hours_at(where))

    @Slot(float)
    def _on_pushed(self, pixels: float) -> None:
        self.time.pan(pixels / max(self.view.lanes.temperature.getViewBox().width(), 1.0))

    @Slot(object)
    def _on_click(self, event: object) -> None:
        hours = self._hours_at(event.scenePos())
        if hours is None or event.button() != event.button().LeftButton:
            return
        if event.double():
            self.time.fit()
            return
        self.cursor.move(hours)
        if self.cursor.is_measuring:
            self.cursor.set_point()
        else:
            self.pick_at(hours)

    # keys and buttons

    @Slot(object)
    def _on_key(self, event: QKeyEvent) -> None:
        keys.press(self, event)

    @Slot()
    def _on_nearer(self) -> None:
        self.time.zoom(keys.ZOOM, self.cursor.at_h)

    @Slot()
    def _on_wider(self) -> None:
        self.time.zoom(1 / keys.ZOOM, self.cursor.at_h)

    @Slot()
    def write_note(self) -> None:
        """Open a new note where the cursor stands, or in the middle of the view."""
        low, high = self.time.range_h
        middle = min(max((low + high) / 2, 0.0), self._lines.last_h if self._lines else 0.0)
        self.notes.write(self.cursor.at_h if self.cursor.at_h is not None else middle)

    @Slot()
    def _dress(self) -> None:
        self.view.dress()
        self._redraw()


def _drawn_alike(one: Review, other: Review) -> bool:
    """Tell whether the lines, bars and highest reading of two reviews are the same."""
    pairs = (
        (one.firing, other.firing),
        (one.findings, other.findings),
        (one.heat_work, other.heat_work),
        (one.given.earlier, other.given.earlier),
    )
    return all(a is b for a, b in pairs)
