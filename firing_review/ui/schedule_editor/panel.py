"""The schedule editor: every row that makes sense goes into the review at once."""

from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QWidget

from firing_review.firing.errors import InputError
from firing_review.firing.schedule import ClockCurve, Intended, Schedule
from firing_review.firing.wording import tr
from firing_review.io.schedule_file import parse_schedule_text, read_schedule
from firing_review.review.review import Review
from firing_review.ui.appearance import Appearance
from firing_review.ui.ask import Questions
from firing_review.ui.home import home_folder
from firing_review.ui.layouts import fill
from firing_review.ui.schedule_editor.kept import KeptSchedules
from firing_review.ui.schedule_editor.rows import (
    TARGET,
    RowsRead,
    cells_of,
    converted,
    headings,
    read_rows,
    rows_of,
)
from firing_review.ui.schedule_editor.view import ScheduleView
from firing_review.ui.scrolled import Scrolled
from firing_review.ui.showing import Showing
from firing_review.ui.text_table.blocks import block_of
from firing_review.ui.text_table.model import TextTableModel


class ScheduleEditor(QWidget):
    """Type, paste, take from a file or from the kept ones.

    Signals
    -------
    edited : the schedule as it now stands, or None when every row was taken away.
    refused : an error a person can act on.
    """

    edited = Signal(object)
    refused = Signal(object)

    def __init__(
        self,
        appearance: Appearance,
        showing: Showing,
        kept: KeptSchedules,
        questions: Questions,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._showing, self._kept, self._questions = showing, kept, questions
        self._unit = showing.unit
        self._intended: Intended | None = None
        self._folder = home_folder()
        self.view = ScheduleView(appearance)
        self.model = TextTableModel(headings(self._unit), self)
        self.view.table.setModel(self.model)
        self.view.table.keep_narrow(TARGET)
        fill(self, Scrolled(self.view, self))
        self._connect()
        appearance.changed.connect(self.view.table.dress)
        self._list_kept()
        self._say(RowsRead((), {}))

    def _connect(self) -> None:
        view = self.view
        self.model.edited.connect(self._on_edited)
        view.table.pasted.connect(self._on_pasted)
        view.table.refused.connect(self.refused)
        view.paste.clicked.connect(view.table.paste)
        view.insert.clicked.connect(self._on_insert)
        view.remove.clicked.connect(self._on_remove)
        view.keep.clicked.connect(self._on_keep)
        view.name.returnPressed.connect(self._on_keep)
        view.name.textChanged.connect(self._refresh_keep)
        view.kept.activated.connect(self._on_kept)
        view.from_file.clicked.connect(self._on_from_file)
        self._showing.changed.connect(self._on_unit)

    # from the review

    def show_review(self, review: Review, folder: Path) -> None:
        """Show the review's schedule, unless it is the one just typed here."""
        self._folder = folder
        if review.given.intended == self._intended:
            return
        self._take(review.given.intended)

    def _take(self, intended: Intended | None) -> None:
        self._intended = intended
        self.view.name.setText(intended.name if intended is not None else "")
        self.model.set_rows(rows_of(intended, self._unit))
        self._say(self._read())

    def _read(self) -> RowsRead:
        known = self._intended.segments if isinstance(self._intended, Schedule) else ()
        return read_rows(self.model.rows, self._unit, known)

    # from the person

    @Slot()
    def _on_edited(self) -> None:
        read = self._read()
        self.model.set_wrong(read.wrong)
        self._say(read)
        if read.segments is None:
            return
        self._offer(Schedule(read.segments, self.view.name.text()) if read.segments else None)

    def _offer(self, intended: Intended | None) -> None:
        if isinstance(self._intended, ClockCurve) and intended is None:
            return
        if _same(intended, self._intended):
            return
        self._intended = intended
        self.edited.emit(intended)

    @Slot(str)
    def _on_pasted(self, text: str) -> None:
        """Take a whole schedule with its header, or lay bare cells from the current one on."""
        block = block_of(text)
        if block and not any(any(sign.isdigit() for sign in cell) for cell in block[0]):
            try:
                self._replace(parse_schedule_text(text, tr("pasted rows"), self._unit))
            except InputError as error:
                self.refused.emit(error)
            return
        self.model.paste(self.view.table.currentIndex(), text, whole_rows=True)

    def _replace(self, intended: Intended) -> None:
        self._take(intended)
        self.edited.emit(intended)

    @Slot()
    def _on_insert(self) -> None:
        row = max(self.view.table.currentIndex().row(), 0)
        self.model.insert_row(row)
        self.view.table.setCurrentIndex(self.model.index(row, 0))
        self.view.table.setFocus()

    @Slot()
    def _on_remove(self) -> None:
        self.model.remove_row(self.view.table.currentIndex().row())

    @Slot()
    def _on_from_file(self) -> None:
        path = self._questions.file_to_open(self, tr("Take a schedule from a file"), self._folder)
        if path is None:
            return
        try:
            self._replace(read_schedule(path))
        except InputError as error:
            self.refused.emit(error)

    # kept schedules

    def _list_kept(self) -> None:
        names = self._kept.names()
        self.view.kept.clear()
        first = tr("Kept schedules") if names else tr("None kept yet")
        self.view.kept.addItems([first, *names])
        self.view.kept.setEnabled(bool(names))

    @Slot(int)
    def _on_kept(self, place: int) -> None:
        if place <= 0:
            return
        try:
            self._replace(self._kept.load(self.view.kept.itemText(place)))
        except InputError as error:
            self.refused.emit(error)

    @Slot()
    def _on_keep(self) -> None:
        name = self.view.name.text().strip()
        read = self._read()
        if not name or not read.segments:
            return
        try:
            self._kept.keep(name, Schedule(read.segments, name), self._unit)
        except InputError as error:
            self.refused.emit(error)
            return
        self._list_kept()
        self.view.kept.setCurrentText(name)
        self._offer_name(name)
        self.view.quiet.setText(tr("Kept as {name}.").format(name=name))
        self.view.quiet.show()

    def _offer_name(self, name: str) -> None:
        if isinstance(self._intended, Schedule) and self._intended.name != name:
            self._intended = replace(self._intended, name=name)
            self.edited.emit(self._intended)

    # what is shown

    @Slot()
    def _on_unit(self) -> None:
        before, now = self._unit, self._showing.unit
        if before is now:
            return
        self._unit = now
        known = self._intended.segments if isinstance(self._intended, Schedule) else ()
        exact = {cells_of(segment, before): cells_of(segment, now) for segment in known}
        rows = [exact.get(cells) or converted(cells, before, now) for cells in self.model.rows]
        self.model.set_headings(headings(now))
        self.model.set_rows(rows)
        read = self._read()
        self.model.set_wrong(read.wrong)
        self._say(read)

    @Slot()
    def _refresh_keep(self) -> None:
        usable = bool(self._read().segments) and bool(self.view.name.text().strip())
        self.view.keep.setEnabled(usable)

    def _say(self, read: RowsRead) -> None:
        """Say the first thing that is wrong, what is unfinished, and how to begin."""
        first = read.wrong[min(read.wrong)] if read.wrong else ""
        more = len(read.wrong) - 1
        if more > 0:
            first += " " + tr("Cells marked like this: {count}.").format(count=more + 1)
        self.view.message.setText(first)
        self.view.message.setVisible(bool(first))
        self.view.quiet.setText(read.unfinished)
        self.view.quiet.setVisible(bool(read.unfinished))
        self.view.hint.setText(self._hint())
        self._refresh_keep()

    def _hint(self) -> str:
        if isinstance(self._intended, ClockCurve) and not self.model.rows:
            return tr(
                "This firing has a curve tied to the clock, {count} points. Type rows to put a "
                "schedule in its place."
            ).format(count=len(self._intended.time_h))
        if self.model.rows:
            return tr("The rate may be the word full. The review follows as you type.")
        return tr(
            "Type the schedule you meant to fire, one row a segment, or paste it. The rate may be "
            "the word full; a hold is minutes or h:mm."
        )


def _same(one: Intended | None, other: Intended | None) -> bool:
    """Tell whether two schedules ask for the same; names aside."""
    if isinstance(one, Schedule) and isinstance(other, Schedule):
        return one.segments == other.segments
    return one == other
