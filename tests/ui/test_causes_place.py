"""An answer ranks the causes anew; every card carries its caution."""

from collections.abc import Iterator

import pytest
from closing import put_away
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QLabel

from firing_review.io.open_any import gather
from firing_review.io.resource_path import demo_logs
from firing_review.io.tables import load_tables
from firing_review.review import edits
from firing_review.review.pipeline import review_firing
from firing_review.ui.causes_place.card import CauseCard
from firing_review.ui.causes_place.panel import CausesPlace

DEMO = "2_worn_heating_elements"


@pytest.fixture
def place(qapp, appearance, showing) -> Iterator[CausesPlace]:
    made = CausesPlace(appearance, showing)
    made.resize(1200, 600)
    made.show()
    made.show_review(review_firing(gather(demo_logs() / DEMO), load_tables()))
    yield made
    put_away(made)


def words(widget) -> str:
    return " ".join(label.text() for label in widget.findChildren(QLabel))


def test_the_most_probable_cause_stands_first_with_check_fix_and_caution(place) -> None:
    first = place.cards.itemAt(0).widget()
    assert isinstance(first, CauseCard)
    text = words(first)
    assert "Worn heating elements" in text
    # the cold resistances are answered already, so the check left is a live one
    assert "Check (electrician, about 30 min)" in text
    assert "licensed electrician" in text


def test_an_answer_goes_into_the_review(qtbot, place) -> None:
    chooser = place.choosers["onset"]
    with qtbot.waitSignal(place.answersEdited) as sent:
        chooser.setCurrentIndex(3)
        chooser.activated.emit(3)
    assert sent.args[0].onset == "comes_and_goes"
    again = edits.set_answers(sent.args[0])(place._review, load_tables())
    place.show_review(again)
    assert chooser.currentIndex() == 3


def test_a_question_can_be_skipped_again(qtbot, place) -> None:
    with qtbot.waitSignal(place.answersEdited) as sent:
        place.choosers["onset"].activated.emit(0)
    assert sent.args[0].onset is None


def test_everything_can_be_copied_as_text(place) -> None:
    place.copy.click()
    assert "Worn heating elements" in QGuiApplication.clipboard().text()
