"""From everything known to ranked causes, the one next check, and what is still to be asked."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from firing_review.diagnosis.evidence import Reviewed, observations, told_observations
from firing_review.diagnosis.explain import weigh_causes
from firing_review.diagnosis.fire_again import fire_again
from firing_review.diagnosis.load import load_advice
from firing_review.diagnosis.next_check import best_check
from firing_review.diagnosis.observations import Observation
from firing_review.diagnosis.probe_signs import falls_from_the_room
from firing_review.diagnosis.questions import SAFETY, open_questions
from firing_review.diagnosis.safety import CUT_OFF, in_danger
from firing_review.firing.knowledge import Knowledge
from firing_review.firing.results import CauseWeighed, Check, FireAgain, Question, ShelfAdvice
from firing_review.firing.said import N_, Said
from firing_review.firing.sheet import Given

TWINS = frozenset({"worn_elements", "low_supply"})
READINGS = frozenset({"ohms", "volts", "amps"})
SAME_IN_A_LOG = N_(
    "Worn heating elements and a low supply look the same in a log: readings tell them apart, or "
    "whether it changes with the time of day."
)


@dataclass(frozen=True)
class Diagnosis:
    """What may lie behind a firing, and what to do about the load.

    Attributes
    ----------
    causes : tuple of CauseWeighed
        The most probable first.
    next_check : Check or None
        The check that would tell most for its effort; with a sign of danger, cutting off.
    questions : tuple of Question
        What the files do not say, in the order in which people who answer ask.
    load_advice : tuple of ShelfAdvice
        What to do with the pieces, shelf by shelf.
    fire_again : FireAgain or None
        Whether the kiln may be fired again.
    contradictions : tuple of Said
        What was said that cannot be meant together, such as two cones.
    """

    causes: tuple[CauseWeighed, ...]
    next_check: Check | None
    questions: tuple[Question, ...] = ()
    load_advice: tuple[ShelfAdvice, ...] = ()
    fire_again: FireAgain | None = None
    contradictions: tuple[Said, ...] = ()


def diagnose(reviewed: Reviewed, knowledge: Knowledge) -> Diagnosis:
    """Weigh all causes of a firing by what was seen, measured and said."""
    seen = observations(reviewed)
    danger = in_danger(reviewed.given.answers, reviewed.findings)
    weighed = weigh_causes(seen, knowledge, power_may_be_on=not danger)
    causes = _with_twin_notes(weighed, {o.fact for o in seen})
    return Diagnosis(
        causes=causes,
        next_check=CUT_OFF if danger else best_check(seen, knowledge),
        questions=open_questions(reviewed, danger=danger),
        load_advice=load_advice(reviewed, danger=danger),
        fire_again=fire_again(causes, knowledge, reviewed.given.answers, danger=danger),
        contradictions=_contradictions(reviewed, seen),
    )


def diagnose_no_firing(given: Given, knowledge: Knowledge) -> Diagnosis:
    """Weigh causes where a schedule was to be fired and the reading only fell.

    No kiln grows colder than its room: the log holds no firing, but it shows its probe.
    """
    fallen = falls_from_the_room(given.log) if given.intended is not None else None
    if fallen is None:
        return Diagnosis((), None)
    seen = [fallen, *told_observations(given)]
    danger = in_danger(given.answers, ())
    causes = weigh_causes(seen, knowledge, power_may_be_on=not danger)
    return Diagnosis(
        causes=causes,
        next_check=CUT_OFF if danger else best_check(seen, knowledge),
        questions=(SAFETY,) if given.answers.safety is None else (),
        fire_again=fire_again(causes, knowledge, given.answers, danger=danger),
    )


def _contradictions(reviewed: Reviewed, seen: Sequence[Observation]) -> tuple[Said, ...]:
    """Return what contradicts itself in what was said; the log counts where it went as meant."""
    if not any(o.fact == "goal" and o.seen == "contradicts" for o in seen):
        return ()
    return tuple(reviewed.contradictions)


def _with_twin_notes(
    causes: tuple[CauseWeighed, ...], looked: set[str]
) -> tuple[CauseWeighed, ...]:
    """Say of worn heating elements and a low supply that the log cannot part them."""
    if READINGS & looked:
        return causes
    note = Said(SAME_IN_A_LOG)
    return tuple(
        replace(c, not_looked_at=(note, *c.not_looked_at)) if c.id in TWINS else c for c in causes
    )
