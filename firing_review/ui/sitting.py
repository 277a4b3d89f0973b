"""One sitting with one firing: the review that is open, its edits, its recovery file."""

from __future__ import annotations

import contextlib
import uuid
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import quote, unquote
from weakref import WeakSet

from PySide6.QtCore import QObject, Signal, Slot

from firing_review.firing.errors import FiringReviewError, InputError
from firing_review.firing.said import N_, Said
from firing_review.firing.wording import tr
from firing_review.ui.background import Background, Work
from firing_review.ui.keeping import RecoveryWriter, ToKeep
from firing_review.ui.published import tables

if TYPE_CHECKING:
    from firing_review.firing.sheet import Given
    from firing_review.review.edits import Edit
    from firing_review.review.history import History
    from firing_review.review.review import Review

TITLE_KEPT = 60
LONG_BYTES = 1_400_000
"""A recovery file larger than this holds a log that takes long to read [bytes]."""
LONG_ROWS = 20_000
"""With more rows than this an edit takes so long that the window would stand still."""
Keeper = Callable[["Review", Path], InputError | None]
"""Keeps a review in a book, or else puts it aside in the file named; returns what went wrong."""


@dataclass(frozen=True)
class Unfinished:
    """A recovery file of an earlier sitting: what it was, and when it was last written."""

    path: Path
    title: str
    written: datetime
    size_bytes: int = 0

    @property
    def is_long(self) -> bool:
        """Tell whether reading it takes long."""
        return self.size_bytes > LONG_BYTES

    def remove(self) -> InputError | None:
        """Take the file away; return what to say if that cannot be."""
        try:
            self.path.unlink(missing_ok=True)
        except OSError as error:
            found = error.strerror or str(error)
            remedy = tr("Check who may write there.")
            return InputError(str(self.path), tr("a file that may be removed"), found, remedy)
        return None


def unfinished_in(folder: Path) -> list[Unfinished]:
    """Return the sittings that were never saved, newest first."""
    if not folder.is_dir():
        return []
    found = [
        Unfinished(
            path,
            unquote(path.stem.rpartition("~")[0]),
            _written(path),
            path.stat().st_size,
        )
        for path in folder.glob("*~*.json")
    ]
    return sorted(found, key=lambda one: one.written, reverse=True)


def _written(path: Path) -> datetime:
    """Return when a file was last written; the epoch where its stamp cannot be true."""
    try:
        return datetime.fromtimestamp(path.stat().st_mtime).astimezone()
    except (OSError, OverflowError, ValueError):
        return datetime.fromtimestamp(0.0).astimezone()


class Sitting(QObject):
    """What is open, and the edits made to it.

    Signals
    -------
    opened : another firing is open; what kept the one before keeps it no longer.
    reviewChanged : another review is to be shown.
    keptChanged : the edits are in the recovery file, in a folder, or neither.
    refused : an error a person can act on; what was open stays open.
    """

    opened = Signal()
    reviewChanged = Signal(object)
    keptChanged = Signal()
    refused = Signal(object)

    def __init__(self, recovery_folder: Path, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._folder = recovery_folder
        self.background, self.errands = Background(self), Background(self)
        self._waiting: list[Work] = []
        self.errands.ended.connect(self._next_errand)
        self._writer = RecoveryWriter(self)
        self._writer.late.connect(self._on_late)
        self._writer.written.connect(self._on_written)
        self._history: History | None = None
        self._behind: WeakSet[Review] = WeakSet()
        self._recovery: Path | None = None
        self._keeper: Keeper | None = None
        self.source: Path | None = None
        self.kept_word = ""

    @property
    def review(self) -> Review | None:
        """The review that is open."""
        return self._history.review if self._history is not None else None

    @property
    def undo_label(self) -> Said | None:
        """The name of what undo takes back."""
        return self._history.undo_label if self._history is not None else None

    @property
    def redo_label(self) -> Said | None:
        """The name of what redo does again."""
        return self._history.redo_label if self._history is not None else None

    def open_review(
        self, review: Review, source: Path | None, kept_in: Path | None = None
    ) -> Review:
        """Make a review the firing that is open, with its recovery file if it has one already."""
        from firing_review.review.history import History

        self.finish()
        self._history = History.of(review, Said(N_("opened")))
        self._recovery, self.source, self._keeper = kept_in, source, None
        self._say_kept(N_("kept") if kept_in is not None else "")
        self.opened.emit()
        self.reviewChanged.emit(review)
        return review

    def edit(self, edit: Edit) -> None:
        """Make an edit, keep it, and show what follows from it.

        With a long log what follows is worked out beside the window; until then the review holds
        what is given now and what was found before.
        """
        if self._history is None:
            return
        from firing_review.io.cones_file import note_lost_zeros

        before = self._history.review
        if edit.weighs and _is_long(before.given):
            given = note_lost_zeros(edit.change(before.given), tables().cones)
            review = replace(before, given=given)
            self._behind.add(review)
        else:
            review = edit(before, tables())
        self._move(self._history.push(review, edit.label))

    @property
    def is_behind(self) -> bool:
        """Tell whether what is shown is from before the last edit."""
        return self.review in self._behind

    def finish(self) -> None:
        """End what is going on beside the window; every edit is in the recovery file then."""
        self.background.stop()
        self.keep_now()

    def keep_now(self) -> None:
        """Return when every edit is in the recovery file, or it is told why not."""
        self._writer.flush()

    def undo(self) -> None:
        """Take the last edit back."""
        if self._history is not None and self._history.past:
            self._move(self._history.undo())

    def redo(self) -> None:
        """Do again what was undone."""
        if self._history is not None and self._history.future:
            self._move(self._history.redo())

    def _move(self, history: History) -> None:
        self._history = history
        self._keep(history.review)
        self.reviewChanged.emit(history.review)
        self.background.stop()
        if self.is_behind:
            self._catch_up(history.review)

    def _catch_up(self, review: Review) -> None:
        """Work out beside the window what follows from the last edit; to cancel is to undo."""
        from firing_review.ui.long_work import ready_for_window, review_beside

        words = tr("Working out what follows; shown is still what was found before")
        done, refused = partial(self._on_caught_up, review), self.refused.emit
        asked = (review.given, review.past)
        work = Work(words, review_beside, asked, done, refused, self.undo, ready_for_window)
        self.background.run(work)

    def _on_caught_up(self, behind: Review, review: Review) -> None:
        if self._history is not None and self._history.review is behind:
            self._history = self._history.replace_present(review)
            if self._keeper is not None:
                self._keep(review)
            self.reviewChanged.emit(review)

    def keep_with(self, keeper: Keeper | None) -> None:
        """Let a book keep the edits from now on, or the recovery file again."""
        self._keeper = keeper
        if keeper is None:
            self._say_kept("")
            return
        self._forget_recovery()
        self._say_kept(N_("in the book"))

    def _keep(self, review: Review) -> None:
        """Keep what was just made, in the book or else in the recovery file."""
        path = self._recovery = self._recovery or self._recovery_path(review.given)
        if self._keeper is None:
            self._keep_to_recover(review.given, path)
            return
        error = self._keeper(review, path)
        if error is None:
            self._recovery = None
            self._say_kept(N_("in the book"))
            return
        self._say_kept(N_("kept") if path.exists() else N_("not kept"))
        self.refused.emit(error)

    def _recovery_path(self, given: Given) -> Path:
        title = quote((given.title or given.log.source)[:TITLE_KEPT], safe=" ")
        return self._folder / f"{title}~{uuid.uuid4().hex[:8]}.json"

    def _keep_to_recover(self, given: Given, path: Path) -> None:
        """Write the recovery file; a disk that is full must not stop the work."""
        self._writer.keep(ToKeep(given, path))

    @Slot()
    def _on_late(self) -> None:
        if self._keeper is None:
            self._say_kept(N_("keeping"))

    @Slot(object)
    def _on_written(self, error: InputError | None) -> None:
        if self._keeper is not None:
            return
        self._say_kept(N_("kept") if error is None else N_("not kept"))
        if error is not None:
            self.refused.emit(error)

    def save_as_folder(
        self,
        folder: Path,
        done: Callable[[], None],
        refused: Callable[[FiringReviewError], None],
    ) -> None:
        """Write everything as a firing folder; it is written beside the window.

        Once it is written nothing is left to recover, unless something was edited meanwhile.
        """
        from firing_review.ui.long_work import write_folder

        if self._history is None:
            return
        given = self._history.review.given
        saved = partial(self._on_saved, given, folder, done)
        words = tr("Saving {name}").format(name=folder.name)
        is_long = _is_long(given)
        work = Work(words, write_folder, (given, folder), saved, refused, is_long=is_long)
        self.run_errand(work)

    def _on_saved(self, given: Given, folder: Path, done: Callable[[], None], _: object) -> None:
        done()
        if self._history is not None and self._history.review.given is given:
            self._forget_recovery()
            self.source = folder
            self._say_kept(N_("saved"))

    @Slot(object)
    def run_errand(self, work: Work) -> None:
        """Do something with what is open beside the window, one errand after the other."""
        self._waiting.append(work)
        self._next_errand()

    @Slot()
    def _next_errand(self) -> None:
        if self._waiting and not self.errands.is_busy:
            self.errands.run(self._waiting.pop(0))

    def drop_errands(self) -> None:
        """End what is going on beside the window with what is open, and what waits for it."""
        self._waiting.clear()
        self.errands.stop()

    def _forget_recovery(self) -> None:
        self.keep_now()
        if self._recovery is not None:
            with contextlib.suppress(OSError):  # it is offered again, and nothing is lost
                self._recovery.unlink(missing_ok=True)
            self._recovery = None

    def _say_kept(self, word: str) -> None:
        self.kept_word = word
        self.keptChanged.emit()


def _is_long(given: Given) -> bool:
    """Tell whether a review of it takes long; it goes through the earlier firings too."""
    return given.log.rows + sum(one.log.rows for one in given.earlier) > LONG_ROWS
