"""Books and their firings as they come in: asked for, opened, made, filled, written out."""

from pathlib import Path

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtWidgets import QWidget

from firing_review.book.store import ENDING
from firing_review.firing.wording import tr
from firing_review.ui.book_place.panel import BookPlace
from firing_review.ui.tools import Tools


def is_book(path: Path) -> bool:
    """Tell whether a path names a kiln book."""
    return path.suffix.lower() == ENDING


class BookArrivals(QObject):
    """Opens what a person asks for; what was open stays open if that fails.

    Signals
    -------
    opened : a book is open and is to be shown.
    arrived : a firing of the book is open; carries its review.
    """

    opened = Signal()
    arrived = Signal(object)

    def __init__(self, tools: Tools, window: QWidget) -> None:
        super().__init__(window)
        self._tools, self._window = tools, window

    def connect_place(self, place: BookPlace) -> None:
        """Serve a view of the book."""
        place.newAsked.connect(self.ask_new)
        place.openAsked.connect(self.ask_open)
        place.firingChosen.connect(self.show_firing)

    def open(self, path: Path) -> bool:
        """Open a book and show it."""
        done = self._tools.book.open(path)
        if done:
            self.opened.emit()
        return done

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
        if path is not None and tools.book.create(path):
            self.opened.emit()

    @Slot(int)
    def show_firing(self, firing_id: int) -> None:
        """Open a firing of the book."""
        self._tools.showing.select_finding(None)
        review = self._tools.book.show(firing_id)
        if review is not None:
            self._tools.showing.follow_log(review.given.log.unit_read)
            self.arrived.emit(review)
