import pytest
from hypothesis import given
from hypothesis import strategies as st

from firing_review.diagnosis.explain import weigh_causes
from firing_review.diagnosis.next_check import best_check
from firing_review.diagnosis.observations import Observation, surely
from firing_review.diagnosis.told_signs import supply_observation
from firing_review.diagnosis.weigh import probabilities, weigh
from firing_review.firing.kiln import Kiln, Supply
from firing_review.io.cause_files import load_knowledge

KNOWN = load_knowledge()
FACTS = sorted(KNOWN.facts)
HEALTHY = [
    surely("course", "on_line"),
    surely("power", "normal"),
    surely("shelves", "even"),
    surely("after", "by_itself"),
    surely("reading", "sound"),
]


@st.composite
def observations(draw) -> list[Observation]:
    facts = draw(st.lists(st.sampled_from(FACTS), unique=True, max_size=12))
    return [surely(f, draw(st.sampled_from(sorted(KNOWN.facts[f].ordinary)))) for f in facts]


@given(observations())
def test_probabilities_sum_to_one_and_none_and_other_are_always_among_them(seen) -> None:
    causes = weigh_causes(seen, KNOWN)
    assert sum(c.probability for c in causes) == pytest.approx(1.0)
    assert {"none", "other"} <= {c.id for c in causes}
    ranked = [c.probability for c in causes]
    assert ranked == sorted(ranked, reverse=True)


@given(observations())
def test_the_order_of_observations_changes_nothing(seen) -> None:
    forwards, backwards = weigh(seen, KNOWN), weigh(seen[::-1], KNOWN)
    assert forwards.shares == pytest.approx(backwards.shares)


@given(observations(), st.sampled_from(FACTS))
def test_what_was_not_looked_at_moves_nothing(seen, fact) -> None:
    outcomes = KNOWN.facts[fact].ordinary
    silent = Observation(fact, dict.fromkeys(outcomes, 1.0 / len(outcomes)))
    if fact not in {o.fact for o in seen}:
        assert probabilities([*seen, silent], KNOWN) == pytest.approx(probabilities(seen, KNOWN))


@given(observations())
def test_the_next_check_is_never_one_that_was_answered(seen) -> None:
    check = best_check(seen, KNOWN)
    looked = {o.fact for o in seen}
    if check is not None:
        assert {k.fact for c in KNOWN.causes for k in c.checks if k.check == check} - looked


@given(observations())
def test_a_main_cause_and_its_second_are_two_faults(seen) -> None:
    for main, second in weigh(seen, KNOWN).second.items():
        assert main != second
        assert not {main, second} & {"none", "other"}


def test_a_healthy_firing_is_named_so() -> None:
    first = weigh_causes(HEALTHY, KNOWN)[0]
    assert first.id == "none"
    assert first.probability > 0.5


def test_a_measurement_in_doubt_moves_less_than_a_sure_one() -> None:
    sure = probabilities([surely("shelves", "all_cold")], KNOWN)["probe_reads_high"]
    doubtful = Observation("shelves", {"all_cold": 0.6, "even": 0.4})
    assert probabilities([doubtful], KNOWN)["probe_reads_high"] < sure


def test_signs_of_one_thing_count_once() -> None:
    # the same lost readings, seen or said with more words, are one outcome of one fact
    facts = [set(KNOWN.facts[f].ordinary) for f in ("reading", "course", "shelves")]
    assert {"some_lost", "dead", "falls", "jumps"} <= facts[0]
    assert {"far_behind", "stalled", "cut_off"} <= facts[1]
    assert {"all_hot", "one_hot", "cold_and_hot"} <= facts[2]


TWO = [
    ("dead_section", "low_supply", {"ohms": "one_open", "glow": "one_dark", "volts": "low"}),
    ("probe_loose", "worn_elements", {"reading": "many_lost", "ohms": "all_high"}),
    ("opened_hot", "probe_reads_low", {"after": "opened", "shelves": "all_hot"}),
    ("heat_leak", "schedule_mistyped", {"loss": "far_more", "typed": "hold"}),
]


@pytest.mark.parametrize(("one", "other", "seen"), TWO, ids=[f"{a} and {b}" for a, b, _ in TWO])
def test_two_causes_are_named_together_where_neither_explains_everything(one, other, seen) -> None:
    first = weigh_causes([surely(f, o) for f, o in seen.items()], KNOWN)[0]
    assert {first.id, first.together_with} == {one, other}


def test_one_cause_that_explains_everything_stands_alone() -> None:
    seen = {"power": "down", "course": "far_behind", "ohms": "all_high", "onset": "gradual"}
    first = weigh_causes([surely(f, o) for f, o in seen.items()], KNOWN)[0]
    assert (first.id, first.together_with) == ("worn_elements", None)


def test_lost_power_alone_leaves_wear_and_supply_open() -> None:
    causes = weigh_causes([surely("power", "low"), surely("course", "far_behind")], KNOWN)
    assert {c.id for c in causes[:3]} >= {"worn_elements", "low_supply"}
    assert causes[0].probability < 0.8


def test_the_meter_parts_wear_from_supply() -> None:
    slow = [surely("power", "down")]
    worn = weigh_causes([*slow, surely("ohms", "all_high"), surely("volts", "as_rated")], KNOWN)
    supply = weigh_causes([*slow, surely("ohms", "as_rated"), surely("volts", "low")], KNOWN)
    assert (worn[0].id, supply[0].id) == ("worn_elements", "low_supply")
    assert min(worn[0].probability, supply[0].probability) > 0.75


def test_a_kiln_on_one_phase_has_no_line_to_lose() -> None:
    lost = [surely("power", "far_down"), surely("step", "sudden")]
    one, three = (
        supply_observation(Kiln(supply=kind))
        for kind in (Supply.SINGLE_PHASE, Supply.THREE_PHASE_DELTA)
    )
    assert probabilities([*lost, one], KNOWN)["lost_phase"] < 0.01
    assert probabilities([*lost, three], KNOWN)["lost_phase"] > 0.15


def test_what_speaks_for_and_against_stands_with_its_figures() -> None:
    power = Observation("power", {"down": 1.0}, {"power_pct": 80.0, "low_pct": 76.0})
    seen = [power, surely("onset", "sudden"), surely("after", "by_itself")]
    worn = next(c for c in weigh_causes(seen, KNOWN) if c.id == "worn_elements")
    assert worn.speaks_for[0].figures["power_pct"] == 80.0
    assert [s.fact for s in worn.signs_for] == ["power"]
    assert [s.fact for s in worn.signs_against] == ["onset"]
    assert KNOWN.facts["ohms"].question in {s.text for s in worn.not_looked_at}
    assert KNOWN.facts["power"].question not in {s.text for s in worn.not_looked_at}


CANNOT_TELL = [
    {},
    {"course": "behind"},
    {"course": "far_behind"},
    {"course": "far_behind", "onset": "sudden"},
    {"power": "low"},
    {"power": "down", "onset": "gradual", "volts": "low"},
    {"shelves": "all_hot"},
    {"reading": "few_lost"},
    {"shelves": "one_cold"},
    {"course": "cut_off", "gap": "none", "typed": "top"},
]


@pytest.mark.parametrize("seen", CANNOT_TELL, ids=range(len(CANNOT_TELL)))
def test_where_nothing_decides_nothing_is_said_with_eighty_percent(seen) -> None:
    causes = weigh_causes([surely(f, o) for f, o in seen.items()], KNOWN)
    assert causes[0].probability < 0.8
