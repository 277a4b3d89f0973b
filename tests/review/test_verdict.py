"""What stands at the top: safety before all, the load before the kiln, silence never "fine"."""

from dataclasses import replace

import numpy as np
from firings import GOOD, TO_1000, Corners, cooling, log_of

from firing_review.firing.cones import ConeKind, ConeNumber, ShelfCone
from firing_review.firing.results import Light
from firing_review.firing.sheet import Answers, Given
from firing_review.io.tables import load_tables
from firing_review.report.text import review_text
from firing_review.report.wording import render_all
from firing_review.review.pipeline import review_firing
from firing_review.review.review import Review

GOOD_LOG = Given(log_of(GOOD), "good", TO_1000, goal_cone=ConeNumber("06"))
LEVEL = [(6.75 + t, 600.0 + 400.0 * float(np.exp(-0.5 * t))) for t in np.arange(0.1, 20.0, 0.1)]
STUCK: Corners = [*GOOD[:6], *LEVEL]


def review(given: Given) -> Review:
    return review_firing(given, load_tables())


def test_safety_that_was_not_asked_is_never_fine() -> None:
    assert review(GOOD_LOG).verdict.lights.safety is Light.NOT_ASKED


def test_a_good_firing_is_said_to_have_followed_its_schedule() -> None:
    done = review(GOOD_LOG)
    assert "followed its schedule to 1000 °C" in render_all(done.verdict.sentences)
    assert done.verdict.lights.kiln is Light.FINE


def test_heat_without_demand_stops_everything_and_replaces_the_plan() -> None:
    done = review(replace(GOOD_LOG, log=log_of(STUCK)))
    assert done.verdict.lights.safety is Light.STOP
    assert render_all(done.verdict.sentences).startswith("Switch off at the breaker")
    assert done.next_firing.options == ()
    assert "breaker" in render_all(done.next_firing.said)


def test_a_danger_sign_replaces_all_refire_advice() -> None:
    done = review(replace(GOOD_LOG, answers=Answers(safety=("hot_plug",))))
    assert done.verdict.lights.safety is Light.STOP
    assert done.next_firing.options == ()
    assert done.next_firing.refire is None


def test_no_danger_sign_reported_is_said_in_these_words() -> None:
    done = review(replace(GOOD_LOG, answers=Answers(safety=("none",))))
    assert done.verdict.lights.safety is Light.FINE


def test_cones_go_before_the_log() -> None:
    upright = tuple(
        ShelfCone(shelf, "", ConeNumber(n), ConeKind.SELF_SUPPORTING, bend)
        for shelf in ("bottom", "top")
        for n, bend in (("08", 60.0), ("07", 5.0), ("06", 0.0))
    )
    done = review(replace(GOOD_LOG, cones=upright))
    assert "cooler than meant" in render_all(done.verdict.sentences)
    assert done.verdict.lights.load is Light.WATCH


def test_a_stopped_firing_leads_with_where_it_stopped() -> None:
    stopped: Corners = [(0, 20), (1, 120), (1.5, 120), (4.0, 620), *cooling(4.0, 620)]
    text = review_text(review(replace(GOOD_LOG, log=log_of(stopped))))
    assert "Heating ended at 6" in text
    assert "licensed electrician" in text
