"""From everything known to ranked causes and the one next check."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from firing_review.diagnosis.curve_signs import curve_observations
from firing_review.diagnosis.heat_signs import (
    goal_observation,
    section_observation,
    shelf_observation,
)
from firing_review.diagnosis.next_check import best_check
from firing_review.diagnosis.observations import Observation
from firing_review.diagnosis.power_signs import power_observations
from firing_review.diagnosis.told_signs import answer_observations, reading_observations
from firing_review.diagnosis.weigh import weigh_causes
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.findings import Finding
from firing_review.firing.kiln import Supply
from firing_review.firing.knowledge import Knowledge
from firing_review.firing.results import CauseWeighed, Check, ElementsJudged, ShelfHeat
from firing_review.firing.said import N_, Said
from firing_review.firing.sheet import Given

TWINS = frozenset({"worn_elements", "low_supply"})
READINGS = frozenset({"ohms", "volts", "amps"})
SAME_IN_A_LOG = N_(
    "Worn heating elements and a low supply look the same in a log; readings tell them apart."
)


@dataclass(frozen=True)
class Diagnosis:
    """Causes, the most probable first, and the check that would tell most."""

    causes: tuple[CauseWeighed, ...]
    next_check: Check | None


def diagnose(
    given: Given,
    firing: AlignedFiring,
    earlier: Sequence[AlignedFiring],
    findings: tuple[Finding, ...],
    shelves: tuple[ShelfHeat, ...],
    elements: ElementsJudged,
    contradictions: Sequence[Said],
    knowledge: Knowledge,
) -> Diagnosis:
    """Weigh all causes of a firing by what was seen, measured and said."""
    told = [*reading_observations(given.readings, given.kiln), *answer_observations(given.answers)]
    seen: list[Observation | None] = [
        *curve_observations(firing, findings, elements),
        *power_observations(firing, earlier, elements),
        shelf_observation(shelves, firing),
        section_observation(firing, earlier),
        goal_observation(contradictions, asked=given.goal_cone is not None),
        *told,
    ]
    known = [o for o in seen if o is not None]
    knowledge = possible(knowledge, given)
    causes = weigh_causes(known, knowledge)
    if not READINGS & {o.fact for o in known}:
        causes = tuple(_with_twin_note(c) for c in causes)
    return Diagnosis(causes, best_check(known, knowledge))


def possible(knowledge: Knowledge, given: Given) -> Knowledge:
    """Return the knowledge without causes this kiln cannot have: no line to lose on one phase."""
    if given.kiln is None or given.kiln.supply is not Supply.SINGLE_PHASE:
        return knowledge
    return replace(knowledge, causes=tuple(c for c in knowledge.causes if c.id != "lost_phase"))


def _with_twin_note(cause: CauseWeighed) -> CauseWeighed:
    """Say of worn heating elements and a low supply that the log cannot part them."""
    if cause.id not in TWINS:
        return cause
    return replace(cause, not_looked_at=(Said(SAME_IN_A_LOG), *cause.not_looked_at))
