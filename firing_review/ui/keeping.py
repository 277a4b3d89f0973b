"""Writing the recovery file in a thread: a disk takes its time, and the window must not wait."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QRunnable, QThreadPool, QTimer, Signal, Slot

from firing_review.firing.errors import InputError

if TYPE_CHECKING:
    from firing_review.firing.sheet import Given

LATE_MS = 300
"""Writing that takes longer than a glance is told of."""


@dataclass(frozen=True, eq=False)
class ToKeep:
    """What is written, and where."""

    given: Given
    path: Path

    def write(self) -> InputError | None:
        """Write it; return what went wrong."""
        from firing_review.review.recovery import write_recovery

        try:
            write_recovery(self.given, self.path)
        except InputError as error:
            return error
        return None


class RecoveryWriter(QObject):
    """Keeps what is open; of several that wait only the newest is written.

    Signals
    -------
    late : writing takes its time.
    written : None, or the error a person can act on; all that was to be kept is tried.
    """

    late = Signal()
    written = Signal(object)
    _ended = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(1)
        self._late = QTimer(self)
        self._late.setSingleShot(True)
        self._late.timeout.connect(self.late)
        self._now: _Write | None = None
        self._next: ToKeep | None = None
        self._ended.connect(self._on_ended)

    def keep(self, what: ToKeep) -> None:
        """Write it beside the window."""
        if self._now is not None:
            self._next = what
        else:
            self._begin(what)

    def flush(self) -> None:
        """Return when all of it is written, and told."""
        while self._now is not None:
            self._pool.waitForDone()
            self._on_ended(self._now)

    def _begin(self, what: ToKeep) -> None:
        self._now = _Write(what, self._ended)
        self._late.start(LATE_MS)
        self._pool.start(self._now)

    @Slot(object)
    def _on_ended(self, write: _Write) -> None:
        if write is not self._now:
            return
        self._now = None
        self._late.stop()
        if self._next is not None:
            what, self._next = self._next, None
            self._begin(what)
        else:
            self.written.emit(write.error)


class _Write(QRunnable):
    """One writing, in a thread of the pool."""

    def __init__(self, what: ToKeep, ended: object) -> None:
        super().__init__()
        self.setAutoDelete(False)
        self._what, self._ended = what, ended
        self.error: InputError | None = None

    def run(self) -> None:
        """Write, and tell that it is over."""
        self.error = self._what.write()
        self._ended.emit(self)
