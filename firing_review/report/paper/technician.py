"""The page for the technician: plate, readings with the sums done, chart, causes and checks."""

import math
from collections.abc import Mapping

from firing_review.firing.kiln import Kiln, Section, Supply
from firing_review.firing.results import ElementsJudged, SectionElements
from firing_review.firing.said import N_
from firing_review.firing.sheet import Readings
from firing_review.firing.wording import tr, written
from firing_review.report.paper import parts
from firing_review.report.paper.chamber import chamber_map
from firing_review.report.paper.chart import chart
from firing_review.report.paper.page import Block, Heading, Page, Point, Points, Table, Words
from firing_review.report.segment_rows import CONE, HEADINGS, segment_rows
from firing_review.report.shown_text import shown
from firing_review.report.wording import Show, render, render_all, temperature
from firing_review.review.review import Review

BLANK = ""
SUPPLY_WORDS = {
    Supply.SINGLE_PHASE: N_("single phase"),
    Supply.THREE_PHASE_STAR: N_("three phases, star without neutral"),
    Supply.THREE_PHASE_STAR_NEUTRAL: N_("three phases, star with neutral"),
    Supply.THREE_PHASE_DELTA: N_("three phases, delta"),
}
MOST_SEGMENTS = 12
SEGMENT_SHARES = (0.15, 0.28, 0.28, 0.14, 0.15)


def technician_page(review: Review, show: Show) -> Page:
    """Return readings and plate data with the sums done, and what to look at."""
    blocks: list[Block] = [*parts.danger(review), *parts.verdict(review, show)]
    blocks += plate(review.given.kiln)
    blocks += readings_table(review.given.kiln, review.given.readings, review.elements)
    blocks += power(review.elements, show)
    blocks += parts.pictures(chart(review, show, low=True))
    blocks += parts.findings(review, show, most=8)
    blocks += parts.notes(review)
    blocks += segments(review, show)
    blocks += parts.causes(review, show, most=4)
    blocks += checks(review, show)
    blocks += parts.gaps(review, show, most=8)
    blocks += parts.pictures(chamber_map(review, show, low=True))
    blocks += [parts.caution(review, show), parts.reading_line(review)]
    return parts.page_of(review, tr("For the technician"), blocks, show)


def plate(kiln: Kiln | None) -> list[Heading | Words]:
    """Return what stands on the kiln's plate; what is missing is named."""
    if kiln is None:
        text = tr("Plate: not known. Volts, phases, power, sections are still to be noted.")
        return [Heading(tr("Kiln")), Words(text)]
    known = (
        (tr("volts"), with_unit(kiln.rated_volts, "V")),
        (tr("supply"), kiln.supply and tr(SUPPLY_WORDS[kiln.supply])),
        (tr("power"), with_unit(kiln.rated_kw, "kW", 2)),
        (tr("current"), rated_amps_text(kiln)),
        (tr("chamber"), with_unit(kiln.volume_l, "l")),
        (tr("wall"), with_unit(kiln.wall_mm, "mm")),
        (tr("thermocouple type"), kiln.thermocouple and shown(kiln.thermocouple, 12)),
        (tr("sections"), len(kiln.sections) or None),
    )
    said = [f"{name} {value}" for name, value in known if value]
    missing = [name for name, value in known if not value]
    text = ", ".join(said)
    if missing:
        text += ". " * bool(said) + tr("Not known: {names}").format(names=", ".join(missing))
    return [Heading(tr("Plate")), Words(f"{text}.")]


def with_unit(value: float | None, unit: str, digits: int = 0) -> str | None:
    """Return a value with its unit; None stays None."""
    return None if value is None else f"{_number(value, digits)} {unit}"


def rated_amps_text(kiln: Kiln) -> str | None:
    """Return the current of the plate, P/V or P/(√3 V) a line [A]."""
    if not kiln.rated_kw or not kiln.rated_volts:
        return None
    lines = 1.0 if kiln.supply in (None, Supply.SINGLE_PHASE) else math.sqrt(3.0)
    amps = with_unit(1000.0 * kiln.rated_kw / kiln.rated_volts / lines, "A", 1)
    if kiln.supply is None:
        return tr("{amps} if single phase").format(amps=amps)
    return amps if kiln.supply is Supply.SINGLE_PHASE else tr("{amps} a line").format(amps=amps)


def readings_table(
    kiln: Kiln | None, readings: Readings, elements: ElementsJudged
) -> list[Heading | Table | Words]:
    """Return a row for each section: as listed, as read, the change, power now."""
    sections = list(kiln.sections) if kiln else []
    named = [s.name for s in sections]
    more = [n for n in (*readings.cold_ohms, *readings.amps) if n not in named]
    sections += [Section(name) for name in dict.fromkeys(more)]
    if not sections:
        return []
    judged = {one.section.casefold(): one for one in elements.per_section}
    rows = [_reading_row(s, readings, judged.get(s.name.casefold())) for s in sections]
    head = (
        tr("Section"),
        tr("Listed kW"),
        tr("Listed Ω"),
        tr("Read Ω, cold"),
        tr("Change"),
        tr("Read A"),
        tr("Power now"),
    )
    shares = (0.18, 0.12, 0.11, 0.15, 0.15, 0.15, 0.14)
    return [
        Heading(tr("Readings")),
        Words(_supply_words(kiln, readings)),
        Table(head, tuple(rows), shares),
        *(Words(text, quiet=True) for text in _section_notes(elements)),
    ]


def _reading_row(
    section: Section, readings: Readings, judged: SectionElements | None
) -> tuple[str, ...]:
    ohms = _value(readings.cold_ohms, section.name)
    amps = _value(readings.amps, section.name)
    ratio = judged.resistance_ratio if judged else None
    power = judged.power_ratio if judged and not judged.by_curve else None
    change = (
        ""
        if ratio is None or not math.isfinite(ratio)
        else f"{written(f'{100 * (ratio - 1):+.0f}')} %"
    )
    return (
        shown(section.name, 24),
        _number(section.rated_kw, 2),
        _number(section.rated_cold_ohms, 2),
        tr("open") if ohms is not None and math.isinf(ohms) else _number(ohms, 2),
        change,
        _number(amps, 1),
        BLANK if power is None else tr("about {share} %").format(share=round(100 * power)),
    )


def _value(values: Mapping[str, float], name: str) -> float | None:
    wanted = name.casefold()
    return next((v for key, v in values.items() if key.casefold() == wanted), None)


def _number(value: float | None, digits: int) -> str:
    return BLANK if value is None else written(f"{value:.{digits}f}")


def _supply_words(kiln: Kiln | None, readings: Readings) -> str:
    """Return the supply as read, its sag, and what it leaves of rated power."""
    rest, full = readings.volts_no_load, readings.volts_full_load
    known = [
        tr("at rest {volts} V").format(volts=_number(rest, 0) or "____"),
        tr("at full power {volts} V").format(volts=_number(full, 0) or "____"),
    ]
    if rest and full:
        known.append(tr("sag {share} %").format(share=_number(100 * (1 - full / rest), 1)))
    rated = kiln.rated_volts if kiln else None
    volts = full or rest
    if rated and volts:
        share = 100 * (volts / rated) ** 2
        known.append(
            tr("({volts}/{rated})² leaves {share} % of rated power").format(
                volts=f"{volts:.0f}", rated=f"{rated:.0f}", share=round(share)
            )
        )
    return tr("Supply: {words}.").format(words=", ".join(known))


def _section_notes(elements: ElementsJudged) -> list[str]:
    return [
        f"{shown(one.section)}: {render(note)}"
        for one in elements.per_section
        for note in one.notes
    ]


def power(elements: ElementsJudged, show: Show) -> list[Heading | Words]:
    """Return power, load and heat loss against the earlier firing."""
    text = render_all(elements.basis, show)
    if elements.ceiling_c is not None and elements.ceiling_c < 1400.0:
        ceiling = temperature(elements.ceiling_c, show)
        text += " " + tr("At full output it would climb to about {top}.").format(top=ceiling)
    return [Heading(tr("Power, load, heat loss")), Words(text)] if text else []


def segments(review: Review, show: Show) -> list[Heading | Table]:
    """Return the segments, asked against got."""
    if review.firing is None or not review.firing.stretches:
        return []
    rows = segment_rows(review.firing.stretches[:MOST_SEGMENTS], show)
    kept = [k for k in range(len(HEADINGS)) if k != CONE]
    cells = tuple(tuple(row.cells[k] for k in kept) for row in rows)
    head = tuple(tr(HEADINGS[k]) for k in kept)
    return [Heading(tr("Segments")), Table(head, cells, SEGMENT_SHARES)]


def checks(review: Review, show: Show) -> list[Heading | Points]:
    """Return the checks of the likely causes, each once."""
    found = [review.next_check, *(cause.next_check for cause in parts.likely(review, 3))]
    once = {check.id: check for check in found if check is not None}
    points = [parts.check_point(check, show) for check in once.values()]
    fixes = [c for c in parts.likely(review) if c.fix is not None]
    points += [
        Point("–", render(c.fix, show), f"{render(c.name, show)}:")
        for c in fixes
        if c.fix is not None
    ]
    return [Heading(tr("Checks and repair")), Points(tuple(points))] if points else []
