"""The page for the office: what happened, is it safe, what it costs, by when."""

from dataclasses import replace

from firing_review.diagnosis.safety import in_danger
from firing_review.firing.results import Light
from firing_review.firing.said import N_
from firing_review.firing.wording import tr, written
from firing_review.report.cause_text import cause_name
from firing_review.report.paper import parts
from firing_review.report.paper.chart import chart
from firing_review.report.paper.page import (
    Block,
    Heading,
    Page,
    Picture,
    Point,
    Points,
    Table,
    Words,
)
from firing_review.report.wording import Show, render
from firing_review.review.review import Review

SAFE_WORDS = {
    Light.STOP: N_(
        "No. Switch off at the breaker and do not fire; have a licensed electrician look at it."
    ),
    Light.NOT_ASKED: N_(
        "Not asked yet. Before the next firing somebody has to look: burning smell, hot plug or "
        "cord, tripped breaker, a kiln that heats while off? With any of these: do not fire."
    ),
    Light.FINE: N_("No sign of danger was reported, and the log shows none."),
}


def office_page(review: Review, show: Show) -> Page:
    """Return the page for who decides about money and dates; no technical words."""
    curve = parts.pictures(chart(review, show, output=False, low=True))
    whole = parts.page_of(review, tr("For the office"), _blocks(review, show, curve), show)
    least = replace(whole, blocks=_blocks(review, show, (), most_gaps=0))
    curveless = replace(whole, blocks=_blocks(review, show, ()), shorter=least)
    no_gaps = replace(whole, blocks=_blocks(review, show, curve, most_gaps=0), shorter=curveless)
    return replace(whole, shorter=no_gaps)


def _blocks(
    review: Review, show: Show, curve: tuple[Picture, ...], most_gaps: int = 3
) -> tuple[Block, ...]:
    return (
        Heading(tr("Is it safe?")),
        Words(_safe(review), strong=True),
        *parts.again(review, show),
        Heading(tr("What happened")),
        *parts.verdict(review, show),
        *curve,
        *parts.load(review, show),
        *_needed(review, show),
        *_cost(review),
        *parts.gaps(review, show, most_gaps),
        parts.caution(review, show),
    )


def _safe(review: Review) -> str:
    if in_danger(review.given.answers, review.findings):
        return tr(SAFE_WORDS[Light.STOP])
    return tr(SAFE_WORDS.get(review.verdict.lights.safety, SAFE_WORDS[Light.NOT_ASKED]))


def _needed(review: Review, show: Show) -> list[Heading | Points]:
    """Return what is needed, each with a box to tick."""
    points = []
    for cause in (one for one in parts.likely(review) if one.id != "none"):
        fix = render(cause.fix, show) if cause.fix is not None else ""
        points.append(Point("–", fix, f"{cause_name(cause, show)}."))
    check = parts.next_check(review, show)
    points += [point for block in check if isinstance(block, Points) for point in block.points]
    return [Heading(tr("What is needed")), Points(tuple(points))] if points else []


def _cost(review: Review) -> list[Heading | Table | Words]:
    """Return a table whose money and dates are filled in by hand."""
    figures = review.elements.figures
    energy, cost = figures.get("energy_kwh"), figures.get("energy_cost")
    rows = [
        (tr("Visit and work of a technician or electrician"), "", ""),
        (tr("Parts"), "", ""),
        (tr("Work that is lost or fired again"), "", ""),
        (tr("Approved by"), "", ""),
    ]
    blocks: list[Heading | Table | Words] = [
        Heading(tr("What it costs, and by when")),
        Table(("", tr("Cost"), tr("By when")), tuple(rows), (0.56, 0.22, 0.22), tall=True),
    ]
    if isinstance(energy, float):
        text = tr("This firing took about {energy} kWh.").format(energy=round(energy))
        if isinstance(cost, float):
            text += " " + tr("At the tariff of the kiln sheet that is {cost}.").format(
                cost=written(f"{cost:.2f}")
            )
        blocks.append(Words(text, quiet=True))
    return blocks
