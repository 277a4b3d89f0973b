"""Fewer points, the same picture: extremes, ends and gaps of every pixel column are kept."""

from itertools import pairwise

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from firing_review.report.columns import (
    FEW_POINTS,
    Level,
    Seen,
    dashed,
    flattened,
    levels_of,
    seen,
    thinned,
)

readings = st.floats(-50.0, 1400.0) | st.just(float("nan"))
curves = st.integers(1, 300).flatmap(
    lambda count: st.tuples(
        arrays(float, count, elements=st.floats(1e-4, 0.5)),
        arrays(float, count, elements=readings),
    )
)
"""Steps of time [h], uneven as loggers make them, and readings [°C] with gaps."""


def columns_of(x_h: np.ndarray, y: np.ndarray, width_h: float) -> dict[int, np.ndarray]:
    places = np.floor(x_h / width_h).astype(int)
    return {int(place): y[places == place] for place in np.unique(places)}


def a_long_curve(points: int) -> tuple[np.ndarray, np.ndarray]:
    hours = np.linspace(0.0, 30.0, points)
    return hours, 600.0 + 500.0 * np.sin(hours)


@given(curves, st.floats(0.01, 3.0))
@settings(deadline=None)
def test_every_column_keeps_its_lowest_highest_first_last_and_its_break(curve, width_h):
    steps, y = curve
    x_h = np.cumsum(steps)
    fewer = columns_of(*thinned(x_h, y, width_h), width_h)
    for place, whole in columns_of(x_h, y, width_h).items():
        kept = fewer[place]
        assert len(kept) <= 5
        np.testing.assert_array_equal(kept[[0, -1]], whole[[0, -1]])
        assert np.isnan(kept).any() == np.isnan(whole).any()
        if np.isfinite(whole).any():
            assert np.nanmin(kept) == np.nanmin(whole)
            assert np.nanmax(kept) == np.nanmax(whole)


@given(curves, st.floats(0.01, 3.0))
@settings(deadline=None)
def test_points_are_left_out_but_never_moved(curve, width_h):
    steps, y = curve
    x_h = np.cumsum(steps)
    x, values = thinned(x_h, y, width_h)
    assert (np.diff(x) > 0).all()
    np.testing.assert_array_equal(values, y[np.searchsorted(x_h, x)])


@given(curves, st.floats(0.01, 3.0))
@settings(deadline=None)
def test_no_line_is_drawn_over_a_gap(curve, width_h):
    steps, y = curve
    x_h = np.cumsum(steps)
    x, values = thinned(x_h, y, width_h)
    places = np.searchsorted(x_h, x)
    for before, after in zip(range(len(x) - 1), range(1, len(x)), strict=True):
        if np.isfinite(values[[before, after]]).all():
            between = y[places[before] : places[after]]
            same_column = x[before] // width_h == x[after] // width_h
            assert same_column or np.isfinite(between).all()


@given(st.floats(0.0, 29.0), st.floats(0.01, 30.0), st.integers(50, 900))
@settings(max_examples=50, deadline=None)
def test_a_view_shows_the_extremes_of_its_record_in_columns_no_wider_than_a_pixel(
    low, span, pixels
):
    hours, values = a_long_curve(20_000)
    values[::7] += 9.0
    high = min(low + span, 30.0)
    shown = seen(levels_of(hours, values), low, high, pixels)
    assert shown.column_h <= (high - low) / pixels
    # a column cut by the edge of the view may have its extreme just outside
    edge = shown.column_h
    inside = (hours >= low + edge) & (hours <= high - edge)
    if inside.any():
        assert shown.y.max() >= values[inside].max()
        assert shown.y.min() <= values[inside].min()


def test_a_line_runs_on_past_both_edges_of_the_view():
    hours, values = a_long_curve(50_000)
    shown = seen(levels_of(hours, values), 10.0, 20.0, 700)
    assert shown.x_h[0] < 10.0 < shown.x_h[1]
    assert shown.x_h[-2] < 20.0 < shown.x_h[-1]


def test_a_million_points_become_a_few_to_a_pixel():
    hours, values = a_long_curve(1_000_000)
    levels = levels_of(hours, values + np.where(np.arange(1_000_000) % 2, 3.0, -3.0))
    for span in (30.0, 3.0, 0.3):
        assert len(seen(levels, 0.0, span, 700).y) <= 2 * 5 * 700 + 10


def test_a_short_curve_is_drawn_as_it_is():
    hours = np.linspace(0.0, 10.0, FEW_POINTS)
    shown = seen(levels_of(hours, hours), 0.0, 10.0, 10)
    assert not shown.is_thinned
    assert shown.y.tolist() == hours.tolist()


def test_a_gap_of_one_sample_is_still_a_gap():
    hours, values = a_long_curve(120_000)
    values[50_000] = np.nan
    shown = seen(levels_of(hours, values), 0.0, 30.0, 800)
    assert shown.is_thinned
    assert shown.x_h[np.isnan(shown.y)].tolist() == [hours[50_000]]


def test_an_empty_curve_has_nothing_to_show():
    nothing = np.zeros(0)
    assert len(seen(levels_of(nothing, nothing), 0.0, 1.0, 100).y) == 0
    assert len(thinned(nothing, nothing, 1.0)[1]) == 0


def test_times_that_never_move_on_come_to_an_end():
    levels = levels_of(np.full(5000, 2.0), np.arange(5000.0))
    assert levels[0].x_h[0] == 2.0


def test_a_column_flatter_than_half_a_pixel_needs_one_point_and_a_break_stays():
    x = np.array([0.0, 0.2, 0.4, 1.0, 1.2, 1.4, 2.0, 2.2])
    y = np.array([5.0, 5.1, 5.2, 5.0, 9.0, 5.0, np.nan, 5.0])
    fewer = flattened(Seen(x, y, 1.0), 0.5)
    assert fewer.x_h.tolist() == [0.0, 1.0, 1.2, 1.4, 2.0, 2.2]
    assert np.isnan(fewer.y).tolist() == [False] * 4 + [True, False]


def test_a_curve_as_logged_is_never_flattened():
    one = Seen(np.arange(5.0), np.zeros(5), 0.0)
    assert flattened(one, 100.0) is one


def test_dashes_are_cut_along_time():
    x = np.arange(8.0)
    cut = dashed(Seen(x, np.ones(8), 1.0), (2.0, 1.0, 1.0, 1.0))
    assert np.isnan(cut.y).tolist() == [
        False, False, True, False, True, False, False, True,
    ]  # fmt: skip


def test_each_level_is_coarser_than_the_one_before():
    hours, values = a_long_curve(100_000)
    levels = levels_of(hours, values)
    assert isinstance(levels[0], Level)
    assert all(a.column_h < b.column_h for a, b in pairwise(levels))
    assert len(levels[-1].y) <= FEW_POINTS
