"""What is in a book, read once and then looked at from every side."""

from functools import cached_property

from firing_review.book.book import Book
from firing_review.book.life import life_of
from firing_review.book.nouns import Attachment, Change, FiringKept, Note
from firing_review.book.trends import Trends, trends_of
from firing_review.firing.said import Said


class Contents:
    """The kilns, firings and changes of a book as they stood when it was read.

    Trends are worked out when they are first asked for.
    """

    def __init__(self, book: Book) -> None:
        self.kilns = book.kilns()
        self.firings = book.list_firings()
        self._changes = book.changes()
        self._notes, self._attachments = book.notes(), book.attachments()
        self._trends: dict[int | None, Trends] = {}

    @cached_property
    def names(self) -> dict[int, str]:
        """The names of the kilns by their numbers."""
        return {kept.id: kept.kiln.name for kept in self.kilns}

    def firings_of(self, kiln_id: int | None) -> tuple[FiringKept, ...]:
        """Return the firings of a kiln, or of none, oldest first."""
        return tuple(kept for kept in self.firings if kept.kiln_id == kiln_id)

    def changes_of(self, kiln_id: int | None) -> tuple[Change, ...]:
        """Return the changes at a kiln, oldest first."""
        return tuple(change for change in self._changes if change.kiln_id == kiln_id)

    def written_of(self, kiln_id: int | None) -> tuple[Note | Attachment, ...]:
        """Return the notes on a kiln and the files kept with it, newest first."""
        notes = [note for note in self._notes if note.kiln_id == kiln_id]
        files = [one for one in self._attachments if one.kiln_id == kiln_id]
        return tuple(sorted([*notes, *files], key=_written_at, reverse=True))

    def trends_of(self, kiln_id: int | None) -> Trends:
        """Return the trends of a kiln, or of the firings without one."""
        if kiln_id not in self._trends:
            firings, changes = self.firings_of(kiln_id), self.changes_of(kiln_id)
            self._trends[kiln_id] = trends_of(firings, changes)
        return self._trends[kiln_id]

    def life_of(self, kiln_id: int | None) -> tuple[Said, ...]:
        """Return how many firings the heating elements of a kiln have left, or why not."""
        return life_of(self.firings_of(kiln_id), self.trends_of(kiln_id)).said


def _written_at(entry: Note | Attachment) -> str:
    at = entry.added_at if isinstance(entry, Attachment) else entry.written_at
    return "" if at is None else at.isoformat()
