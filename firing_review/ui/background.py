"""Long work beside the window: one piece at a time, with progress, and an end at any moment."""

import traceback
from collections.abc import Callable
from dataclasses import dataclass
from multiprocessing.process import BaseProcess

from PySide6.QtCore import QObject, QThread, Signal, Slot

from firing_review.firing.errors import FiringReviewError, InputError
from firing_review.firing.wording import tr
from firing_review.report import wording
from firing_review.ui import side_process
from firing_review.ui.working import Working


@dataclass(frozen=True, eq=False)
class Work:
    """What to do, what to do it with, and who is told of its end.

    Attributes
    ----------
    words : str
        What is being done, for the person.
    do : callable
        A function of a module; it gets :data:`side_process.Tell`, then ``arguments``.
    done, refused, canceled : callable
        Told the result, the error, or that the person thought better of it.
    prepare : callable
        Gets the result beside the window, before ``done``: it works out what the window would
        else have to wait for.
    """

    words: str
    do: Callable[..., object]
    arguments: tuple[object, ...]
    done: Callable[[object], None]
    refused: Callable[[FiringReviewError], None]
    canceled: Callable[[], None] = lambda: None
    prepare: Callable[[object], None] = lambda _result: None


class WorkBrokeError(RuntimeError):
    """Something nobody foresaw, in the other process; carries its report."""


class Background(Working):
    """Runs work in a process of its own; newer work ends the older."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._work: Work | None = None
        self._talk: _Talk | None = None

    @property
    def words(self) -> str:
        """What is being done; empty if nothing is."""
        return self._work.words if self._work is not None else ""

    def run(self, work: Work) -> None:
        """Begin a piece of work; what was going on is dropped."""
        self.stop()
        self._work, self._talk = work, _Talk(work, self)
        self._talk.heard.connect(self._on_heard)
        self.began.emit(work.words)
        self._talk.start()

    def do(self, work: Work, *, beside: bool) -> bool:
        """Do a piece of work beside the window, or short work at once; tell if it was not refused.

        What was going on is dropped.
        """
        if beside:
            self.run(work)
            return True
        self.stop()
        try:
            result = work.do(_tell_nobody, *work.arguments)
        except FiringReviewError as error:
            work.refused(error)
            return False
        work.done(result)
        return True

    @Slot()
    def cancel(self) -> None:
        """End the work at the person's wish."""
        work = self._work
        self.stop()
        if work is not None:
            work.canceled()

    def stop(self) -> None:
        """End the work; nobody is told of its end, and no thread or process is left."""
        if self._talk is None:
            return
        talk, self._talk, self._work = self._talk, None, None
        talk.heard.disconnect(self._on_heard)
        talk.stop()
        talk.deleteLater()
        self.ended.emit()

    @Slot(object, str, object)
    def _on_heard(self, work: Work, kind: str, what: object) -> None:
        if work is not self._work:
            return
        if kind == side_process.PROGRESS:
            share, said = what
            self.progressed.emit(share, wording.render(said))
            return
        self.stop()
        if kind == side_process.DONE:
            work.done(what)
        elif kind == side_process.REFUSED:
            work.refused(what)
        else:
            raise WorkBrokeError(what)


def _tell_nobody(_share: float, _said: object) -> None:
    """Short work says nothing of how far it is."""


class _Talk(QThread):
    """Waits for the other process, and prepares what comes from it.

    It takes little from the window: large arrays are worked on without Python's lock.

    Signals
    -------
    heard : the work, a kind of message, and what it carries.
    """

    heard = Signal(object, str, object)

    def __init__(self, work: Work, parent: QObject) -> None:
        super().__init__(parent)
        self._work = work
        self._process: BaseProcess | None = None

    def stop(self) -> None:
        """End process and thread; returns when both are gone."""
        self.requestInterruption()
        if self._process is not None:
            self._process.kill()
        self.wait()

    def run(self) -> None:
        """Hand the work over and pass on what is heard."""
        try:
            self._process, way = side_process.begin()
            with way:
                self._listen(way)
        except (EOFError, OSError):
            if not self.isInterruptionRequested():
                self.heard.emit(self._work, side_process.REFUSED, _ended_early())
        except Exception:  # noqa: BLE001 - raised again where it can be shown
            self.heard.emit(self._work, side_process.BROKEN, traceback.format_exc())
        finally:
            if self._process is not None:
                self._process.kill()
                self._process.join()

    def _listen(self, way: side_process.Connection) -> None:
        if self.isInterruptionRequested():
            return
        known = side_process.send(way, (self._work.do, self._work.arguments), [])
        kind = side_process.PROGRESS
        while kind == side_process.PROGRESS and not self.isInterruptionRequested():
            kind, what = side_process.receive(way, known)
            if kind == side_process.DONE:
                self._work.prepare(what)
            self.heard.emit(self._work, kind, what)


def _ended_early() -> InputError:
    return InputError(
        tr("Work in the background"),
        tr("it to come to an end"),
        tr("that it was ended from outside"),
        tr("Perhaps the memory was full. Close other programs and try again."),
    )
