"""Rows far apart, as written by hand: nothing is said that may only lie between two of them."""

import numpy as np
import pytest
from firings import GOOD, TO_1000, clock, cooling, findings_of, kinds_of, line, log_of, schedule

from firing_review.analysis.logged_curves import hidden_top_c
from firing_review.firing.log import Channel, ChannelRole, FiringLog

BY_HAND = [20.0, 30.0, 45.0, 60.0, 75.0, 90.0]


def top(*rows: tuple[float, float]) -> float:
    hours, values = zip(*rows, strict=True)
    return hidden_top_c(np.array(hours), np.array(values, dtype=float))


@pytest.mark.parametrize("every_min", BY_HAND)
def test_a_good_firing_written_down_now_and_then_has_no_fault(every_min):
    found = findings_of(log_of(GOOD, every_min))
    assert {f.severity.value for f in found} <= {"note"}, found


@pytest.mark.parametrize("every_min", [1.0, 5.0, 10.0])
def test_a_record_that_is_dense_enough_leaves_no_top_open(every_min):
    assert "rows_far_apart" not in kinds_of(log_of(GOOD, every_min))


def test_rows_at_odd_times_far_from_the_top_leave_it_closed():
    hours = np.array([0.0, 1.0, 1.5, 3.0, 5.5, 6.0, 6.3, 6.5, 6.6, 6.75, 6.85, 7.0, 8.0, 12.0])
    reading = Channel("chamber", ChannelRole.CHAMBER, line(hours, GOOD))
    assert "rows_far_apart" not in kinds_of(FiringLog("hand-made.csv", hours, (reading,)))


def test_the_climb_into_the_hottest_row_may_have_gone_on_behind_it():
    """60 °C/h for x hours and 650 °C/h back: 60 x + 30 = 650 (0.5 - x), so x is 0.42 h."""
    assert top((0, 900), (0.5, 930), (1.0, 900), (1.5, 800)) == pytest.approx(24.9, abs=0.1)


def test_a_hottest_row_hardly_above_the_one_before_may_lie_behind_the_top():
    """80 °C/h for x hours and 650 °C/h back: 80 x - 10 = 650 (1 - x), so x is 0.904 h."""
    assert top((0, 820), (1, 900), (2, 910), (3, 760)) == pytest.approx(62.3, abs=0.1)


def test_three_rows_at_one_height_are_a_hold_and_hide_nothing():
    assert top((0, 900), (1, 1000), (2, 1001), (3, 999), (4, 800)) == 0.0


def test_a_top_between_two_rows_of_one_height_is_open():
    assert top((0, 940), (0.5, 970), (1.0, 968), (1.5, 880)) > 20.0


def test_a_record_that_ends_at_its_top_hides_nothing_before_it():
    assert top((0, 20), (1, 500), (2, 900)) == 0.0


def test_no_kiln_is_told_to_have_been_hotter_than_a_kiln_can_be():
    """200 °C/h for 0.41 h and 650 °C/h back would end at 1482 °C; no kiln goes above 1450."""
    assert top((0, 1200), (1, 1400), (2, 1100)) == pytest.approx(50.0)
    assert top((0, 1248), (1, 1448), (4, 900)) == 0.0


def test_the_finding_names_the_rows_and_how_much_they_hide():
    """Rows at 5, 6 and 7 h: 820, 960 and 964 °C; 140 °C/h for 0.828 h end 111.9 above the last."""
    log = log_of(GOOD, 60.0)
    found = next(f for f in findings_of(log) if f.kind.value == "rows_far_apart")
    assert found.figures["step_min"] == 60.0
    assert found.figures["reached_c"] == pytest.approx(964.0, abs=0.1)
    assert found.figures["more_delta_c"] == pytest.approx(111.9, abs=0.2)


def test_a_kiln_far_too_cold_is_told_by_rows_far_apart_too():
    corners = [(0, 20), (1, 120), (1.5, 120), (4.5, 720), (9.0, 760), *cooling(9.0, 760)]
    assert {"stall", "short_of_target"} & kinds_of(log_of(corners, 60.0))


def test_a_hold_typed_ten_times_too_long_is_told_by_rows_far_apart_too():
    corners = [*GOOD[:5], (10.5, 1000.0), *cooling(10.5, 1000.0)]
    assert "long_hold" in kinds_of(log_of(corners, 60.0))


def test_an_overshoot_at_the_top_is_told_by_rows_far_apart_too():
    corners = [*GOOD[:4], (7.5, 1060.0), *cooling(7.5, 1060.0)]
    assert "overshoot" in kinds_of(log_of(corners, 30.0))


def test_two_rows_are_straight_by_themselves_and_tell_no_other_rate():
    meant = schedule((110.0, 120.0, 20.0), (200.0, 920.0, 0.0), (80.0, 1000.0, 15.0))
    assert "schedule_differs" not in kinds_of(log_of(GOOD, 60.0), meant)


def test_a_dense_record_of_the_same_firing_says_what_it_said():
    assert kinds_of(log_of(GOOD, 1.0), TO_1000) == set()
    assert len(clock(GOOD)) > 1000
