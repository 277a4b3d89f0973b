"""Whole-process time and peak memory of a check, beside a bare read of the same file.

Run with ``python -m pytest tests/benchmarks/bench_read_speed.py -s``; printed, never a condition.
"""

import os
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from benchmarks.long_log import write_long_log

ROWS = 1_000_000
PAIRS = 3
BARE = "import sys, pandas as pd; pd.read_csv(sys.argv[1], parse_dates=['time'])"


def spent(command: list[str]) -> tuple[float, float]:
    """Return the time [s] and peak memory [MB] of a process."""
    began = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL)
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    assert process.returncode == 0
    return time.perf_counter() - began, usage.ru_maxrss / 1024.0


@pytest.fixture(scope="module")
def long_log(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("long") / "log.csv"
    write_long_log(path, ROWS)
    return path


def test_a_million_rows_beside_a_bare_read(
    long_log: Path, benchmark: Callable[..., object]
) -> None:
    bare = [sys.executable, "-c", BARE, str(long_log)]
    check = [sys.executable, "-m", "firing_review", "check", str(long_log)]
    ratios = []
    for _ in range(PAIRS):
        (bare_s, bare_mb), (check_s, check_mb) = spent(bare), spent(check)
        ratios.append((check_s / bare_s, check_mb / bare_mb))
        print(f"bare {bare_s:.2f} s {bare_mb:.0f} MB, check {check_s:.2f} s {check_mb:.0f} MB")  # noqa: T201
    print("time and memory, times a bare read:", ratios)  # noqa: T201
    benchmark.pedantic(spent, args=(check,), rounds=1)
