"""What is still to be asked, in the order in which people who answer ask.

Only what the files do not already say; each may be skipped, and each says what it would settle.
"""

from collections.abc import Callable

from firing_review.diagnosis.evidence import Reviewed
from firing_review.firing.findings import FindingKind, Severity
from firing_review.firing.results import Question
from firing_review.firing.said import N_, Said
from firing_review.firing.sheet import NO_SIGN

Choices = tuple[tuple[str | bool, str], ...]


def _question(key: str, text: str, settles: str, choices: Choices = ()) -> Question:
    answers = tuple((value, Said(word)) for value, word in choices)
    return Question(key, Said(text), Said(settles), answers)


SAFETY = _question(
    "safety",
    N_("Any burning smell, hot plug or cord, tripped breaker, or a kiln that heats while off?"),
    N_("whether the kiln may be switched on at all"),
    (
        (NO_SIGN, N_("none of these")),
        ("burning_smell", N_("a burning smell")),
        ("hot_plug", N_("a hot or browned plug, cord or wire")),
        ("tripped_breaker", N_("a breaker that tripped")),
        ("heats_when_off", N_("a kiln that heats while it is off")),
    ),
)
GOAL = Question(
    "goal_cone",
    Said(
        N_("Which cone was meant: cone {low_cone}, cone {high_cone}, or another?"),
        {"low_cone": "06", "high_cone": "6"},
    ),
    Said(N_("whether the load got what it needs")),
)
WARE = _question(
    "ware",
    N_("What is in the kiln: bisque, glaze or glass?"),
    N_("what can be saved, and how"),
    (("bisque", N_("bisque")), ("glaze", N_("glaze")), ("glass", N_("glass"))),
)
RATED = _question(
    "ware_rated_cone",
    N_("Which cone are clay and glaze rated for?"),
    N_("whether another cone was meant than the one fired"),
)
CONES = _question(
    "cones",
    N_("Which cones stood on which shelf, and how far are they down?"),
    N_("whether the reading was true, and which shelf was cold"),
)
SCHEDULE = _question(
    "schedule",
    N_("Which schedule was meant: rates, targets, holds?"),
    N_("whether the kiln or the plan was slow"),
)
ENDED = _question(
    "ended",
    N_("How did the firing end?"),
    N_("tells a fault from a hand on the switch"),
    (
        ("by_itself", N_("by itself, as set")),
        ("stopped_by_hand", N_("somebody stopped it")),
        ("error", N_("with an error shown")),
        ("power_cut", N_("power cut or breaker")),
        ("shut_off", N_("shut-off cone or timer")),
        ("found_hot", N_("found still hot, heating")),
    ),
)
USUAL_HOURS = _question(
    "usual_hours",
    N_("How many hours does this firing usually take here?"),
    N_("whether it was slow at all"),
)
ONSET = _question(
    "onset",
    N_("How did it begin, over the firings?"),
    N_("a part breaks suddenly, wear creeps, a supply comes and goes"),
    (
        ("sudden", N_("suddenly")),
        ("gradual", N_("crept up")),
        ("comes_and_goes", N_("comes and goes")),
    ),
)
CHANGED = _question(
    "changed",
    N_("What changed since the last good firing?"),
    N_("what changed last is the first thing to look at"),
)
AGE = _question(
    "firings_since_elements",
    N_("How many firings since the heating elements were new?"),
    N_("a set lives about 120 to 200 firings to cone 6"),
)
LOAD = _question(
    "load",
    N_("How heavy was the load?"),
    N_("a heavy load slows the kiln like lost power"),
    (("usual", N_("as usual")), ("light", N_("light")), ("heavy", N_("heavy or tight"))),
)
PLACE = _question(
    "load_place",
    N_("Where were the bad pieces, and where the heavy ones?"),
    N_("tells the load from a section"),
)
KILN = _question(
    "kiln",
    N_("What stands on the kiln's plate: volts, power, phases; and how many sections?"),
    N_("what power it should have, and which faults it can have"),
)
EARLIER = _question(
    "earlier",
    N_("Is there a log of an earlier good firing of this kiln?"),
    N_("parts lost power from a heavy load and from a leak"),
)
GLOW = _question(
    "sections_dark",
    N_("Shut, in the dark, through the peepholes with welding shade: do all sections glow?"),
    N_("one dark section is a part, not wear"),
)
OHMS = _question(
    "cold_ohms",
    N_("Cold and cut off at the breaker: what is the resistance of each section?"),
    N_("high in all is wear, open in one is a broken heating element"),
)
VOLTS = _question(
    "volts_full_load",
    N_("By a licensed electrician: volts at rest and at full power?"),
    N_("a low supply looks like worn heating elements in every log"),
)
AMPS = _question(
    "amps",
    N_("By a licensed electrician: the current of each section?"),
    N_("which section draws nothing"),
)
PROBE = _question(
    "probe_touched",
    N_("Was the probe moved, touched or changed, or does a shelf or pot touch it?"),
    N_("a moved probe reads another temperature"),
    ((False, N_("no")), (True, N_("yes"))),
)

SLOW_KINDS = (FindingKind.SLOW_CLIMB, FindingKind.STALL, FindingKind.BEHIND_SCHEDULE)
SHORT_KINDS = (
    FindingKind.ENDED_EARLY,
    FindingKind.SHORT_OF_TARGET,
    FindingKind.POWER_GAP,
    FindingKind.LONG_HOLD,
    FindingKind.HEATS_WITHOUT_DEMAND,
)
PROBE_KINDS = (
    FindingKind.PROBE_DROPOUT,
    FindingKind.PROBE_SPIKE,
    FindingKind.PROBE_JUMP,
    FindingKind.PROBE_FROZEN,
    FindingKind.PROBE_DEAD,
    FindingKind.PROBE_FALLS_WHILE_HEATING,
    FindingKind.HUNTING,
    FindingKind.OVERSHOOT,
)
WEAK_BELOW = 0.94
"""Power below this share of the usual is asked after, even if the firing kept to its line."""


NEED_POWER = frozenset({"sections_dark", "volts_full_load", "amps"})
"""Answered only by a kiln that is switched on."""


def open_questions(reviewed: Reviewed, *, danger: bool = False) -> tuple[Question, ...]:
    """Return the questions worth asking, in order; in danger none that needs the kiln on."""
    asked = (question for question, worth in QUESTIONS if worth(reviewed))
    return tuple(q for q in asked if not danger or q.key not in NEED_POWER)


def _troubled(reviewed: Reviewed) -> bool:
    uneven = any(s.word in {"cold", "hot"} for s in reviewed.shelves)
    serious = any(f.severity is not Severity.NOTE for f in reviewed.findings)
    return serious or uneven or _weak(reviewed)


def _weak(reviewed: Reviewed) -> bool:
    power = reviewed.elements.power_ratio
    return power is not None and power < WEAK_BELOW


def _has(reviewed: Reviewed, *kinds: FindingKind) -> bool:
    return any(f.kind in kinds for f in reviewed.findings)


def _slow(reviewed: Reviewed) -> bool:
    return _weak(reviewed) or _has(reviewed, *SLOW_KINDS, FindingKind.SHORT_OF_TARGET)


def _uneven(reviewed: Reviewed) -> bool:
    words = {s.word for s in reviewed.shelves if s.word}
    return len(words) > 1 or _has(reviewed, FindingKind.ZONE_GAP)


def _off(reviewed: Reviewed) -> bool:
    """Tell whether cones and reading disagree, or the reading looks odd."""
    shelves = any(s.word in {"cold", "hot"} for s in reviewed.shelves)
    return shelves or _has(reviewed, *PROBE_KINDS)


def _missing(key: str) -> Callable[[Reviewed], bool]:
    def missing(reviewed: Reviewed) -> bool:
        return getattr(reviewed.given.answers, key) is None

    return missing


def _and(*tests: Callable[[Reviewed], bool]) -> Callable[[Reviewed], bool]:
    def all_of(reviewed: Reviewed) -> bool:
        return all(test(reviewed) for test in tests)

    return all_of


def _no_kiln(reviewed: Reviewed) -> bool:
    kiln = reviewed.given.kiln
    return kiln is None or not kiln.sections or kiln.rated_volts is None


def _no_schedule(reviewed: Reviewed) -> bool:
    return reviewed.given.intended is None


QUESTIONS: tuple[tuple[Question, Callable[[Reviewed], bool]], ...] = (
    (SAFETY, _missing("safety")),
    (GOAL, lambda r: r.given.goal_cone is None),
    (WARE, _and(_troubled, _missing("ware"))),
    (RATED, _and(_off, _missing("ware_rated_cone"))),
    (CONES, lambda r: not r.given.cones),
    (SCHEDULE, _no_schedule),
    (ENDED, _and(lambda r: _has(r, *SHORT_KINDS) or _no_schedule(r), _missing("ended"))),
    (USUAL_HOURS, _and(_no_schedule, _missing("usual_hours"))),
    (ONSET, _and(_troubled, _missing("onset"))),
    (CHANGED, _and(_troubled, _missing("changed"))),
    (AGE, _and(_slow, _missing("firings_since_elements"))),
    (LOAD, _and(lambda r: _slow(r) or _uneven(r), _missing("load"))),
    (PLACE, _and(_uneven, _missing("load_place"))),
    (KILN, _and(_troubled, _no_kiln)),
    (EARLIER, lambda r: not r.given.earlier),
    (GLOW, _and(lambda r: _slow(r) or _uneven(r), _missing("sections_dark"))),
    (OHMS, lambda r: _slow(r) and not r.given.readings.cold_ohms),
    (VOLTS, lambda r: _slow(r) and r.given.readings.volts_full_load is None),
    (AMPS, lambda r: _slow(r) and not r.given.readings.amps),
    (PROBE, _and(_off, _missing("probe_touched"))),
)
"""Each question with when it is worth asking; the order is that of people who answer."""
