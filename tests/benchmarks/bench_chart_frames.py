"""One frame of the chart while the view pans and zooms, by the number of rows.

Run with ``python -m pytest tests/benchmarks/bench_chart_frames.py -s``; printed, no condition.
"""

import statistics
import time
from collections.abc import Callable, Iterator
from itertools import cycle
from pathlib import Path

import pytest
from benchmarks.long_log import write_long_log
from PySide6.QtWidgets import QApplication

from firing_review.firing.sheet import Given
from firing_review.io.log_csv import read_log
from firing_review.io.tables import load_tables
from firing_review.review.pipeline import review_firing
from firing_review.ui.appearance import Appearance
from firing_review.ui.firing_chart.panel import FiringChart
from firing_review.ui.preferences import Preferences
from firing_review.ui.showing import Showing

ROWS = (1_000, 100_000, 1_000_000)
FRAMES = 60
SIZE = (860, 560)
"""What the chart has on a screen of 1366 × 768."""


@pytest.fixture
def chart(
    request: pytest.FixtureRequest, tmp_path: Path, qapp: QApplication
) -> Iterator[FiringChart]:
    path = tmp_path / "log.csv"
    write_long_log(path, request.param)
    review = review_firing(Given(read_log(path)), load_tables())
    preferences = Preferences(tmp_path)
    appearance = Appearance(preferences)
    appearance.apply()
    panel = FiringChart(appearance, Showing(preferences))
    panel.resize(*SIZE)
    panel.show_review(review)
    panel.show()
    qapp.processEvents()
    yield panel
    panel.close()
    panel.deleteLater()


def views(chart: FiringChart) -> Iterator[tuple[float, float]]:
    """Return views that pan over the firing while they zoom in and out."""
    low, high = chart.time.range_h
    span = high - low
    for step in cycle(range(FRAMES)):
        start, length = 0.2 + 0.005 * step, 0.2 + 0.006 * abs(step - FRAMES // 2)
        yield low + span * start, low + span * (start + length)


@pytest.mark.parametrize("chart", ROWS, indirect=True, ids=[f"{rows} rows" for rows in ROWS])
def test_a_frame_of_pan_and_zoom(
    chart: FiringChart, benchmark: Callable[..., object], qapp: QApplication
) -> None:
    stops = views(chart)
    busy_ms = []

    def frame() -> None:
        began = time.process_time()
        chart.time.show(*next(stops))
        qapp.processEvents()
        busy_ms.append(1000 * (time.process_time() - began))

    benchmark.pedantic(frame, rounds=FRAMES, warmup_rounds=5)
    print(f"median frame {statistics.median(busy_ms):.1f} ms of processor time")  # noqa: T201
