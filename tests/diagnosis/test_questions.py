from dataclasses import replace

from firings import GOOD, TO_1000, cooling, findings_of, firing_of, log_of

from firing_review.diagnosis.evidence import Reviewed
from firing_review.diagnosis.questions import QUESTIONS, open_questions
from firing_review.firing.cones import ConeKind, ConeNumber, ShelfCone
from firing_review.firing.kiln import Kiln, Section
from firing_review.firing.results import ElementsJudged, ShelfHeat
from firing_review.firing.sheet import OPEN_CIRCUIT, Answers, Given, Readings

CUT_AT_700 = [(0.0, 20.0), (1.0, 120.0), (1.5, 120.0), (4.4, 700.0), *cooling(4.4, 700.0)]
CONE = ShelfCone("bottom", "", ConeNumber("06"), ConeKind.SELF_SUPPORTING, 90.0)
KNOWN = Answers(
    safety=("none",),
    onset="sudden",
    ended="by_itself",
    load="usual",
    ware="bisque",
    ware_rated_cone=ConeNumber("06"),
    load_place="even",
    usual_hours=7.0,
    firings_since_elements=40,
    changed="nothing",
    probe_touched=False,
    sections_dark=(),
)


def reviewed(corners=GOOD, **changes) -> Reviewed:
    log = log_of(corners)
    given = Given(log, intended=TO_1000, goal_cone=ConeNumber("06"), cones=(CONE,))
    given = replace(given, **changes)
    return Reviewed(
        given=given,
        firing=firing_of(log, given.intended),
        earlier=(),
        findings=findings_of(log, given.intended),
        heat=(),
        shelves=(),
        elements=ElementsJudged(),
        contradictions=(),
    )


def keys(one: Reviewed) -> list[str]:
    return [q.key for q in open_questions(one)]


def test_safety_is_asked_first_and_until_it_is_answered() -> None:
    assert keys(reviewed())[0] == "safety"
    assert "safety" not in keys(reviewed(answers=Answers(safety=("none",))))


def test_a_good_firing_with_everything_at_hand_asks_for_nothing_else() -> None:
    log = log_of(GOOD)
    assert keys(reviewed(earlier=(Given(log),))) == ["safety"]


def test_what_the_files_say_is_not_asked() -> None:
    full = reviewed(CUT_AT_700, answers=KNOWN, earlier=(Given(log_of(GOOD)),))
    kiln = Kiln(rated_volts=240.0, sections=(Section("bottom", rated_cold_ohms=14.0),))
    readings = Readings(238.0, 236.0, {"bottom": 16.0}, {"bottom": OPEN_CIRCUIT})
    full = replace(full, given=replace(full.given, kiln=kiln, readings=readings))
    assert keys(full) == []


def test_how_it_ended_is_asked_of_a_firing_that_stopped_early_only() -> None:
    assert "ended" in keys(reviewed(CUT_AT_700))
    assert "ended" not in keys(reviewed())


def test_without_a_schedule_the_usual_hours_are_asked() -> None:
    asked = keys(reviewed(intended=None))
    assert asked.index("schedule") < asked.index("usual_hours")


def test_uneven_shelves_ask_where_the_pieces_stood() -> None:
    cold = ShelfHeat("bottom", -30.0, -36.0, -24.0, 12.0, "08", "cold")
    even = ShelfHeat("top", 0.0, -4.0, 4.0, 16.0, "06", "even")
    assert "load_place" in keys(replace(reviewed(), shelves=(cold, even)))
    assert "load_place" not in keys(reviewed())


def test_lost_power_asks_for_the_cheap_readings_before_the_electrician() -> None:
    weak = replace(reviewed(), elements=ElementsJudged(power_ratio=0.8))
    asked = keys(weak)
    assert asked.index("sections_dark") < asked.index("cold_ohms") < asked.index("volts_full_load")


def test_the_order_is_the_one_in_which_people_who_answer_ask() -> None:
    everything = [q.key for q, _ in QUESTIONS]
    for earlier, later in (
        ("safety", "ware"),
        ("ware", "cones"),
        ("cones", "schedule"),
        ("schedule", "ended"),
        ("ended", "usual_hours"),
        ("usual_hours", "load_place"),
        ("load_place", "kiln"),
        ("kiln", "sections_dark"),
        ("sections_dark", "cold_ohms"),
        ("cold_ohms", "volts_full_load"),
        ("volts_full_load", "probe_touched"),
    ):
        assert everything.index(earlier) < everything.index(later)


def test_each_question_says_what_it_would_settle_and_blames_nobody() -> None:
    for question, _ in QUESTIONS:
        assert question.text.text.endswith(("?", "apart."))
        assert question.settles.text
        assert "you" not in question.text.text.lower().split()


def test_live_readings_are_asked_of_an_electrician() -> None:
    texts = {q.key: q.text.text for q, _ in QUESTIONS}
    assert "electrician" in texts["volts_full_load"]
    assert "electrician" in texts["amps"]
    assert "cut off at the breaker" in texts["cold_ohms"]
