"""A cause is named beside the verdict only when it is more likely than not."""

from dataclasses import replace

import pytest
from firings import GOOD, log_of

from firing_review.firing.results import CauseWeighed
from firing_review.firing.said import Said
from firing_review.firing.sheet import Given
from firing_review.io.tables import load_tables
from firing_review.report.cause_text import likeliest_line
from firing_review.report.text import review_text
from firing_review.report.wording import Show
from firing_review.review.pipeline import review_firing


@pytest.fixture(scope="module")
def review():
    return review_firing(Given(log_of(GOOD)), load_tables())


def weighed(cause_id: str, probability: float) -> CauseWeighed:
    return CauseWeighed(cause_id, Said("A heavy load"), probability)


def test_a_cause_more_likely_than_not_is_named_with_how_likely(review):
    known = replace(review, causes=(weighed("heavy_load", 0.8), weighed("none", 0.2)))
    assert likeliest_line(known, Show.CELSIUS) == "Most likely: A heavy load: very likely, 80 %"
    assert "Most likely: A heavy load" in review_text(known)


@pytest.mark.parametrize(("cause_id", "probability"), [("heavy_load", 0.45), ("none", 0.9)])
def test_nothing_is_named_where_the_leading_cause_is_open_or_none(review, cause_id, probability):
    assert (
        likeliest_line(replace(review, causes=(weighed(cause_id, probability),)), Show.CELSIUS)
        == ""
    )
