"""Whether the schedule that was run is the one that was meant."""

import numpy as np

from firing_review.analysis.rates import long_runs
from firing_review.diagnosis.found import Found, figure
from firing_review.diagnosis.grades import above
from firing_review.diagnosis.observations import Observation, surely
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.findings import Finding, FindingKind
from firing_review.firing.log import ChannelRole
from firing_review.firing.said import Figures
from firing_review.firing.schedule import Schedule

HOLD_DIFFERS_MIN, HOLD_WIDTH_MIN = 15.0, 4.0
CREEPING_MIN = 60.0
"""A weak kiln creeps towards its target and seems to hold there for so long [min]."""
HOLD_SURE, LOW_HOLD_SURE, LOW_HOLD_C = 0.998, 0.75, 250.0
"""A hold off by more is not the bend of the curve: it was asked for so. Low holds are blurred by
water and by overshoot."""
SET_POINT_SURE, WITH_OUTPUT_SURE, READING_SURE = 0.998, 0.985, 0.975
"""A typed rate seen in the set point, in a kiln with output to spare, in a straight climb."""
UNIT_TOLERANCE_C = 8.0
"""How near a controlled kiln ends to its target [°C]."""
TYPED_IN_UNITS = {"units": 0.93, "top": 0.04, "rate": 0.028, "as_meant": 0.002}
RAN_TO_UNITS = {"units": 0.93, "top": 0.05, "as_meant": 0.02}
"""Without a set point it may have ended just there by chance: a window of 16 °C among 800."""
TOP_SURE, TOP_IF_STOPPED = 0.99, 0.55
"""A set point that stood still at its top was typed so; one that was still climbing may have been
stopped there."""
STILL_C, STILL_MIN, REACHED_C = 1.5, 3.0, 5.0
OVER_TOP_C = 12.0
"""An overshoot this large at the top may have been typed [°C]."""
MOSTLY_FULL = 0.7
HARDLY_FULL, CLEARLY_SLOW = 0.1, 0.85
"""A climb below this share of its rate, at full output for less than this share of its time."""
STEAM_BELOW_C = 140.0
"""Below it water holds the reading, whatever the output [°C]."""


def typed_observation(firing: AlignedFiring, found: Found) -> Observation | None:
    """Return whether rates, top, holds and unit were as meant; None if that cannot be told."""
    if not isinstance(firing.intended, Schedule):
        return None
    differs = found.first(FindingKind.SCHEDULE_DIFFERS)
    units = _units(firing, firing.intended.top_c, found)
    if units is not None:
        return units
    if differs is not None:
        return _differs(differs, firing)
    hold = _hold(found)
    if hold is not None:
        return hold
    if firing.log.first(ChannelRole.SET_POINT) is not None:
        return surely("typed", "as_meant")
    slow = told_slow(firing, found)
    if slow is not None:
        figures: Figures = {
            "typed_c_per_h": figure(slow, "got_c_per_h"),
            "meant_c_per_h": figure(slow, "asked_c_per_h"),
        }
        shares = {"rate": WITH_OUTPUT_SURE, "as_meant": 1.0 - WITH_OUTPUT_SURE}
        return Observation("typed", shares, figures, slow.start_h)
    return _without_set_point(firing, found, firing.intended.top_c)


def _without_set_point(firing: AlignedFiring, found: Found, meant_c: float) -> Observation | None:
    if found.first(FindingKind.OVERSHOOT) and firing.peak_c > meant_c + OVER_TOP_C:
        figures: Figures = {"typed_c": firing.peak_c, "meant_c": meant_c}
        return Observation("typed", {"top": 0.5, "as_meant": 0.5}, figures, firing.peak_h)
    if found.first(FindingKind.ENDED_EARLY) and not _at_its_limit(firing, found):
        return None  # it may have run to a top that was typed too low
    return Observation("typed", {"as_meant": 0.9, "top": 0.03, "rate": 0.04, "hold": 0.03})


def told_slow(firing: AlignedFiring, found: Found) -> Finding | None:
    """Return a climb that was slow while the kiln had output to spare: it was told so.

    A weak kiln, a heavy load or a leak shows full output; only what was typed does not.
    """
    if firing.log.first(ChannelRole.OUTPUT) is None or found.first(FindingKind.PROBE_DEAD):
        return None
    for slow in found.all(FindingKind.SLOW_CLIMB):
        share = figure(slow, "got_c_per_h") / max(figure(slow, "asked_c_per_h"), 1.0)
        dry = figure(slow, "from_c", -1e9) > STEAM_BELOW_C
        if dry and share < CLEARLY_SLOW and figure(slow, "at_full_output", 1.0) < HARDLY_FULL:
            return slow
    return None


def _at_its_limit(firing: AlignedFiring, found: Found) -> bool:
    """Tell whether the logged output says that the kiln gave all it had and was late."""
    logged = firing.log.first(ChannelRole.OUTPUT) is not None
    slow = found.all(FindingKind.SLOW_CLIMB)
    return logged and any(figure(f, "at_full_output") > MOSTLY_FULL for f in slow)


def _units(firing: AlignedFiring, meant_c: float, found: Found) -> Observation | None:
    """Tell whether the top that was run is the one meant, taken in the other unit."""
    differs = found.first(FindingKind.SCHEDULE_DIFFERS)
    top = differs is not None and differs.figures.get("what") == "top"
    ended = found.first(FindingKind.ENDED_EARLY, FindingKind.SHORT_OF_TARGET)
    if not top and ended is None:
        return None
    run_to_c = figure(differs, "typed_c") if top and differs is not None else firing.peak_c
    swapped = (meant_c * 1.8 + 32.0, (meant_c - 32.0) / 1.8)
    if not any(abs(run_to_c - other) < UNIT_TOLERANCE_C for other in swapped):
        return None
    figures: Figures = {"typed_c": run_to_c, "meant_c": meant_c}
    logged = firing.log.first(ChannelRole.SET_POINT) is not None
    shares = TYPED_IN_UNITS if logged and differs is not None else RAN_TO_UNITS
    return Observation("typed", shares, figures, firing.peak_h)


def _differs(found: Finding, firing: AlignedFiring) -> Observation:
    figures: Figures = dict(found.figures)
    if found.figures.get("what") == "rate":
        sure = _rate_sure(firing)
        shares = {"rate": sure, "as_meant": 1.0 - sure}
        return Observation("typed", shares, figures, found.start_h)
    stopped = figure(found, "typed_c") < figure(found, "meant_c") and not _stood_still(firing)
    sure = TOP_IF_STOPPED if stopped else TOP_SURE
    shares = {"top": sure, "as_meant": 1.0 - sure}
    return Observation("typed", shares, figures, found.start_h)


def _rate_sure(firing: AlignedFiring) -> float:
    if firing.log.first(ChannelRole.SET_POINT) is not None:
        return SET_POINT_SURE
    logged = firing.log.first(ChannelRole.OUTPUT) is not None
    return WITH_OUTPUT_SURE if logged else READING_SURE


def _stood_still(firing: AlignedFiring) -> bool:
    """Tell whether the set point stayed at its top with the reading at it, as one typed does.

    A set point that waits for its kiln stays too, but above the reading.
    """
    asked = firing.log.first(ChannelRole.SET_POINT)
    if asked is None:
        return False
    until = firing.log.elapsed_h <= firing.peak_h + 0.5
    top_c = float(np.nanmax(asked.values[until], initial=-1e9))
    still = until & (np.abs(asked.values - top_c) < STILL_C)
    still &= np.abs(asked.values - firing.reading_c) < REACHED_C
    return bool(long_runs(firing.log.elapsed_h, still, STILL_MIN))


def _hold(found: Found) -> Observation | None:
    """Return the hold that differs most, if the kiln itself did not shorten it."""
    weak = found.first(FindingKind.SLOW_CLIMB, FindingKind.STALL) or found.first(
        FindingKind.POWER_GAP
    )
    kinds = [FindingKind.LONG_HOLD] if weak else [FindingKind.LONG_HOLD, FindingKind.SHORT_HOLD]
    limit_min = CREEPING_MIN if weak else HOLD_DIFFERS_MIN
    holds = sorted(found.all(*kinds), key=_hold_off_min, reverse=True)
    if not holds or found.first(FindingKind.ENDED_EARLY):
        return None
    low = figure(holds[0], "target_c") < LOW_HOLD_C
    sure = LOW_HOLD_SURE if low else HOLD_SURE
    wrong = sure * above(_hold_off_min(holds[0]), limit_min, HOLD_WIDTH_MIN)
    shares = {"hold": wrong, "as_meant": 1.0 - wrong}
    return Observation("typed", shares, dict(holds[0].figures), holds[0].start_h)


def _hold_off_min(found: Finding) -> float:
    return abs(figure(found, "got_min") - figure(found, "asked_min"))
