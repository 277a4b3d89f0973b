import pytest
from firings import GOOD, TO_1000, log_of

from firing_review.diagnosis import questions
from firing_review.diagnosis.safety import CUT_OFF, SWITCH_OFF, in_danger
from firing_review.firing.cones import ConeKind, ConeNumber, ShelfCone
from firing_review.firing.findings import Finding, FindingKind, Severity
from firing_review.firing.results import AgainWord, LoadWord
from firing_review.firing.sheet import Answers, Given
from firing_review.io.answers_table import SAFETY
from firing_review.io.tables import load_tables
from firing_review.review.pipeline import review_firing

HEATS = Finding(FindingKind.HEATS_WITHOUT_DEMAND, Severity.FAULT, 8.0, 12.0, "heats", {})
UPRIGHT = tuple(
    ShelfCone(shelf, "", ConeNumber("06"), ConeKind.SELF_SUPPORTING, 20.0)
    for shelf in ("bottom", "top")
)


SIGNS = ("burning_smell", "hot_plug", "tripped_breaker", "heats_when_off")


def test_the_question_asks_for_every_sign_that_a_sheet_may_name() -> None:
    assert [value for value, _ in questions.SAFETY.choices] == ["none", *SIGNS]
    assert ("none", *SIGNS) == SAFETY


@pytest.mark.parametrize("sign", SIGNS)
def test_one_sign_is_enough(sign: str) -> None:
    assert in_danger(Answers(safety=(sign,)), ())


def test_heat_without_demand_in_the_log_is_enough() -> None:
    assert in_danger(Answers(safety=("none",)), (HEATS,))


def test_no_sign_and_no_answer_are_no_danger() -> None:
    assert not in_danger(Answers(safety=("none",)), ())
    assert not in_danger(Answers(), ())


def test_the_words_are_those_of_the_rules_for_safety() -> None:
    assert "Switch off at the breaker and do not fire" in SWITCH_OFF.text
    assert "licensed electrician" in SWITCH_OFF.text
    assert "local codes come first" in CUT_OFF.text.text
    assert CUT_OFF.who == "electrician"


@pytest.mark.parametrize("sign", SIGNS)
def test_with_a_sign_of_danger_nothing_advises_to_fire_again(sign: str) -> None:
    given = Given(
        log_of(GOOD),
        intended=TO_1000,
        goal_cone=ConeNumber("06"),
        cones=UPRIGHT,
        answers=Answers(safety=(sign,)),
    )
    review = review_firing(given, load_tables())
    assert review.next_check is CUT_OFF
    assert [a.word for a in review.load_advice] == [LoadWord.WAIT]
    assert review.fire_again is not None
    assert review.fire_again.word is AgainWord.STOP
    assert review.next_firing.options == ()
    assert review.next_firing.refire is None
    assert review.next_firing.restart is None


def test_a_kiln_that_heats_while_off_is_named_so() -> None:
    given = Given(log_of(GOOD), intended=TO_1000, answers=Answers(safety=("heats_when_off",)))
    assert review_firing(given, load_tables()).causes[0].id == "stuck_on_section"
