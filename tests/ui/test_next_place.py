"""Sliders move the shelves; a way puts them where it is; the schedule is saved."""

from collections.abc import Iterator
from dataclasses import replace

import pytest
from closing import put_away
from PySide6.QtWidgets import QPushButton

from firing_review.io.open_any import gather
from firing_review.io.resource_path import demo_logs
from firing_review.io.schedule_file import read_schedule
from firing_review.io.tables import load_tables
from firing_review.review.pipeline import review_firing
from firing_review.ui.next_place.panel import NextPlace


@pytest.fixture
def target(tmp_path):
    return tmp_path / "next.csv"


@pytest.fixture
def place(qapp, appearance, showing, answers, target) -> Iterator[NextPlace]:
    questions = replace(answers.questions(), file_to_save=lambda _parent, _name: target)
    made = NextPlace(appearance, showing, load_tables(), questions)
    made.resize(1200, 600)
    made.show()
    made.show_review(review_firing(gather(demo_logs() / "8_uneven_load"), load_tables()))
    yield made
    put_away(made)


def bends(place: NextPlace) -> dict[str, float]:
    return {row.name: row.bend_deg for row in place.view.outcomes.rows}


def test_a_longer_hold_bends_the_cone_of_the_cold_shelf_farther(place) -> None:
    before = bends(place)["bottom"]
    place.view.hold.setValue(40)
    assert bends(place)["bottom"] > before
    place.reset()
    assert bends(place)["bottom"] == pytest.approx(before)


def test_a_way_puts_the_sliders_where_it_is(place) -> None:
    option = place._review.next_firing.options[0]
    place._take(option)
    assert place.view.hold.value() == round(option.extra_hold_min or 0)


def test_only_a_way_that_spoils_no_shelf_is_offered_to_be_tried(place) -> None:
    review = place._review
    presses = [button.text() for button in place.findChildren(QPushButton)]
    assert {way.far_over for way in review.next_firing.options} == {("top",)}
    assert presses.count("Show it") == len(review.next_firing.options)
    assert "Try this" not in presses
    mild = tuple(replace(way, far_over=()) for way in review.next_firing.options)
    place.show_review(replace(review, next_firing=replace(review.next_firing, options=mild)))
    ways = [place.view.ways.itemAt(n).widget() for n in range(len(mild))]
    assert [way.findChild(QPushButton).text() for way in ways] == ["Try this"] * len(mild)


def test_the_new_schedule_is_saved_and_reads_back(place, target) -> None:
    place.view.top.setValue(10)
    place.view.save.click()
    saved = read_schedule(target)
    assert saved.top_c == pytest.approx(place._base.schedule.top_c + 10.0, abs=0.6)


def test_without_a_firing_nothing_can_be_moved(place) -> None:
    review = place._review
    place.show_review(replace(review, firing=None))
    assert not place.view.hold.isEnabled()


def test_a_firing_without_a_goal_shows_nothing_of_the_one_before(place) -> None:
    place.view.top.setValue(10)
    given = replace(place._review.given, goal_cone=None, intended=None)
    place.show_review(review_firing(given, load_tables()))
    view = place.view
    assert view.outcomes.rows == ()
    assert view.chart.isHidden()
    assert [w.text() for w in (view.hold_label, view.rate_label, view.top_label)] == ["—"] * 3
