import pytest

from firing_review.diagnosis.next_check import best_check
from firing_review.diagnosis.observations import Observation, surely
from firing_review.io.cause_files import load_knowledge

KNOWN = load_knowledge()
POWERED = {k.check.id for c in KNOWN.causes for k in c.checks if k.power_on}


def seen(**facts: str) -> list[Observation]:
    return [surely(fact, outcome) for fact, outcome in facts.items()]


def test_wear_against_supply_is_settled_without_a_live_reading_first() -> None:
    check = best_check(seen(power="low", course="far_behind", step="none"), KNOWN)
    assert check.id in {"glow", "hours"}
    assert check.who in {"look only", "cold and unplugged"}


def test_once_the_history_is_known_the_meter_is_next() -> None:
    told = seen(power="down", course="far_behind", onset="gradual", age="middle", glow="all_glow")
    assert best_check(told, KNOWN).id == "cold_ohms"


def test_a_cold_section_is_looked_at_first() -> None:
    told = seen(shelves="one_cold", onset="sudden", said_load="usual")
    assert best_check(told, KNOWN).id == "glow"


def test_shelves_hotter_than_the_log_ask_for_a_look_at_the_probe() -> None:
    assert best_check(seen(shelves="all_hot", course="on_line"), KNOWN).id == "probe_place"


def test_a_cause_that_is_hardly_possible_is_not_what_is_checked_next() -> None:
    told = seen(shelves="all_cold", course="on_line", onset="gradual", goal="fits", load="usual")
    assert best_check(told, KNOWN).id == "probe_place"


def test_a_leading_fault_is_confirmed_by_its_own_check_where_none_tells_much() -> None:
    told = seen(gap="resumed", course="on_line", shelves="even")
    assert best_check(told, KNOWN).id == "ask"
    assert best_check([*told, *seen(said_end="power_cut")], KNOWN) is None


def test_lost_readings_are_no_reason_to_power_up() -> None:
    check = best_check(seen(shelves="all_far_cold"), KNOWN)
    assert check.id not in POWERED


@pytest.mark.parametrize(
    "facts",
    [
        {"after": "stays_hot"},
        {"danger": "heats_when_off"},
        {"after": "stays_hot", "sections": "one_far_hot", "said_end": "found_hot"},
    ],
)
def test_heat_without_demand_never_leads_to_a_check_with_the_power_on(facts) -> None:
    check = best_check(seen(**facts), KNOWN)
    assert check is None or check.id not in POWERED


def test_with_a_sign_of_danger_nothing_with_the_power_on_is_left() -> None:
    for facts in ({"power": "down"}, {"shelves": "one_cold"}, {"loss": "more"}):
        check = best_check(seen(**facts), KNOWN, power_may_be_on=False)
        assert check is None or check.id not in POWERED


def test_where_everything_is_known_no_check_is_named() -> None:
    everything = [surely(f, max(k.ordinary, key=k.ordinary.get)) for f, k in KNOWN.facts.items()]
    assert best_check(everything, KNOWN) is None


def test_more_effort_for_the_same_answer_is_not_advised() -> None:
    # volts and amps both need the electrician; what a person can read cold comes first
    told = seen(power="far_down", course="far_behind", onset="sudden")
    assert best_check(told, KNOWN).who != "electrician"
