"""Readings typed in the place "Elements" go into the review; the bars say what is known."""

from collections.abc import Iterator

import pytest
from closing import put_away
from firings import GOOD, TO_1000, log_of

from firing_review.firing.kiln import Kiln, Section
from firing_review.firing.results import ElementsJudged
from firing_review.firing.sheet import OPEN_CIRCUIT, Given, Readings
from firing_review.io.tables import load_tables
from firing_review.review.pipeline import review_firing
from firing_review.ui.elements_place.panel import ElementsPlace
from firing_review.ui.elements_place.reading_rows import read_readings_typed, rows_of
from firing_review.ui.elements_place.share_bars import shares_of

KILN = Kiln(name="Wren", sections=(Section("bottom"), Section("top")))


@pytest.fixture
def place(qapp, appearance, showing, answers) -> Iterator[ElementsPlace]:
    made = ElementsPlace(appearance, showing, answers.questions())
    made.show()
    made.show_review(review_firing(Given(log_of(GOOD), "t", TO_1000, (), KILN), load_tables()))
    yield made
    put_away(made)


def test_a_reading_goes_into_the_review_as_it_is_typed(qtbot, place: ElementsPlace) -> None:
    with qtbot.waitSignal(place.readingsEdited) as sent:
        place.model.setData(place.model.index(0, 1), "10,4")
    assert sent.args[0] == Readings(cold_ohms={"bottom": 10.4})


def test_open_is_a_reading(place: ElementsPlace) -> None:
    read = read_readings_typed([("top", "open", "")], "", "")
    assert read.readings == Readings(cold_ohms={"top": OPEN_CIRCUIT})
    assert rows_of(read.readings, KILN)[1] == ("top", "open", "")


def test_volts_that_are_no_number_are_told_and_nothing_is_taken() -> None:
    read = read_readings_typed([], "240 V", "")
    assert read.readings is None
    assert "238" in read.message


def test_what_is_not_known_is_said_so() -> None:
    assert [s.word for s in shares_of(ElementsJudged())] == ["cannot tell"] * 3


def test_power_is_given_with_its_range() -> None:
    judged = ElementsJudged(0.82, 0.78, 0.86, mass_ratio=1.0, loss_ratio=1.2)
    assert [s.word for s in shares_of(judged)] == [
        "about 82 % (78–86 %)",
        "as usual",
        "about 20 % more",
    ]
