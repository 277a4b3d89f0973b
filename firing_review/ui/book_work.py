"""Long work on a book, in a thread beside the window: many small steps, each soon over.

A book has one writer, so this work cannot go to another process as the reading of a long log
does; its steps are short, and between two of them Python lets the window have its turn.
"""

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QObject, QThread, Signal, Slot

from firing_review.firing.errors import FiringReviewError
from firing_review.firing.wording import tr
from firing_review.ui.working import Working

Progress = Callable[[int, int], None]
Canceled = Callable[[], bool]


@dataclass(frozen=True, eq=False)
class BookTask:
    """What is done, in words and as a function; who is told of its end."""

    words: str
    do: Callable[[Progress, Canceled], object]
    done: Callable[[object], None]
    refused: Callable[[FiringReviewError], None]


class BookWork(Working):
    """Runs one task at a time."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._task: BookTask | None = None
        self._thread: _Steps | None = None

    @property
    def words(self) -> str:
        """What is being done; empty if nothing is."""
        return self._task.words if self._task is not None else ""

    def do(self, task: BookTask) -> None:
        """Do a task beside the window; or at once if another is going on there."""
        if not self.is_busy:
            self.run(task)
            return
        try:
            result = task.do(lambda _done, _every: None, lambda: False)
        except FiringReviewError as error:
            task.refused(error)
        else:
            task.done(result)

    def run(self, task: BookTask) -> None:
        """Begin a task; nothing happens if another is not through."""
        if self.is_busy:
            return
        self._task, self._thread = task, _Steps(task.do, self)
        self._thread.stepped.connect(self._on_stepped)
        self._thread.finished.connect(self._on_finished)
        self.began.emit(task.words)
        self._thread.start()

    @Slot()
    def cancel(self) -> None:
        """Let the task end after the step it is at; what was done stays."""
        if self._thread is not None:
            self._thread.requestInterruption()

    def stop(self) -> None:
        """End the task and wait for the step it is at; nobody is told."""
        thread, self._thread, self._task = self._thread, None, None
        if thread is not None:
            thread.finished.disconnect(self._on_finished)
            thread.requestInterruption()
            thread.wait()
            thread.deleteLater()
            self.ended.emit()

    @Slot(int, int)
    def _on_stepped(self, done: int, every: int) -> None:
        text = tr("{what}: {done} of {every}").format(what=self.words, done=done, every=every)
        self.progressed.emit(done / max(every, 1), text)

    @Slot()
    def _on_finished(self) -> None:
        thread, task = self._thread, self._task
        self._thread = self._task = None
        self.ended.emit()
        if thread is None or task is None:
            return
        thread.deleteLater()
        if isinstance(thread.error, FiringReviewError):
            task.refused(thread.error)
        elif thread.error is not None:
            raise thread.error
        else:
            task.done(thread.result)


class _Steps(QThread):
    """One task being done.

    Signals
    -------
    stepped : so many of so many steps are done.
    """

    stepped = Signal(int, int)

    def __init__(self, do: Callable[[Progress, Canceled], object], parent: QObject) -> None:
        super().__init__(parent)
        self._do = do
        self.result: object = None
        self.error: Exception | None = None

    def run(self) -> None:
        """Do the task; what goes wrong is told in the window's own thread."""
        try:
            self.result = self._do(self.stepped.emit, self.isInterruptionRequested)
        except Exception as error:  # noqa: BLE001 - raised again where it can be shown
            self.error = error
