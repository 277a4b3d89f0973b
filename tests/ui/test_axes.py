"""Marks of time that people count in, and round numbers."""

from datetime import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firing_review.report.axis_marks import (
    clock_text,
    elapsed_text,
    marks,
    round_step,
    time_step_h,
)
from firing_review.ui.firing_chart.axes import RoundAxis, TimeAxis, spread
from firing_review.ui.preferences import TimeShown

STARTED = datetime(2026, 3, 3, 21, 40)  # noqa: DTZ001 - a logger knows no zone


@pytest.mark.parametrize(
    ("span_h", "most", "step_h"),
    [(12.0, 8, 2.0), (26.0, 9, 3.0), (1.0, 6, 10 / 60), (0.1, 6, 1 / 60), (60.0, 6, 12.0)],
)
def test_time_marks_stand_at_usual_distances(span_h, most, step_h):
    assert time_step_h(span_h, most) == step_h


def test_temperature_marks_stand_at_round_numbers():
    assert round_step(1300.0, 5) == 500.0
    assert round_step(95.0, 5) == 20.0
    assert marks(-30.0, 1240.0, 500.0) == [0.0, 500.0, 1000.0]


def test_hours_read_as_hours_and_between_them_with_minutes():
    assert elapsed_text(3.0, 1.0) == "3 h"
    assert elapsed_text(3.25, 0.25) == "3:15"


def test_the_clock_goes_over_midnight_with_its_day():
    assert clock_text(STARTED, 0.0, with_day=True) == "Tue 9:40 PM"
    assert clock_text(STARTED, 2.5, with_day=True) == "Wed 12:10 AM"


def test_elapsed_hours_carry_the_clock_below(qapp):
    axis = TimeAxis()
    axis.show_time(STARTED, TimeShown.ELAPSED)
    assert axis.tickStrings([0.0, 3.0], 1.0, 3.0) == ["0 h\n9:40 PM", "3 h\n12:40 AM"]


def test_clock_marks_stand_at_full_hours_of_the_clock(qapp):
    axis = TimeAxis()
    axis.show_time(STARTED, TimeShown.CLOCK)
    ((step, places),) = axis.tickValues(0.0, 12.0, 600)
    texts = axis.tickStrings(places, 1.0, step)
    assert texts[0] == "10:00 PM\nTue"
    assert all(text.split("\n")[0].endswith((":00 AM", ":00 PM")) for text in texts)


def test_without_a_clock_there_are_hours_only(qapp):
    axis = TimeAxis()
    axis.show_time(None, TimeShown.CLOCK)
    assert axis.tickStrings([6.0], 1.0, 3.0) == ["6 h"]


def test_minus_is_a_real_minus(qapp):
    assert RoundAxis().tickStrings([-200.0, 0.0], 1.0, 200.0) == ["−200", "0"]


def test_names_that_touch_move_apart_in_their_order():
    assert spread([100.0, 101.0, 99.0], 16.0, 0.0, 200.0) == [115.0, 131.0, 99.0]


def test_names_at_the_edge_stay_inside():
    assert spread([198.0, 199.0], 16.0, 0.0, 200.0) == [184.0, 200.0]


@given(st.lists(st.floats(-50.0, 250.0), min_size=1, max_size=8))
def test_names_never_leave_their_lane_nor_change_order(wanted):
    placed = spread(wanted, 16.0, 0.0, 200.0)
    assert all(-1e-6 <= place <= 200.0 + 1e-6 for place in placed)
    order = sorted(range(len(wanted)), key=lambda n: wanted[n])
    assert [placed[n] for n in order] == sorted(placed)
