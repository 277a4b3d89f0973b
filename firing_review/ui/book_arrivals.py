"""Books and their firings as they come in: asked for, opened, made, filled, written out."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtWidgets import QWidget

from firing_review.book.store import ENDING
from firing_review.firing.errors import InputError
from firing_review.firing.wording import tr, trn
from firing_review.io.plain_text import read_any_file
from firing_review.io.whole_file import write_whole
from firing_review.ui.background import Background, Work
from firing_review.ui.book_work import BookTask, BookWork, Canceled, Progress
from firing_review.ui.message_strip.panel import Way
from firing_review.ui.published import tables
from firing_review.ui.start_page.demos import is_demo
from firing_review.ui.tools import Tools

if TYPE_CHECKING:
    from firing_review.book.book import Book
    from firing_review.book.bring_in import Imported
    from firing_review.book.nouns import Added, Attachment
    from firing_review.review.review import Review
    from firing_review.ui.book_place.panel import BookPlace
    from firing_review.ui.long_work import TakenOut


LONG_PACKED_BYTES = 150_000
"""A firing that takes more room than this in a book has a log that takes long to read."""


def is_book(path: Path) -> bool:
    """Tell whether a path names a kiln book."""
    return path.suffix.lower() == ENDING


class BookArrivals(QObject):
    """Opens what a person asks for; what was open stays open if that fails.

    Signals
    -------
    opened : a book is open and is to be shown.
    arrived : a firing of the book is open; carries its review.
    told : a sentence on what was done.
    refused : an error a person can act on.
    """

    opened = Signal()
    arrived = Signal(object)
    told = Signal(str)
    refused = Signal(object)

    def __init__(self, tools: Tools, background: Background, window: QWidget) -> None:
        super().__init__(window)
        self._tools, self._window, self._background = tools, window, background
        self.work = BookWork(self)

    def connect_place(self, place: BookPlace) -> None:
        """Serve a view of the book; the first one asks for figures that are up to date."""
        place.newAsked.connect(self.ask_new)
        place.openAsked.connect(self.ask_open)
        place.closeAsked.connect(self.close)
        place.firingChosen.connect(self.show_firing)
        place.importAsked.connect(self.ask_import)
        place.exportAsked.connect(self.ask_export)
        place.attachAsked.connect(self.ask_attach)
        place.fileSaveAsked.connect(self.ask_save_file)
        place.addAsked.connect(self.add_open)
        self.renew()

    def open(self, path: Path) -> bool:
        """Open a book and show it; work on the one before ends."""
        self.end_work()
        done = self._tools.book.open(path)
        if done:
            self.opened.emit()
            self.renew()
        return done

    def end_work(self) -> None:
        """End what is going on with the book that is open."""
        self.work.stop()
        self._background.stop()

    def renew(self) -> None:
        """Work figures that another version of the program made out anew, beside the window."""
        from firing_review.book.renew import outdated, renew_figures

        tools, book = self._tools, self._tools.book.book
        if book is None or not tools.book.writable or self.work.is_busy or not outdated(book):
            return
        do = partial(renew_figures, book, tables())
        words = tr("Working the figures of the book out anew")
        self.work.run(BookTask(words, do, self._on_renewed, self.refused.emit))

    def _on_renewed(self, _done: object) -> None:
        self._tools.book.changed.emit()

    @Slot()
    def close(self) -> None:
        """Close the book; work on it ends."""
        self.end_work()
        self._tools.book.close()

    @Slot()
    def ask_open(self) -> None:
        """Ask for a book and open it."""
        tools = self._tools
        path = tools.questions.book_to_open(self._window, tools.preferences.last_folder)
        if path is not None:
            self.open(path)

    @Slot()
    def ask_new(self) -> None:
        """Ask for a name and make a new book."""
        tools = self._tools
        suggested = tools.preferences.last_folder / f"{tr('kiln')}{ENDING}"
        path = tools.questions.book_to_make(self._window, suggested)
        if path is None:
            return
        self.end_work()
        if tools.book.create(path):
            self.opened.emit()

    def offer(self, review: Review) -> tuple[str, list[Way]] | None:
        """Return the question whether a firing belongs into the open book; a demo does not."""
        book, source = self._tools.book, self._tools.sitting.source
        if not book.writable or book.firing_id is not None or is_demo(source):
            return None
        known = book.known(review.given)
        if known is not None:
            text = tr("This log is in the kiln book already, with what was entered then.")
            return text, [Way(tr("Open it from the book"), lambda: self.show_firing(known))]
        text = tr("Keep this firing in the kiln book “{name}”?").format(name=book.book.path.stem)
        return text, [Way(tr("Put it in"), self.add_open)]

    @Slot()
    def add_open(self) -> None:
        """Put the firing on the screen into the book; from now on its edits are kept there."""
        tools = self._tools
        book, review = tools.book.book, tools.sitting.review
        if book is None or review is None:
            return
        name = review.given.title or review.given.log.source
        words = tr("Putting {name} into the book").format(name=name)
        done = partial(self._on_added, review)
        task = BookTask(words, partial(_add, book, review), done, self.refused.emit)
        self.work.do(task)

    def _on_added(self, review: Review, added: Added) -> None:
        self._tools.book.keep_added(added, review)

    @Slot(int)
    def show_firing(self, firing_id: int) -> None:
        """Open a firing of the book."""
        from firing_review.ui.long_work import ready_for_window, review_out_of

        book = self._tools.book.book
        if book is None:
            return
        try:
            is_long = book.packed_bytes(firing_id) > LONG_PACKED_BYTES
            title = book.firing(firing_id).title
        except InputError as error:
            self.refused.emit(error)
            return
        if is_long and not self.work.is_busy:
            self._take_out(book, firing_id, title)
            return
        words = tr("Opening {name}").format(name=title)
        done, refused = partial(self._on_read, book, firing_id), self.refused.emit
        work = Work(
            words, review_out_of, (book, firing_id), done, refused,
            prepare=ready_for_window, is_long=False,
        )  # fmt: skip
        self._background.run(work)

    def _take_out(self, book: Book, firing_id: int, title: str) -> None:
        """Open a firing with a long log: out of the book in a thread, reviewed in a process."""
        from firing_review.ui.long_work import ready_for_window, review_taken_out

        words = tr("Opening {name}").format(name=title)
        done, refused = partial(self._on_read, book, firing_id), self.refused.emit

        def review(out: object) -> None:
            work = Work(words, review_taken_out, (out,), done, refused, prepare=ready_for_window)
            self._background.run(work)

        self.work.run(BookTask(words, partial(_take_out, book, firing_id), review, refused))

    def _on_read(self, book: Book, firing_id: int, review: Review) -> None:
        """Show what was taken out, unless another book was opened meanwhile."""
        tools = self._tools
        if tools.book.book is not book:
            return
        tools.showing.select_finding(None)
        tools.showing.follow_log(review.given.log.unit_read)
        tools.sitting.open_review(review, None)
        tools.book.keep_shown(firing_id)
        self.arrived.emit(review)

    @Slot(object)
    def ask_import(self, kiln_id: int | None = None) -> None:
        """Ask for a folder and bring every firing in it, and in those below it, into the book.

        Firings that name no kiln are put to the one of that number.
        """
        from firing_review.book.bring_in import import_folder

        tools, book = self._tools, self._tools.book.book
        if book is None or self.work.is_busy:
            return
        folder = tools.questions.folder_to_open(self._window, tools.preferences.last_folder)
        if folder is not None:
            words = tr("Bringing in firings")
            do = partial(import_folder, book, folder, tables(), kiln_id=kiln_id)
            self.work.run(BookTask(words, do, self._on_imported, self.refused.emit))

    @Slot()
    def ask_export(self) -> None:
        """Ask for the name of a folder and write all of the book there as plain files."""
        from firing_review.book.plain_files import export_book

        tools, book = self._tools, self._tools.book.book
        if book is None or self.work.is_busy:
            return
        suggested = tools.preferences.last_folder / book.path.stem
        folder = tools.questions.folder_to_save(self._window, suggested)
        if folder is not None:
            words = tr("Writing the book out")
            do = partial(export_book, book, folder)
            done = partial(self._on_exported, folder)
            self.work.run(BookTask(words, do, done, self.refused.emit))

    @Slot(int)
    def ask_attach(self, kiln_id: int) -> None:
        """Ask for a file, such as a photo, and keep it with a kiln."""
        tools, book = self._tools, self._tools.book.book
        if book is None or self.work.is_busy:
            return
        folder, title = tools.preferences.last_folder, tr("Add a file to the kiln book")
        path = tools.questions.any_file_to_open(self._window, title, folder)
        if path is not None:
            words = tr("Putting {name} into the book").format(name=path.name)
            do = partial(attach_file, book, path, kiln_id)
            self.work.run(BookTask(words, do, self._on_renewed, self.refused.emit))

    @Slot(object)
    def ask_save_file(self, kept: Attachment) -> None:
        """Ask where to, and write a file that is kept with a kiln, byte for byte."""
        tools, book = self._tools, self._tools.book.book
        if book is None:
            return
        suggested = tools.preferences.last_folder / kept.name
        path = tools.questions.any_file_to_save(self._window, suggested)
        if path is None:
            return
        try:
            write_whole(path, book.attachment_bytes(kept.id), tr("Choose another place."))
        except InputError as error:
            self.refused.emit(error)
            return
        self.told.emit(tr("The file is written to {path}.").format(path=path))

    def _on_imported(self, came: Imported) -> None:
        self._tools.book.changed.emit()
        added, known = len(came.added), len(came.known)
        said = [
            trn("{count} firing was brought in.", "{count} firings were brought in.", added)
            .format(count=added)
        ]  # fmt: skip
        if known:
            text = trn("{count} was known already.", "{count} were known already.", known)
            said.append(text.format(count=known))
        if came.cancelled:
            said.append(tr("It was ended before all were tried."))
        if came.refused:
            text = trn(
                "{count} file could not be used: {first}",
                "{count} files could not be used, the first one: {first}",
                len(came.refused),
            )
            said.append(text.format(count=len(came.refused), first=came.refused[0]))
        self.told.emit(" ".join(said))

    def _on_exported(self, folder: Path, _came: object) -> None:
        self.told.emit(tr("Everything is written to {folder}.").format(folder=folder))


def attach_file(
    book: Book, path: Path, kiln_id: int, _progress: Progress, _canceled: Canceled
) -> None:
    """Read a file and keep it with a kiln of the book."""
    book.attach(path.name, read_any_file(path, tr("a file to keep")), kiln_id=kiln_id)


def _add(book: Book, review: Review, _progress: Progress, _canceled: Canceled) -> Added:
    """Put a firing into a book, where nobody waits for it."""
    return book.add(review.given, review)


def _take_out(book: Book, firing_id: int, _progress: Progress, _canceled: Canceled) -> TakenOut:
    """Take a firing out of a book, where nobody waits for it."""
    from firing_review.ui.long_work import take_out

    return take_out(book, firing_id)
