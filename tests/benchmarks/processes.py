"""Whole processes side by side: what they take in time, in work and in memory."""

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from statistics import median

BARE = "import sys, pandas as pd; pd.read_csv(sys.argv[1], parse_dates=['time'])"
COMPILED = tempfile.mkdtemp(prefix="compiled-")
"""Where modules are kept compiled, as they are in a program that was installed."""
_CHILD = """
import os, sys
pid = os.fork()
if pid == 0:
    os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
    os.execv(sys.argv[1], sys.argv[1:])
_, status, usage = os.wait4(pid, 0)
print(os.waitstatus_to_exitcode(status), usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024)
"""
"""A small process in between: a child is told to use as much memory as its parent had."""


@dataclass(frozen=True)
class Spent:
    """What a process took: time on the clock [s], of a core [s], and peak memory [MB]."""

    clock_s: float
    core_s: float
    peak_mb: float


def python(*arguments: str) -> list[str]:
    """Return the command of an interpreter with these arguments."""
    return [sys.executable, *arguments]


def check(path: Path) -> list[str]:
    """Return the command that reviews one firing."""
    return python("-m", "firing_review", "check", str(path))


def spent(command: list[str], before: Callable[[], object] | None = None) -> Spent:
    """Run a command and return what it took."""
    env = {**os.environ, "PYTHONPYCACHEPREFIX": COMPILED}
    env.pop("PYTHONDONTWRITEBYTECODE", None)
    began = time.perf_counter()
    done = subprocess.run(
        [sys.executable, "-S", "-c", _CHILD, *command],
        env=env,
        capture_output=True,
        text=True,
        check=True,
        preexec_fn=before,
    )
    took = time.perf_counter() - began
    code, core_s, peak_mb = done.stdout.split()
    assert code == "0", done.stderr
    return Spent(took, float(core_s), float(peak_mb))


def side_by_side(bare: list[str], ours: list[str], pairs: int) -> Spent:
    """Return the median of ours over bare, from pairs run one after the other."""
    for command in (bare, ours):  # compiles what is not compiled yet
        spent(command)
    ratios = []
    for _ in range(pairs):
        one, other = spent(bare), spent(ours)
        print(f"bare {one}, check {other}")  # noqa: T201
        ratios.append(
            (
                other.clock_s / one.clock_s,
                other.core_s / one.core_s,
                other.peak_mb / one.peak_mb,
            )
        )
    found = Spent(*(median(column) for column in zip(*ratios, strict=True)))
    print("times the bare process:", found)  # noqa: T201
    return found
