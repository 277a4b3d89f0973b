"""The kiln book that is open, if one is, and which of its firings is on the screen."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal, Slot

from firing_review.firing.errors import InputError
from firing_review.ui.preferences import Preferences
from firing_review.ui.sitting import Sitting

if TYPE_CHECKING:
    from firing_review.book.book import Book
    from firing_review.book.nouns import Added
    from firing_review.firing.sheet import Given
    from firing_review.review.review import Review


class OpenBook(QObject):
    """Opens and closes the book, and lets the sitting keep its edits in it.

    Signals
    -------
    changed : another book is open, or something in it changed.
    refused : an error a person can act on.
    """

    changed = Signal()
    refused = Signal(object)

    def __init__(
        self, sitting: Sitting, preferences: Preferences, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._sitting, self._preferences = sitting, preferences
        self.book: Book | None = None
        self.firing_id: int | None = None
        sitting.opened.connect(self._on_opened)

    @property
    def writable(self) -> bool:
        """Whether a book is open that may be written."""
        return self.book is not None and self.book.read_only is None

    def open(self, path: Path) -> bool:
        """Open a book; the one before is closed. What was open stays open if that fails."""
        from firing_review.book.book import Book

        if self.book is not None and path.resolve() == self.book.path.resolve():
            if self.writable:
                self.changed.emit()
                return True
            self._let_go()
        return self._change_to(Book.open, path)

    def create(self, path: Path) -> bool:
        """Make a new book and open it."""
        from firing_review.book.book import Book

        return self._change_to(Book.create, path)

    def open_last(self) -> None:
        """Open the book of the last time; if it is gone, there is none."""
        path = self._preferences.book
        if path is not None and path.exists():
            self.open(path)

    def close(self) -> None:
        """Close the book; the firing on the screen is kept in a recovery file from now on."""
        self._let_go()
        self._preferences.book = None
        self.changed.emit()

    def release(self) -> None:
        """Give the file back when the program ends; next time it is opened again."""
        self._let_go()

    def _change_to(self, opening: Callable[[Path], Book], path: Path) -> bool:
        try:
            book = opening(path)
        except InputError as error:
            self.refused.emit(error)
            return False
        self._let_go()
        self.book = book
        self._preferences.book = book.path
        self._preferences.remember(book.path)
        self.changed.emit()
        return True

    def _let_go(self) -> None:
        if self.firing_id is not None:
            self._sitting.keep_with(None)
            self.firing_id = None
        if self.book is not None:
            self.book.close()
            self.book = None

    # firings

    def known(self, given: Given) -> int | None:
        """Return the firing of the book that has this log, if there is one."""
        try:
            return self.book.firing_with_log(given) if self.book is not None else None
        except InputError as error:
            self.refused.emit(error)
            return None

    def keep_added(self, added: Added, put_in: Review) -> None:
        """Keep the edits of a firing that was put in from now on, if it is still on the screen."""
        review = self._sitting.review
        if self.book is None or review is None or not _same_log(review, put_in):
            self.changed.emit()
            return
        try:
            if not added.new or review is not put_in:
                self.book.keep(added.firing_id, review.given, review)
        except InputError as error:
            self.refused.emit(error)
            return
        self._keep_from_now(added.firing_id)
        self.changed.emit()

    def keep_shown(self, firing_id: int) -> None:
        """Keep the edits of what was just opened as this firing of the book."""
        self._keep_from_now(firing_id)
        self.changed.emit()

    def remove(self, firing_id: int) -> None:
        """Take a firing out of the book; if it is on the screen it stays there."""
        if firing_id == self.firing_id:
            self._sitting.keep_with(None)
            self.firing_id = None
        self.write(lambda book: book.remove_firing(firing_id))

    def write(self, do: Callable[[Book], object]) -> None:
        """Write something into the book; a refusal is told."""
        if self.book is None:
            return
        try:
            do(self.book)
        except InputError as error:
            self.refused.emit(error)
            return
        self.changed.emit()

    def _keep_from_now(self, firing_id: int) -> None:
        self.firing_id = firing_id
        if self.writable:
            self._sitting.keep_with(self._keep)

    def _keep(self, review: Review, recovery: Path) -> InputError | None:
        from firing_review.book.recover import keep_or_recover

        book, firing_id = self.book, self.firing_id
        if book is None or firing_id is None:  # pragma: no cover - keep_with(None) comes first
            return None
        error = keep_or_recover(book, firing_id, review.given, review, recovery)
        self.changed.emit()
        return error

    @Slot()
    def _on_opened(self) -> None:
        """Another firing is on the screen; one of the book says so afterwards."""
        self.firing_id = None


def _same_log(one: Review, other: Review) -> bool:
    """Tell whether two reviews are of the same file."""
    return one.given.log.raw is other.given.log.raw
