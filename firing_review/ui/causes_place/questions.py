"""Questions in the order in which people who answer ask them; each may be skipped."""

from dataclasses import dataclass, replace

from firing_review.firing.said import N_
from firing_review.firing.sheet import Answers


@dataclass(frozen=True)
class Question:
    """One question: the answer it sets, its choices, and what it would settle."""

    key: str
    text: str
    choices: tuple[tuple[object, str], ...]
    settles: str


QUESTIONS = (
    Question(
        "ended",
        N_("How did the firing end?"),
        (
            ("by_itself", N_("by itself, as set")),
            ("stopped_by_hand", N_("somebody stopped it")),
            ("error", N_("with an error shown")),
            ("power_cut", N_("power cut or breaker")),
            ("shut_off", N_("shut-off cone or timer")),
            ("found_hot", N_("found still hot, heating")),
        ),
        N_("tells a fault from a hand on the switch"),
    ),
    Question(
        "onset",
        N_("How did it begin, over the firings?"),
        (
            ("sudden", N_("suddenly")),
            ("gradual", N_("crept up")),
            ("comes_and_goes", N_("comes and goes")),
        ),
        N_("a part breaks suddenly, wear creeps, a supply comes and goes"),
    ),
    Question(
        "load",
        N_("How heavy was the load?"),
        (("usual", N_("as usual")), ("light", N_("light")), ("heavy", N_("heavy or tight"))),
        N_("a heavy load slows the kiln like lost power"),
    ),
    Question(
        "probe_touched",
        N_("Was the probe moved, touched or changed?"),
        ((False, N_("no")), (True, N_("yes"))),
        N_("a moved probe reads another temperature"),
    ),
    Question(
        "firings_since_elements",
        N_("Firings since the heating elements were new?"),
        ((30, N_("fewer than 60")), (95, N_("60 to 130")), (160, N_("more than 130"))),
        N_("a set lives about 120 to 200 firings to cone 6"),
    ),
)
"""After the safety question, which has a place of its own."""


def answered(answers: Answers, key: str, value: object) -> Answers:
    """Return the answers with one of them set, or taken back with None."""
    return replace(answers, **{key: value})
