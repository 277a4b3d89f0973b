import numpy as np
import pytest
from cone_packs import LAWS, SIX, cone_6_firing
from hypothesis import given, settings
from hypothesis import strategies as st

from firing_review.physics.cone_law import law_of
from firing_review.physics.cones import dwell_of, log_work_done
from firing_review.planning.top_curve import Change, find_marks, take_apart

LAW = law_of(LAWS, SIX)
FIRING = cone_6_firing()


def curve_of(firing):
    hours, values = firing.log.elapsed_h, firing.reading_c
    return take_apart(hours, values, find_marks(hours, values, firing.peak_c))


def ln_work(dwell) -> float:
    return float(log_work_done(dwell, LAW))


def test_the_parts_of_a_firing_do_its_whole_work() -> None:
    whole = dwell_of(FIRING.log.elapsed_h, FIRING.reading_c)
    assert ln_work(curve_of(FIRING).changed(Change())) == pytest.approx(ln_work(whole), abs=1e-3)


def test_the_marks_stand_where_the_firing_turns() -> None:
    marks = curve_of(FIRING).marks
    assert marks.rate_c_per_h == pytest.approx(60.0, rel=0.03)
    assert marks.hold_h * 60.0 == pytest.approx(10.0, abs=2.5)


# what is tried on the curve, and a firing that was really made so
MADE = [
    (Change(extra_hold_min=30.0), {"hold_min": 40.0}),
    (Change(higher_c=12.0), {"top_c": 1227.0}),
    (Change(higher_c=-12.0), {"top_c": 1203.0}),
    (Change(last_rate_c_per_h=30.0), {"rate": 30.0}),
    (Change(last_rate_c_per_h=110.0), {"rate": 110.0}),
]


@pytest.mark.parametrize(("change", "how"), MADE, ids=["hold", "higher", "lower", "slow", "fast"])
def test_a_change_tried_does_what_a_firing_made_so_does(change, how) -> None:
    made = cone_6_firing(**how)
    real = ln_work(dwell_of(made.log.elapsed_h, made.reading_c))
    assert ln_work(curve_of(FIRING).changed(change)) == pytest.approx(real, abs=0.05)


def test_a_hold_can_be_taken_off_but_no_more_than_there_is() -> None:
    curve = curve_of(FIRING)
    less, none, beyond = (
        ln_work(curve.changed(Change(extra_hold_min=-m))) for m in (5.0, 20.0, 500.0)
    )
    assert less > none
    assert none == pytest.approx(beyond)


@settings(max_examples=30)
@given(
    st.floats(-10.0, 200.0), st.floats(0.5, 50.0), st.floats(20.0, 140.0), st.floats(-40.0, 40.0)
)
def test_more_hold_slower_or_hotter_is_always_more_work(hold, more, rate, higher) -> None:
    curve = curve_of(FIRING)
    base = ln_work(curve.changed(Change(hold, rate, higher)))
    assert ln_work(curve.changed(Change(max(hold, 0.0) + more, rate, higher))) > base
    assert ln_work(curve.changed(Change(hold, rate / 1.1, higher))) > base
    assert ln_work(curve.changed(Change(hold, rate, higher + 1.0))) > base


def test_a_firing_without_a_climb_to_measure_still_has_marks() -> None:
    hours = np.linspace(0.0, 1.0, 61)
    marks = find_marks(hours, np.full(61, 1000.0), 1000.0)
    assert np.isfinite(marks.rate_c_per_h)
