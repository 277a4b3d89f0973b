"""A thousand firings on one core and on two: parallel efficiency, and memory as they go.

Run with ``python -m pytest tests/benchmarks/bench_many_firings.py -s``; printed, never a
condition. ``FIRINGS=200`` makes it shorter. Efficiency is time on one core over twice the time on
two. With other work on the machine that says nothing; then the kernel's own count does: how much
of their life the workers ran or stood in line for a core, times the work that two cores add.
"""

import os
import shutil
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from firing_review.io.resource_path import demo_logs

FIRINGS = int(os.environ.get("FIRINGS", "1000"))
MB = 1024.0


@dataclass(frozen=True)
class Spent:
    """What a run took: time [s], processor time [s], memory of all its processes [MB]."""

    wall_s: float
    cpu_s: float
    early_mb: float
    late_mb: float
    ready: float


@pytest.fixture(scope="module")
def workshop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder of many firings: demo firings, each with a last line of its own."""
    folder = tmp_path_factory.mktemp("workshop")
    demos = sorted(p for p in demo_logs().iterdir() if (p / "firing.toml").exists())
    for number in range(FIRINGS):
        place = folder / f"{number:04d}"
        shutil.copytree(demos[number % len(demos)], place)
        with (place / "log.csv").open("a", encoding="utf-8") as log:
            log.write(f"# {number}\n")
    return folder


def children_of(pid: int) -> list[int]:
    path = Path(f"/proc/{pid}/task/{pid}/children")
    return [int(child) for child in path.read_text().split()]


def memory_mb(pid: int) -> float:
    """Return the memory of a process and those it started [MB]; 0 once they are gone."""
    total = 0.0
    for one in (pid, *children_of(pid)):
        for line in Path(f"/proc/{one}/status").read_text().splitlines():
            if line.startswith("VmRSS"):
                total += float(line.split()[1]) / MB
    return total


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
    seen: list[float] = []
    begun: dict[int, float] = {}
    ready: dict[int, float] = {}
    ended = threading.Event()

    def watch() -> None:
        while not ended.wait(0.5):
            try:
                seen.append(memory_mb(process.pid))
                readiness(process.pid, begun, ready)
            except (OSError, ValueError):
                return

    watcher = threading.Thread(target=watch)
    watcher.start()
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    ended.set()
    watcher.join()
    assert process.returncode == 0
    quarter = max(len(seen) // 4, 1)
    return Spent(
        time.perf_counter() - began,
        usage.ru_utime + usage.ru_stime,
        max(seen[quarter : 2 * quarter], default=0.0),
        max(seen[3 * quarter :], default=0.0),
        sum(ready.values()) / len(ready) if ready else 1.0,
    )


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="memory is read from /proc")
@pytest.mark.timeout(0)
def test_two_cores_beside_one(
    workshop: Path, tmp_path: Path, benchmark: Callable[..., object]
) -> None:
    one = run(workshop, 1, tmp_path / "one")
    two = run(workshop, 2, tmp_path / "two")
    print(f"\n{FIRINGS} firings, one core {one}, two cores {two}")  # noqa: T201
    print(f"efficiency by the clock {one.wall_s / (2.0 * two.wall_s):.2f}")  # noqa: T201
    share = one.cpu_s / two.cpu_s
    print(f"work on one core as a share of that on two {share:.2f}")  # noqa: T201
    print(f"efficiency by the kernel's count {share * two.ready:.2f}")  # noqa: T201
    print(f"memory late over early {two.late_mb / max(two.early_mb, 1.0):.3f}")  # noqa: T201
    benchmark.pedantic(lambda: None, rounds=1)
