import pytest
from cone_packs import TABLE, TO_CONE_6, cone_6_corners, witness
from firings import GOOD, TO_1000, cooling, firing_of, log_of

from firing_review.analysis.cone_guard import guard_cones, twin_of
from firing_review.analysis.heat_work import weigh_heat
from firing_review.firing.cones import ConeNumber
from firing_review.firing.sheet import Answers, Given

LOW, MID = log_of(GOOD), log_of(cone_6_corners())


def guard(log, plan, goal, cones=(), rated=None):
    cone = ConeNumber(goal) if goal else None
    answers = Answers(ware_rated_cone=ConeNumber(rated) if rated else None)
    given = Given(log, intended=plan, goal_cone=cone, cones=tuple(cones), answers=answers)
    firing = firing_of(log, plan)
    return guard_cones(given, firing, weigh_heat(firing, cone, TABLE), TABLE)


def test_what_fits_together_is_passed_in_silence() -> None:
    cones = [witness("top", n, 0.0) for n in ("07", "06", "05")]
    assert guard(LOW, TO_1000, "06", cones, "06") == ()
    assert guard(MID, TO_CONE_6, "6", [witness("top", "6", 0.0)], "6") == ()


def test_06_meant_and_6_fired_is_named_with_the_zero() -> None:
    said = guard(MID, TO_CONE_6, "06")
    assert len(said) == 2
    assert all(s.figures["twin_cone"] == "6" for s in said)
    assert "the schedule makes" in said[0].text
    assert "set for cone" in said[1].text


def test_6_meant_and_06_fired_is_named_with_the_zero() -> None:
    assert [s.figures["twin_cone"] for s in guard(LOW, TO_1000, "6")] == ["06", "06"]


def test_a_schedule_for_another_cone_is_named_without_a_twin() -> None:
    said = guard(LOW, TO_1000, "02")
    assert "twin_cone" not in said[0].figures
    assert said[0].figures["goal_cone"] == "02"


def test_ware_rated_for_the_other_cone_is_named() -> None:
    (said,) = guard(MID, TO_CONE_6, "6", rated="06")
    assert "rated" in said.text
    assert (said.figures["goal_plain"], said.figures["twin_plain"]) == ("6", "06")


def test_cones_on_the_shelves_of_the_other_series_are_named() -> None:
    (said,) = guard(LOW, TO_1000, "06", [witness("top", n, 0.0) for n in ("5", "6", "7")])
    assert "a zero was lost" in said.text


def test_a_log_that_fell_short_of_its_schedule_does_not_accuse_the_goal() -> None:
    short = log_of([(0, 20), (4.0, 620), (7.0, 1000), *cooling(7.0, 1000)])
    assert guard(short, TO_CONE_6, "6") == ()


def test_a_log_without_a_schedule_is_still_held_against_the_goal() -> None:
    (said,) = guard(LOW, None, "6")
    assert said.figures["twin_cone"] == "06"


def test_without_a_goal_the_ware_is_held_against_the_schedule() -> None:
    (said,) = guard(LOW, TO_1000, None, rated="6")
    assert "rated" in said.text
    assert guard(LOW, TO_1000, None, rated="06") == ()
    assert guard(LOW, TO_1000, None) == ()


@pytest.mark.parametrize(
    ("number", "twin"), [("06", "6"), ("6", "06"), ("05.5", "5.5"), ("11", "011")]
)
def test_the_twin_has_its_zero_lost_or_added(number, twin) -> None:
    assert twin_of(ConeNumber(number)) == ConeNumber(twin)


def test_a_number_without_a_twin_has_none() -> None:
    assert twin_of(ConeNumber("022")) is None
