from firings import GOOD, firing_of, log_of, schedule
from hypothesis import given
from hypothesis import strategies as st

from firing_review.firing.schedule import ClockCurve
from firing_review.planning.schedules import (
    base_schedule,
    last_rate_c_per_h,
    second_firing_schedule,
    top_hold_min,
    with_hold,
    with_last_rate,
    with_top,
)

PLAN = schedule((150.0, 600.0, 0.0), (60.0, 1215.0, 10.0), (100.0, 1000.0, 30.0))
FIRING = firing_of(log_of(GOOD), None)


def rows(plan):
    return [(s.rate_c_per_h, s.target_c, s.hold_min) for s in plan.segments]


def test_a_longer_hold_is_added_at_the_top_only() -> None:
    assert rows(with_hold(PLAN, 25.0)) == [(150, 600, 0), (60, 1215, 35), (100, 1000, 30)]


def test_a_hold_is_never_less_than_none() -> None:
    assert top_hold_min(with_hold(PLAN, -25.0)) == 0.0


def test_a_higher_top_moves_every_segment_that_stands_there() -> None:
    plan = schedule((60.0, 1215.0, 0.0), (10.0, 1215.0, 20.0), (100.0, 900.0, 0.0))
    assert rows(with_top(plan, 8.0)) == [(60, 1223, 0), (10, 1223, 20), (100, 900, 0)]


def test_a_long_ramp_is_split_a_hundred_degrees_below_the_top() -> None:
    slow = rows(with_last_rate(PLAN, 30.0))
    assert slow == [(150, 600, 0), (60, 1115, 0), (30, 1215, 10), (100, 1000, 30)]


def test_ramps_inside_the_last_hundred_degrees_keep_their_holds() -> None:
    plan = schedule((150.0, 1150.0, 5.0), (60.0, 1215.0, 10.0))
    assert rows(with_last_rate(plan, 30.0)) == [(150, 1115, 0), (30, 1150, 5), (30, 1215, 10)]


def test_a_ramp_that_begins_at_the_split_is_not_split_again() -> None:
    plan = schedule((150.0, 1115.0, 0.0), (60.0, 1215.0, 10.0))
    assert rows(with_last_rate(plan, 30.0)) == [(150, 1115, 0), (30, 1215, 10)]


def test_the_last_rate_is_that_of_the_climb_to_the_top() -> None:
    assert last_rate_c_per_h(PLAN) == 60.0
    assert last_rate_c_per_h(schedule((None, 1215.0, 0.0))) is None


def test_a_curve_by_the_clock_becomes_ramps_and_holds() -> None:
    curve = ClockCurve((0.0, 4.0, 4.5, 8.5), (20.0, 620.0, 620.0, 1020.0))
    assert rows(base_schedule(curve, FIRING)) == [(150, 620, 30), (100, 1020, 0)]


def test_without_a_schedule_the_ramps_found_in_the_log_serve() -> None:
    plan = base_schedule(None, FIRING)
    assert abs(plan.top_c - 1000.0) < 10.0
    assert all(s.rate_c_per_h is None or s.rate_c_per_h > 0 for s in plan.segments)


def test_a_second_firing_begins_dry_and_slow_and_ends_at_its_top() -> None:
    plan = second_firing_schedule(1215.0, 60.0)
    assert rows(plan)[0] == (60.0, 90.0, 60.0)
    assert rows(plan)[-1] == (60.0, 1215.0, 0.0)
    assert all(s.rate_c_per_h <= 100.0 for s in plan.segments if s.target_c <= 620.0)


@given(st.floats(-9.0, 200.0), st.floats(-50.0, 50.0), st.floats(15.0, 150.0))
def test_changes_touch_the_top_and_nothing_before_it(extra, higher, rate) -> None:
    changed = with_last_rate(with_top(with_hold(PLAN, extra), higher), rate)
    assert rows(changed)[0] == (150, 600, 0)
    assert rows(changed)[-1] == (100, 1000, 30)
    assert changed.top_c == 1215.0 + higher
