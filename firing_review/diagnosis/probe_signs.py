"""What the reading says of its own probe: noise, steps, a dead end, a slope no kiln makes."""

from collections.abc import Sequence

import numpy as np

from firing_review.analysis.climb_and_fall import climb_and_fall
from firing_review.diagnosis.found import Found, figure
from firing_review.diagnosis.grades import above
from firing_review.diagnosis.observations import Observation, surely
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.findings import Finding, FindingKind
from firing_review.firing.log import ChannelRole, FiringLog
from firing_review.firing.results import ElementsJudged
from firing_review.firing.units import Floats

FEW, MANY, COUNT_WIDTH = 2.5, 9.5, 1.0
"""One or two lost samples are the logger's; ten are a joint's."""
ROOM_C = (-5.0, 42.0)
"""Readings of a cold kiln in any workshop [°C]."""
BEYOND_ROOM_C, ROOM_WIDTH_C = 6.0, 3.0
HOT_START_C = 90.0
"""A kiln that starts hotter was still warm: nothing is learned from it [°C]."""
START_H = 0.2
SEASONS_C, SEASONS_WIDTH_C = 16.0, 2.0
"""Rooms differ from one firing to the next by less than this, mostly [°C]."""
WARMER_SURE, COLDER_SURE = 0.6, 0.85
"""A warmer start may be a kiln that was still warm, a colder one a frosty shed."""
NEAR_ROOM_C, FELL_C = 100.0, 150.0
"""A hot kiln's reading that drops by more than this to near the room is no temperature [°C]."""
FASTEST_HEAT_C_PER_H, HEAT_WIDTH_C_PER_H = 2500.0, 250.0
"""Full power over heat capacity beyond any kiln with a load: usual is 300 to 900 °C/h, an empty
test kiln 1500."""
STRONGER, STRONGER_WIDTH, STRETCHED_SURE = 1.06, 0.012, 0.95
"""Power above the usual by more than scatter; a new set in place of a worn one is left open."""
FACTOR, FACTOR_WIDTH = 1.9, 0.12
"""Power over heat that grew by more than an almost empty kiln explains."""
SLOW_FACTOR, SLOW_WIDTH = 0.4, 0.04
"""Power and cooling both down to this: no load weighs that much more."""
NO_KILN_STALLS_C, LOW_STALL_SURE = 450.0, 0.85
"""Even with one of three sections left a kiln comes to about 580 °C; computed."""
TELLING_C = 500.0
LEAST_OUTPUT = 0.01
FALLS_C, LEAST_SAMPLES = 25.0, 5
WRONG_RATHER = 0.3
"""From here on a wrong factor says more than a lost sample."""


def probe_observations(
    firing: AlignedFiring,
    earlier: Sequence[AlignedFiring],
    found: Found,
    elements: ElementsJudged,
) -> list[Observation]:
    """Return what the reading says of its own probe."""
    seen = [_reading(firing, earlier, found, elements), _start(firing, earlier)]
    return [o for o in seen if o is not None]


_KINDS = (
    (FindingKind.PROBE_FALLS_WHILE_HEATING, "falls"),
    (FindingKind.PROBE_DEAD, "dead"),
)
_LESSER = ((FindingKind.PROBE_FROZEN, "frozen"), (FindingKind.PROBE_JUMP, "jumps"))


def _reading(
    firing: AlignedFiring,
    earlier: Sequence[AlignedFiring],
    found: Found,
    elements: ElementsJudged,
) -> Observation:
    """Return the gravest that is wrong with the reading: one fault shows in one way or another."""
    for jump in found.all(FindingKind.PROBE_JUMP):
        if _drops_to_the_room(firing, jump):
            return surely("reading", "dead", {"from_h": jump.start_h}, jump.start_h)
    plain = _by_kind(found, _KINDS)
    if plain is not None:
        return plain
    wrong = max(_wrong_slope(firing, earlier, found), _too_strong(elements))
    if wrong > WRONG_RATHER:
        return Observation("reading", {"wrong_slope": wrong, "sound": 1.0 - wrong})
    return _by_kind(found, _LESSER) or _lost(found, wrong)


def _by_kind(found: Found, kinds: tuple[tuple[FindingKind, str], ...]) -> Observation | None:
    for kind, outcome in kinds:
        one = found.first(kind)
        if one is not None:
            figures = {**one.figures, "from_h": one.start_h}
            return surely("reading", outcome, figures, one.start_h)
    return None


def _lost(found: Found, wrong: float) -> Observation:
    """Return how many readings were lost or jumped away and back."""
    events = found.all(FindingKind.PROBE_DROPOUT, FindingKind.PROBE_SPIKE)
    count = int(sum(figure(f, "count") for f in events))
    if not count:
        return Observation("reading", {"sound": 1.0 - wrong, "wrong_slope": wrong})
    many = above(count, MANY, COUNT_WIDTH)
    some = above(count, FEW, COUNT_WIDTH / 2.0) - many
    shares = {"few_lost": 1.0 - some - many, "some_lost": some, "many_lost": many}
    return Observation("reading", shares, {"count": count}, min(f.start_h for f in events))


def _drops_to_the_room(firing: AlignedFiring, jump: Finding) -> bool:
    """Tell whether a step took the reading to near the room and left it there."""
    if figure(jump, "to_c", 1e9) > NEAR_ROOM_C:
        return False
    after = firing.reading_c[firing.log.elapsed_h > jump.end_h]
    low = not len(after) or float(np.nanmedian(after)) < NEAR_ROOM_C
    return low and figure(jump, "from_c") - figure(jump, "to_c") > FELL_C


def _wrong_slope(firing: AlignedFiring, earlier: Sequence[AlignedFiring], found: Found) -> float:
    """Return how surely the reading rose by a factor that no kiln and no load can make."""
    shares = [0.0, above(_least_heat_rate(firing), FASTEST_HEAT_C_PER_H, HEAT_WIDTH_C_PER_H)]
    if earlier:
        shares.append(_factor(firing, earlier[-1]))
    for stall in found.all(FindingKind.STALL):
        lasting = stall.end_h >= firing.heating_end_h - 0.5
        low = figure(stall, "stalled_at_c") < NO_KILN_STALLS_C
        if lasting and low and figure(stall, "stalled_at_c") > NEAR_ROOM_C + 50.0:
            shares.append(LOW_STALL_SURE)
    return max(shares)


def _too_strong(elements: ElementsJudged) -> float:
    """Return how surely the kiln seems to have more power than heating elements can gain.

    A reading that is stretched stretches every climb; power itself only falls with use.
    """
    if elements.figures.get("power_from") != "curve" or elements.power_low is None:
        return 0.0
    return STRETCHED_SURE * above(elements.power_low, STRONGER, STRONGER_WIDTH)


def _least_heat_rate(firing: AlignedFiring) -> float:
    """Return climb over output when hot: what full power over heat at least is [°C/h]."""
    logged = firing.log.first(ChannelRole.OUTPUT)
    if logged is None:
        return 0.0
    hot = (firing.log.elapsed_h < firing.heating_end_h) & (firing.reading_c > TELLING_C)
    hot &= np.isfinite(firing.rate_c_per_h) & (firing.rate_c_per_h > 0)
    if np.count_nonzero(hot) < 20:
        return 0.0
    output = np.nanmean(logged.values[hot]) / 100.0
    return float(np.nanmean(firing.rate_c_per_h[hot]) / max(float(output), LEAST_OUTPUT))


def _factor(firing: AlignedFiring, base: AlignedFiring) -> float:
    now, before = climb_and_fall(firing), climb_and_fall(base)
    sums = _middle_ratio(now.power_over_heat, before.power_over_heat)
    falls = _middle_ratio(now.down, before.down)
    fast = 0.0 if sums is None else above(sums, FACTOR, FACTOR_WIDTH)
    if sums is None or falls is None:
        return fast
    slow = min(above(SLOW_FACTOR, sums, SLOW_WIDTH), above(SLOW_FACTOR, falls, SLOW_WIDTH))
    return max(fast, slow)


def _middle_ratio(now: Floats, before: Floats) -> float | None:
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio = now / before
    good = ratio[np.isfinite(ratio)]
    return float(np.median(good)) if len(good) >= 3 else None


def falls_from_the_room(log: FiringLog) -> Observation | None:
    """Return that a reading began like a room and fell below what any workshop has."""
    for channel in log.temperatures:
        values = channel.values[np.isfinite(channel.values)]
        if len(values) < LEAST_SAMPLES or not ROOM_C[0] < values[0] < ROOM_C[1]:
            continue
        lowest_c = float(np.percentile(values, 5))
        if lowest_c < min(values[0] - FALLS_C, ROOM_C[0]):
            return surely("reading", "falls", {"lowest_c": lowest_c}, 0.0)
    return None


def _start(firing: AlignedFiring, earlier: Sequence[AlignedFiring]) -> Observation | None:
    start_c = _start_c(firing)
    if start_c is None:
        return None
    odd = max(
        above(start_c, ROOM_C[1] + BEYOND_ROOM_C, ROOM_WIDTH_C),
        above(ROOM_C[0] - BEYOND_ROOM_C, start_c, ROOM_WIDTH_C),
    )
    before_c = _start_c(earlier[-1]) if earlier else None
    if before_c is not None:
        sure = WARMER_SURE if start_c > before_c else COLDER_SURE
        odd = max(odd, sure * above(abs(start_c - before_c), SEASONS_C, SEASONS_WIDTH_C))
    return Observation("start", {"room": 1.0 - odd, "odd": odd}, {"start_c": start_c}, 0.0)


def _start_c(firing: AlignedFiring) -> float | None:
    early = firing.reading_c[firing.log.elapsed_h <= START_H]
    early = early[np.isfinite(early)]
    if not len(early) or early[0] > HOT_START_C:
        return None
    return float(np.median(early[:5]))
