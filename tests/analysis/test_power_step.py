"""A step of power inside a firing."""

import numpy as np
from firings import GOOD, firing_of, log_of

from firing_review.analysis.climb_and_fall import GRID_C
from firing_review.analysis.power_step import find_step

SUMS = np.where(GRID_C < 700.0, 1.0, np.where(GRID_C < 980.0, 0.8, np.nan))
"""A fifth of the power is gone from 700 °C on."""


def test_a_step_is_told_where_rows_are_near_enough_to_show_it():
    step = find_step(SUMS, firing_of(log_of(GOOD, 1.0)), sure=False)
    assert step is not None
    assert step.at_c == 675.0
    assert step.left == 0.8


def test_rows_ten_minutes_apart_tell_a_step_only_where_the_output_was_logged():
    by_hand = firing_of(log_of(GOOD, 10.0))
    assert find_step(SUMS, by_hand, sure=False) is None
    assert find_step(SUMS, by_hand, sure=True) is not None
