import numpy as np
import pytest
from firings import GOOD, cooling, firing_of, log_of, schedule
from hypothesis import given, settings
from hypothesis import strategies as st

from firing_review.firing.aligned import StretchKind
from firing_review.firing.schedule import ClockCurve


def test_each_segment_is_found_where_it_was_run() -> None:
    firing = firing_of(log_of(GOOD))
    assert firing.start_h == pytest.approx(0.0, abs=0.06)
    assert firing.peak_c == pytest.approx(1000.0, abs=0.5)
    kinds = [(s.number, s.kind.value) for s in firing.stretches]
    assert kinds == [(1, "climb"), (1, "hold"), (2, "climb"), (3, "climb"), (3, "hold")]
    climbs = [s for s in firing.stretches if s.kind is StretchKind.CLIMB]
    assert [s.rate_c_per_h for s in climbs] == pytest.approx([100.0, 200.0, 80.0], rel=0.03)
    assert all(s.complete for s in firing.stretches)
    assert all(abs(s.behind_min or 0.0) < 3.0 for s in climbs)


def test_holds_are_measured_to_a_minute_or_two() -> None:
    holds = [
        s for s in firing_of(log_of(GOOD, noise_c=0.7)).stretches if s.kind is StretchKind.HOLD
    ]
    assert [s.hold_min for s in holds] == pytest.approx([30.0, 15.0], abs=2.5)


def test_a_kiln_that_is_waited_for_is_found_by_order_and_not_by_the_clock() -> None:
    late = [(0, 20), (1, 120), (1.5, 120), (7.5, 920), (8.5, 1000), (8.75, 1000)]
    firing = firing_of(log_of([*late, *cooling(8.75, 1000.0)]))
    third = firing.stretches[2]
    assert third.planned_rate_c_per_h == 200.0
    assert third.behind_min == pytest.approx(120.0, abs=5.0)
    assert third.end_h == pytest.approx(7.47, abs=0.1)
    last = firing.stretches[3]
    assert last.behind_min == pytest.approx(0.0, abs=4.0)


def test_a_delayed_start_is_found() -> None:
    corners = [(0.0, 20.0), *[(h + 3.0, c) for h, c in GOOD]]
    assert firing_of(log_of(corners)).start_h == pytest.approx(3.0, abs=0.06)


def test_a_programmed_cooling_is_matched_in_order() -> None:
    plan = schedule((200.0, 1000.0, 0.0), (100.0, 800.0, 30.0))
    corners = [(0, 20), (4.9, 1000), (6.9, 800), (7.4, 800), *cooling(7.4, 800.0)]
    stretches = firing_of(log_of(corners), plan).stretches
    cool = next(s for s in stretches if s.kind is StretchKind.COOL)
    assert cool.rate_c_per_h == pytest.approx(-100.0, rel=0.05)
    hold = [s for s in stretches if s.kind is StretchKind.HOLD and s.number == 2]
    assert hold[0].hold_min == pytest.approx(30.0, abs=4.0)


def test_segments_never_reached_have_no_place_in_the_log() -> None:
    corners = [(0, 20), (1, 120), (1.5, 120), (4.0, 620), *cooling(4.0, 620.0)]
    stretches = firing_of(log_of(corners)).stretches
    assert not stretches[2].complete
    assert stretches[2].reached_c == pytest.approx(620.0, abs=5.0)
    assert [s.start_h for s in stretches[3:]] == [None] * len(stretches[3:])


def test_without_a_schedule_ramps_and_holds_are_found_in_the_log_itself() -> None:
    stretches = firing_of(log_of(GOOD), None).stretches
    assert [s.kind.value for s in stretches] == ["climb", "hold", "climb", "climb", "hold"]
    assert stretches[2].rate_c_per_h == pytest.approx(200.0, rel=0.05)


def test_a_curve_tied_to_the_clock_tells_when_behind_became_ahead() -> None:
    curve = ClockCurve((0.0, 1.0, 2.0, 4.0), (20.0, 520.0, 720.0, 920.0))
    corners = [(0, 20), (1, 420), (3, 900), (4, 950), *cooling(4.0, 950.0)]
    firing = firing_of(log_of(corners), curve)
    # behind from the start; 420 + 240 (t - 1) = 720 + 100 (t - 2) at t = 340 / 140 h
    assert [w for _, w in firing.crossings_h] == ["behind", "ahead"]
    assert firing.crossings_h[1][0] == pytest.approx(340.0 / 140.0, abs=0.05)


@settings(max_examples=40, deadline=None)
@given(st.floats(0.0, 6.0), st.sampled_from([0.25, 0.5, 1.0, 2.0]))
def test_the_place_of_a_segment_does_not_hang_on_the_clock_or_the_sampling(
    delay_h: float, every_min: float
) -> None:
    corners = [(0.0, 20.0), *[(h + delay_h + 0.01, c) for h, c in GOOD]]
    firing = firing_of(log_of(corners, every_min))
    rates = [s.rate_c_per_h for s in firing.stretches if s.kind is StretchKind.CLIMB]
    assert rates == pytest.approx([100.0, 200.0, 80.0], rel=0.06)
    assert np.isfinite(firing.reading_c).all()


def test_a_climb_that_is_late_but_as_asked_is_not_at_full_output():
    """Power fails at 700 °C for half an hour; then the controller goes on at its 200 °C/h."""
    cut = [(4.4, 700.0), (4.9, 560.0), (6.7, 920.0), (7.7, 1000.0), (7.95, 1000.0)]
    firing = firing_of(log_of([*GOOD[:3], *cut, *cooling(7.95, 1000.0)]))
    after = (firing.log.elapsed_h > 5.3) & (firing.log.elapsed_h < 6.5)
    assert not firing.full_output[after].any()


def test_a_climb_that_falls_behind_is_at_full_output():
    weak = [(4.0, 600.0), (7.2, 920.0), (8.2, 1000.0), (8.45, 1000.0)]
    firing = firing_of(log_of([*GOOD[:3], *weak, *cooling(8.45, 1000.0)]))
    slow = (firing.log.elapsed_h > 5.0) & (firing.log.elapsed_h < 7.0)
    assert firing.full_output[slow].all()
