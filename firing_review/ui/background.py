"""Work beside the window: one piece at a time, with progress, and an end at the person's wish."""

import traceback
from collections.abc import Callable
from dataclasses import dataclass
from multiprocessing.process import BaseProcess

from PySide6.QtCore import QObject, QThread, Signal, Slot

from firing_review.firing.errors import FiringReviewError, InputError
from firing_review.firing.said import Said
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
    is_long : bool
        Whether it gets a process of its own, which can be ended at any moment. Short work is
        done by a thread, before a process would have begun; it ends where it next tells how far
        it is.
    """

    words: str
    do: Callable[..., object]
    arguments: tuple[object, ...]
    done: Callable[[object], None]
    refused: Callable[[FiringReviewError], None]
    canceled: Callable[[], None] = lambda: None
    prepare: Callable[[object], None] = lambda _result: None
    is_long: bool = True


class WorkBrokeError(RuntimeError):
    """Something nobody foresaw, in the other process; carries its report."""


class Background(Working):
    """Runs work beside the window; newer work ends the older."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._work: Work | None = None
        self._talk: _Beside | None = None

    @property
    def words(self) -> str:
        """What is being done; empty if nothing is."""
        return self._work.words if self._work is not None else ""

    def is_doing(self, work: Work) -> bool:
        """Tell whether this piece of work is not over."""
        return self._work is work

    def run(self, work: Work) -> None:
        """Begin a piece of work; what was going on is dropped."""
        self._drop()
        self._work, self._talk = work, (_Talk if work.is_long else _Short)(work, self)
        self._talk.heard.connect(self._on_heard)
        self._talk.finished.connect(self._talk.deleteLater)
        self.began.emit(work.words)
        self._talk.start()

    @Slot()
    def cancel(self) -> None:
        """End the work at the person's wish."""
        work = self._work
        self._drop()
        if work is not None:
            work.canceled()

    def stop(self) -> None:
        """End the work; nobody is told of its end, and no thread or process is left."""
        self._drop()
        for talk in self.findChildren(_Beside):
            talk.wait()

    def _drop(self) -> None:
        """Listen to the work no longer; the window does not wait until it has ended."""
        if self._talk is None:
            return
        talk, self._talk, self._work = self._talk, None, None
        talk.heard.disconnect(self._on_heard)
        talk.end()
        self.ended.emit()

    @Slot(object, str, object)
    def _on_heard(self, work: Work, kind: str, what: object) -> None:
        if not self.is_doing(work):
            return
        if kind == side_process.PROGRESS:
            share, said = what
            self.progressed.emit(share, wording.render(said))
            return
        self._drop()
        if kind == side_process.DONE:
            work.done(what)
        elif kind == side_process.REFUSED:
            work.refused(what)
        else:
            raise WorkBrokeError(what)


class _Beside(QThread):
    """A piece of work on its way.

    Signals
    -------
    heard : the work, a kind of message, and what it carries.
    """

    heard = Signal(object, str, object)

    def __init__(self, work: Work, parent: QObject) -> None:
        super().__init__(parent)
        self._work = work

    def end(self) -> None:
        """Let it end as soon as it can."""
        self.requestInterruption()


class _EndedError(Exception):
    """Nobody waits for this work any more."""


class _Short(_Beside):
    """Does the work here: it gives way to the window like any thread."""

    def run(self) -> None:
        """Do the work and tell its end."""
        work = self._work
        try:
            result = work.do(self._tell, *work.arguments)
            work.prepare(result)
        except _EndedError:
            return
        except FiringReviewError as error:
            self.heard.emit(work, side_process.REFUSED, error)
        except Exception:  # noqa: BLE001 - raised again where it can be shown
            self.heard.emit(work, side_process.BROKEN, traceback.format_exc())
        else:
            self.heard.emit(work, side_process.DONE, result)

    def _tell(self, share: float, said: Said) -> None:
        if self.isInterruptionRequested():
            raise _EndedError
        self.heard.emit(self._work, side_process.PROGRESS, (share, said))


class _Talk(_Beside):
    """Waits for the other process, and prepares what comes from it.

    It takes little from the window: large arrays are worked on without Python's lock.
    """

    def __init__(self, work: Work, parent: QObject) -> None:
        super().__init__(work, parent)
        self._process: BaseProcess | None = None

    def end(self) -> None:
        """End the process; the thread follows."""
        super().end()
        if self._process is not None:
            self._process.kill()

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
