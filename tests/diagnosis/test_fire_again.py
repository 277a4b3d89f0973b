"""May it be fired again: danger first, then what can burn, then what needs care."""

import pytest

from firing_review.diagnosis.fire_again import fire_again
from firing_review.firing.results import AgainWord, CauseWeighed
from firing_review.firing.said import Said
from firing_review.firing.sheet import Answers
from firing_review.io.cause_files import load_knowledge

KNOWN = load_knowledge()
SAFE = Answers(safety=("none",))


def causes(**shares: float) -> tuple[CauseWeighed, ...]:
    ranked = sorted(shares.items(), key=lambda one: -one[1])
    return tuple(CauseWeighed(name, Said(name), share) for name, share in ranked)


def answer(answers: Answers = SAFE, *, danger: bool = False, **shares: float):
    return fire_again(causes(**shares), KNOWN, answers, danger=danger)


def test_a_firing_that_went_as_meant_is_followed_by_the_next() -> None:
    assert answer(none=0.9, worn_elements=0.1).word is AgainWord.YES


def test_danger_says_no_whatever_the_causes() -> None:
    said = answer(danger=True, none=1.0)
    assert said.word is AgainWord.STOP
    assert "licensed electrician" in said.said.text


def test_without_an_answer_about_safety_nothing_is_allowed() -> None:
    said = answer(Answers(), none=1.0)
    assert said.word is AgainWord.ASK
    assert "safety" in said.said.text


@pytest.mark.parametrize(("share", "word"), [(0.35, AgainWord.NOT_YET), (0.1, AgainWord.YES)])
def test_what_can_burn_counts_before_it_is_the_likeliest(share: float, word: AgainWord) -> None:
    assert answer(uneven_load=1.0 - share, dead_section=share).word is word


def test_several_that_can_burn_count_together() -> None:
    said = answer(heavy_load=0.6, dead_section=0.25, low_supply=0.15)
    assert said.word is AgainWord.NOT_YET
    assert said.said.text.startswith("First find and mend the section")


def test_wear_is_fired_with_care() -> None:
    assert answer(worn_elements=0.7, none=0.3).word is AgainWord.WITH_CARE


def test_without_causes_nothing_is_said() -> None:
    assert answer() is None
