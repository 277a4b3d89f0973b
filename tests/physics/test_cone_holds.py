import pytest

from firing_review.firing.cones import ConeNumber
from firing_review.io.tables import load_tables
from firing_review.physics.cone_holds import (
    hold_below_min,
    hold_between_min,
    hold_factor,
    hold_range_min,
    hold_to_finish_min,
    share_on_climb,
)
from firing_review.physics.cone_law import degrees_per_log_rate, end_point_c, fit_laws, law_of

LAWS = fit_laws(load_tables().cones)


def law(number: str):
    return law_of(LAWS, ConeNumber(number))


# computed beforehand by time stepping in a separate program (0.5 min)
BELOW = [("06", 10, 14.7), ("06", 20, 45.2), ("06", 30, 109.8), ("6", 10, 12.2), ("6", 30, 57.0)]


@pytest.mark.parametrize(("number", "below_c", "minutes"), BELOW)
def test_minutes_of_hold_below_the_end_point(number, below_c, minutes) -> None:
    assert hold_below_min(law(number), below_c, 60.0) == pytest.approx(minutes, abs=0.5)


def test_a_hold_at_the_end_point_of_the_same_cone_is_nothing() -> None:
    assert hold_between_min(law("6"), law("6"), 60.0) == pytest.approx(0.0, abs=1e-4)


def test_s_minutes_at_the_end_point_are_worth_a_whole_climb() -> None:
    six = law("6")
    assert hold_to_finish_min(six, six.t60_c, 0.0) == pytest.approx(degrees_per_log_rate(six))


def test_too_much_work_is_told_as_minutes_too_many() -> None:
    assert hold_to_finish_min(law("6"), 1220.0, 1.5) < 0.0


def test_a_climb_to_the_end_point_does_the_whole_work_at_any_rate() -> None:
    six = law("6")
    assert share_on_climb(six, end_point_c(six, 108.0), 108.0) == pytest.approx(1.0)


def test_short_holds_are_known_better_than_long_ones_and_red_cones_worst() -> None:
    assert hold_factor(law("6"), 20.0) == pytest.approx(1.2)
    assert hold_factor(law("6"), 300.0) == pytest.approx(1.75)
    assert hold_factor(law("05"), 300.0) == pytest.approx(2.0)
    low, high = hold_range_min(law("6"), 300.0)
    assert (low, high) == pytest.approx((300 / 1.75, 300 * 1.75))
