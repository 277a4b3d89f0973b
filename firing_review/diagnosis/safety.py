"""The gate: with a sign of danger nothing is said about firing again."""

from collections.abc import Sequence

from firing_review.firing.findings import Finding, FindingKind
from firing_review.firing.results import Check
from firing_review.firing.said import N_, Said
from firing_review.firing.sheet import DANGER_SIGNS, Answers

SWITCH_OFF = Said(
    N_("Switch off at the breaker and do not fire; have a licensed electrician look at it.")
)
CUT_OFF = Check(
    id="cut_off",
    text=Said(
        N_(
            "Switch off at the breaker and leave the kiln shut and cold. Have a licensed "
            "electrician look at breaker, cord, plug, relays or contactors before it is used; "
            "local codes come first."
        )
    ),
    who="electrician",
    minutes=60.0,
    settles=Said(N_("Whether it is safe to switch on again. Everything else waits for that.")),
    tool=Said(N_("none")),
)
"""What is advised in place of any other check."""


def heats_by_itself(findings: Sequence[Finding]) -> bool:
    """Tell whether the log shows heat that nobody asked for: a fire danger."""
    return any(f.kind is FindingKind.HEATS_WITHOUT_DEMAND for f in findings)


def in_danger(answers: Answers, findings: Sequence[Finding]) -> bool:
    """Tell whether an answer or the log is a sign of danger."""
    return heats_by_itself(findings) or bool(set(DANGER_SIGNS) & set(answers.safety or ()))
