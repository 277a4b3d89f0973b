"""Everything that is known of a firing, as observations of facts."""

from collections.abc import Sequence
from dataclasses import dataclass

from firing_review.diagnosis.course_signs import course_observations
from firing_review.diagnosis.curve_signs import curve_observations
from firing_review.diagnosis.found import Found
from firing_review.diagnosis.heat_signs import goal_observation, shelf_observation
from firing_review.diagnosis.observations import Observation
from firing_review.diagnosis.power_signs import power_observations
from firing_review.diagnosis.probe_signs import probe_observations
from firing_review.diagnosis.section_signs import section_observation
from firing_review.diagnosis.told_signs import (
    answer_observations,
    reading_observations,
    supply_observation,
)
from firing_review.diagnosis.typed_signs import typed_observation
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.findings import Finding
from firing_review.firing.results import ChannelHeatWork, ElementsJudged, ShelfHeat
from firing_review.firing.said import Said
from firing_review.firing.sheet import Given

NO_TEMPERATURE = frozenset({"falls", "dead"})
"""Readings that are no temperature any more: what the curve says beyond them is void."""
STAND_ALONE = frozenset({"reading", "start", "goal"})
WRONG_RATES = frozenset({"power", "step", "load", "loss", "course", "asked", "sections"})
"""What a reading that is wrong by a factor says nothing about."""
SURELY_WRONG = 0.9


@dataclass(frozen=True, eq=False)
class Reviewed:
    """What the earlier stages of a review found; each part may be empty."""

    given: Given
    firing: AlignedFiring
    earlier: Sequence[AlignedFiring]
    findings: Sequence[Finding]
    heat: Sequence[ChannelHeatWork]
    shelves: Sequence[ShelfHeat]
    elements: ElementsJudged
    contradictions: Sequence[Said]


def observations(reviewed: Reviewed) -> list[Observation]:
    """Return what is known of the facts; what was not looked at is left out."""
    return [*_void_left_out(_from_the_log(reviewed)), *told_observations(reviewed.given)]


def told_observations(given: Given) -> list[Observation]:
    """Return what was measured and said beside the log."""
    supply = supply_observation(given.kiln)
    return [
        *reading_observations(given.readings, given.kiln),
        *answer_observations(given.answers),
        *([] if supply is None else [supply]),
    ]


def _from_the_log(reviewed: Reviewed) -> list[Observation]:
    given, firing, elements = reviewed.given, reviewed.firing, reviewed.elements
    found = Found(reviewed.findings)
    seen: list[Observation | None] = [
        *probe_observations(firing, reviewed.earlier, found, elements),
        *course_observations(firing, found, elements, given.answers),
        *curve_observations(firing, found),
        typed_observation(firing, found),
        *power_observations(firing, reviewed.earlier, elements),
        shelf_observation(reviewed.shelves, firing),
        section_observation(firing, reviewed.earlier, found),
    ]
    known = [o for o in seen if o is not None]
    asked, as_meant = given.goal_cone is not None, _went_as_meant(known)
    goal = goal_observation(reviewed.contradictions, asked=asked, as_meant=as_meant)
    return known if goal is None else [*known, goal]


def _went_as_meant(seen: list[Observation]) -> bool:
    """Tell whether nothing is known that makes the heat work of a firing another than meant."""
    said = {o.fact: o.seen for o in seen}
    return (
        said.get("typed", "as_meant") == "as_meant"
        and said.get("course", "on_line") in {"on_line", "behind"}
        and said.get("gap", "none") == "none"
        and said.get("after") != "stays_hot"
    )


def _void_left_out(seen: list[Observation]) -> list[Observation]:
    """Leave out what a reading that is no temperature cannot answer."""
    reading = next((o for o in seen if o.fact == "reading"), None)
    if reading is None:
        return seen
    if reading.seen in NO_TEMPERATURE:
        return [o for o in seen if o.fact in STAND_ALONE]
    if reading.shares.get("wrong_slope", 0.0) > SURELY_WRONG:
        return [o for o in seen if o.fact not in WRONG_RATES]
    return seen
