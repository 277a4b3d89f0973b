"""Everything that comes in: files dropped or chosen, tables pasted, unfinished work picked up."""

from pathlib import Path

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtWidgets import QWidget

from firing_review.firing.errors import FiringReviewError, InputError
from firing_review.firing.sheet import Given
from firing_review.firing.units import TemperatureUnit
from firing_review.firing.wording import tr
from firing_review.io.log_csv import read_log_bytes
from firing_review.review import edits
from firing_review.ui.book_arrivals import is_book
from firing_review.ui.open_log.opener import LogOpener
from firing_review.ui.opening import edit_from, sort_paths
from firing_review.ui.sitting import Unfinished
from firing_review.ui.tools import Tools


class Arrivals(QObject):
    """Opens what a person hands over; what was open stays open if that fails.

    Signals
    -------
    arrived : a firing is open; carries its review.
    bookNamed : the path of a kiln book to open.
    refused : an error a person can act on, and the path it came from or None.
    """

    arrived = Signal(object)
    bookNamed = Signal(object)
    refused = Signal(object, object)

    def __init__(self, tools: Tools, opener: LogOpener, window: QWidget) -> None:
        super().__init__(window)
        self._tools, self._window = tools, window
        self._sitting, self._preferences = tools.sitting, tools.preferences
        self.opener = opener
        opener.ready.connect(self._on_ready)
        opener.refused.connect(self.refused)

    @Slot(object)
    def open_path(self, path: Path, unit: TemperatureUnit | None = None) -> bool:
        """Open a log, a sheet, a folder or a kiln book."""
        if is_book(path):
            self.bookNamed.emit(path)
            return True
        return self.opener.open([path], unit)

    def open_paths(self, paths: list[Path]) -> None:
        """Open what was dropped together; a lone schedule goes to the firing that is open."""
        books = [path for path in paths if is_book(path)]
        if books:
            self.bookNamed.emit(books[0])
            return
        found = sort_paths(paths)
        if found.firing is not None and not self.opener.open([found.firing, *found.more]):
            return
        if self._sitting.review is None and found.beside:
            self.refused.emit(_needs_log(found.beside[0]), None)
            return
        for path in found.beside:
            self._take_beside(path)

    def _take_beside(self, path: Path) -> None:
        review = self._sitting.review
        if review is None:
            return
        try:
            edit = edit_from(path, review.given)
        except FiringReviewError as error:
            self.refused.emit(error, None)
            return
        if edit is not None:
            self._sitting.edit(edit)

    @Slot(object, object)
    def _on_ready(self, given: Given, path: Path | None) -> None:
        self._tools.showing.follow_log(given.log.unit_read)
        self._tools.showing.select_finding(None)
        review = self._sitting.open(given, path)
        if path is not None:
            self._preferences.remember(path)
        self.arrived.emit(review)

    @Slot()
    def ask_file(self) -> None:
        """Ask for a log or a sheet and open it."""
        title, folder = tr("Open a log or a firing sheet"), self._preferences.last_folder
        path = self._tools.questions.file_to_open(self._window, title, folder)
        if path is not None:
            self.open_paths([path])

    @Slot()
    def ask_folder(self) -> None:
        """Ask for a firing folder and open it."""
        folder = self._preferences.last_folder
        path = self._tools.questions.folder_to_open(self._window, folder)
        if path is not None:
            self.open_path(path)

    @Slot(object)
    def pick_up(self, unfinished: Unfinished) -> None:
        """Go on with an unfinished sitting."""
        try:
            review = self._sitting.pick_up(unfinished)
        except FiringReviewError as error:
            self.refused.emit(error, None)
            return
        self._tools.showing.follow_log(review.given.log.unit_read)
        self.arrived.emit(review)

    @Slot()
    def ask_how_read(self) -> None:
        """Show how the log that is open was read, to be corrected."""
        review = self._sitting.review
        if review is not None:
            self.opener.ask_how(review.given.log)

    @Slot()
    def read_in_other_unit(self) -> None:
        """Read the log anew as °F instead of °C, or the other way round; undo brings it back."""
        review = self._sitting.review
        if review is None:
            return
        log = review.given.log
        units = (TemperatureUnit.CELSIUS, TemperatureUnit.FAHRENHEIT)
        other = units[log.unit_read is units[0]]
        try:
            self._sitting.edit(edits.set_log(read_log_bytes(log.raw, log.source, other)))
        except FiringReviewError as error:
            self.refused.emit(error, None)


def _needs_log(path: Path) -> InputError:
    return InputError(
        str(path),
        tr("the log of a firing first"),
        tr("a file that belongs beside one"),
        tr("Drop the log, or drop both together."),
    )
