"""Everything known about one firing so far, as one immutable object."""

from dataclasses import dataclass

from firing_review.analysis.probe_against_cones import ConeCheck
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.findings import Finding
from firing_review.firing.results import (
    CauseWeighed,
    ChannelHeatWork,
    Check,
    ElementsJudged,
    FireAgain,
    NextFiring,
    Question,
    ShelfAdvice,
    ShelfHeat,
    Verdict,
)
from firing_review.firing.sheet import Given


@dataclass(frozen=True, eq=False)
class Review:
    """What was given, and all that follows from it; window, paper, JSON and book start here.

    ``firing`` is None when the log holds no firing; then the one finding says why.
    ``past`` is what cones said of the same probe in firings that a kiln book holds.
    """

    given: Given
    firing: AlignedFiring | None
    findings: tuple[Finding, ...]
    heat_work: tuple[ChannelHeatWork, ...]
    shelves: tuple[ShelfHeat, ...]
    elements: ElementsJudged
    causes: tuple[CauseWeighed, ...]
    next_check: Check | None
    next_firing: NextFiring
    verdict: Verdict
    questions: tuple[Question, ...] = ()
    load_advice: tuple[ShelfAdvice, ...] = ()
    fire_again: FireAgain | None = None
    past: tuple[ConeCheck, ...] = ()
