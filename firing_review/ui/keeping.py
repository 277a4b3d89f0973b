"""Writing the recovery file: at once, or in a thread where the log is long."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QRunnable, QThreadPool, Signal, Slot

from firing_review.firing.errors import InputError

if TYPE_CHECKING:
    from firing_review.firing.sheet import Given


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
    written : None, or the error a person can act on.
    """

    written = Signal(object)
    _ended = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(1)
        self._busy = False
        self._next: ToKeep | None = None
        self._ended.connect(self._on_ended)

    def keep(self, what: ToKeep, *, beside: bool) -> None:
        """Write it now, or beside the window."""
        if not beside:
            self.flush()
            self.written.emit(what.write())
        elif self._busy:
            self._next = what
        else:
            self._begin(what)

    def flush(self) -> None:
        """Return when all of it is written."""
        self._pool.waitForDone()
        if self._next is not None:
            what, self._next = self._next, None
            what.write()

    def _begin(self, what: ToKeep) -> None:
        self._busy = True
        self._pool.start(_Write(what, self._ended))

    @Slot(object)
    def _on_ended(self, error: InputError | None) -> None:
        self._busy = False
        self.written.emit(error)
        if self._next is not None:
            what, self._next = self._next, None
            self._begin(what)


class _Write(QRunnable):
    """One writing, in a thread of the pool."""

    def __init__(self, what: ToKeep, written: object) -> None:
        super().__init__()
        self._what, self._tell = what, written

    def run(self) -> None:
        """Write, and say how it went."""
        self._tell.emit(self._what.write())
