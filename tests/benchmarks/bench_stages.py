"""What each stage of a review takes, and how it grows with the rows of the log.

Run with ``python -m pytest tests/benchmarks/bench_stages.py -s``; printed, never a condition.
The growth is the slope of log time over log rows from 10,000 to 1,000,000 rows: 1 is in step.
"""

import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import pytest
from benchmarks.long_log import write_long_log

from firing_review.analysis.alignment import align
from firing_review.analysis.bad_samples import CleanChannel, clean_channels
from firing_review.analysis.element_weakness import judge_elements
from firing_review.analysis.find import find_all
from firing_review.analysis.heat_work import weigh_heat
from firing_review.analysis.thinning import thin_if_dense
from firing_review.analysis.thresholds import DEFAULTS
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.cones import ConeNumber
from firing_review.firing.log import FiringLog
from firing_review.firing.sheet import Given, Readings
from firing_review.firing.tables import Tables
from firing_review.io.log_csv import read_log
from firing_review.io.open_any import gather
from firing_review.io.tables import load_tables
from firing_review.review.edits import set_tolerance
from firing_review.review.pipeline import review_firing

DEMO = Path(__file__).parents[2] / "demo_logs" / "1_good_glaze_firing"
ROWS = (10_000, 100_000, 1_000_000)
REPEATS = 3
SIX = ConeNumber("6")


@dataclass(frozen=True)
class Ready:
    """Everything up to a stage, so that the stage alone is timed; values are made anew."""

    path: Path
    tables: Tables

    def log(self) -> FiringLog:
        return read_log(self.path)

    def clean(self) -> tuple[FiringLog, tuple[CleanChannel, ...]]:
        log = self.log()
        return thin_if_dense(log, clean_channels(log, DEFAULTS), DEFAULTS)

    def aligned(self) -> tuple[AlignedFiring, tuple[CleanChannel, ...]]:
        log, clean = self.clean()
        return align(log, clean, None, DEFAULTS), clean

    def given(self) -> Given:
        return Given(self.log(), goal_cone=SIX)


def _stages(ready: Ready) -> dict[str, Callable[[], object]]:
    """Return each stage as a call without arguments."""
    log, tables = ready.log(), ready.tables
    thin, clean = ready.clean()
    firing, _ = ready.aligned()
    fresh = lambda: replace(firing)  # noqa: E731 - a copy that remembers nothing
    given = ready.given()
    return {
        "read": ready.log,
        "clean": lambda: thin_if_dense(log, clean_channels(log, DEFAULTS), DEFAULTS),
        "align": lambda: align(thin, clean, None, DEFAULTS),
        "find": lambda: find_all(fresh(), clean, DEFAULTS),
        "heat work": lambda: weigh_heat(fresh(), SIX, tables.cones),
        "heat balance": lambda: judge_elements(fresh(), (fresh(),), None, Readings()),
        "whole review": lambda: review_firing(replace(given, log=replace(log)), tables),
    }


def _took(stage: Callable[[], object]) -> float:
    """Return the shortest time of a core that a stage took [s]."""
    times = []
    for _ in range(REPEATS):
        began = time.process_time()
        stage()
        times.append(time.process_time() - began)
    return min(times)


@pytest.fixture(scope="module")
def ready(tmp_path_factory: pytest.TempPathFactory) -> dict[int, Ready]:
    folder, tables = tmp_path_factory.mktemp("stages"), load_tables()
    made = {rows: Ready(folder / f"log_{rows}.csv", tables) for rows in ROWS}
    for rows, one in made.items():
        write_long_log(one.path, rows)
    return made


def test_growth_with_the_rows(ready: dict[int, Ready], benchmark: Callable[..., object]) -> None:
    took: dict[str, list[float]] = {}
    for rows in ROWS:
        for name, stage in _stages(ready[rows]).items():
            took.setdefault(name, []).append(_took(stage))
    for name, times in took.items():
        slope = np.polyfit(np.log(ROWS), np.log(times), 1)[0]
        told = ", ".join(f"{1000.0 * t:.1f} ms" for t in times)
        print(f"{name:14s} {told}; growth {slope:.2f}")  # noqa: T201
    benchmark.pedantic(_stages(ready[ROWS[0]])["read"], rounds=1)


STAGES = ("read", "clean", "align", "find", "heat work", "heat balance")


@pytest.mark.parametrize("name", STAGES)
def test_a_stage_at_a_hundred_thousand_rows(
    ready: dict[int, Ready], name: str, benchmark: Callable[..., object]
) -> None:
    benchmark.pedantic(_stages(ready[ROWS[1]])[name], rounds=3)


def test_an_edit_and_the_review_that_follows(benchmark: Callable[..., object]) -> None:
    tables, tolerances = load_tables(), iter(np.linspace(0.3, 0.9, 200))
    review = review_firing(gather(DEMO), tables)
    benchmark(lambda: set_tolerance(float(next(tolerances)))(review, tables))


def test_causes_of_a_firing(benchmark: Callable[..., object]) -> None:
    from firing_review.diagnosis import diagnose as module  # noqa: PLC0415

    seen: list[tuple[object, ...]] = []
    tables, given = load_tables(), gather(DEMO)
    plain = module.diagnose

    def kept(*args: object) -> object:
        seen.append(args)
        return plain(*args)  # type: ignore[arg-type]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("firing_review.review.pipeline.diagnose", kept)
        review_firing(given, tables)
    benchmark(lambda: plain(*seen[0]))  # type: ignore[arg-type]
