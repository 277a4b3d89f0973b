"""How long the window does not answer: a timer that should fire every few milliseconds."""

import sys
import threading
import time
import traceback
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from types import FrameType

from PySide6.QtCore import QEventLoop, Qt, QTimer

BEAT_MS = 5
SLOW_MS = 40.0
"""A gap longer than this is looked into where ``where`` is asked for."""
LOOK_S = 0.004
DEEPEST = 6


@dataclass(frozen=True)
class Gaps:
    """The longest gaps [ms] while work goes on, and where what came of it is shown."""

    meanwhile_ms: float = 0.0
    at_end_ms: float = 0.0

    def and_one(self, gap_ms: float, *, is_over: bool) -> "Gaps":
        """Take in another gap; the one in which the work ended is of the end."""
        if is_over:
            return replace(self, at_end_ms=max(self.at_end_ms, gap_ms))
        return replace(self, meanwhile_ms=max(self.meanwhile_ms, gap_ms))


class Heartbeat:
    """Measures the longest time between two turns of the event loop.

    Parameters
    ----------
    where : bool
        Whether to look what the window does in a gap; looking takes some time itself.
    """

    def __init__(self, *, where: bool = False) -> None:
        self.seen: Counter[str] = Counter()
        self._gaps, self._over = Gaps(), lambda: True
        self._last = time.perf_counter()
        self._timer = QTimer()
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self._beat)
        self._timer.start(BEAT_MS)
        self._ended = threading.Event()
        self._main = threading.get_ident()
        if where:
            threading.Thread(target=self._watch, daemon=True).start()

    def _beat(self) -> None:
        now = time.perf_counter()
        self._gaps = self._gaps.and_one(1000.0 * (now - self._last), is_over=self._over())
        self._last = now

    def _watch(self) -> None:
        while not self._ended.wait(LOOK_S):
            if 1000.0 * (time.perf_counter() - self._last) > SLOW_MS:
                self.seen[_stack(sys._current_frames()[self._main])] += 1

    def during(
        self, what: Callable[[], object], until: Callable[[], bool], rest_s: float
    ) -> "Gaps":
        """Do something, wait until it is over and a little longer; return the longest gaps."""
        self.wait(0.2, lambda: True)
        self._gaps, self._over, self.seen = Gaps(), until, Counter()
        self._last = time.perf_counter()
        what()
        self.wait(rest_s, until)
        return self._gaps

    def wait(self, rest_s: float, until: Callable[[], bool], most_s: float = 120.0) -> None:
        """Let the window work until something holds, and ``rest_s`` longer."""
        loop, look = QEventLoop(), QTimer()
        ends = time.perf_counter() + most_s
        held: list[float] = []

        def check() -> None:
            now = time.perf_counter()
            if until() and not held:
                held.append(now)
            if now > ends or (held and now - held[0] > rest_s):
                loop.quit()

        look.timeout.connect(check)
        look.start(20)
        loop.exec()

    def end(self) -> None:
        """Stop beating and looking."""
        self._ended.set()
        self._timer.stop()


def _stack(frame: FrameType) -> str:
    """Return the innermost calls, those of a library as one."""
    calls = traceback.extract_stack(frame)
    while len(calls) > 1 and "site-packages" in calls[-1].filename:
        calls.pop()
    calls = calls[-DEEPEST:]
    return " > ".join(f"{Path(one.filename).stem}.{one.name}:{one.lineno}" for one in calls)


def say(text: str) -> None:
    """Print what was measured, at once."""
    print(text, flush=True)  # noqa: T201
