"""The page for a reader."""

from collections.abc import Callable, Mapping

from firing_review.report.paper.case import case_page
from firing_review.report.paper.maker import maker_page
from firing_review.report.paper.office import office_page
from firing_review.report.paper.page import Page, Reader
from firing_review.report.paper.technician import technician_page
from firing_review.report.wording import Show
from firing_review.review.review import Review

_PAGES: Mapping[Reader, Callable[[Review, Show], Page]] = {
    Reader.MAKER: maker_page,
    Reader.OFFICE: office_page,
    Reader.TECHNICIAN: technician_page,
    Reader.CASE: case_page,
}


def make_page(review: Review, reader: Reader, show: Show) -> Page:
    """Return the page of a review for a reader, in °C, °F or both."""
    return _PAGES[reader](review, show)
