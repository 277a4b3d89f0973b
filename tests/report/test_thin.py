"""Fewer points, the same picture."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from firing_review.report.thin import (
    UNTOUCHED_POINTS,
    thinned,
    with_holes,
    without_repeats,
)


def a_long_curve(points: int = 120_000) -> tuple[np.ndarray, np.ndarray]:
    hours = np.linspace(0.0, 30.0, points)
    return hours, 600.0 + 500.0 * np.sin(hours)


def test_a_short_curve_is_drawn_as_it_is():
    hours = np.linspace(0.0, 10.0, UNTOUCHED_POINTS)
    x, y = thinned(hours, hours, 1000)
    assert x is hours
    assert y is hours


def test_a_long_curve_keeps_first_last_highest_and_lowest():
    hours, values = a_long_curve()
    values[77_777], values[33_333] = 1250.0, -5.0
    x, y = thinned(hours, values, 800)
    assert len(x) <= 5 * 800 + 5
    assert (x[0], x[-1]) == (0.0, 30.0)
    assert y.max() == 1250.0
    assert y.min() == -5.0


def test_a_gap_of_one_sample_is_still_a_gap():
    hours, values = a_long_curve()
    values[50_000] = np.nan
    x, y = thinned(hours, values, 800)
    assert np.isnan(y).sum() == 1
    assert x[np.isnan(y)][0] == hours[50_000]


def test_a_long_gap_stays_a_gap_in_every_column_of_it():
    hours, values = a_long_curve()
    values[40_000:60_000] = np.nan
    x, y = thinned(hours, values, 800)
    inside = (x > hours[40_000]) & (x < hours[59_999])
    assert np.isnan(y[inside]).all()


@given(st.integers(50_001, 60_000), st.integers(1, 2000))
def test_time_still_runs_forward(points, columns):
    hours, values = a_long_curve(points)
    x, _ = thinned(hours, values, columns)
    assert (np.diff(x) > 0).all()


def test_rows_that_are_missing_break_the_line():
    hours = np.array([0.0, 0.1, 0.2, 0.3, 2.0, 2.1])
    x, y = with_holes(hours, np.full(6, 500.0))
    assert x.tolist() == [0.0, 0.1, 0.2, 0.3, 1.15, 2.0, 2.1]
    assert np.isnan(y).tolist() == [False] * 4 + [True] + [False] * 2


def test_a_record_without_holes_stays_as_it_is():
    hours = np.array([0.0, 0.1, 0.2, 0.35])
    x, _ = with_holes(hours, np.full(4, 500.0))
    assert x is hours


def test_steps_keep_only_their_corners():
    hours = np.arange(6.0)
    x, y = without_repeats(hours, np.array([0.0, 0.0, 0.0, 100.0, 100.0, 100.0]))
    assert x.tolist() == [0.0, 2.0, 3.0, 5.0]
    assert y.tolist() == [0.0, 0.0, 100.0, 100.0]
