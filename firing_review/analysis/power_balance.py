"""Power, load and heat loss of a kiln now, against an earlier good firing.

For a kiln lumped to one temperature, heat capacity times rate is power minus loss. A climb with
output u and natural cooling at the same temperature therefore add up to full power over heat
capacity, (up + down) / u = P / C, with the loss gone. Its ratio to an earlier firing and the
ratio of the two coolings separate lost power from a heavier load and from a leak.
Valid from about 400 °C to the top, for a kiln whose walls and probe are as they were.
"""

from dataclasses import dataclass, replace

import numpy as np

from firing_review.analysis.climb_and_fall import GRID_C, ClimbAndFall, climb_and_fall
from firing_review.analysis.fall_unrecorded import with_fitted_fall, with_usual_fall
from firing_review.analysis.power_shares import (
    NINETY,
    Cooling,
    Level,
    Share,
    Shares,
    cooling_of,
    level_of,
    solve_shares,
)
from firing_review.analysis.power_step import PowerStep, find_step, say_step
from firing_review.analysis.power_words import say_result, say_sections
from firing_review.analysis.section_loss import loss_while_climbing, shared_sections
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.remembered import remembered
from firing_review.firing.results import ClimbCurve, ElementsJudged, SectionElements
from firing_review.firing.said import N_, Figures, Said
from firing_review.firing.schedule import Schedule, Segment
from firing_review.firing.units import Floats

COMPARE_FROM_C = 400.0
"""Below it load and wall are not yet settled [°C]."""
LEAST_POINTS = 4
"""Temperatures, 25 °C apart, that must agree before a ratio is given."""
LEAST_OUTPUT_SHARE = 0.8
"""A climb with so much less output than the earlier one was asked for, no fault: slower, it soaks
the wall for longer, and the two do not compare."""
HEAT_LEFT_ON = 0.35
"""A cooling ratio below this is no load: heat was left on or the record is something else."""
UNSEEN_SD, SECTIONS_UNSEEN_SD = 0.1, 0.05
"""Part of a loss that one probe may see too large or too small where a single section lost it;
less with a probe in each section (standard deviation): tried on simulated kilns."""
SECTIONS_SD = 0.04
"""Sections heat each other, which blurs the power of one."""
CEILING_SPAN_C = 260.0
"""Stretch below the top from which the ceiling is extrapolated [°C]."""
NO_FALL_SD = 0.03
"""What a cooling reckoned from the climb alone adds to the uncertainty of power, as a share."""
TEST_FROM_C, TEST_TO_C = 400.0, 750.0
"""A stretch hot enough to compare and cool enough to harm no ware [°C]."""
TEST_CLIMB = Schedule((Segment(120.0, TEST_FROM_C), Segment(None, TEST_TO_C)), "test climb")
"""A climb that shows the power of a kiln whose output is not logged."""


@dataclass(frozen=True, eq=False)
class Compared:
    """A firing beside an earlier one at the same temperatures.

    Attributes
    ----------
    sums, falls : array, shape of GRID_C
        Ratios of (climb + fall) / output and of natural cooling; NaN where unknown.
    fall_recorded : bool
        Whether both coolings were recorded; otherwise they come from the climbs.
    """

    firing: AlignedFiring
    base: AlignedFiring
    now: ClimbAndFall
    before: ClimbAndFall
    sums: Floats
    falls: Floats
    fall_recorded: bool
    step: PowerStep | None

    @property
    def last_sums(self) -> Floats:
        """The ratios after a step inside the firing, or all of them."""
        return self.sums if self.step is None else self.step.after(self.sums)

    @property
    def comparable(self) -> bool:
        """Whether enough temperatures agree for a ratio."""
        return bool(np.isfinite(self.sums).sum() >= LEAST_POINTS)


@remembered
def judge_power(firing: AlignedFiring, earlier: tuple[AlignedFiring, ...]) -> ElementsJudged:
    """Judge power, load and loss of a firing from its curve alone.

    Parameters
    ----------
    earlier : tuple of AlignedFiring
        Good firings of the same kiln, the newest last; the newest that serves is taken.
    """
    judged = _judge_against(firing, earlier)
    shown = (firing, *earlier[-1:])
    return replace(judged, curves=tuple(_curve(one) for one in shown))


def _judge_against(firing: AlignedFiring, earlier: tuple[AlignedFiring, ...]) -> ElementsJudged:
    """Judge against the newest earlier firing that shares enough temperatures."""
    if not earlier:
        return _cannot(N_("No earlier good firing to compare with."), firing)
    for base in reversed(earlier):
        compared = compare(firing, base)
        if compared.comparable:
            return _judge(compared)
    return _only_bounds(firing, earlier[-1])


def _curve(firing: AlignedFiring) -> ClimbCurve:
    rates = climb_and_fall(firing)
    full = rates.power_over_heat
    name = firing.log.source
    return ClimbCurve(name, GRID_C, full - rates.down, full)


def compare(firing: AlignedFiring, base: AlignedFiring) -> Compared:
    """Lay a firing beside an earlier one, temperature by temperature."""
    now, before = climb_and_fall(firing), climb_and_fall(base)
    falls = _hot(now.down / before.down)
    recorded = bool(np.isfinite(falls).sum() >= LEAST_POINTS)
    if recorded:
        now = _with_loss_by_section(now, firing, base, float(np.nanmedian(falls)))
        before = _with_loss_by_section(before, base, base, 1.0)
    else:
        before = with_usual_fall(before)
        now = replace(now, down=before.down)
    step = find_step(_sums(now, before), firing, sure=now.output_known)
    if not recorded and step is None:
        now = with_fitted_fall(now, before)
    return Compared(firing, base, now, before, _sums(now, before), falls, recorded, step)


def _sums(now: ClimbAndFall, before: ClimbAndFall) -> Floats:
    with np.errstate(divide="ignore", invalid="ignore"):
        alike = now.output >= LEAST_OUTPUT_SHARE * before.output
        return _hot(np.where(alike, now.power_over_heat / before.power_over_heat, np.nan))


def _hot(values: Floats) -> Floats:
    return np.where(GRID_C >= COMPARE_FROM_C, values, np.nan)


def _with_loss_by_section(
    fired: ClimbAndFall, firing: AlignedFiring, base: AlignedFiring, ratio: float
) -> ClimbAndFall:
    """Return the firing with the loss its sections really had while it climbed."""
    loss = loss_while_climbing(firing, base)
    return fired if loss is None else replace(fired, down=loss * ratio)


def cannot_tell(
    text: str, ceiling_c: float | None, figures: Figures | None = None
) -> ElementsJudged:
    """Return a judgment that says why power cannot be told, and what to log next time."""
    log_output = N_(
        "To know next time: log the output, or let the kiln climb at full output once, "
        "from {from_c} to {to_c} with the usual load, and log the cooling to {down_to_c}."
    )
    asked: Figures = {"from_c": TEST_FROM_C, "to_c": TEST_TO_C, "down_to_c": 300.0}
    basis = (Said(text, figures or {}), Said(log_output, asked))
    return ElementsJudged(
        ceiling_c=ceiling_c, basis=basis, figures=figures or {}, test_climb=TEST_CLIMB
    )


def _cannot(text: str, firing: AlignedFiring, figures: Figures | None = None) -> ElementsJudged:
    return cannot_tell(text, ceiling_c(climb_and_fall(firing), None), figures)


def _judge(compared: Compared) -> ElementsJudged:
    firing = compared.firing
    level = level_of(compared.last_sums, LEAST_POINTS)
    cooling = cooling_of(compared.falls, LEAST_POINTS)
    if level is None:
        return _cannot(N_("Too little of the climb can be compared."), firing)
    if compared.fall_recorded and cooling is not None and cooling.level.value < HEAT_LEFT_ON:
        return _cannot(N_("The kiln did not cool freely, so power cannot be told."), firing)
    shares = solve_shares(level, cooling, 0.0 if compared.fall_recorded else NO_FALL_SD)
    power = _with_unseen(shares.power, firing)
    sections = _sections(compared, shares)
    said = (*say_result(power, shares, compared.base), *say_sections(sections))
    judged = ElementsJudged(
        power_ratio=power.value,
        power_low=power.low,
        power_high=power.high,
        mass_ratio=shares.mass.value,
        loss_ratio=shares.loss.value,
        ceiling_c=ceiling_c(compared.now, compared.step),
        basis=(*said, *_basis(compared)),
        per_section=sections,
        figures=_figures(level, cooling, shares, compared.step),
    )
    return say_step(judged, compared.step) if compared.step else judged


def _with_unseen(power: Share, firing: AlignedFiring) -> Share:
    """Return the range widened by what the place of the probes leaves open."""
    many = len(firing.log.temperatures) > 1
    lost = max(1.0 - power.value, 0.0)
    unseen = NINETY * lost * (SECTIONS_UNSEEN_SD if many else UNSEEN_SD)
    low = power.value - float(np.hypot(power.value - power.low, unseen))
    high = power.value + float(np.hypot(power.high - power.value, unseen))
    return Share(power.value, low, high)


def _figures(
    level: Level, cooling: Cooling | None, shares: Shares, step: PowerStep | None
) -> Figures:
    return {
        "power_from": "curve",
        "sum_ratio": level.value,
        "sum_scatter_ratio": level.sd,
        "temperatures": level.points,
        "cooling_ratio": cooling.level.value if cooling else None,
        "mass_low_ratio": shares.mass.low,
        "mass_high_ratio": shares.mass.high,
        "loss_low_ratio": shares.loss.low,
        "loss_high_ratio": shares.loss.high,
        "stepped": int(step is not None),
    }


def _basis(compared: Compared) -> tuple[Said, ...]:
    how = (
        N_("Climb, output and cooling compared with {base} at the same temperatures.")
        if compared.now.output_known
        else N_("Climb at full output and cooling compared with {base} at the same temperatures.")
    )
    said = [Said(how, {"base": compared.base.log.source})]
    if not compared.fall_recorded:
        said.append(Said(N_("Without a record of the cooling, load and power are hard to part.")))
    return tuple(said)


def _sections(compared: Compared, shares: Shares) -> tuple[SectionElements, ...]:
    """Judge each section that has a probe of its own in both firings."""
    found = []
    half = (shares.power.high - shares.power.low) / 2.0
    for channel, earlier in shared_sections(compared.firing, compared.base):
        now = climb_and_fall(compared.firing, channel.values)
        before = climb_and_fall(compared.base, earlier.values)
        with np.errstate(divide="ignore", invalid="ignore"):
            ratio = _hot(now.power_over_heat / before.power_over_heat)
        level = level_of(
            ratio if compared.step is None else compared.step.after(ratio), LEAST_POINTS
        )
        if level is not None:
            power = level.value * shares.mass.value
            wide = float(np.hypot(half, NINETY * SECTIONS_SD))
            ends = (power - wide, power + wide)
            found.append(SectionElements(channel.title, power, *ends, by_curve=True))
    return tuple(found)


def _only_bounds(firing: AlignedFiring, base: AlignedFiring) -> ElementsJudged:
    """Return what firings below full output still say: power at least, or at most."""
    now, before = climb_and_fall(firing), climb_and_fall(base)
    with np.errstate(divide="ignore", invalid="ignore"):
        at_least = _hot(now.least_power_over_heat / before.power_over_heat)
        at_most = _hot(now.power_over_heat / before.least_power_over_heat)
    figures: Figures = {
        "power_at_least_ratio": _extreme(at_least, 90.0),
        "power_at_most_ratio": _extreme(at_most, 10.0),
        "base": base.log.source,
    }
    return _cannot(_why_not(now, before), firing, figures)


def _why_not(now: ClimbAndFall, before: ClimbAndFall) -> str:
    """Return why an earlier firing does not serve."""
    told_now, told_before = (
        np.isfinite(_hot(one.up / one.output)).sum() >= LEAST_POINTS for one in (now, before)
    )
    if told_now and told_before:
        return N_("{base} and this firing share too few temperatures to be compared.")
    if told_now:
        return N_("The output of {base} was not logged, and it never ran at full output.")
    if told_before:
        return N_("Output was not logged, and this firing never ran at full output.")
    return N_("Output was not logged, and neither this firing nor {base} ran at full output.")


def _extreme(values: Floats, percentile: float) -> float | None:
    good = values[np.isfinite(values)]
    return float(np.percentile(good, percentile)) if len(good) >= LEAST_POINTS else None


def ceiling_c(now: ClimbAndFall, step: PowerStep | None) -> float | None:
    """Return the temperature at which the climb at full output would stop [°C].

    A straight line through the climb at full output over the top stretch, carried on to zero.
    """
    full_up = now.power_over_heat - now.down
    if step is not None:
        full_up = step.after(full_up)
    good = np.isfinite(full_up)
    if np.count_nonzero(good) < LEAST_POINTS:
        return None
    top_c = GRID_C[good][-1]
    good &= top_c - CEILING_SPAN_C <= GRID_C
    if np.count_nonzero(good) < LEAST_POINTS:
        return None
    slope, at_zero = np.polyfit(GRID_C[good], full_up[good], 1)
    return float(-at_zero / slope) if slope < -1e-3 else None
