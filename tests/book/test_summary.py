"""The few figures kept of a firing say what its review says, and read back the same."""

import json

import pytest
from book_firings import firing, full_firing
from firings import TO_1000, cooling, firing_of, log_of, schedule

from firing_review.analysis.climb_and_fall import GRID_C
from firing_review.book.summary import (
    ShelfKept,
    Summary,
    curve_array,
    read_summary,
    shelf_heat,
    summarize,
    summary_of_given,
    summary_text,
    top_rate_c_per_h,
)
from firing_review.io.open_any import gather
from firing_review.io.resource_path import demo_logs
from firing_review.io.tables import load_tables
from firing_review.review.pipeline import review_firing

FULL = schedule((None, 1000.0, 10.0))
SLOWING = [(0.0, 20.0), (3.0, 900.0), (4.5, 1000.0), (4.7, 1000.0), *cooling(4.7, 1000.0)]
"""Full output all the way; the last 100 °C took an hour and a half."""


@pytest.fixture(scope="module")
def worn():
    return review_firing(gather(demo_logs() / "2_worn_heating_elements"), load_tables())


def test_the_rate_over_the_last_hundred_degrees_is_told_at_full_output():
    log = log_of(SLOWING, output=[(0.0, 100.0), (4.5, 100.0), (4.51, 0.0), (16.0, 0.0)])
    assert top_rate_c_per_h(firing_of(log, FULL)) == pytest.approx(100.0 / 1.5, rel=0.05)


def test_a_climb_that_the_schedule_held_back_tells_no_rate():
    held = [(0.0, 20.0), (1.0, 120.0), (1.5, 120.0), (5.5, 920.0), (6.5, 1000.0), (6.75, 1000.0)]
    corners = [*held, *cooling(6.75, 1000.0)]
    output = [(0.0, 50.0), (6.75, 60.0), (6.76, 0.0), (19.0, 0.0)]
    assert top_rate_c_per_h(firing_of(log_of(corners, output=output), TO_1000)) is None


def test_figures_are_those_of_the_review(worn):
    summary = summarize(worn)
    judged = worn.elements
    assert summary.power_ratio == pytest.approx(judged.power_ratio, abs=1e-4)
    assert summary.wear_h == pytest.approx(judged.figures["wear_h"], abs=1e-4)
    assert summary.energy_kwh == pytest.approx(judged.figures["energy_kwh"], abs=1e-3)
    assert set(summary.resistance) == {"bottom", "middle", "top"}
    assert summary.goal_cone == "6"
    assert len(summary.power_over_heat) == len(GRID_C)
    assert [s.offset_c is None for s in summary.shelves] == [
        s.offset_c is None for s in worn.shelves
    ]


def test_a_summary_reads_back_the_same(worn):
    for summary in (summarize(worn), summary_of_given(full_firing()), Summary()):
        assert read_summary(summary_text(summary)) == summary


def test_keys_of_a_newer_version_are_passed_over(worn):
    known = json.loads(summary_text(summarize(worn)))
    known["moon"] = "full"
    known["shelves"][0]["moon"] = "new"
    assert read_summary(json.dumps(known)) == summarize(worn)


def test_a_kept_shelf_is_what_the_planning_asks_for():
    heat = shelf_heat(ShelfKept("top", 3.0, 1.0, 5.0, "6", "even"))
    assert (heat.offset_c, heat.low_c, heat.high_c) == (3.0, 1.0, 5.0)
    assert (heat.label, heat.word, dict(heat.figures)) == ("6", "even", {})


def test_a_curve_shorter_than_the_grid_ends_in_gaps():
    values = curve_array((1.0, None, 3.0))
    assert list(values[:3][[0, 2]]) == [1.0, 3.0]
    assert len(values) == len(GRID_C)
    assert not (values[3:] == values[3:]).any()


def test_before_a_review_what_was_entered_is_listed():
    summary = summary_of_given(firing(title="tonight"))
    assert (summary.title, summary.source, summary.reviewed) == ("tonight", "log.csv", False)
