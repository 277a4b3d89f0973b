import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firing_review.physics.bend_law import bend_deg, share_of_work


def test_an_unmoved_cone_did_no_work_and_the_end_point_is_all_of_it() -> None:
    assert float(share_of_work(0.0)) == pytest.approx(0.0, abs=1e-12)
    assert float(share_of_work(90.0)) == pytest.approx(1.0)


# closed form 1 − ln tan(φ/2) / ln tan 4°, worked out by hand for φ = 18.5, 47.1 and 75.7°
@pytest.mark.parametrize(("phi", "share"), [(18.5, 0.318), (47.1, 0.688), (75.7, 0.905)])
def test_shares_of_the_work_by_the_closed_form(phi, share) -> None:
    assert float(share_of_work((phi - 8.0) * 90.0 / 82.0)) == pytest.approx(share, abs=1e-3)


@given(st.floats(0.0, 129.0))
def test_bend_and_share_are_each_others_inverse(bend) -> None:
    assert float(bend_deg(share_of_work(bend))) == pytest.approx(bend, abs=1e-6)


@given(st.floats(0.0, 3.0), st.floats(0.001, 1.0))
def test_more_work_never_bends_less(share, more) -> None:
    assert float(bend_deg(share + more)) >= float(bend_deg(share))


def test_a_cone_lies_flat_however_much_more_it_gets() -> None:
    assert bend_deg(np.array([2.0, 50.0, 1e6])).tolist() == pytest.approx(
        [129.0, 130.0, 130.0], abs=1.5
    )
