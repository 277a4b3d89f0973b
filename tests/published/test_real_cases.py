"""Public accounts of firings that went wrong and whose cause was then found.

Source: 27 accounts told in public by kiln owners between 1996 and 2025 (weblogs, mailing lists,
forums), retold neutrally; few and self-selected. Only what was told is given as evidence: answers,
readings, and a log built from the told numbers where there are enough. The expected cause is the
one that was found in the kiln by the people there, never this program's answer.
"""

from dataclasses import dataclass, field

import pytest
from firings import Corners, cooling, log_of, schedule
from outside import outside

from firing_review.diagnosis.explain import weigh_causes
from firing_review.diagnosis.observations import surely
from firing_review.diagnosis.told_signs import answer_observations, reading_observations
from firing_review.firing.kiln import Kiln, Section
from firing_review.firing.schedule import Schedule
from firing_review.firing.sheet import OPEN_CIRCUIT, Answers, Given, Readings
from firing_review.io.tables import load_tables
from firing_review.review.pipeline import review_firing

SOURCES = {
    "accounts": (
        "27 public accounts of kiln owners, 1996 to 2025, with the cause that was found "
        "in the kiln; few and self-selected"
    ),
}

TABLES = load_tables()
RINGS = (Section("bottom"), Section("middle"), Section("top"))


@dataclass(frozen=True)
class Account:
    """What was told of one firing, and what was found to be wrong.

    ``seen`` holds what was told and has no answer or reading of its own in a firing sheet.
    """

    found: str
    seen: dict[str, str] = field(default_factory=dict)
    answers: Answers = field(default_factory=Answers)
    readings: Readings = field(default_factory=Readings)
    kiln: Kiln | None = None
    corners: Corners = ()
    meant: Schedule | None = None


def volts(measured: float, rated: float) -> dict[str, object]:
    return {
        "readings": Readings(volts_full_load=measured),
        "kiln": Kiln(rated_volts=rated, sections=RINGS),
    }


TO_CONE_6 = schedule((120.0, 1000.0, 0.0), (60.0, 1204.0, 0.0))

# 2200 °F was set; it stopped by itself at 1750 °F, twice
STOPPED_AT_954: Corners = [
    (0.0, 20.0),
    (6.0, 740.0),
    (9.0, 900.0),
    (11.0, 950.0),
    (13.0, 954.0),
    (15.0, 954.0),
    *cooling(15.0, 954.0),
]
# a hold of 20 minutes was typed as 20 hours; done in 12 h otherwise, at seven still at the top
STILL_AT_THE_TOP: Corners = [
    (0.0, 20.0),
    (8.17, 1000.0),
    (11.7, 1212.0),
    (19.5, 1212.0),
    *cooling(19.5, 1212.0),
]
# set to hold; the next morning it stood at 1858 °F
FOUND_AT_1014: Corners = [
    (0.0, 20.0),
    (2.0, 510.0),
    (2.5, 510.0),
    (6.0, 900.0),
    (9.0, 1000.0),
    (12.0, 1014.0),
]
# bisque to cone 04; power lost at about 1700 °F, restarted fast from nearly cold
LOST_AT_927: Corners = [
    (0.0, 20.0),
    (9.07, 927.0),
    *cooling(9.07, 927.0, hours=14.0, per_h=0.18),
    (23.1, 95.0),
    (26.5, 1060.0),
    *cooling(26.5, 1060.0),
]

CASES = {
    1: Account(
        "dead_section",
        answers=Answers(onset="sudden"),
        corners=STOPPED_AT_954,
        meant=TO_CONE_6,
    ),
    3: Account(
        "probe_leads_reversed",
        {"shelves": "all_far_hot", "course": "on_line"},
        Answers(onset="sudden", probe_touched=True),
    ),
    5: Account("dead_section", {"course": "far_behind"}, Answers(firings_since_elements=32)),
    7: Account(
        "schedule_mistyped",
        answers=Answers(ended="found_hot"),
        corners=STILL_AT_THE_TOP,
        meant=schedule((120.0, 1000.0, 0.0), (60.0, 1212.0, 20.0)),
    ),
    9: Account(
        "dead_section",
        answers=Answers(sections_dark=("bottom",)),
        readings=Readings(cold_ohms={"bottom": OPEN_CIRCUIT}),
        kiln=Kiln(sections=RINGS),
    ),
    11: Account(
        "dead_section",
        {"course": "far_behind", "shelves": "one_cold"},
        Answers(sections_dark=("bottom",)),
    ),
    13: Account(
        "power_interruption", answers=Answers(safety=("tripped_breaker",), ended="power_cut")
    ),
    15: Account(
        "stuck_on_section",
        answers=Answers(ended="found_hot"),
        corners=FOUND_AT_1014,
        meant=schedule((250.0, 510.0, 600.0)),
    ),
    17: Account("dead_section", answers=Answers(sections_dark=("middle", "top"))),
    19: Account(
        "low_supply",
        {"course": "far_behind"},
        Answers(onset="comes_and_goes"),
        **volts(113.0, 120.0),
    ),
    21: Account("low_supply", **volts(208.0, 240.0)),
    23: Account("schedule_mistyped", {"typed": "rate"}, Answers(ended="stopped_by_hand")),
    25: Account("worn_elements", {"course": "far_behind"}, Answers(onset="gradual")),
    27: Account(
        "dead_section",
        answers=Answers(firings_since_elements=55, load="heavy"),
        readings=Readings(cold_ohms={"top": OPEN_CIRCUIT}),
        kiln=Kiln(sections=RINGS),
    ),
    29: Account("power_interruption", {"course": "cut_off"}, Answers(ended="power_cut")),
    31: Account("probe_wrong_type", {"reading": "jumps"}),
    33: Account("other"),
    35: Account("power_interruption", {"course": "cut_off"}),
    37: Account("stopped_early", {"course": "cut_off"}, Answers(ended="stopped_by_hand")),
    39: Account("probe_loose", {"reading": "dead"}, Answers(ended="error")),
    41: Account("probe_loose", {"reading": "many_lost"}),
    43: Account("probe_reads_low", {"shelves": "one_hot"}, Answers(onset="gradual")),
    45: Account("power_interruption", {"course": "cut_off"}, Answers(ended="power_cut")),
    47: Account(
        "power_interruption",
        answers=Answers(ended="power_cut"),
        corners=LOST_AT_927,
        meant=schedule((100.0, 1060.0, 0.0)),
    ),
    49: Account("other", {"shelves": "all_cold"}),
    51: Account("damp_load", answers=Answers(ware="bisque", load="heavy")),
    53: Account("none", answers=Answers(load="light")),
}
MISSED = {
    31: "a wrong type shows in the slope from the first minute; only the end was told",
    33: "a bang and a shock are for the safety question; nothing of the firing was told",
    49: "cones put in back to front look like a probe that reads high; the check of the pack asks",
    51: "that the bowls were not dry was told of the ware, not of the curve: no sign to weigh",
}
"""Accounts whose cause does not come among the first three, with the reason."""


def first_three(account: Account) -> list[str]:
    if account.corners:
        given = Given(
            log_of(account.corners, every_min=2.0, noise_c=0.5),
            intended=account.meant,
            kiln=account.kiln,
            answers=account.answers,
            readings=account.readings,
        )
        return [c.id for c in review_firing(given, TABLES).causes[:3]]
    seen = [
        *(surely(fact, outcome) for fact, outcome in account.seen.items()),
        *answer_observations(account.answers),
        *reading_observations(account.readings, account.kiln),
    ]
    return [c.id for c in weigh_causes(seen, TABLES.knowledge)[:3]]


@outside("accounts", "4 of 5: some accounts tell too little")
def test_the_cause_found_is_among_the_first_three_in_four_of_five() -> None:
    hits = [account.found in first_three(account) for account in CASES.values()]
    assert sum(hits) / len(hits) >= 0.8


@outside("accounts", "exact: one by one", "four accounts are missed, each with its reason")
@pytest.mark.parametrize("number", CASES)
def test_each_account_is_answered_or_its_miss_is_explained(number: int) -> None:
    account = CASES[number]
    assert (account.found in first_three(account)) == (number not in MISSED)
