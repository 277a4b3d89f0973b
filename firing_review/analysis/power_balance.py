"""Power, load and heat loss of a kiln now, against an earlier good firing.

For a kiln lumped to one temperature, heat capacity times rate is power minus loss. A climb with
output u and natural cooling at the same temperature therefore add up to full power over heat
capacity, (up + down) / u = P / C, with the loss gone. Its ratio to an earlier firing and the
ratio of the two coolings separate lost power from a heavier load and from a leak.
Valid from about 300 °C to the top, for a kiln whose walls and probe are as they were.
"""

from dataclasses import dataclass, replace

import numpy as np

from firing_review.analysis.climb_and_fall import GRID_C, ClimbAndFall, climb_and_fall
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.log import ChannelRole
from firing_review.firing.results import ClimbCurve, ElementsJudged, SectionElements
from firing_review.firing.said import N_, Figures, Said
from firing_review.firing.units import Floats

COMPARE_FROM_C = 400.0
"""Below it load and wall are not yet settled [°C]."""
LEAST_POINTS = 4
"""Temperatures, 25 °C apart, that must agree before a ratio is given."""
MODEL_SD = 0.018
"""The sum is constant within about 3 % (90 %) for real wall storage: trial on a simulated kiln."""
NINETY = 1.645
"""Half-width of a 90 % range in standard deviations."""
LOAD_SURE, LOAD_DOUBT = 0.92, 0.97
"""Cooling ratio below which the load is heavier, and above which it is as usual."""
LEAK_FROM = 1.05
"""Cooling ratio above which loss is higher (or the load lighter)."""
HEAT_LEFT_ON = 0.35
"""A cooling ratio below this is no load: heat was left on or the record is something else."""
STEP_LEAST, STEP_NOISE = 0.07, 4.0
"""A step inside the firing: at least this share of power, and this many times the scatter."""
UNSEEN_SHARE = 0.3
"""Part of a loss in an end section that a probe in the middle may not see."""
CEILING_SPAN_C = 260.0
"""Stretch below the top from which the ceiling is extrapolated [°C]."""


@dataclass(frozen=True)
class Level:
    """A ratio with its standard deviation and the number of temperatures behind it."""

    value: float
    sd: float
    points: int


def judge_power(firing: AlignedFiring, earlier: tuple[AlignedFiring, ...]) -> ElementsJudged:
    """Judge power, load and loss of a firing from its curve alone.

    Parameters
    ----------
    earlier : tuple of AlignedFiring
        Good firings of the same kiln, the newest last; the newest that serves is taken.
    """
    now = climb_and_fall(firing)
    before = [climb_and_fall(base) for base in earlier]
    curves = [_curve(f.log.source, rates) for f, rates in zip(earlier, before, strict=True)]
    judged = _judge_against(firing, now, list(zip(earlier, before, strict=True)))
    return replace(judged, curves=(_curve(firing.log.source, now), *curves[-1:]))


def _judge_against(
    firing: AlignedFiring,
    now: ClimbAndFall,
    earlier: list[tuple[AlignedFiring, ClimbAndFall]],
) -> ElementsJudged:
    """Judge against the newest earlier firing that shares enough temperatures."""
    ceiling_c = _ceiling_c(now, None)
    if not earlier:
        return _cannot(N_("No earlier good firing to compare with."), ceiling_c)
    for base, before in reversed(earlier):
        if np.isfinite(_ratio(now, before)).sum() >= LEAST_POINTS:
            return _judge(firing, base, now, before)
    return _only_bounds(now, earlier[-1][1], ceiling_c)


def _curve(name: str, rates: ClimbAndFall) -> ClimbCurve:
    full = rates.power_over_heat
    return ClimbCurve(name, GRID_C, rates.up_at_any_output, full - rates.down, full)


def _cannot(text: str, ceiling_c: float | None, figures: Figures | None = None) -> ElementsJudged:
    log_output = N_(
        "To know next time: log the output, or let the kiln climb at full output "
        "from 400 °C for an hour, with the usual load."
    )
    basis = (Said(text, figures or {}), Said(log_output))
    return ElementsJudged(ceiling_c=ceiling_c, basis=basis, figures=figures or {})


def _ratio(now: ClimbAndFall, before: ClimbAndFall) -> Floats:
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio = now.power_over_heat / before.power_over_heat
    return np.where(GRID_C >= COMPARE_FROM_C, ratio, np.nan)


def _level(values: Floats) -> Level | None:
    good = values[np.isfinite(values)]
    if len(good) < LEAST_POINTS:
        return None
    middle = float(np.median(good))
    scatter = 1.4826 * float(np.median(np.abs(good - middle)))
    return Level(middle, scatter, len(good))


def _judge(
    firing: AlignedFiring, base: AlignedFiring, now: ClimbAndFall, before: ClimbAndFall
) -> ElementsJudged:
    sums, falls = _ratio(now, before), now.down / before.down
    cooling = _level(np.where(GRID_C >= COMPARE_FROM_C, falls, np.nan))
    step = _step(sums) if now.output_known else None
    level = _level(sums[step:] if step is not None else sums)
    ceiling_c = _ceiling_c(now, step)
    if level is None:
        return _cannot(N_("Too little of the climb can be compared."), ceiling_c)
    if cooling is not None and cooling.value < HEAT_LEFT_ON:
        return _cannot(N_("The kiln did not cool freely, so power cannot be told."), ceiling_c)
    mass, loss = _mass_and_loss(level, cooling, falls)
    sd = _spread(level, cooling)
    power = level.value * mass
    judged = ElementsJudged(
        power_ratio=power,
        power_low=power - NINETY * sd - _unseen_section(firing, power),
        power_high=power + NINETY * sd,
        mass_ratio=mass,
        loss_ratio=loss,
        ceiling_c=ceiling_c,
        basis=_basis(base, now, cooling),
        per_section=_sections(firing, base, mass, sd),
        figures=_figures(level, cooling, step),
    )
    return _with_step(judged, firing, sums, step)


def _spread(level: Level, cooling: Level | None) -> float:
    """Return the standard deviation of the power ratio."""
    no_cooling = 0.03 if cooling is None else 0.0
    doubt = 0.0
    if cooling is not None and LOAD_SURE < cooling.value < LOAD_DOUBT:
        doubt = 0.5 * (1.0 / cooling.value - 1.0)
    own = level.sd / np.sqrt(max(level.points / 3.0, 1.0))
    return float(np.sqrt((MODEL_SD * level.value) ** 2 + own**2 + no_cooling**2 + doubt**2))


def _unseen_section(firing: AlignedFiring, power: float) -> float:
    """Return how much more may be lost than one probe in the middle sees.

    It overstates the power left when an end section is gone, by a few hundredths.
    """
    one_probe = len(firing.log.temperatures) == 1
    return UNSEEN_SHARE * (1.0 - power) if one_probe and power < 1.0 else 0.0


def _mass_and_loss(level: Level, cooling: Level | None, falls: Floats) -> tuple[float, float]:
    """Split the cooling ratio: below one a heavier load, above one a leak or a lighter load.

    A leak takes more the hotter the kiln is; a lighter load cools faster by the same factor
    everywhere and climbs faster too.
    """
    if cooling is None:
        return 1.0, 1.0
    if cooling.value < LOAD_DOUBT:
        sure = min(1.0, (LOAD_DOUBT - cooling.value) / (LOAD_DOUBT - LOAD_SURE))
        return 1.0 + sure * (1.0 / cooling.value - 1.0), 1.0
    if cooling.value < LEAK_FROM:
        return 1.0, 1.0
    lighter = abs(level.value / cooling.value - 1.0) < abs(level.value - 1.0)
    if lighter and _growth(falls) < 0.05:
        return 1.0 / cooling.value, 1.0
    return 1.0, cooling.value


def _growth(falls: Floats) -> float:
    """Return how much the cooling ratio grows over 500 °C."""
    good = np.isfinite(falls) & (GRID_C >= COMPARE_FROM_C)
    if np.count_nonzero(good) < LEAST_POINTS:
        return 0.0
    return float(np.polyfit(GRID_C[good], falls[good], 1)[0] * 500.0)


def _step(sums: Floats) -> int | None:
    """Return the grid index from which a lower level of power holds, if there is a step."""
    good = np.flatnonzero(np.isfinite(sums))
    best, best_gain = None, 0.0
    for cut in range(LEAST_POINTS, len(good) - LEAST_POINTS + 1):
        low, high = sums[good[:cut]], sums[good[cut:]]
        fall = float(np.median(low) - np.median(high))
        noise = float(
            np.hypot(
                np.median(np.abs(low - np.median(low))), np.median(np.abs(high - np.median(high)))
            )
        )
        gain = fall * np.sqrt(cut * (len(good) - cut))
        if fall > max(STEP_LEAST, STEP_NOISE * noise) and gain > best_gain:
            best, best_gain = int(good[cut]), gain
    # the sample where the step lies belongs to neither level
    return best + 1 if best is not None else None


def _with_step(
    judged: ElementsJudged, firing: AlignedFiring, sums: Floats, step: int | None
) -> ElementsJudged:
    if step is None:
        return judged
    at_c = float(GRID_C[step - 1])
    climbing = (firing.log.elapsed_h <= firing.peak_h) & (firing.reading_c >= at_c)
    from_h = float(firing.log.elapsed_h[np.flatnonzero(climbing)[0]]) if climbing.any() else None
    lost = float(np.nanmedian(sums[: step - 1]) - np.nanmedian(sums[step:]))
    figures: Figures = {"step_at_c": at_c, "step_h": from_h, "step_lost_pct": 100.0 * lost}
    text = N_("From {step_h} (about {step_at_c}) on, {step_lost_pct} of the power was missing.")
    return replace(
        judged,
        basis=(*judged.basis, Said(text, figures)),
        figures={**judged.figures, **figures},
    )


def _figures(level: Level, cooling: Level | None, step: int | None) -> Figures:
    return {
        "sum_ratio": level.value,
        "sum_scatter_ratio": level.sd,
        "temperatures": level.points,
        "cooling_ratio": cooling.value if cooling else None,
        "stepped": int(step is not None),
    }


def _basis(base: AlignedFiring, now: ClimbAndFall, cooling: Level | None) -> tuple[Said, ...]:
    how = (
        N_("Climb, output and cooling compared with {base} at the same temperatures.")
        if now.output_known
        else N_("Climb at full output and cooling compared with {base} at the same temperatures.")
    )
    said = [Said(how, {"base": base.log.source})]
    if cooling is None:
        said.append(Said(N_("Without a record of the cooling, load and power are hard to part.")))
    return tuple(said)


def _sections(
    firing: AlignedFiring, base: AlignedFiring, mass: float, sd: float
) -> tuple[SectionElements, ...]:
    """Judge each section that has a probe of its own in both firings."""
    found = []
    earlier = {c.name: c for c in base.log.temperatures}
    for channel in firing.log.temperatures:
        if channel.role is not ChannelRole.SECTION or channel.name not in earlier:
            continue
        now = climb_and_fall(firing, channel.values)
        before = climb_and_fall(base, earlier[channel.name].values)
        level = _level(_ratio(now, before))
        if level is not None:
            power = level.value * mass
            wide = NINETY * float(np.hypot(sd, 0.04))  # sections heat each other
            found.append(SectionElements(channel.title, power, power - wide, power + wide))
    return tuple(found)


def _only_bounds(
    now: ClimbAndFall, before: ClimbAndFall, ceiling_c: float | None
) -> ElementsJudged:
    """Return what firings below full output still say: power at least, or at most."""
    with np.errstate(divide="ignore", invalid="ignore"):
        at_least = now.least_power_over_heat / before.power_over_heat
        at_most = now.power_over_heat / before.least_power_over_heat
    hot = GRID_C >= COMPARE_FROM_C
    figures: Figures = {
        "power_at_least_ratio": _extreme(at_least[hot], 90.0),
        "power_at_most_ratio": _extreme(at_most[hot], 10.0),
    }
    text = N_("Output was not logged and one of the firings never ran at full output.")
    return _cannot(text, ceiling_c, figures)


def _extreme(values: Floats, percentile: float) -> float | None:
    good = values[np.isfinite(values)]
    return float(np.percentile(good, percentile)) if len(good) >= LEAST_POINTS else None


def _ceiling_c(now: ClimbAndFall, step: int | None) -> float | None:
    """Return the temperature at which the climb at full output would stop [°C].

    A straight line through the climb at full output over the top stretch, carried on to zero.
    """
    full_up = now.power_over_heat - now.down
    good = np.isfinite(full_up)
    if step is not None:
        good[:step] = False
    if np.count_nonzero(good) < LEAST_POINTS:
        return None
    top_c = GRID_C[good][-1]
    good &= top_c - CEILING_SPAN_C <= GRID_C
    if np.count_nonzero(good) < LEAST_POINTS:
        return None
    slope, at_zero = np.polyfit(GRID_C[good], full_up[good], 1)
    if slope >= -1e-3:
        return None
    return float(-at_zero / slope)
