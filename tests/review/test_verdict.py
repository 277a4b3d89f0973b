"""What stands at the top: safety before all, the load before the kiln, silence never "fine"."""

from dataclasses import replace

import numpy as np
import pytest
from firings import GOOD, TO_1000, Corners, cooling, log_of, sections_of

from firing_review.firing.cones import ConeKind, ConeNumber, ShelfCone
from firing_review.firing.findings import FindingKind
from firing_review.firing.results import Light
from firing_review.firing.sheet import Answers, Given
from firing_review.io.tables import load_tables
from firing_review.report.text import review_text
from firing_review.report.wording import render, render_all
from firing_review.review.pipeline import review_firing
from firing_review.review.review import Review
from firing_review.review.verdict import say_verdict

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


@pytest.mark.parametrize(
    ("highest", "light", "told"),
    [
        (0.92, Light.WATCH, "less power than usual"),
        (0.94, Light.FINE, "nothing seen"),
    ],
)
def test_a_kiln_said_to_lack_power_is_not_said_to_show_nothing(highest, light, told) -> None:
    done = review(GOOD_LOG)
    weak = replace(done.elements, power_ratio=0.88, power_low=0.84, power_high=highest)
    verdict = say_verdict(done.given, done.firing, (), done.heat_work, (), weak)
    assert (verdict.lights.kiln, render(verdict.kiln_word)) == (light, told)
    assert ("of its usual power" in render_all(verdict.sentences)) is (light is Light.WATCH)


def test_a_kiln_that_stopped_short_while_it_still_climbed_is_not_said_to_show_nothing() -> None:
    asked = replace(
        TO_1000,
        segments=(*TO_1000.segments[:-1], replace(TO_1000.segments[-1], target_c=1060.0)),
    )
    climbing = log_of([*GOOD[:5], *cooling(6.5, 1000.0)])
    done = review(replace(GOOD_LOG, log=climbing, intended=asked))
    assert FindingKind.ENDED_EARLY in {f.kind for f in done.findings}
    assert done.verdict.lights.kiln is Light.WATCH
    assert render(done.verdict.kiln_word) == "worth a look"


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


def pack(shelf: str, *bends: float) -> tuple[ShelfCone, ...]:
    return tuple(
        ShelfCone(shelf, "", ConeNumber(n), ConeKind.SELF_SUPPORTING, bend)
        for n, bend in zip(("08", "07", "06", "05"), bends, strict=True)
    )


def load_sentence(*cones: ShelfCone) -> str:
    return render(review(replace(GOOD_LOG, cones=cones)).verdict.sentences[0])


def test_one_cold_shelf_is_named_with_its_cone() -> None:
    told = load_sentence(*pack("bottom", 60.0, 5.0, 0.0, 0.0))
    assert told.startswith(
        "By the cones, bottom stayed cooler than meant: about cone 09 + 0.9 (about 940 °C)"
    )


def test_two_cold_shelves_are_named_with_the_range_of_their_cones() -> None:
    told = load_sentence(*pack("bottom", 60.0, 5.0, 0.0, 0.0), *pack("top", 110.0, 60.0, 3.0, 0.0))
    meant = "bottom and top stayed cooler than meant: cone 09 + 0.9 (about 940 °C) to 08 + 0.9"
    assert meant in told


COLD, MEANT, HOT = (60.0, 5.0, 0.0, 0.0), (130.0, 120.0, 90.0, 5.0), (130.0, 130.0, 130.0, 130.0)


@pytest.mark.parametrize(
    ("shelves", "told"),
    [
        ((MEANT, MEANT), "as meant, by the cones"),
        ((COLD, COLD), "cooler than meant, by the cones"),
        ((COLD, MEANT), "cooler than meant on a shelf"),
        ((HOT, HOT), "hotter than meant, by the cones"),
        ((HOT, MEANT), "hotter than meant on a shelf"),
        ((COLD, HOT), "hotter and cooler than meant"),
    ],
)
def test_the_light_of_the_load_tells_one_shelf_from_all(shelves, told) -> None:
    bottom, top = shelves
    cones = (*pack("bottom", *bottom), *pack("top", *top))
    assert render(review(replace(GOOD_LOG, cones=cones)).verdict.load_word) == told


def test_where_a_shelf_is_only_bounded_the_verdict_says_a_bound_for_all() -> None:
    cold = load_sentence(*pack("bottom", 0.0, 0.0, 0.0, 0.0), *pack("top", 60.0, 5.0, 0.0, 0.0))
    assert "bottom and top stayed cooler than meant: cone 09 + 0.9" in cold
    assert cold.endswith("or cooler.")
    hot = load_sentence(*pack("bottom", 130.0, 130.0, 130.0, 130.0))
    assert "bottom went hotter than meant: cone 0" in hot
    assert hot.endswith("or hotter.")


def test_cones_that_contradict_each_other_come_before_the_load() -> None:
    turned = pack("bottom", 0.0, 5.0, 110.0, 110.0)
    first = load_sentence(*turned)
    assert first.startswith("Cones contradict each other on bottom: a pack may stand reversed")


def test_a_goal_that_contradicts_the_schedule_comes_first_of_all_but_danger() -> None:
    mixed = replace(GOOD_LOG, goal_cone=ConeNumber("6"))
    first = render(review(mixed).verdict.sentences[0])
    assert "The goal is cone 6" in first
    assert "schedule makes cone 06" in first
    danger = review(replace(mixed, answers=Answers(safety=("hot_plug",))))
    assert render(danger.verdict.sentences[0]).startswith("Switch off at the breaker")


def test_a_log_that_fell_short_is_no_contradiction() -> None:
    stopped: Corners = [(0, 20), (1, 120), (1.5, 120), (4.0, 620), *cooling(4.0, 620)]
    told = render_all(review(replace(GOOD_LOG, log=log_of(stopped))).verdict.sentences)
    assert "The goal is" not in told


def test_the_gap_of_a_section_is_told_alike_in_verdict_and_causes() -> None:
    cold: Corners = [(h, 20 + 0.8 * (t - 20)) for h, t in GOOD]
    done = review(replace(GOOD_LOG, log=sections_of(top=GOOD, middle=GOOD, bottom=cold)))
    gap = next(f for f in done.findings if f.kind is FindingKind.ZONE_GAP)
    signs = [s for c in done.causes for s in c.signs_for if s.fact == "sections"]
    assert signs
    for sign in signs:
        assert sign.said.figures["apart_delta_c"] == gap.figures["size_delta_c"]
        assert "on average" in sign.said.text
        assert (sign.place, sign.at_h) == ("bottom", gap.start_h)
    assert "on average, up to" in gap.summary.text
    assert gap.figures["widest_delta_c"] > gap.figures["size_delta_c"]


def test_a_stopped_firing_leads_with_where_it_stopped() -> None:
    stopped: Corners = [(0, 20), (1, 120), (1.5, 120), (4.0, 620), *cooling(4.0, 620)]
    text = review_text(review(replace(GOOD_LOG, log=log_of(stopped))))
    assert "Heating ended at 6" in text
    assert "licensed electrician" in text
