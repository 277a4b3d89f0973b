"""The whole flow from what was given to the review, in order, on one page."""

from collections.abc import Sequence
from dataclasses import replace

from firing_review.analysis.alignment import align
from firing_review.analysis.bad_samples import CleanChannel, clean_channels
from firing_review.analysis.beginnings import find_not_a_firing
from firing_review.analysis.cone_guard import guard_cones
from firing_review.analysis.element_weakness import cone_end_c, judge_elements
from firing_review.analysis.find import find_all
from firing_review.analysis.heat_work import weigh_heat
from firing_review.analysis.probe_against_cones import ConeCheck
from firing_review.analysis.shelf_cones import weigh_cones
from firing_review.analysis.thinning import Cleaned, thin_if_dense
from firing_review.analysis.thresholds import DEFAULTS, Thresholds
from firing_review.diagnosis.diagnose import diagnose, diagnose_no_firing
from firing_review.diagnosis.evidence import Reviewed
from firing_review.diagnosis.safety import SWITCH_OFF, in_danger
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.findings import Finding
from firing_review.firing.log import FiringLog
from firing_review.firing.remembered import remembered
from firing_review.firing.results import ElementsJudged, NextFiring
from firing_review.firing.schedule import Intended
from firing_review.firing.sheet import Given
from firing_review.firing.tables import Tables
from firing_review.planning.next_firing import plan_next
from firing_review.review.review import Review
from firing_review.review.verdict import say_verdict


def review_firing(
    given: Given,
    tables: Tables,
    limits: Thresholds = DEFAULTS,
    past: Sequence[ConeCheck] = (),
) -> Review:
    """Review one firing.

    Parameters
    ----------
    given : Given
        The log and whatever else is known.
    tables : Tables
        Published tables, from :func:`firing_review.io.tables.load_tables`.
    limits : Thresholds
        Limits of the detectors.
    past : sequence of ConeCheck
        What cones of the same kiln and probe said in firings that a kiln book holds.
    """
    log, clean = _cleaned(given.log, limits)
    nothing = find_not_a_firing(log, clean, limits)
    if nothing is not None:
        return replace(_no_firing(given, nothing, tables), past=tuple(past))
    firing = _aligned(given.log, given.intended, limits)
    findings = _found(firing, clean, limits)
    heat = weigh_heat(firing, given.goal_cone, tables.cones)
    shelves = weigh_cones(
        firing, given.cones, given.kiln, given.goal_cone, given.tolerance_cones, tables.cones
    )
    before = earlier_firings(given, limits)
    earlier = tuple(one for _, one in before)
    elements = judge_elements(
        firing,
        earlier,
        given.kiln,
        given.readings,
        cone_end_c(given.goal_cone, tables.cones),
        tables.wire,
    )
    contradictions = guard_cones(given, firing, heat, tables.cones)
    reviewed = Reviewed(given, firing, earlier, findings, heat, shelves, elements, contradictions)
    checks = past or cone_checks(given, before, tables)
    return replace(_conclude(reviewed, tables, checks), past=tuple(past))


def _conclude(seen: Reviewed, tables: Tables, past: Sequence[ConeCheck]) -> Review:
    """Return the review of a firing: causes, plan and verdict from all that was seen."""
    diagnosis = diagnose(seen, tables.knowledge)
    findings, heat, shelves = tuple(seen.findings), tuple(seen.heat), tuple(seen.shelves)
    return Review(
        given=seen.given,
        firing=seen.firing,
        findings=findings,
        heat_work=heat,
        shelves=shelves,
        elements=seen.elements,
        causes=diagnosis.causes,
        next_check=diagnosis.next_check,
        questions=diagnosis.questions,
        load_advice=diagnosis.load_advice,
        fire_again=diagnosis.fire_again,
        next_firing=_next_firing(seen, tables, past),
        verdict=say_verdict(
            seen.given,
            seen.firing,
            findings,
            heat,
            shelves,
            seen.elements,
            diagnosis.contradictions,
        ),
    )


def cone_checks(
    given: Given, earlier: Sequence[tuple[Given, AlignedFiring]], tables: Tables
) -> tuple[ConeCheck, ...]:
    """Return what the cones of the earlier firings said of the probe, for those that had any."""
    found = []
    for one, firing in earlier:
        if one.cones:
            kiln, goal = one.kiln or given.kiln, one.goal_cone
            shelves = weigh_cones(firing, one.cones, kiln, goal, one.tolerance_cones, tables.cones)
            found.append(ConeCheck(firing.peak_c, shelves))
    return tuple(found)


@remembered
def _cleaned(log: FiringLog, limits: Thresholds) -> Cleaned:
    """Return a log cleaned and thinned."""
    return thin_if_dense(log, clean_channels(log, limits), limits)


@remembered
def _aligned(log: FiringLog, intended: Intended | None, limits: Thresholds) -> AlignedFiring:
    """Return a log, cleaned and thinned, beside what was intended."""
    return align(*_cleaned(log, limits), intended, limits)


@remembered
def _found(
    firing: AlignedFiring, clean: tuple[CleanChannel, ...], limits: Thresholds
) -> tuple[Finding, ...]:
    """Return what is found in a firing."""
    return find_all(firing, clean, limits)


def _next_firing(seen: Reviewed, tables: Tables, past: Sequence[ConeCheck]) -> NextFiring:
    """Return the plan; in danger the one thing to do, which is no firing."""
    if in_danger(seen.given.answers, seen.findings):
        return NextFiring(seen.given.goal_cone, said=(SWITCH_OFF,))
    return plan_next(seen.given, seen.firing, seen.shelves, seen.elements, tables.cones, past)


def _no_firing(given: Given, reason: Finding, tables: Tables) -> Review:
    """Return a review that says why there is nothing to review."""
    diagnosis = diagnose_no_firing(given, tables.knowledge)
    return Review(
        given=given,
        firing=None,
        findings=(reason,),
        heat_work=(),
        shelves=(),
        elements=ElementsJudged(),
        causes=diagnosis.causes,
        next_check=diagnosis.next_check,
        questions=diagnosis.questions,
        fire_again=diagnosis.fire_again,
        next_firing=NextFiring(given.goal_cone),
        verdict=say_verdict(given, None, (reason,), (), (), ElementsJudged()),
    )


def earlier_firings(given: Given, limits: Thresholds) -> tuple[tuple[Given, AlignedFiring], ...]:
    """Return the earlier firings aligned, those that hold no firing left out."""
    found = []
    for one in given.earlier:
        log, clean = _cleaned(one.log, limits)
        if find_not_a_firing(log, clean, limits) is None:
            found.append((one, _aligned(one.log, one.intended, limits)))
    return tuple(found)
