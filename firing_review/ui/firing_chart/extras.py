"""What can be switched on the chart and taken from it: ranges, earlier firings, copies."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import QByteArray, QObject, QPoint, Signal, Slot
from PySide6.QtGui import QGuiApplication

from firing_review.analysis.ware_ranges import passages
from firing_review.firing.remembered import remembered
from firing_review.firing.units import TemperatureUnit, fahrenheit_from_celsius
from firing_review.firing.wording import moment, tr, trn
from firing_review.report import wording
from firing_review.report.chart_lines import Line
from firing_review.report.shown_text import LONGEST_NAME, shown
from firing_review.review.review import Review
from firing_review.ui.appearance import Appearance
from firing_review.ui.ask import Questions
from firing_review.ui.background import Work
from firing_review.ui.firing_chart.data_text import (
    TableMade,
    rows_between,
    table_beside,
    table_made,
)
from firing_review.ui.firing_chart.earlier import EarlierFirings, LaidOver
from firing_review.ui.firing_chart.menu import ChartMenu
from firing_review.ui.firing_chart.picture import drawn_for, picture_of, write_picture
from firing_review.ui.firing_chart.range_boxes import RangeBox
from firing_review.ui.firing_chart.time_view import TimeView
from firing_review.ui.firing_chart.view import ChartView
from firing_review.ui.on_clipboard import put_text
from firing_review.ui.saving import file_name
from firing_review.ui.showing import Showing

AT_ONCE_ROWS = 5_000
"""To write more rows than this as a table takes so long that the window would stand still."""
USUAL_MEETING_C = 600.0
"""Where earlier firings meet this one if the cursor stands nowhere: past the slow beginning."""


@remembered
def joined(table: TableMade) -> QByteArray:
    """Return all of a table; made beside the window, the clipboard takes it without a copy."""
    text = QByteArray()
    text.reserve(sum(map(len, table.pieces)))
    for piece in table.pieces:
        text.append(piece)
    return text


class Extras(QObject):
    """The chart's menu and what it does.

    Signals
    -------
    changed : other curves or ranges are to be drawn.
    errand : long work with what is open, to be done beside the window.
    refused : an error a person can act on.
    told : a sentence about what was just done.
    """

    changed = Signal()
    errand = Signal(object)
    told = Signal(str)
    refused = Signal(object)

    def __init__(
        self,
        view: ChartView,
        time: TimeView,
        appearance: Appearance,
        showing: Showing,
        questions: Questions,
    ) -> None:
        super().__init__(view)
        self._view, self._time = view, time
        self._appearance, self._showing, self._questions = appearance, showing, questions
        self._review: Review | None = None
        self._earlier = EarlierFirings()
        self._laid, self._meeting_c = LaidOver.NOT, USUAL_MEETING_C
        self._cursor_h: float | None = None
        self.menu = ChartMenu(view)
        self.menu.laid.connect(self.lay_over)
        self.menu.ranges.toggled.connect(self.changed)
        self.menu.copy_picture.triggered.connect(self.copy_picture)
        self.menu.copy_data.triggered.connect(self.copy_data)
        self.menu.save_picture.triggered.connect(self.save_picture)
        self.menu.menu.aboutToShow.connect(self._on_menu)
        view.tools.more.setMenu(self.menu.menu)
        view.lanes.menuAsked.connect(self.open_menu)

    def take(self, review: Review) -> None:
        """Work on another review."""
        self._review = review

    @Slot(object)
    def follow_cursor(self, at_h: float | None) -> None:
        """Take the moment whose temperature earlier firings may be laid over."""
        self._cursor_h = at_h

    @Slot(QPoint)
    def open_menu(self, where: QPoint) -> None:
        """Open the menu at a place on the screen."""
        self.menu.menu.popup(where)

    # earlier firings

    def meeting_c(self) -> float:
        """Return the temperature under the cursor, or the usual one [°C]."""
        firing = self._review.firing if self._review is not None else None
        if firing is None or self._cursor_h is None:
            return USUAL_MEETING_C
        row = min(int(firing.log.elapsed_h.searchsorted(self._cursor_h)), firing.log.rows - 1)
        reading = float(firing.reading_c[row])
        return reading if reading > 0.0 else USUAL_MEETING_C

    @Slot()
    def _on_menu(self) -> None:
        count = len(self._review.given.earlier) if self._review is not None else 0
        self.menu.show_earlier(count, wording.temperature(self.meeting_c(), self._showing.show))

    @Slot(object)
    def lay_over(self, laid: LaidOver) -> None:
        """Lay earlier firings over this one."""
        self._laid, self._meeting_c = laid, self.meeting_c()
        self.menu.choose(laid)
        self.changed.emit()
        if self._earlier.left_out:
            words = tr("Not laid over, {temperature} was not reached on the climb: {names}.")
            names = ", ".join(self._earlier.left_out)
            meeting = wording.temperature(self._meeting_c, self._showing.show)
            self.told.emit(words.format(names=names, temperature=meeting))

    def earlier_lines(self, unit: TemperatureUnit) -> tuple[Line, ...]:
        """Return the lines of the earlier firings that are laid over this one."""
        if self._review is None:
            return ()
        return self._earlier.lines(self._review, self._laid, self._meeting_c, unit)

    # ranges that matter for ware

    def range_boxes(self, unit: TemperatureUnit) -> list[RangeBox]:
        """Return the ranges to be drawn, none if they are switched off."""
        firing = self._review.firing if self._review is not None else None
        if firing is None or not self.menu.ranges.isChecked():
            return []
        return [
            RangeBox(
                tr(one.range.name),
                one.start_h,
                one.end_h,
                _shown(one.range.low_c, unit),
                _shown(one.range.high_c, unit),
                climbing=one.climbing,
            )
            for one in passages(firing)
        ]

    # copies

    def heading(self) -> str:
        """Return what is written over a picture: title, kiln, day."""
        if self._review is None:
            return ""
        given = self._review.given
        parts = [given.title or given.log.source, given.kiln.name if given.kiln else ""]
        if given.log.started_at is not None:
            parts.append(moment(given.log.started_at))
        return " · ".join(shown(part, LONGEST_NAME) for part in parts if part)

    @contextmanager
    def _on_paper(self) -> Iterator[None]:
        """Draw the chart in the colors of paper for as long as a picture of it is taken."""
        try:
            with self._appearance.on_paper():
                self._dress()
                yield
        finally:
            self._dress()

    def _dress(self) -> None:
        self._view.dress()
        self.changed.emit()

    @Slot()
    def copy_picture(self) -> None:
        """Put the picture of the chart on the clipboard."""
        with self._on_paper():
            image = picture_of(self._view, self.heading(), self._appearance)
        QGuiApplication.clipboard().setImage(image)
        self.told.emit(tr("The picture is on the clipboard."))

    @Slot()
    def copy_data(self) -> None:
        """Put every row in view on the clipboard, as a spreadsheet takes it."""
        if self._review is None:
            return
        review, unit, view_h = self._review, self._showing.unit, self._time.range_h
        if rows_between(review.given.log, *view_h) <= AT_ONCE_ROWS:
            self._take_table(table_made(review, unit, *view_h))
            return
        bare = replace(review.given, log=replace(review.given.log, raw=b""), earlier=())
        asked = (replace(review, given=bare), unit, *view_h)
        words = tr("Copying the figures in view")
        done, refused = self._take_table, self.refused.emit
        self.errand.emit(Work(words, table_beside, asked, done, refused, prepare=joined))

    def _take_table(self, table: TableMade) -> None:
        """Put a table on the clipboard and say so."""
        put_text(joined(table))
        words = trn(
            "{count} row is on the clipboard.", "{count} rows are on the clipboard.", table.rows
        )
        self.told.emit(words.format(count=table.rows))

    @Slot()
    def save_picture(self) -> None:
        """Ask for a name and write the picture."""
        given = self._review.given if self._review is not None else None
        name = (given.title or Path(given.log.source).stem) if given is not None else ""
        path = self._questions.picture_to_save(self._view, f"{file_name(name)}.png")
        if path is None:
            return
        with self._on_paper():
            drawn = drawn_for(path, self._view, self.heading(), self._appearance)
        words = tr("Saving {name}").format(name=path.name)
        self.errand.emit(
            Work(
                words, write_picture, (drawn, path), lambda _: None, self.refused.emit,
                is_long=False,
            )
        )  # fmt: skip


def _shown(value_c: float, unit: TemperatureUnit) -> float:
    return value_c if unit is TemperatureUnit.CELSIUS else fahrenheit_from_celsius(value_c)
