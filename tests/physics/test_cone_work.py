from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate

from firing_review.firing.cones import ConeNumber
from firing_review.io.tables import load_tables
from firing_review.physics.cone_law import end_point_c, fit_laws, law_of
from firing_review.physics.cones import (
    cone_equivalent,
    dwell_of,
    log_work_done,
    log_works,
    rank_label,
    rank_temperature_c,
    work_so_far,
)

LAWS = fit_laws(load_tables().cones)
SIX = law_of(LAWS, ConeNumber("6"))
RED = law_of(LAWS, ConeNumber("05"))


def climb(to_c: float, rate: float, step_h: float = 1 / 60):
    hours = np.append(np.arange(0.0, (to_c - 20.0) / rate, step_h), (to_c - 20.0) / rate)
    return hours, 20.0 + rate * hours


temperatures = st.lists(st.floats(900.0, 1250.0), min_size=3, max_size=25).map(np.array)
shifts = st.floats(-60.0, 60.0)


@pytest.mark.parametrize("rate", [15.0, 60.0, 150.0])
@pytest.mark.parametrize("step_h", [1 / 120, 0.1, 1.0])
def test_a_straight_climb_to_the_end_point_does_the_whole_work(rate, step_h) -> None:
    hours, values = climb(end_point_c(SIX, rate), rate, step_h)
    assert work_so_far(hours, values, SIX)[-1] == pytest.approx(1.0, abs=2e-3)
    assert float(log_work_done(dwell_of(hours, values), SIX)) == pytest.approx(0.0, abs=5e-3)


def test_work_along_an_uneven_log_is_the_integral_over_time() -> None:
    hours = np.array([0.0, 0.2, 1.1, 1.2, 2.0, 2.05, 2.9])
    values = np.array([1100.0, 1150.0, 1190.0, 1189.0, 1211.0, 1214.0, 1080.0])

    def share(at_h: float) -> float:
        return float(np.exp(SIX.log_share_per_h(np.interp(at_h, hours, values))))

    parts = [integrate.quad(share, a, b)[0] for a, b in pairwise(hours)]
    assert work_so_far(hours, values, SIX)[-1] == pytest.approx(sum(parts), rel=2e-3)
    whole = np.exp(float(log_work_done(dwell_of(hours, values), SIX)))
    assert whole == pytest.approx(sum(parts), rel=5e-3)


@given(temperatures, shifts, st.floats(0.5, 30.0))
def test_a_hotter_place_never_gets_less_work(values, shift, more) -> None:
    dwell = dwell_of(np.arange(len(values)) * 0.1, values)
    cool, hot = log_work_done(dwell, RED, np.array([shift, shift + more]))
    assert hot > cool


@given(temperatures, st.integers(2, 7))
def test_splitting_the_samples_never_changes_the_work(values, parts) -> None:
    hours = np.arange(len(values)) * 0.25
    fine = np.linspace(0.0, hours[-1], (len(hours) - 1) * parts + 1)
    between = np.interp(fine, hours, values)
    assert work_so_far(fine, between, SIX)[-1] == pytest.approx(
        work_so_far(hours, values, SIX)[-1], rel=2e-3
    )
    whole = float(log_work_done(dwell_of(hours, values), SIX))
    assert float(log_work_done(dwell_of(fine, between), SIX)) == pytest.approx(whole, abs=0.02)


@given(temperatures)
def test_the_order_of_the_stays_does_not_matter(values) -> None:
    hours = np.arange(len(values)) * 0.1
    there = log_work_done(dwell_of(hours, values), SIX)
    back = log_work_done(dwell_of(hours, values[::-1]), SIX)
    assert float(there) == pytest.approx(float(back), abs=1e-9)


@given(temperatures, st.floats(0.1, 2.0))
def test_work_only_ever_grows_along_a_log(values, step_h) -> None:
    done = work_so_far(np.arange(len(values)) * step_h, values, SIX)
    assert (np.diff(done) >= 0.0).all()


@given(shifts, st.floats(0.5, 20.0))
def test_a_hotter_firing_never_makes_a_cooler_cone(shift, more) -> None:
    hours, values = climb(1150.0, 60.0)
    ranks = [cone_equivalent(hours, values + s, LAWS)[0] for s in (shift, shift + more)]
    assert ranks[1] > ranks[0]


def test_a_short_gap_is_bridged_and_a_long_one_counts_nothing() -> None:
    hours = np.arange(0.0, 1.0, 1 / 60)
    values = np.full(60, 1200.0)
    whole = work_so_far(hours, values, SIX)[-1]
    short, long = values.copy(), values.copy()
    short[20:30] = np.nan
    long[10:50] = np.nan
    long[50:] -= 20.0
    assert work_so_far(hours, short, SIX)[-1] == pytest.approx(whole)
    assert work_so_far(hours, long, SIX)[-1] < whole * 18 / 59


def test_a_long_silence_between_equal_readings_is_a_hold() -> None:
    """Some loggers write only when the reading changes."""
    hours = np.array([0.0, 0.02, 0.04, 1.0, 1.02, 1.04])
    values = np.array([1180.0, 1190.0, 1200.0, 1200.0, 1190.0, 1180.0])
    level = 0.96 * np.exp(float(SIX.log_share_per_h(1200.0)))
    assert work_so_far(hours, values, SIX)[-1] == pytest.approx(level, rel=0.06)


def test_a_log_written_by_hand_every_half_hour_has_no_gaps() -> None:
    hours, values = climb(end_point_c(SIX, 60.0), 60.0, 0.5)
    assert float(log_work_done(dwell_of(hours, values), SIX)) == pytest.approx(0.0, abs=5e-3)


def test_a_log_without_readings_did_no_work() -> None:
    hours = np.arange(5.0)
    nothing = np.full(5, np.nan)
    assert work_so_far(hours, nothing, SIX).tolist() == [0.0] * 5
    assert cone_equivalent(hours, nothing, LAWS) == (None, None)


def test_a_cold_log_brings_no_cone_down() -> None:
    assert cone_equivalent(*climb(500.0, 100.0), LAWS) == (None, None)


@pytest.mark.parametrize("number", ["019", "06", "5", "6", "10", "14"])
def test_a_climb_to_an_end_point_is_that_cone(number) -> None:
    law = law_of(LAWS, ConeNumber(number))
    rank, label = cone_equivalent(*climb(end_point_c(law, 60.0) + 0.2, 60.0), LAWS)
    assert rank == pytest.approx(law.cone.rank, abs=0.06)
    assert label == number


def test_beyond_the_last_cone_the_equivalent_stays_there() -> None:
    assert cone_equivalent(*climb(1420.0, 60.0), LAWS)[1] == "14"


@pytest.mark.parametrize(
    ("rank", "label"),
    [
        (ConeNumber("5").rank + 0.8, "5.4"),
        (ConeNumber("5.5").rank + 0.4, "5.7"),
        (ConeNumber("6").rank + 0.3, "6.3"),
        (ConeNumber("04").rank + 0.3, "04 + 0.3"),
        (ConeNumber("06").rank + 0.5, "06 + 0.5"),
        (ConeNumber("01").rank + 0.25, "01 + 0.2"),
        (ConeNumber("6").rank + 0.97, "7"),
        (float(ConeNumber("14").rank), "14"),
    ],
)
def test_tenths_of_a_cone_read_as_potters_count(rank, label) -> None:
    assert rank_label(rank) == label


def test_a_rank_with_tenths_lies_between_the_end_points() -> None:
    five, six = (rank_temperature_c(float(ConeNumber(n).rank), LAWS) for n in ("6", "7"))
    middle = rank_temperature_c(ConeNumber("6").rank + 0.5, LAWS)
    assert middle == pytest.approx((five + six) / 2.0)
    assert rank_temperature_c(0.0, LAWS) is None


def test_all_laws_at_once_give_the_same_as_one_by_one() -> None:
    dwell = dwell_of(*climb(1100.0, 60.0))
    one_by_one = [float(log_work_done(dwell, law, 7.0)) for law in LAWS]
    assert log_works(dwell, LAWS, 7.0).tolist() == pytest.approx(one_by_one)
