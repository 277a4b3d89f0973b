"""What each stage of a review takes, and how it grows with the rows of the log.

Run with ``python -m pytest tests/benchmarks/bench_stages.py -s``; printed, never a condition.
The growth is the slope of log time over log rows from 10,000 to 1,000,000 rows: 1 is in step.
Fixed costs hide growth in it, so the last step, from 100,000 rows on, is told beside it.
"""

import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import count
from pathlib import Path

import numpy as np
import pytest
from benchmarks.long_log import write_long_log
from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QApplication

from firing_review.analysis.alignment import align
from firing_review.analysis.bad_samples import CleanChannel, clean_channels
from firing_review.analysis.element_weakness import judge_elements
from firing_review.analysis.find import find_all
from firing_review.analysis.heat_work import weigh_heat
from firing_review.analysis.thinning import thin_if_dense
from firing_review.analysis.thresholds import DEFAULTS
from firing_review.diagnosis.diagnose import Diagnosis, diagnose
from firing_review.diagnosis.evidence import Reviewed
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.cones import ConeNumber
from firing_review.firing.knowledge import Knowledge
from firing_review.firing.log import FiringLog
from firing_review.firing.sheet import Given, Readings
from firing_review.firing.tables import Tables
from firing_review.io.log_csv import read_log
from firing_review.io.open_any import gather
from firing_review.io.tables import load_tables
from firing_review.review.edits import set_tolerance
from firing_review.review.pipeline import review_firing
from firing_review.review.review import Review
from firing_review.ui.appearance import Appearance
from firing_review.ui.firing_chart.panel import FiringChart
from firing_review.ui.preferences import Preferences
from firing_review.ui.showing import Showing

DEMO = Path(__file__).parents[2] / "demo_logs" / "1_good_glaze_firing"
ROWS = (10_000, 100_000, 1_000_000)
REPEATS = 3
SIX = ConeNumber("6")
SIZE = (860, 560)
"""What the chart has on a screen of 1366 × 768."""


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

    def seen(self) -> Reviewed:
        """Return what causes are weighed from, caught on its way to them."""
        caught: list[Reviewed] = []

        def kept(seen: Reviewed, knowledge: Knowledge) -> Diagnosis:
            caught.append(seen)
            return diagnose(seen, knowledge)

        with pytest.MonkeyPatch.context() as patch:
            patch.setattr("firing_review.review.pipeline.diagnose", kept)
            review_firing(self.given(), self.tables)
        return caught[0]


def _draw(review: Review, folder: Path) -> None:
    """Draw the chart of a review that was never drawn before."""
    preferences = Preferences(folder)
    appearance = Appearance(preferences)
    chart = FiringChart(appearance, Showing(preferences))
    chart.resize(*SIZE)
    given = replace(review.given, log=replace(review.given.log))
    chart.show_review(replace(review, given=given))
    chart.grab()
    chart.close()
    chart.deleteLater()
    QApplication.sendPostedEvents(chart, QEvent.Type.DeferredDelete)


def _stages(ready: Ready) -> dict[str, Callable[[], object]]:
    """Return each stage as a call without arguments."""
    log, tables = ready.log(), ready.tables
    thin, clean = ready.clean()
    firing, _ = ready.aligned()
    fresh = lambda: replace(firing)  # noqa: E731 - a copy that remembers nothing
    given, seen = ready.given(), ready.seen()
    review, tolerances = review_firing(given, tables), count(0.3, 0.001)
    return {
        "read": ready.log,
        "clean": lambda: thin_if_dense(log, clean_channels(log, DEFAULTS), DEFAULTS),
        "align": lambda: align(thin, clean, None, DEFAULTS),
        "find": lambda: find_all(fresh(), clean, DEFAULTS),
        "heat work": lambda: weigh_heat(fresh(), SIX, tables.cones),
        "heat balance": lambda: judge_elements(fresh(), (fresh(),), None, Readings()),
        "causes": lambda: diagnose(seen, tables.knowledge),
        "whole review": lambda: review_firing(replace(given, log=replace(log)), tables),
        "refresh": lambda: set_tolerance(next(tolerances))(review, tables),
        "draw": lambda: _draw(review, ready.path.parent),
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


def test_growth_with_the_rows(
    ready: dict[int, Ready], qapp: QApplication, benchmark: Callable[..., object]
) -> None:
    took: dict[str, list[float]] = {}
    for rows in ROWS:
        for name, stage in _stages(ready[rows]).items():
            took.setdefault(name, []).append(_took(stage))
    for name, times in took.items():
        slope = np.polyfit(np.log(ROWS), np.log(times), 1)[0]
        last = np.log(times[-1] / times[-2]) / np.log(ROWS[-1] / ROWS[-2])
        told = ", ".join(f"{1000.0 * t:.1f} ms" for t in times)
        print(f"{name:14s} {told}; growth {slope:.2f}, last step {last:.2f}")  # noqa: T201
    benchmark.pedantic(_stages(ready[ROWS[0]])["read"], rounds=1)


STAGES = (
    "read",
    "clean",
    "align",
    "find",
    "heat work",
    "heat balance",
    "causes",
    "refresh",
    "draw",
)


@pytest.mark.parametrize("name", STAGES)
def test_a_stage_at_a_hundred_thousand_rows(
    ready: dict[int, Ready], name: str, qapp: QApplication, benchmark: Callable[..., object]
) -> None:
    benchmark.pedantic(_stages(ready[ROWS[1]])[name], rounds=3)


def test_an_edit_and_the_review_that_follows(benchmark: Callable[..., object]) -> None:
    tables, tolerances = load_tables(), count(0.3, 0.001)
    review = review_firing(gather(DEMO), tables)
    benchmark(lambda: set_tolerance(next(tolerances))(review, tables))
