"""Each invented story is answered by the cause it tells of."""

import pytest

from firing_review.io.open_any import gather
from firing_review.io.resource_path import demo_logs
from firing_review.io.tables import load_tables
from firing_review.review.pipeline import review_firing

STORIES = {
    "1_good_glaze_firing": "none",
    "2_worn_heating_elements": "worn_elements",
    "3_dead_section": "dead_section",
    "4_low_supply": "low_supply",
    "5_probe_reads_high": "probe_reads_high",
    "6_mistyped_hold": "schedule_mistyped",
    "7_power_cut": "power_interruption",
    "8_uneven_load": "uneven_load",
}


@pytest.mark.parametrize(("folder", "cause"), STORIES.items())
def test_the_cause_of_the_story_comes_first(folder: str, cause: str) -> None:
    review = review_firing(gather(demo_logs() / folder), load_tables())
    assert review.causes[0].id == cause


def test_every_cause_that_speaks_names_this_firings_figures() -> None:
    review = review_firing(gather(demo_logs() / "2_worn_heating_elements"), load_tables())
    said = review.causes[0].speaks_for
    assert any("power_pct" in s.figures for s in said)
