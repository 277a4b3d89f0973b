"""How soon a planted fall of power is found, how often a steady kiln is wronged, and whether the
range of the life left holds the truth.

Run with ``python -m pytest tests/benchmarks/bench_trends.py -s``.
"""

import numpy as np
import pytest
from book_histories import NEW_SET, falling, planted_life

from firing_review.book.drift import find_drift
from firing_review.book.life import wear_left
from firing_review.book.trends import TrendKind, groups_of, trends_of

KILNS = 200
pytestmark = pytest.mark.timeout(1800)


def tells_a_drift(firings) -> bool:
    said = trends_of(firings, (NEW_SET,)).of(TrendKind.POWER).said.text
    return "it fell" in said or "it rose" in said


def test_power_that_falls_by_0_3_percent_a_firing_with_2_percent_scatter() -> None:
    found = []
    for seed in range(KILNS):
        firings = falling(np.random.default_rng(seed), 60, 0.003)
        found.append(next((n for n in range(10, 61) if tells_a_drift(firings[:n])), 99))
    low, middle, high = np.percentile(found, [5, 50, 95])
    print(f"found after {middle:.0f} firings ({low:.0f} to {high:.0f}), at most {max(found)}")  # noqa: T201


def test_two_hundred_steady_kilns_looked_at_after_each_of_60_firings() -> None:
    wronged = 0
    for seed in range(KILNS):
        firings = falling(np.random.default_rng(10_000 + seed), 60, 0.0)
        wronged += any(tells_a_drift(firings[:n]) for n in range(10, 61))
    print(f"false alarms on {KILNS} steady kilns: {wronged}")  # noqa: T201


def test_two_hundred_lives_cut_off_at_a_random_moment() -> None:
    inside, widths, silent = [], [], 0
    for seed in range(KILNS):
        life = planted_life(5_000 + seed)
        points = trends_of(life.firings, (NEW_SET,)).of(TrendKind.POWER).points
        groups = [g for g in groups_of(points, shares=True, by_wear=True) if len(g.x) > 1]
        drift = find_drift(groups)
        rest = wear_left(groups, drift, points[-1].wear_h) if drift else None
        if rest is None or rest.about is None:
            silent += 1
            continue
        inside.append(rest.low <= life.left_h <= (rest.high or np.inf))
        widths.append(((rest.high or np.inf) - rest.low) / max(rest.about, 1.0))
    print(  # noqa: T201
        f"life told {len(inside)} times, silent {silent}; truth inside {np.mean(inside):.3f};"
        f" width over estimate {np.median(widths):.2f}"
    )
