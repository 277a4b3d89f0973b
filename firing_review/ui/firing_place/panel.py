"""The place "Firing": what is chosen in one part shows in the others."""

from enum import StrEnum

from PySide6.QtCore import Signal, Slot
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget

from firing_review.firing.findings import Severity
from firing_review.firing.wording import tr
from firing_review.review.review import Review
from firing_review.ui.appearance import Appearance
from firing_review.ui.findings_list.panel import FindingsList
from firing_review.ui.firing_chart.panel import FiringChart
from firing_review.ui.firing_place.view import FiringView
from firing_review.ui.kiln_form.panel import KilnForm
from firing_review.ui.layouts import fill
from firing_review.ui.safety_question.panel import SafetyQuestion
from firing_review.ui.schedule_editor.kept import KeptSchedules
from firing_review.ui.schedule_editor.panel import ScheduleEditor
from firing_review.ui.segment_table.panel import SegmentTable
from firing_review.ui.spot import Spot
from firing_review.ui.switch import Switch
from firing_review.ui.tools import Tools

SAME_H = 1e-6
"""A finding begins at a moment that is this near to its own start [h]."""


class Beside(StrEnum):
    """What stands beside the chart."""

    FINDINGS = "findings"
    SCHEDULE = "schedule"
    KILN = "kiln"
    SAFETY = "safety"


class FiringPlace(QWidget):
    """Chart and segments, and beside them one of findings, schedule, kiln, safety.

    Signals
    -------
    scheduleEdited, kilnEdited, safetyAnswered : what the person changed.
    edited : an edit of the review, made on the chart.
    refused : an error a person can act on.
    """

    scheduleEdited = Signal(object)
    kilnEdited = Signal(object)
    safetyAnswered = Signal(object)
    edited = Signal(object)
    refused = Signal(object)

    def __init__(
        self,
        tools: Tools,
        kept: KeptSchedules,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._tools = tools
        appearance, showing, questions = tools.appearance, tools.showing, tools.questions
        self.view = FiringView(appearance, self)
        lanes, side, pages = self.view.lanes, self.view.side, self.view.pages
        self.chart = FiringChart(appearance, showing, tools.questions, lanes)
        self.segments = SegmentTable(appearance, showing, lanes)
        self.tabs = Switch(tr("Beside the chart"), _choices(), "tab", side)
        self.findings = FindingsList(appearance, showing, pages)
        self.schedule = ScheduleEditor(appearance, showing, kept, questions, pages)
        self.kiln = KilnForm(appearance, questions, pages)
        self.safety = SafetyQuestion(pages)
        self._pages = {
            Beside.FINDINGS: self.findings,
            Beside.SCHEDULE: self.schedule,
            Beside.KILN: self.kiln,
            Beside.SAFETY: self.safety,
        }
        self.view.put_in(self.chart, self.segments, self.tabs, list(self._pages.values()))
        fill(self, self.view)
        self._fitted = False
        self._found: tuple[object, ...] | None = None
        self._connect(appearance)
        self.show_beside(Beside.FINDINGS)

    def _connect(self, appearance: Appearance) -> None:
        self.tabs.chosen.connect(self.show_beside)
        self.segments.chosen.connect(self.chart.show_time)
        self.chart.edited.connect(self.edited)
        self.chart.refused.connect(self.refused)
        self.chart.errand.connect(self._tools.sitting.run_errand)
        self.schedule.edited.connect(self.scheduleEdited)
        self.kiln.edited.connect(self.kilnEdited)
        self.safety.answered.connect(self.safetyAnswered)
        self.schedule.refused.connect(self.refused)
        self.kiln.refused.connect(self.refused)
        appearance.changed.connect(self.view.fit)

    @property
    def parts(self) -> list[QWidget]:
        """The parts in the order in which they are gone through."""
        return [self.chart, self.segments, self.tabs, *self._pages.values()]

    def show_review(self, review: Review) -> None:
        """Show a review; what was found is drawn again only where it is not the same as before."""
        folder, before = self._tools.folder, self._found
        self._found = (review.firing, review.findings, review.heat_work)
        self.chart.show_review(review)
        if before is None or any(a is not b for a, b in zip(before, self._found, strict=True)):
            for part in (self.segments, self.findings):
                part.show_review(review)
        self.schedule.show_review(review, folder)
        self.kiln.show_review(review, folder)
        self.safety.show_review(review)
        count = len(review.findings)
        text = tr("&Findings {count}").format(count=count) if count else tr("&Findings")
        self.tabs.set_text(Beside.FINDINGS, text)

    @Slot(object)
    def show_beside(self, beside: Beside) -> None:
        """Put one of the pages beside the chart."""
        self.tabs.show_value(beside)
        self.view.pages.show_page(self._pages[beside])

    @property
    def turned_to(self) -> Beside:
        """What stands beside the chart."""
        beside = self.view.pages.seen
        return next(key for key, page in self._pages.items() if page is beside)

    def turn_to(self, page: object) -> None:
        """Put another page beside the chart."""
        self.show_beside(Beside(page))

    def show_needed(self, review: Review) -> None:
        """Show beside the chart what is needed next: the schedule, unless something is amiss."""
        amiss = any(one.severity is not Severity.NOTE for one in review.findings)
        is_bare = review.given.intended is None and not amiss
        self.show_beside(Beside.SCHEDULE if is_bare else Beside.FINDINGS)

    def show_spot(self, spot: Spot) -> None:
        """Show a moment in the chart, or one of the pages beside it, with the keyboard on it."""
        if spot.at_h is not None:
            self._go_to(spot.at_h)
        elif spot.name == Beside.SAFETY:
            self.ask_safety()
        elif spot.name:
            page = Beside(spot.name)
            self.show_beside(page)
            self._pages[page].setFocus()

    def _go_to(self, at_h: float) -> None:
        """Put cursor and keyboard at a moment and select the finding that begins there."""
        chart, review = self.chart, self._tools.sitting.review
        findings = review.findings if review is not None else ()
        begins = [n for n, one in enumerate(findings) if abs(one.start_h - at_h) < SAME_H]
        chart.time.fit()
        chart.move_cursor(at_h)
        if begins:
            chart.show_finding(begins[0])
        else:
            chart.pick_at(at_h)
        chart.view.lanes.setFocus()

    def ask_safety(self) -> None:
        """Show the safety question with the keyboard on it."""
        self.show_beside(Beside.SAFETY)
        self.safety.focus_first()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lay out for the new width."""
        super().resizeEvent(event)
        self.view.fit()
        self._open_segments_once()

    def _open_segments_once(self) -> None:
        """Open the segment table at first if there is height for it; then it is the person's."""
        if not self._fitted and self.isVisible():
            self._fitted = True
            self.segments.fold.setChecked(self.view.has_height)


def _choices() -> list[tuple[Beside, str]]:
    return [
        (Beside.FINDINGS, tr("&Findings")),
        (Beside.SCHEDULE, tr("S&chedule")),
        (Beside.KILN, tr("&Kiln")),
        (Beside.SAFETY, tr("Safet&y")),
    ]
