"""Many jobs on all cores; what ends one worker process does not end the rest."""

import multiprocessing
import os
import signal
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool
from typing import TypeVar

Job = TypeVar("Job")
Result = TypeVar("Result")

AHEAD = 4
"""Jobs handed over ahead for each process: it is kept busy, and memory stays flat."""


def cores() -> int:
    """Return how many cores this program may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def can_share() -> bool:
    """Tell whether processes can share work here; some closed-off systems forbid it."""
    try:
        multiprocessing.get_context("spawn").Lock()
    except (OSError, ImportError):
        return False
    return True


def side_by_side(
    jobs: Sequence[Job],
    do: Callable[[Job], Result],
    lost: Callable[[Job], Result],
    processes: int,
) -> Iterator[tuple[Job, Result]]:
    """Yield each job with its result, as they are finished.

    Parameters
    ----------
    do : callable
        Runs in a worker process, so it must be known by its name there.
    lost : callable
        What becomes of a job whose process was ended (out of memory, a crash).
    """
    waiting, suspects = deque(jobs), deque[Job]()
    while waiting:
        yield from _until_one_breaks(waiting, suspects, do, processes)
    for job in suspects:
        yield job, _alone(job, do, lost)


def _until_one_breaks(
    waiting: deque[Job], suspects: deque[Job], do: Callable[[Job], Result], processes: int
) -> Iterator[tuple[Job, Result]]:
    """Run jobs until all are done or a process is lost; what was running then is suspect."""
    running: dict[Future[Result], Job] = {}
    pool = _pool(processes)
    try:
        while waiting or running:
            while waiting and len(running) < AHEAD * processes:
                running[pool.submit(do, waiting[0])] = waiting[0]
                waiting.popleft()
            done, _ = wait(running, return_when=FIRST_COMPLETED)
            for future in done:
                result = future.result()
                yield running.pop(future), result
    except BrokenProcessPool:
        suspects.extend(running.values())
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _alone(job: Job, do: Callable[[Job], Result], lost: Callable[[Job], Result]) -> Result:
    pool = _pool(1)
    try:
        return pool.submit(do, job).result()
    except BrokenProcessPool:
        return lost(job)
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _pool(processes: int) -> ProcessPoolExecutor:
    fresh = multiprocessing.get_context("spawn")
    return ProcessPoolExecutor(processes, mp_context=fresh, initializer=_begin)


def _begin() -> None:
    """Leave Ctrl+C to the first process, which ends the others in order."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
