import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firing_review.analysis.rates import (
    local_rate,
    long_runs,
    robust_slope,
    running_median,
    runs,
)


def test_a_straight_climb_has_its_slope_everywhere() -> None:
    hours = np.array([0.0, 0.1, 0.25, 0.4, 0.6, 0.61, 0.9, 1.2])
    assert local_rate(hours, 20.0 + 60.0 * hours, 80.0) == pytest.approx(np.full(8, 60.0))


def test_a_gap_in_the_readings_is_left_out_of_the_slope() -> None:
    hours = np.linspace(0.0, 1.0, 11)
    values = 100.0 * hours
    values[4:6] = np.nan
    assert local_rate(hours, values, 60.0) == pytest.approx(np.full(11, 100.0))


def test_rows_written_by_the_hour_have_a_rate_from_row_to_row():
    hours = np.array([0.0, 1.0, 2.0, 3.0])
    rates = local_rate(hours, np.array([20.0, 120.0, 220.0, 240.0]), 20.0)
    assert rates[1:3].tolist() == pytest.approx([100.0, 60.0])


def test_a_window_with_too_few_readings_gives_no_rate() -> None:
    hours = np.array([0.0, 5.0, 10.0])
    assert np.isnan(local_rate(hours, hours, 30.0)).all()


def test_one_wild_reading_does_not_move_the_robust_slope() -> None:
    hours = np.linspace(0.0, 2.0, 41)
    values = 80.0 * hours
    values[20] = 1370.0
    assert robust_slope(hours, values) == pytest.approx(80.0, abs=0.5)


def test_the_slope_of_one_reading_is_not_known() -> None:
    assert np.isnan(robust_slope(np.array([0.0]), np.array([20.0])))


def test_runs_are_given_as_first_and_open_end() -> None:
    flags = np.array([1, 1, 0, 0, 1, 0, 1, 1, 1], dtype=bool)
    assert runs(flags) == [(0, 2), (4, 5), (6, 9)]
    assert long_runs(np.arange(9.0), flags, 61.0) == [(6, 9)]


@given(
    st.floats(-500, 500),
    st.floats(-100, 1300),
    st.lists(st.floats(0.005, 0.2), min_size=12, max_size=60),
)
def test_rate_is_found_whatever_the_sampling(
    rate: float, start: float, steps: list[float]
) -> None:
    hours = np.cumsum(steps)
    found = local_rate(hours, start + rate * hours, 60.0)
    assert np.allclose(found[np.isfinite(found)], rate, atol=1e-3)


@given(
    st.lists(
        st.tuples(st.floats(0.01, 0.2), st.one_of(st.just(np.nan), st.floats(-50.0, 1300.0))),
        min_size=1,
        max_size=80,
    ),
    st.sampled_from([5.0, 6.0, 60.0]),
)
def test_running_medians_are_those_of_pandas(
    samples: list[tuple[float, float]], window_min: float
) -> None:
    steps, values = np.array(samples).T
    hours = np.cumsum(steps)
    rolling = pd.Series(values, index=pd.to_timedelta(hours, unit="h")).rolling(
        pd.Timedelta(minutes=window_min), center=True, min_periods=1
    )
    expected = rolling.median().to_numpy()
    np.testing.assert_array_equal(running_median(hours, values, window_min), expected)


def test_a_burst_of_samples_is_settled_by_every_nth_of_them() -> None:
    hours = np.sort(np.concatenate((np.arange(400) / 60.0, 3.3 + np.arange(300) / 36e4)))
    medians = running_median(hours, 100.0 * hours, 6.0)
    assert medians[10:-10] == pytest.approx(100.0 * hours[10:-10], abs=6.0)


def test_a_dense_log_has_the_medians_of_a_usual_one() -> None:
    hours = np.arange(40_000) / 3600.0
    noise = np.random.default_rng(3).normal(0.0, 0.3, len(hours))
    medians = running_median(hours, 120.0 * hours + noise, 6.0)
    # as in a usual log: half a step of the climb, and the noise of twelve samples
    assert medians[200:-200] == pytest.approx(120.0 * hours[200:-200], abs=1.6)
