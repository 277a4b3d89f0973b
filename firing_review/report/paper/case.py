"""The case sheet for a list, the phone or a message: facts in the order in which they are asked.

Gaps are named. No title, no name of kiln or file and no day stand on it: none of them helps who
answers, and any of them may name a person.
"""

import math
from collections.abc import Iterator, Mapping, Sequence

from firing_review.diagnosis import questions
from firing_review.firing.cones import ShelfCone
from firing_review.firing.kiln import Kiln
from firing_review.firing.results import Question
from firing_review.firing.schedule import ClockCurve, Intended, Schedule, Segment
from firing_review.firing.sheet import Given
from firing_review.firing.wording import tr, written
from firing_review.report.paper import parts
from firing_review.report.paper.page import Block, Heading, Page, Point, Points, Words
from firing_review.report.paper.technician import SUPPLY_WORDS, rated_amps_text, with_unit
from firing_review.report.shelves import shelf_names
from firing_review.report.shown_text import shown
from firing_review.report.text import shelf_text
from firing_review.report.wording import (
    Show,
    cone_label,
    cone_name,
    hours,
    minutes,
    rate,
    render,
    render_all,
    temperature,
)
from firing_review.review.review import Review

Fact = tuple[str, str | None]


def case_page(review: Review, show: Show) -> Page:
    """Return the case sheet."""
    given = review.given
    groups: tuple[tuple[str, Sequence[Fact]], ...] = (
        (tr("Danger signs"), _safety(given)),
        (tr("What was fired"), _ware(given, show)),
        (tr("Witness cones (bend: 0° unmoved, 90° end point)"), _cones(review, show)),
        (tr("Times and temperatures"), _firing(review, show)),
        (tr("How it ended"), [(tr("ended"), _choice(questions.ENDED, given.answers.ended))]),
        (tr("Against the usual"), _usual(given)),
        (tr("The load"), _load(given)),
        (tr("The kiln"), _kiln(given)),
        (tr("Heating elements"), _elements(given)),
        (tr("Supply under load"), _supply(given)),
        (tr("Probe"), _probe(given)),
        (tr("Pictures"), [(tr("pictures"), str(len(given.pictures)) if given.pictures else None)]),
    )
    blocks: list[Block] = [*parts.danger(review)]
    for number, (head, facts) in enumerate(groups):
        blocks += [Heading(f"{number}. {head}"), Points(tuple(_points(facts)))]
    blocks += [Heading(tr("What the program makes of it"))]
    blocks += [Words(render_all(review.verdict.sentences, show))]
    blocks += parts.causes(review, show)
    blocks += parts.next_check(review, show)
    blocks += [parts.caution(review, show)]
    foot = tr("Written by Firing Review from the log and what was answered; no names are on it.")
    return Page(tr("Case sheet"), tr("An electric kiln firing"), "", tuple(blocks), foot)


def _points(facts: Sequence[Fact]) -> Iterator[Point]:
    """Yield what is known, then one line that names what is not."""
    for name, value in facts:
        if value:
            yield Point("–", value, f"{name}:" if name else "")
    missing = [name for name, value in facts if name and not value]
    if missing:
        yield Point("–", ", ".join(missing), tr("not known:"))


def _choice(question: Question, value: object) -> str | None:
    words = {key: render(said) for key, said in question.choices}
    return words.get(value) if isinstance(value, str | bool) else None


def _safety(given: Given) -> list[Fact]:
    signs = given.answers.safety
    if signs is None:
        return [(tr("smell, hot plug or cord, tripped breaker, heat while off"), None)]
    words = [_choice(questions.SAFETY, sign) for sign in signs] or [tr("none of these")]
    return [(tr("reported"), ", ".join(word for word in words if word))]


def _ware(given: Given, show: Show) -> list[Fact]:
    answers = given.answers
    rated, goal = answers.ware_rated_cone, given.goal_cone
    return [
        (tr("ware"), answers.ware and shown(answers.ware, 120)),
        (tr("clay and glaze rated for"), cone_name(rated, show) if rated else None),
        (tr("cone meant"), cone_name(goal, show) if goal else None),
    ]


def _cones(review: Review, show: Show) -> list[Fact]:
    cones = review.given.cones
    if not cones:
        return [(tr("cones by shelf"), None)]
    facts: list[Fact] = []
    for shelf in reversed(shelf_names(review)):
        stood = [_cone(cone, show) for cone in cones if cone.shelf == shelf]
        facts.append((shown(shelf, 40), "; ".join(stood) or tr("none")))
    facts += [("", shelf_text(heat, show)) for heat in reversed(review.shelves)]
    return facts


def _cone(cone: ShelfCone, show: Show) -> str:
    place = f", {shown(cone.position, 30)}" if cone.position else ""
    bend = tr("{name}{place}, bent {bend}°")
    name = tr("cone {number}").format(number=cone_label(cone.cone.text, show))
    return bend.format(name=name, place=place, bend=round(cone.bend_deg))


def _firing(review: Review, show: Show) -> list[Fact]:
    log, firing = review.given.log, review.firing
    length = tr("{length}, a reading every {step} s").format(
        length=hours(log.hours), step=round(log.sample_s) if math.isfinite(log.sample_s) else "?"
    )
    facts: list[Fact] = [(tr("record"), length)]
    if firing is not None:
        took = tr("{peak}, {took} after the start").format(
            peak=temperature(firing.peak_c, show), took=hours(firing.peak_h - firing.start_h)
        )
        facts.append((tr("highest reading"), took))
    facts.append((tr("schedule meant"), _schedule(review.given.intended, show)))
    facts += [
        ("", render(found.summary, show)) for found in review.findings[: parts.MOST_FINDINGS]
    ]
    return facts


def _schedule(intended: Intended | None, show: Show) -> str | None:
    if isinstance(intended, Schedule):
        return "; ".join(_segment(one, show) for one in intended.segments)
    if isinstance(intended, ClockCurve):
        top = temperature(intended.top_c, show)
        return tr("a curve by the clock up to {top}").format(top=top)
    return None


def _segment(one: Segment, show: Show) -> str:
    speed = tr("full") if one.rate_c_per_h is None else rate(one.rate_c_per_h, show)
    text = tr("{rate} to {target}").format(rate=speed, target=temperature(one.target_c, show))
    hold = tr("hold {time}").format(time=minutes(one.hold_min))
    return f"{text}, {hold}" if one.hold_min else text


def _usual(given: Given) -> list[Fact]:
    answers = given.answers
    usual, count = answers.usual_hours, answers.firings_since_elements
    earlier = str(len(given.earlier)) if given.earlier else None
    return [
        (tr("usual time of this firing"), None if usual is None else hours(usual)),
        (tr("earlier good firings compared with"), earlier),
        (tr("it began"), _choice(questions.ONSET, answers.onset)),
        (tr("changed since the last good one"), answers.changed and shown(answers.changed, 200)),
        (tr("firings since the heating elements were new"), None if count is None else str(count)),
    ]


def _load(given: Given) -> list[Fact]:
    place = given.answers.load_place
    return [
        (tr("how full"), _choice(questions.LOAD, given.answers.load)),
        (tr("where the bad and the heavy pieces stood"), place and shown(place, 200)),
    ]


def _kiln(given: Given) -> list[Fact]:
    kiln = given.kiln or Kiln()
    return [
        (tr("size"), with_unit(kiln.volume_l, "l")),
        (tr("wall"), with_unit(kiln.wall_mm, "mm")),
        (tr("sections"), str(len(kiln.sections)) if kiln.sections else None),
        (tr("volts on the plate"), with_unit(kiln.rated_volts, "V")),
        (tr("power on the plate"), with_unit(kiln.rated_kw, "kW", 2)),
        (tr("current by the plate"), rated_amps_text(kiln)),
        (tr("phases"), tr(SUPPLY_WORDS[kiln.supply]) if kiln.supply else None),
    ]


def _elements(given: Given) -> list[Fact]:
    dark = given.answers.sections_dark
    glow = None
    if dark is not None:
        names = ", ".join(shown(name, 24) for name in dark)
        glow = tr("dark: {names}").format(names=names) if names else tr("all glow")
    ohms = {
        k: tr("open") if math.isinf(v) else written(f"{v:.2f} Ω")
        for k, v in given.readings.cold_ohms.items()
    }
    return [(tr("glow"), glow), (tr("ohms, cold and unplugged"), _by_section(ohms))]


def _supply(given: Given) -> list[Fact]:
    rest, full = given.readings.volts_no_load, given.readings.volts_full_load
    amps = {k: with_unit(v, "A", 1) for k, v in given.readings.amps.items()}
    return [
        (tr("volts at rest"), with_unit(rest, "V")),
        (tr("volts under load"), with_unit(full, "V")),
        (tr("amps by section"), _by_section(amps)),
    ]


def _by_section(values: Mapping[str, str | None]) -> str | None:
    return ", ".join(f"{shown(name, 24)} {value}" for name, value in values.items()) or None


def _probe(given: Given) -> list[Fact]:
    kind = given.kiln.thermocouple if given.kiln else None
    return [
        (tr("type"), kind and shown(kind, 12)),
        (tr("probes in the log"), str(len(given.log.temperatures))),
        (tr("moved, touched or changed"), _choice(questions.PROBE, given.answers.probe_touched)),
        (tr("age, and how far in"), None),
    ]
