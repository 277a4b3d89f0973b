import pytest
from firings import GOOD, log_of
from hypothesis import given
from hypothesis import strategies as st

from firing_review.diagnosis.diagnose import possible
from firing_review.diagnosis.next_check import best_check
from firing_review.diagnosis.observations import Observation, surely
from firing_review.diagnosis.weigh import probabilities, weigh_causes
from firing_review.firing.kiln import Kiln, Supply
from firing_review.firing.log import FiringLog
from firing_review.firing.sheet import Given
from firing_review.io.cause_files import load_knowledge

KNOWN = load_knowledge()
FACTS = sorted(KNOWN.facts)
HEALTHY = [
    surely("pace", "on_line"),
    surely("ending", "reached"),
    surely("power", "normal"),
    surely("shelves", "even"),
    surely("after", "by_itself"),
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
    forwards, backwards = probabilities(seen, KNOWN), probabilities(seen[::-1], KNOWN)
    assert forwards == pytest.approx(backwards)


@given(observations())
def test_the_next_check_is_never_one_that_was_answered(seen) -> None:
    check = best_check(seen, KNOWN)
    looked = {o.fact for o in seen}
    if check is not None:
        facts = {f for c in KNOWN.causes for f, k in c.checks if k.id == check.id}
        assert facts - looked


def test_a_healthy_firing_is_named_so() -> None:
    assert weigh_causes(HEALTHY, KNOWN)[0].id == "none"


def test_a_measurement_in_doubt_moves_less_than_a_sure_one() -> None:
    sure = probabilities([surely("shelves", "all_cold")], KNOWN)["probe_reads_high"]
    doubtful = Observation("shelves", {"all_cold": 0.6, "even": 0.4})
    assert probabilities([doubtful], KNOWN)["probe_reads_high"] < sure


def test_one_open_circuit_and_a_low_supply_are_named_together() -> None:
    seen = [surely("ohms", "one_open"), surely("glow", "one_dark"), surely("volts", "low")]
    first = weigh_causes(seen, KNOWN)[0]
    assert (first.id, first.together_with) == ("dead_section", "low_supply")


def test_lost_power_alone_leaves_wear_and_supply_open() -> None:
    causes = weigh_causes([surely("power", "down"), surely("pace", "far_behind")], KNOWN)
    assert {c.id for c in causes[:3]} >= {"worn_elements", "low_supply"}
    assert causes[0].probability < 0.8


def test_the_meter_parts_wear_from_supply() -> None:
    slow = [surely("power", "down")]
    worn = weigh_causes([*slow, surely("ohms", "all_high"), surely("volts", "as_rated")], KNOWN)
    supply = weigh_causes([*slow, surely("ohms", "as_rated"), surely("volts", "low")], KNOWN)
    assert (worn[0].id, supply[0].id) == ("worn_elements", "low_supply")
    assert min(worn[0].probability, supply[0].probability) > 0.75


def test_a_kiln_on_one_phase_has_no_line_to_lose(make_log) -> None:
    one_phase = Given(make_log, kiln=Kiln(supply=Supply.SINGLE_PHASE))
    assert "lost_phase" not in {c.id for c in possible(KNOWN, one_phase).causes}
    assert "lost_phase" in {c.id for c in possible(KNOWN, Given(make_log)).causes}


@pytest.fixture
def make_log() -> FiringLog:
    return log_of(GOOD)


CANNOT_TELL = [
    [],
    [surely("pace", "a_little_behind")],
    [surely("ending", "short")],
    [surely("pace", "far_behind"), surely("ending", "short")],
    [surely("power", "down")],
    [surely("power", "down"), surely("onset", "gradual"), surely("volts", "low")],
    [surely("shelves", "all_hot")],
    [surely("noise", "some")],
    [surely("shelves", "one_cold")],
    [surely("ending", "cut_off"), surely("gap", "none"), surely("typed", "top")],
]


@pytest.mark.parametrize("seen", CANNOT_TELL, ids=range(len(CANNOT_TELL)))
def test_where_nothing_decides_nothing_is_said_with_eighty_percent(seen) -> None:
    assert weigh_causes(seen, KNOWN)[0].probability < 0.8
