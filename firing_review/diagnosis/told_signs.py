"""What a person measured or said: resistances, volts, amps, answers."""

import math
from collections.abc import Mapping

from firing_review.diagnosis.grades import above
from firing_review.diagnosis.observations import Observation, surely
from firing_review.firing.kiln import Kiln, Supply
from firing_review.firing.said import N_, Figures
from firing_review.firing.sheet import Answers, Readings

HIGH_OHMS, OHMS_WIDTH = 1.065, 0.012
"""Readings within 5 to 6 % of the rated value are normal scatter; trade sources."""
BROKEN_BRANCH = 1.3
"""One of three branches in parallel gone reads 1.5 times, one of two twice."""
LOW_VOLTS, VOLTS_WIDTH = 0.955, 0.008
"""Below this share of the rated voltage power is down by a tenth."""
LOW_AMPS, AMPS_WIDTH, HALF_AMPS, NO_AMPS = 0.93, 0.015, 0.75, 0.3
"""Shares of the rated current: low in all, half in one, next to nothing in one."""
YOUNG, OLD = 60, 130
"""Firings to cone 6: a set lives about 120 to 200; two owners' accounts."""


def reading_observations(readings: Readings, kiln: Kiln | None) -> list[Observation]:
    """Return what the meter says."""
    seen = [_ohms(readings.cold_ohms, kiln), _volts(readings, kiln), _amps(readings, kiln)]
    return [o for o in seen if o is not None]


def _ohms(ohms: Mapping[str, float], kiln: Kiln | None) -> Observation | None:
    rated = {s.name: s.rated_cold_ohms for s in kiln.sections if s.rated_cold_ohms} if kiln else {}
    opened = [name for name, value in ohms.items() if math.isinf(value)]
    if opened:
        return surely("ohms", "one_open", {"section": opened[0]}, place=opened[0])
    ratios = {n: v / r for n, v in ohms.items() if (r := rated.get(n))}
    if not ratios:
        return None
    lowest, highest = min(ratios.values()), max(ratios.values())
    all_high = (
        above(lowest, HIGH_OHMS - 0.01, OHMS_WIDTH)
        if len(ratios) > 1
        else above(lowest, HIGH_OHMS, OHMS_WIDTH)
    )
    one_high = (1.0 - all_high) * above(highest, HIGH_OHMS + 0.03, OHMS_WIDTH)
    name = max(ratios, key=lambda n: ratios[n])
    mean = sum(ratios.values()) / len(ratios)
    share = ratios[name] if one_high > all_high else mean
    figures: Figures = {"section": name, "share_pct": 100.0 * share}
    half = one_high * above(highest, BROKEN_BRANCH, 0.04)
    shares = {
        "all_high": all_high,
        "one_high": one_high - half,
        "one_half": half,
        "as_rated": 1.0 - all_high - one_high,
    }
    return Observation("ohms", shares, figures, None, name if one_high > all_high else "")


def _volts(readings: Readings, kiln: Kiln | None) -> Observation | None:
    rated = kiln.rated_volts if kiln else None
    volts = readings.volts_full_load or readings.volts_no_load
    if rated is None or volts is None:
        return None
    low = above(LOW_VOLTS, volts / rated, VOLTS_WIDTH)
    figures: Figures = {"volts_v": volts, "rated_v": rated}
    return Observation("volts", {"as_rated": 1.0 - low, "low": low}, figures)


def _amps(readings: Readings, kiln: Kiln | None) -> Observation | None:
    if kiln is None or not kiln.rated_volts:
        return None
    rated = {
        s.name: 1000.0 * s.rated_kw / kiln.rated_volts
        for s in kiln.sections
        if s.rated_kw is not None
    }
    # what a low supply takes from every section alike, the volts say already
    supply = (readings.volts_full_load or kiln.rated_volts) / kiln.rated_volts
    ratios = {n: v / rated[n] / supply for n, v in readings.amps.items() if rated.get(n)}
    if not ratios:
        return None
    name = min(ratios, key=lambda n: ratios[n])
    lowest, highest = ratios[name], max(ratios.values())
    if lowest < NO_AMPS:
        return surely("amps", "one_none", {"section": name}, place=name)
    if lowest < HALF_AMPS * highest:
        figures: Figures = {"section": name, "share_pct": 100.0 * lowest}
        return surely("amps", "one_low", figures, place=name)
    low = above(LOW_AMPS, highest, AMPS_WIDTH)
    share = 100.0 * sum(ratios.values()) / len(ratios)
    return Observation("amps", {"as_expected": 1.0 - low, "all_low": low}, {"share_pct": share})


def answer_observations(answers: Answers) -> list[Observation]:
    """Return what was answered; a question that was skipped gives nothing."""
    seen = [
        _word("onset", answers.onset),
        _word("said_load", answers.load),
        _word("said_end", answers.ended),
        _touched(answers),
        _glow(answers),
        _age(answers),
        _danger(answers),
    ]
    return [o for o in seen if o is not None]


def supply_observation(kiln: Kiln | None) -> Observation | None:
    """Return whether there is a line to lose: a plain fact of the kiln sheet."""
    if kiln is None or kiln.supply is None:
        return None
    one = kiln.supply is Supply.SINGLE_PHASE
    return surely("supply_kind", "one_phase" if one else "three_phases")


def _word(fact: str, answer: str | None) -> Observation | None:
    return None if answer is None else surely(fact, answer)


def _touched(answers: Answers) -> Observation | None:
    if answers.probe_touched is None:
        return None
    return surely("touched", "yes" if answers.probe_touched else "no")


def _glow(answers: Answers) -> Observation | None:
    dark = answers.sections_dark
    if dark is None:
        return None
    if not dark:
        return surely("glow", "all_glow")
    text = N_("Sections {sections} stayed dark.") if dark[1:] else ""
    figures: Figures = {"section": dark[0], "sections": tuple(dark)}
    return Observation("glow", {"one_dark": 1.0}, figures, None, ", ".join(dark), text)


def _age(answers: Answers) -> Observation | None:
    count = answers.firings_since_elements
    if count is None:
        return None
    word = "young" if count < YOUNG else "old" if count > OLD else "middle"
    return surely("age", word, {"firings": count})


_DANGERS = (
    ("heats_when_off", "heats_when_off"),
    ("burning_smell", "burnt"),
    ("hot_plug", "burnt"),
    ("tripped_breaker", "tripped"),
)
"""Answers to the safety question, the gravest first, and the outcome each stands for."""


def _danger(answers: Answers) -> Observation | None:
    if answers.safety is None:
        return None
    said = set(answers.safety)
    return surely("danger", next((o for word, o in _DANGERS if word in said), "nothing"))
