"""The answer in one or two sentences, and the three marks."""

from firing_review.analysis.cone_contradictions import CONTRADICTION_TEXTS
from firing_review.diagnosis.safety import SWITCH_OFF, heats_by_itself, in_danger
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.findings import Finding, FindingKind, Severity
from firing_review.firing.results import (
    ChannelHeatWork,
    ElementsJudged,
    Light,
    Lights,
    ShelfHeat,
    Verdict,
)
from firing_review.firing.said import N_, Figures, Said
from firing_review.firing.sheet import Answers, Given

GOAL_NEAR = (0.8, 1.35)
"""Share of the goal cone's work between which it stands within about a third of a cone."""

_KILN_FAULTS = frozenset(
    {
        FindingKind.STALL,
        FindingKind.SLOW_CLIMB,
        FindingKind.HEATS_WITHOUT_DEMAND,
        FindingKind.POWER_GAP,
        FindingKind.ZONE_GAP,
        FindingKind.PROBE_DEAD,
        FindingKind.PROBE_DROPOUT,
        FindingKind.PROBE_SPIKE,
        FindingKind.PROBE_FROZEN,
        FindingKind.PROBE_FALLS_WHILE_HEATING,
        FindingKind.PROBE_JUMP,
    }
)
_ENDINGS = frozenset({FindingKind.SHORT_OF_TARGET, FindingKind.ENDED_EARLY, FindingKind.STALL})
"""Kinds that tell the same end of a firing; the verdict names one of them."""
_LEADING = (
    FindingKind.NOT_A_FIRING,
    FindingKind.HEATS_WITHOUT_DEMAND,
    FindingKind.POWER_GAP,
    FindingKind.STALL,
    FindingKind.ENDED_EARLY,
    FindingKind.PROBE_FALLS_WHILE_HEATING,
    FindingKind.PROBE_DEAD,
    FindingKind.SCHEDULE_DIFFERS,
    FindingKind.LONG_HOLD,
    FindingKind.SLOW_CLIMB,
    FindingKind.SHORT_OF_TARGET,
    FindingKind.ZONE_GAP,
    FindingKind.OVERSHOOT,
)
"""Which finding leads the verdict when several are equally grave."""


def say_verdict(
    given: Given,
    firing: AlignedFiring | None,
    findings: tuple[Finding, ...],
    heat: tuple[ChannelHeatWork, ...],
    shelves: tuple[ShelfHeat, ...],
    elements: ElementsJudged,
    contradictions: tuple[Said, ...] = (),
) -> Verdict:
    """Return the verdict: safety first, then what contradicts itself, the load, what happened.

    Parameters
    ----------
    contradictions : tuple of Said
        Cones, schedule and goal that cannot be meant together: they come before any fault of
        the kiln, for a mix-up explains a spoiled load better.
    """
    load, load_word = _load(given, heat, shelves)
    power = _power_sentences(elements)
    kiln, kiln_word = _kiln(firing, findings, is_weak=bool(power))
    safety, safety_word = _safety(given.answers, findings)
    events = _event_sentences(firing, findings)
    clash = [*contradictions[:1], *_cone_clash(shelves)][:1]
    sentences = [*clash, *_load_sentences(given, heat, shelves)]
    sentences += [*events[: 2 - len(power)], *power]
    if safety is Light.STOP:
        sentences.insert(0, safety_word)
    return Verdict(
        sentences=tuple(sentences[:4]),
        lights=Lights(load, kiln, safety),
        load_word=load_word,
        kiln_word=kiln_word,
        safety_word=safety_word,
    )


def _load_sentences(
    given: Given, heat: tuple[ChannelHeatWork, ...], shelves: tuple[ShelfHeat, ...]
) -> list[Said]:
    uneven = [s for s in shelves if s.word in {"cold", "hot"}]
    if uneven:
        return [_shelf_sentence(uneven)]
    if any(s.word == "even" for s in shelves) and given.goal_cone is not None:
        text = N_("By the cones, the load got cone {cone}, as meant.")
        return [Said(text, {"cone": given.goal_cone.text})]
    if given.goal_cone is None or not heat or heat[0].goal_fraction is None:
        return []
    fraction, cone = heat[0].goal_fraction, given.goal_cone.text
    figures: Figures = {"cone": cone, "share_pct": 100.0 * fraction, "got_cone": heat[0].label}
    if _left_open(heat):
        text = N_(
            "The log leaves open how hot the top was, so cone {cone} cannot be judged by it."
        )
        return [Said(text, {"cone": cone})]
    if fraction < GOAL_NEAR[0]:
        if heat[0].label is None or fraction < 0.005:
            text = N_("By the log, the load got far too little heat work for cone {cone}.")
        else:
            text = N_(
                "By the log, the load got the heat work of cone {got_cone}, not of cone {cone}."
            )
    elif fraction > GOAL_NEAR[1]:
        text = N_("By the log, the load got more than cone {cone}: about cone {got_cone}.")
    else:
        text = N_("By the log, the load got the heat work of cone {cone}.")
    return [Said(text, figures)]


def _left_open(heat: tuple[ChannelHeatWork, ...]) -> bool:
    """Tell whether the log is only a lower bound, and the load not too hot already by that."""
    return heat[0].at_least and (heat[0].goal_fraction or 0.0) <= GOAL_NEAR[1]


def _cone_clash(shelves: tuple[ShelfHeat, ...]) -> list[Said]:
    """Say on which shelves a guide, firing or guard cone contradicts another."""
    names = [s.shelf for s in shelves if any(n.text in CONTRADICTION_TEXTS for n in s.notes)]
    if not names:
        return []
    text = N_(
        "Cones contradict each other on {shelves}: a pack may stand reversed, a cone may be "
        "misread, or a number wrong."
    )
    return [Said(text, {"shelves": tuple(names)})]


def _shelf_sentence(uneven: list[ShelfHeat]) -> Said:
    cold = [s for s in uneven if s.word == "cold"]
    hot = [s for s in uneven if s.word == "hot"]
    if cold and hot:
        text = N_("By the cones, {cold} stayed cooler than meant and {hot} hotter.")
        return Said(text, {"cold": _names(cold), "hot": _names(hot)})
    if cold:
        return _one_sided(cold, _COLD, "at_most")
    return _one_sided(hot, _HOT, "at_least")


_COLD = (
    N_("By the cones, {shelves} stayed cooler than meant: about cone {got_cone}."),
    N_("By the cones, {shelves} stayed cooler than meant: cone {low_cone} to {high_cone}."),
    N_("By the cones, {shelves} stayed cooler than meant: cone {high_cone} or cooler."),
    N_("By the cones, {shelves} stayed cooler than meant."),
)
_HOT = (
    N_("By the cones, {shelves} went hotter than meant: about cone {got_cone}."),
    N_("By the cones, {shelves} went hotter than meant: cone {low_cone} to {high_cone}."),
    N_("By the cones, {shelves} went hotter than meant: cone {low_cone} or hotter."),
    N_("By the cones, {shelves} went hotter than meant."),
)
"""For one value, for a range, for a bound that holds for every shelf named, for neither."""


def _one_sided(shelves: list[ShelfHeat], texts: tuple[str, ...], bound: str) -> Said:
    """Name the cone shelves got; where one of them is only bounded, a bound for all of them."""
    about, between, bounded, bare = texts
    figures: Figures = {"shelves": _names(shelves)}
    each = [_rank_and_label(s, bound) for s in shelves]
    known = [one for one in each if one is not None]
    if len(known) < len(shelves):
        return Said(bare, figures)
    low, high = min(known)[1], max(known)[1]
    figures |= {"low_cone": low, "high_cone": high, "got_cone": low}
    if any(s.cone_equivalent is None for s in shelves):
        return Said(bounded, figures)
    return Said(about if high == low else between, figures)


def _rank_and_label(shelf: ShelfHeat, bound: str) -> tuple[float, str] | None:
    if shelf.cone_equivalent is not None and shelf.label is not None:
        return shelf.cone_equivalent, shelf.label
    rank, label = (shelf.figures.get(f"{bound}_{what}") for what in ("rank", "cone"))
    return (rank, label) if isinstance(rank, float) and isinstance(label, str) else None


def _names(shelves: list[ShelfHeat]) -> tuple[str, ...]:
    return tuple(s.shelf for s in shelves)


def _event_sentences(firing: AlignedFiring | None, findings: tuple[Finding, ...]) -> list[Said]:
    if firing is None:
        return [f.summary for f in findings[:1]]
    serious = [f for f in findings if f.severity is not Severity.NOTE]
    if not serious:
        figures = {"peak_c": firing.peak_c, "took_h": firing.peak_h - firing.start_h}
        if firing.intended is None:
            return [
                Said(
                    N_("The kiln came to {peak_c} in {took_h}. Add the schedule to compare."),
                    figures,
                )
            ]
        return [Said(N_("The kiln followed its schedule to {peak_c} in {took_h}."), figures)]
    if firing.crossings_h:
        crossed = [f for f in findings if "crossed_h" in f.figures]
        return [f.summary for f in sorted(crossed, key=lambda f: f.start_h)[:2]]
    leading = sorted(serious, key=_leading)
    if leading[0].kind in _ENDINGS:
        leading = [f for f in leading if f is leading[0] or f.kind not in _ENDINGS]
    return [f.summary for f in leading[:2]]


POWER_LOW = 0.93
"""Power is said to be missing if even the upper end of its range lies below this."""


def _power_sentences(elements: ElementsJudged) -> list[Said]:
    """Say how much of its power the kiln had, if it clearly was not all of it."""
    high = elements.power_high
    if elements.power_ratio is None or elements.power_low is None or high is None:
        return []
    if high >= POWER_LOW:
        return []
    figures: Figures = {
        "power_pct": 100.0 * elements.power_ratio,
        "low_pct": 100.0 * elements.power_low,
        "high_pct": 100.0 * high,
    }
    text = N_("The kiln had about {power_pct} of its usual power ({low_pct} to {high_pct}).")
    return [Said(text, figures)]


def _leading(finding: Finding) -> tuple[int, int]:
    grave = 0 if finding.severity is Severity.FAULT else 1
    place = _LEADING.index(finding.kind) if finding.kind in _LEADING else len(_LEADING)
    return grave, place


def _unlike_meant(words: set[str]) -> str:
    """Return what is to be said of a load of which not every shelf is as meant."""
    if {"hot", "cold"} <= words:
        return N_("hotter and cooler than meant")
    if words == {"hot"}:
        return N_("hotter than meant, by the cones")
    if words == {"cold"}:
        return N_("cooler than meant, by the cones")
    return (
        N_("hotter than meant on a shelf")
        if "hot" in words
        else N_("cooler than meant on a shelf")
    )


def _load(
    given: Given, heat: tuple[ChannelHeatWork, ...], shelves: tuple[ShelfHeat, ...]
) -> tuple[Light, Said]:
    words = {s.word for s in shelves if s.word}
    if words == {"even"}:
        return Light.FINE, Said(N_("as meant, by the cones"))
    if words:
        return Light.WATCH, Said(_unlike_meant(words))
    if given.goal_cone is None or not heat or heat[0].goal_fraction is None:
        return Light.UNKNOWN, Said(N_("no goal cone given"))
    fraction = heat[0].goal_fraction
    if _left_open(heat):
        return Light.UNKNOWN, Said(N_("the log leaves its top open"))
    if fraction < GOAL_NEAR[0]:
        return Light.WATCH, Said(N_("underfired, by the log"))
    if fraction > GOAL_NEAR[1]:
        return Light.WATCH, Said(N_("overfired, by the log"))
    return Light.FINE, Said(N_("as meant, by the log"))


def _kiln(
    firing: AlignedFiring | None, findings: tuple[Finding, ...], *, is_weak: bool
) -> tuple[Light, Said]:
    if firing is None:
        return Light.UNKNOWN, Said(N_("no firing in this file"))
    kinds = {f.kind: f.severity for f in reversed(findings) if f.kind in _KILN_FAULTS}
    if FindingKind.HEATS_WITHOUT_DEMAND in kinds:
        return Light.STOP, Said(N_("heats without demand"))
    if Severity.FAULT in kinds.values():
        return Light.WATCH, Said(N_("check before firing"))
    if kinds:
        return Light.WATCH, Said(N_("worth a look"))
    if is_weak:
        return Light.WATCH, Said(N_("less power than usual"))
    if firing.intended is None:
        return Light.UNKNOWN, Said(N_("no schedule to compare"))
    if any(f.kind is FindingKind.ENDED_EARLY and f.severity is Severity.FAULT for f in findings):
        return Light.WATCH, Said(N_("worth a look"))
    return Light.FINE, Said(N_("nothing seen"))


def _safety(answers: Answers, findings: tuple[Finding, ...]) -> tuple[Light, Said]:
    """Answer for safety: a danger sign stops everything, and silence is never "fine"."""
    if heats_by_itself(findings):
        return Light.STOP, SWITCH_OFF
    if answers.safety is None:
        return Light.NOT_ASKED, Said(N_("not asked yet"))
    if in_danger(answers, ()):
        return Light.STOP, SWITCH_OFF
    return Light.FINE, Said(N_("nothing reported"))
