import pytest
from firings import GOOD, TO_1000, firing_of, log_of

from firing_review.diagnosis.evidence import Reviewed
from firing_review.diagnosis.load import load_advice
from firing_review.firing.cones import ConeNumber
from firing_review.firing.results import (
    ChannelHeatWork,
    ElementsJudged,
    LoadWord,
    ShelfAdvice,
    ShelfHeat,
)
from firing_review.firing.said import Said
from firing_review.firing.sheet import Answers, Given

SIX = ConeNumber("6")


def shelf(word: str, rank: float | None, label: str | None, **figures: object) -> ShelfHeat:
    return ShelfHeat("bottom", None, None, None, rank, label, word, figures=figures)


def advice(
    *shelves: ShelfHeat, danger: bool = False, goal: ConeNumber | None = SIX, **answers: object
) -> tuple[ShelfAdvice, ...]:
    given = Given(log_of(GOOD), intended=TO_1000, goal_cone=goal, answers=Answers(**answers))
    return _advice(given, shelves, (), danger=danger)


def _advice(given, shelves, heat, *, danger=False) -> tuple[ShelfAdvice, ...]:
    firing = firing_of(given.log)
    reviewed = Reviewed(given, firing, (), (), heat, shelves, ElementsJudged(), ())
    return load_advice(reviewed, danger=danger)


def words(found: tuple[ShelfAdvice, ...]) -> list[str]:
    return [a.word.value for a in found]


def test_an_even_shelf_is_kept() -> None:
    assert words(advice(shelf("even", SIX.rank + 0.1, "6.1"))) == ["keep"]


def test_a_cold_glaze_is_refired_to_the_goal_after_tapping_each_piece() -> None:
    found = advice(shelf("cold", SIX.rank - 2.0, "4"), ware="glaze")
    assert words(found) == ["refire"]
    assert "Tap each piece first" in found[0].said.text
    assert found[0].said.figures["goal_cone"] == "6"
    assert found[0].got == Said("about cone {got_cone}", {"got_cone": "4"})


@pytest.mark.parametrize(("cones_low", "word"), [(2.0, "keep"), (5.0, "refire")])
def test_bisque_a_few_cones_low_is_glazed_as_it_is(cones_low: float, word: str) -> None:
    goal = ConeNumber("04")
    low = shelf("cold", goal.rank - cones_low, "06")
    assert words(advice(low, goal=goal, ware="bisque")) == [word]


def test_ware_rated_below_the_goal_is_not_refired_before_that_is_settled() -> None:
    found = advice(shelf("cold", SIX.rank - 2.0, "4"), ware_rated_cone=ConeNumber("04"))
    assert words(found) == ["look"]
    assert "Settle" in found[0].said.text


@pytest.mark.parametrize(("cones_over", "word"), [(1.0, "look"), (4.0, "discard")])
def test_a_hot_shelf_is_looked_at_and_a_ruined_one_sorted_out(
    cones_over: float, word: str
) -> None:
    assert words(advice(shelf("hot", SIX.rank + cones_over, "9"))) == [word]


def test_a_bound_far_past_the_goal_counts() -> None:
    far = shelf("hot", None, None, at_least_cone="9.6", at_least_rank=SIX.rank + 4.6)
    found = advice(far)
    assert words(found) == ["discard"]
    assert found[0].got == Said("cone {got_cone} or hotter", {"got_cone": "9.6"})


def test_a_shelf_that_is_only_bounded_from_above_is_said_to_be_cooler() -> None:
    found = advice(shelf("cold", None, None, at_most_cone="4", at_most_rank=SIX.rank - 2.0))
    assert found[0].got == Said("cone {got_cone} or cooler", {"got_cone": "4"})


def test_cones_that_do_not_tell_say_so() -> None:
    found = advice(shelf("", None, None))
    assert words(found) == ["look"]
    assert "do not tell" in found[0].said.text


def test_glass_is_not_judged_by_cones() -> None:
    found = advice(shelf("cold", SIX.rank - 2.0, "4"), ware="fused glass")
    assert "Cones do not judge glass" in found[0].said.text


@pytest.mark.parametrize(
    ("fraction", "word"), [(0.3, "refire"), (1.0, "keep"), (2.0, "look"), (None, None)]
)
def test_without_cones_the_log_speaks_and_says_that_it_is_only_the_log(fraction, word) -> None:
    given = Given(log_of(GOOD), intended=TO_1000, goal_cone=SIX)
    found = _advice(given, (), (ChannelHeatWork("reading", None, None, fraction),))
    assert words(found) == ([] if word is None else [word])
    assert all(a.said.text.startswith("No cones: by the log") for a in found)


def test_without_a_goal_nothing_is_said() -> None:
    assert advice(shelf("", None, None), goal=None) == ()


def test_danger_comes_before_the_load() -> None:
    found = advice(shelf("cold", SIX.rank - 2.0, "4"), danger=True)
    assert [a.word for a in found] == [LoadWord.WAIT]
    assert "until the kiln is safe" in found[0].said.text
