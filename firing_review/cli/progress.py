"""How far a run is, on standard error and only where a person looks at it."""

import sys
import time
from typing import TextIO

from firing_review.firing.wording import tr
from firing_review.report.wording import minutes

WIDTH = 30
AGAIN_AFTER_S = 0.1
"""The line is written at most ten times a second."""


class Progress:
    """A bar that is drawn over itself; silent where standard error is no terminal."""

    def __init__(self, total: int, stream: TextIO | None = None) -> None:
        self._stream = stream if stream is not None else sys.stderr
        self._total, self._done, self._failed = total, 0, 0
        self._began = self._drawn = time.monotonic()
        self._shown = self._stream.isatty()
        self._wide = 0

    def step(self, *, failed: bool) -> None:
        """Count one more."""
        self._done += 1
        self._failed += failed
        now = time.monotonic()
        if self._shown and (now - self._drawn >= AGAIN_AFTER_S or self._done == self._total):
            self._drawn = now
            self._draw(self.line(now - self._began))

    def line(self, spent_s: float) -> str:
        """Return the bar after some time [s]."""
        full = round(WIDTH * self._done / max(self._total, 1))
        left_min = spent_s / max(self._done, 1) * (self._total - self._done) / 60.0
        words = tr("{done} of {total}").format(done=self._done, total=self._total)
        if self._failed:
            words += ", " + tr("{count} not reviewed").format(count=self._failed)
        if self._done < self._total:
            words += ", " + tr("about {left} left").format(left=minutes(max(left_min, 1.0)))
        return f"[{'#' * full}{'.' * (WIDTH - full)}] {words}"

    def say(self, text: str) -> None:
        """Write a line of its own without tearing the bar."""
        self.clear()
        self._stream.write(text + "\n")

    def clear(self) -> None:
        """Take the bar away."""
        if self._shown and self._wide:
            self._draw("")

    def _draw(self, text: str) -> None:
        self._stream.write("\r" + text.ljust(self._wide) + ("" if text else "\r"))
        self._stream.flush()
        self._wide = len(text)
