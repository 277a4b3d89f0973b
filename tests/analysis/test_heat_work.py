import numpy as np
import pytest
from firings import GOOD, firing_of, log_of

from firing_review.analysis.heat_work import cone_so_far, weigh_heat
from firing_review.firing.cones import ConeNumber
from firing_review.io.tables import load_tables

TABLE = load_tables().cones


def test_the_cone_so_far_ends_where_the_whole_curve_does() -> None:
    firing = firing_of(log_of(GOOD))
    heat = weigh_heat(firing, ConeNumber("06"), TABLE)[0]
    assert heat.rank_so_far[-1] == pytest.approx(heat.cone_equivalent, abs=0.02)


def test_the_cone_so_far_only_ever_rises() -> None:
    so_far = cone_so_far(firing_of(log_of(GOOD)), TABLE)
    known = so_far[np.isfinite(so_far)]
    assert (np.diff(known) >= 0.0).all()
    assert known[0] < 5.0


def test_before_the_coolest_cone_there_is_none() -> None:
    heat = weigh_heat(firing_of(log_of(GOOD)), None, TABLE)[0]
    assert heat.rank_at(60) is None
    assert heat.rank_at(10_000_000) is None
