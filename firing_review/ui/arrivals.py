"""Everything that comes in: files dropped or chosen, tables pasted, unfinished work picked up."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtWidgets import QWidget

from firing_review.firing.errors import FiringReviewError, InputError
from firing_review.firing.units import TemperatureUnit
from firing_review.firing.wording import tr
from firing_review.ui.background import Background, Work
from firing_review.ui.book_arrivals import is_book
from firing_review.ui.tools import Tools

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from firing_review.firing.sheet import Given
    from firing_review.review.review import Review
    from firing_review.ui.open_log.opener import LogOpener
    from firing_review.ui.open_log.panel import OpenLogPage
    from firing_review.ui.opening import Sorted
    from firing_review.ui.sitting import Unfinished


class Arrivals(QObject):
    """Opens what a person hands over; what was open stays open if that fails.

    The page that asks how a log is to be read is made when a log is first opened.

    Signals
    -------
    arrived : a firing is open; carries its review.
    tookBeside : the open firing takes in a schedule, cones or a kiln.
    bookNamed : the path of a kiln book to open.
    refused : an error a person can act on, and the path it came from or None.
    pageMade : the page that asks how a log is to be read.
    """

    arrived = Signal(object)
    tookBeside = Signal()
    bookNamed = Signal(object)
    refused = Signal(object, object)
    pageMade = Signal(object)

    def __init__(self, tools: Tools, window: QWidget) -> None:
        super().__init__(window)
        self._tools, self._window = tools, window
        self._sitting, self._preferences = tools.sitting, tools.preferences
        self._beside: tuple[Path, ...] = ()
        self.background = Background(self)
        self._page: OpenLogPage | None = None
        self._opener: LogOpener | None = None

    @property
    def page(self) -> OpenLogPage:
        """The page that asks how a log is to be read."""
        if self._page is None:
            self._make_opener()
        return self._page

    @property
    def opener(self) -> LogOpener:
        """What reads the files, and asks where it has to."""
        if self._opener is None:
            self._make_opener()
        return self._opener

    def _make_opener(self) -> None:
        from firing_review.ui.open_log.opener import LogOpener
        from firing_review.ui.open_log.panel import OpenLogPage
        from firing_review.ui.open_log.remembered import RememberedReadings

        remembered = RememberedReadings(self._tools.home / "log_readings.json")
        self._page = OpenLogPage(self._tools.appearance, remembered, self.background)
        self._opener = LogOpener(self._page, remembered, self.background, self)
        self._opener.ready.connect(self._on_ready)
        self._opener.refused.connect(self.refused)
        self._page.refused.connect(self._refuse)
        self.pageMade.emit(self._page)

    @Slot(str)
    def open_text(self, text: str) -> None:
        """Open a table that was copied from a spreadsheet."""
        self.opener.open_text(text)

    @Slot(object)
    def open_path(self, path: Path, unit: TemperatureUnit | None = None) -> None:
        """Open a log, a sheet, a folder or a kiln book."""
        from firing_review.ui.opening import is_bare_folder

        if is_book(path):
            self.bookNamed.emit(path)
            return
        if is_bare_folder(path):
            self.open_paths([path])
            return
        self._beside = ()
        self.opener.open([path], unit)

    def open_paths(self, paths: list[Path]) -> None:
        """Open what was dropped together; a lone schedule goes to the firing that is open."""
        from firing_review.ui.open_log.wanted import Wanted
        from firing_review.ui.opening import sort_paths

        books = [path for path in paths if is_book(path)]
        if books:
            self.bookNamed.emit(books[0])
            return
        dropped = Wanted(tuple(paths))
        words = tr("Opening {name}").format(name=dropped.name)
        done, refused = self._on_sorted, partial(self._refuse, path=paths[0])
        is_long = dropped.is_long
        self.background.run(Work(words, sort_paths, (paths,), done, refused, is_long=is_long))

    def _on_sorted(self, found: Sorted) -> None:
        if found.firing is not None:
            self._open([found.firing, *found.more], found.beside)
        elif self._sitting.review is not None:
            self.tookBeside.emit()
            for error in self._take_beside(found.beside):
                self._refuse(error)
        elif found.beside:
            self.refused.emit(_needs_log(found.beside[0]), None)

    def _open(self, paths: list[Path], beside: tuple[Path, ...] = ()) -> None:
        """Open a firing; what was dropped with it is taken in once it is open."""
        self._beside = beside
        self.opener.open(paths)

    def _take_beside(self, paths: Iterable[Path]) -> list[FiringReviewError]:
        """Take in what belongs beside the open firing; return why some of it cannot be."""
        from firing_review.ui.opening import edit_from

        refusals = []
        for path in paths:
            review = self._sitting.review
            try:
                edit = edit_from(path, review.given) if review is not None else None
            except FiringReviewError as error:
                refusals.append(error)
                continue
            if edit is not None:
                self._sitting.edit(edit)
        return refusals

    @Slot(object, object)
    def _on_ready(self, review: Review, path: Path | None) -> None:
        self._tools.showing.follow_log(review.given.log.unit_read)
        self._tools.showing.select_finding(None)
        self._sitting.open_review(review, path)
        if path is not None:
            self._preferences.remember(path)
        beside, self._beside = self._beside, ()
        refusals = self._take_beside(beside)
        self.arrived.emit(self._sitting.review)
        for error in refusals:
            self._refuse(error)

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

    @Slot()
    def ask_earlier(self) -> None:
        """Ask for an earlier good firing of the same kiln, and compare with it."""
        from firing_review.ui.long_work import read_earlier
        from firing_review.ui.open_log.wanted import takes_long

        review, tools = self._sitting.review, self._tools
        title = tr("Choose an earlier good firing of this kiln")
        path = tools.questions.file_to_open(self._window, title, tools.folder)
        if review is None or path is None:
            return
        words = tr("Opening {name}").format(name=path.name)
        arguments = (path, review.given.log.unit_read)
        done = partial(self._on_earlier, path)
        is_long = path.is_file() and takes_long(path.stat().st_size)
        work = Work(words, read_earlier, arguments, done, self._refuse, is_long=is_long)
        self.background.run(work)

    def _on_earlier(self, path: Path, earlier: Given) -> None:
        from firing_review.review.edits import set_earlier

        review = self._sitting.review
        if review is not None and earlier.log.raw == review.given.log.raw:
            self._refuse(_same_log(path))
        else:
            self._sitting.edit(set_earlier((earlier,)))

    @Slot(object)
    def pick_up(self, unfinished: Unfinished) -> None:
        """Go on with an unfinished sitting."""
        from firing_review.ui.long_work import pick_up, ready_for_window

        words = tr("Opening {name}").format(name=unfinished.title)
        done, refused = partial(self._on_picked_up, unfinished), self._refuse
        work = Work(
            words, pick_up, (unfinished.path,), done, refused,
            prepare=ready_for_window, is_long=unfinished.is_long,
        )  # fmt: skip
        self.background.run(work)

    def _on_picked_up(self, unfinished: Unfinished, review: Review) -> None:
        self._tools.showing.follow_log(review.given.log.unit_read)
        self._tools.showing.select_finding(None)
        self._sitting.open_review(review, None, kept_in=unfinished.path)
        self.arrived.emit(review)

    def _refuse(self, error: FiringReviewError, path: Path | None = None) -> None:
        self.refused.emit(error, path)

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
        self.opener.read_in(log, units[log.unit_read is units[0]])


def _same_log(path: Path) -> InputError:
    return InputError(
        str(path),
        tr("the log of an earlier firing"),
        tr("the log of the firing that is open"),
        tr("Choose a firing that went as meant, of the same kiln."),
    )


def _needs_log(path: Path) -> InputError:
    return InputError(
        str(path),
        tr("the log of a firing first"),
        tr("a file that belongs beside one"),
        tr("Drop the log, or drop both together."),
    )
