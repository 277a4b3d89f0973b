"""A thousand firings on one core and on two: parallel efficiency, and memory as they go.

Run with ``python -m pytest tests/benchmarks/bench_many_firings.py -s``; printed, never a
condition. ``FIRINGS=200`` makes it shorter. Efficiency is time on one core over twice the time on
two. With other work on the machine that says nothing; then the kernel's own count does: how much
of their life the workers ran or stood in line for a core, times the work that two cores add.
Memory is told along the run for the first process and for the largest of its workers.
"""

import os
import re
import shutil
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pytest

from firing_review.io.resource_path import demo_logs

FIRINGS = int(os.environ.get("FIRINGS", "1000"))
MB = 1024.0
PARTS = 10


@dataclass(frozen=True)
class Spent:
    """What a run took: time [s], processor time [s]; memory [MB] of first process and workers."""

    wall_s: float
    cpu_s: float
    ready: float
    first_mb: tuple[float, ...]
    worker_mb: tuple[float, ...]


def along(memory_mb: tuple[float, ...]) -> str:
    """Return ten figures from the begin to the end of a run, and late over early."""
    if len(memory_mb) < 2 * PARTS:
        return "run too short"
    parts = np.array_split(np.array(memory_mb), PARTS)
    told = ", ".join(f"{np.median(part):.0f}" for part in parts)
    early, late = np.median(parts[1]), np.median(parts[-1])
    return f"{told} MB; late over early {late / early:.3f}"


@pytest.fixture(scope="module")
def workshop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder of many firings: demo firings, each without another row of its log."""
    folder = tmp_path_factory.mktemp("workshop")
    demos = sorted(p for p in demo_logs().iterdir() if (p / "firing.toml").exists())
    for number in range(FIRINGS):
        place = folder / f"{number:04d}"
        shutil.copytree(demos[number % len(demos)], place)
        log = place / "log.csv"
        lines = log.read_bytes().splitlines(keepends=True)
        del lines[-2 - number // len(demos)]
        log.write_bytes(b"".join(lines))
    return folder


def children_of(pid: int) -> list[int]:
    path = Path(f"/proc/{pid}/task/{pid}/children")
    return [int(child) for child in path.read_text().split()]


def memory_mb(pid: int) -> float:
    """Return the memory of a process [MB]."""
    status = Path(f"/proc/{pid}/status").read_text()
    return float(re.search(r"VmRSS:\s*(\d+)", status).group(1)) / MB


def readiness(pid: int, begun: dict[int, float], seen: dict[int, float]) -> None:
    """Note for each worker the share of its life in which it ran or stood in line for a core."""
    for one in children_of(pid):
        age_s = time.perf_counter() - begun.setdefault(one, time.perf_counter())
        ran_ns, waited_ns, _ = (int(n) for n in Path(f"/proc/{one}/schedstat").read_text().split())
        busy_s = (ran_ns + waited_ns) / 1e9
        if age_s > 5.0 and busy_s > 2.0:
            seen[one] = min(busy_s / age_s, 1.0)


def run(folder: Path, cores: int, out: Path) -> Spent:
    """Review all firings in a process of its own and watch it."""
    command = [sys.executable, "-m", "firing_review", "check", str(folder)]
    began = time.perf_counter()
    process = subprocess.Popen(
        [*command, "--cores", str(cores), "--json", str(out)], stdout=subprocess.DEVNULL
    )
    first_mb: list[float] = []
    worker_mb: list[float] = []
    begun: dict[int, float] = {}
    ready: dict[int, float] = {}
    ended = threading.Event()

    def watch() -> None:
        while not ended.wait(0.5):
            try:
                first_mb.append(memory_mb(process.pid))
                if workers := children_of(process.pid):
                    worker_mb.append(max(memory_mb(one) for one in workers))
                readiness(process.pid, begun, ready)
            except (OSError, ValueError, AttributeError):
                return

    watcher = threading.Thread(target=watch)
    watcher.start()
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    ended.set()
    watcher.join()
    assert process.returncode == 0
    return Spent(
        time.perf_counter() - began,
        usage.ru_utime + usage.ru_stime,
        sum(ready.values()) / len(ready) if ready else 1.0,
        tuple(first_mb),
        tuple(worker_mb),
    )


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="memory is read from /proc")
@pytest.mark.timeout(0)
def test_two_cores_beside_one(
    workshop: Path, tmp_path: Path, benchmark: Callable[..., object]
) -> None:
    one = run(workshop, 1, tmp_path / "one")
    two = run(workshop, 2, tmp_path / "two")
    print(  # noqa: T201
        f"\n{FIRINGS} firings: {one.wall_s:.1f} s ({one.cpu_s:.1f} s of a core) on one core,"
        f" {two.wall_s:.1f} s ({two.cpu_s:.1f} s) on two"
    )
    print(f"efficiency by the clock {one.wall_s / (2.0 * two.wall_s):.2f}")  # noqa: T201
    share = one.cpu_s / two.cpu_s
    print(f"work on one core as a share of that on two {share:.2f}")  # noqa: T201
    print(f"efficiency by the kernel's count {share * two.ready:.2f}")  # noqa: T201
    print(f"memory on one core: {along(one.first_mb)}")  # noqa: T201
    print(f"memory on two, first process: {along(two.first_mb)}")  # noqa: T201
    print(f"memory on two, largest worker: {along(two.worker_mb)}")  # noqa: T201
    benchmark.pedantic(lambda: None, rounds=1)
