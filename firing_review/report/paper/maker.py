"""The page for the maker of the pots: what next."""

from dataclasses import replace

from firing_review.firing.wording import tr
from firing_review.report.paper import parts
from firing_review.report.paper.chamber import chamber_map
from firing_review.report.paper.chart import chart
from firing_review.report.paper.page import Block, Page, Picture
from firing_review.report.wording import Show
from firing_review.review.review import Review


def maker_page(review: Review, show: Show) -> Page:
    """Return the page that says what to do next with the load and the kiln."""
    full = parts.pictures(chart(review, show, low=True)), parts.pictures(chamber_map(review, show))
    low = (
        parts.pictures(chart(review, show, output=False, low=True)),
        parts.pictures(chamber_map(review, show, low=True)),
    )
    whole = parts.page_of(review, tr("What next"), _blocks(review, show, *full), show)
    least = replace(whole, blocks=_blocks(review, show, low[0], (), brief=True))
    short = replace(whole, blocks=_blocks(review, show, *low, brief=True), shorter=least)
    return replace(whole, shorter=short)


def _blocks(
    review: Review,
    show: Show,
    curve: tuple[Picture, ...],
    chamber: tuple[Picture, ...],
    *,
    brief: bool = False,
) -> tuple[Block, ...]:
    """Return what stands on the page; where it is short the lists are."""
    return (
        *parts.danger(review),
        *parts.verdict(review, show),
        *parts.load(review, show),
        *parts.again(review, show),
        *parts.next_check(review, show),
        parts.caution(review, show),
        *curve,
        *parts.findings(review, show, 3 if brief else parts.MOST_FINDINGS),
        *parts.notes(review, 3 if brief else parts.MOST_NOTES),
        *chamber,
        *parts.causes(review, show, 1 if brief else 3),
        *parts.next_firing(review, show, 2 if brief else 9),
        *parts.gaps(review, show, 3 if brief else parts.MOST_GAPS),
        *(() if brief else (parts.reading_line(review),)),
    )
