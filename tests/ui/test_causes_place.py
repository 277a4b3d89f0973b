"""The place of causes: safety, load, next firing, cards; an answer ranks the causes anew."""

from collections.abc import Iterator
from dataclasses import replace

import pytest
from closing import put_away
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QLabel

from firing_review.firing.cones import ConeNumber
from firing_review.firing.results import Sign
from firing_review.firing.said import Said
from firing_review.io.open_any import gather
from firing_review.io.resource_path import demo_logs
from firing_review.io.tables import load_tables
from firing_review.review import edits
from firing_review.review.pipeline import review_firing
from firing_review.review.review import Review
from firing_review.ui.causes_place.panel import CausesPlace
from firing_review.ui.causes_place.sign_button import SignButton
from firing_review.ui.causes_place.spots import SAFETY, spot_of
from firing_review.ui.spot import Spot

DEAD, WORN = "3_dead_section", "2_worn_heating_elements"


def demo(name: str, **answers: object) -> Review:
    given = gather(demo_logs() / name)
    return review_firing(replace(given, answers=replace(given.answers, **answers)), load_tables())


@pytest.fixture
def place(qapp, appearance, showing) -> Iterator[CausesPlace]:
    made = CausesPlace(appearance, showing)
    made.resize(1200, 600)
    made.show()
    made.show_review(demo(DEAD))
    yield made
    put_away(made)


def words(widget) -> str:
    return " ".join(label.text() for label in widget.findChildren(QLabel))


def signs(widget) -> list[SignButton]:
    return widget.findChildren(SignButton)


def sign(place: CausesPlace, fact: str) -> SignButton:
    return next(s for s in signs(place) if s._carried.fact == fact)


def test_a_card_says_word_number_evidence_check_meaning_fix_and_caution(place) -> None:
    first = place.cause_cards[0]
    assert first.fold.text() == "A dead section: very likely, over 95 %"
    text = words(first)
    assert "+  It began suddenly, from one firing to the next." in text
    assert "?  What do the amps by section say?" in text
    assert "To settle it: look only, about 10 min, welding shade 3 to 5" in text
    assert "One dark section: it is that section, not the whole set." in text
    assert "replace that heating element and its joint" in text
    assert "Mains power: off at the breaker" in text


def test_every_card_of_a_fault_carries_its_caution(place) -> None:
    for name in (DEAD, WORN, "8_uneven_load", "7_power_cut"):
        review = demo(name)
        place.show_review(review)
        cautions = {c.id: c.caution.text for c in review.causes if c.caution is not None}
        for card in place.cause_cards:
            if card.cause.id not in {"none", "other"}:
                assert cautions[card.cause.id] in words(card)


def test_every_check_on_a_card_begins_with_who_may_do_it(place) -> None:
    whos = ("look only", "cold and unplugged", "electrician")
    for name in (DEAD, WORN, "8_uneven_load"):
        place.show_review(demo(name))
        for card in place.cause_cards:
            if card.cause.next_check is not None:
                assert any(f"To settle it: {who}, about" in words(card) for who in whos)


def test_the_likely_card_is_open_and_the_others_are_opened_by_their_line(qtbot, place) -> None:
    place.show_review(demo("8_uneven_load"))
    likely, second, *_ = place.cause_cards
    assert not likely.body.isHidden()
    assert second.body.isHidden()
    qtbot.keyClick(second.fold, Qt.Key.Key_Space)
    assert not second.body.isHidden()
    place.show_review(place._review)
    assert not place.cause_cards[1].body.isHidden()


# Safety comes first


def test_the_question_about_safety_stands_above_everything_until_it_is_answered(
    qtbot, place
) -> None:
    place.show_review(demo(DEAD, safety=None))
    assert place.gate.isVisible()
    assert place.gate.y() < place.advice.y()
    assert "First of all: Any burning smell" in place.gate.text.text()
    with qtbot.waitSignal(place.answersEdited) as sent:
        place.gate.none.click()
    assert sent.args[0].safety == ("none",)
    place.show_review(edits.set_answers(sent.args[0])(place._review, load_tables()))
    assert not place.gate.isVisible()


def test_somebody_who_noticed_something_is_led_to_the_signs(qtbot, place) -> None:
    place.show_review(demo(DEAD, safety=None))
    with qtbot.waitSignal(place.spotAsked) as sent:
        place.gate.some.click()
    assert sent.args[0] == SAFETY


def test_a_danger_sign_replaces_all_refire_advice_and_every_check_with_the_power_on(place) -> None:
    place.show_review(demo(DEAD, safety=("burning_smell",)))
    assert "Switch off at the breaker and do not fire" in place.gate.text.text()
    assert "Refire" not in place.advice.load.text()
    assert place.advice.again.accessibleName().startswith("No. Not before a licensed electrician")
    assert "Switched on for a few minutes" not in words(place)
    assert place.questions.rows["sections_dark"].isHidden()


def test_the_load_and_the_next_firing_come_before_the_causes(place) -> None:
    assert place.advice.load.accessibleName().startswith("Look at each piece: top, cone 02")
    assert place.advice.again.accessibleName().startswith("Not yet. First find and mend")
    assert place.advice.y() < place.cause_cards[0].y()


# Questions


def test_only_what_the_files_do_not_say_is_asked(place) -> None:
    rows = place.questions.rows
    open_ones = {key for key, row in rows.items() if not row.isHidden()}
    assert {"ware", "sections_dark", "cold_ohms"} <= open_ones
    assert "goal_cone" not in open_ones
    assert "cones" not in open_ones
    assert list(rows)[:3] == ["goal_cone", "ware", "ware_rated_cone"]


def test_what_the_files_say_stands_below_and_can_be_changed(qtbot, place) -> None:
    order = [row.question.key for row in place.questions.in_order]
    assert order.index("onset") > order.index("probe_touched")
    field = place.questions.rows["onset"].field
    assert field.currentText() == "suddenly"
    with qtbot.waitSignal(place.answersEdited) as sent:
        field.activated.emit(0)
    assert sent.args[0].onset is None


def test_an_answer_ranks_the_causes_anew_and_its_row_stays_where_it_is(qtbot, place) -> None:
    place.show_review(demo("8_uneven_load"))
    before = place._review.causes[0]
    row = place.questions.rows["sections_dark"]
    order = place.questions.in_order
    dark = row.field.findText("bottom stayed dark")
    row.field.setCurrentIndex(dark)
    with qtbot.waitSignal(place.answersEdited) as sent:
        row.field.activated.emit(dark)
    assert sent.args[0].sections_dark == ("bottom",)
    after = edits.set_answers(sent.args[0])(place._review, load_tables())
    place.show_review(after)
    assert (before.id, after.causes[0].id) == ("uneven_load", "dead_section")
    assert place.cause_cards[0].cause.id == "dead_section"
    assert place.questions.in_order == order
    assert row.field.currentIndex() == dark
    assert not row.isHidden()


def test_a_count_is_typed_and_nonsense_is_marked_and_kept(qtbot, place) -> None:
    field = place.questions.rows["firings_since_elements"].field
    field.setText("many")
    field.editingFinished.emit()
    assert field.property("wrong") is True
    assert field.text() == "many"
    field.setText("140")
    with qtbot.waitSignal(place.answersEdited) as sent:
        field.editingFinished.emit()
    assert sent.args[0].firings_since_elements == 140
    assert field.property("wrong") is False


def test_words_of_a_sheet_that_are_no_choice_are_shown_as_they_are(place) -> None:
    place.show_review(demo(DEAD, ware="stoneware, two mugs"))
    assert place.questions.rows["ware"].field.currentText() == "stoneware, two mugs"


def test_the_goal_is_asked_with_both_temperatures_of_06_and_6(qtbot, place) -> None:
    given = replace(gather(demo_logs() / DEAD), goal_cone=None)
    place.show_review(review_firing(replace(given, title="another"), load_tables()))
    place.questions.begin(place._review)
    place.show_review(place._review)
    row = place.questions.rows["goal_cone"]
    assert not row.isHidden()
    assert "cone 06 (about 998 °C), cone 6 (about 1222 °C)" in words(row)
    at = row.field.findText("cone 6, about 1222 °C")
    with qtbot.waitSignal(place.goalChosen) as sent:
        row.field.activated.emit(at)
    assert sent.args[0] == ConeNumber("6")


def test_what_another_place_asks_better_leads_there(qtbot, place) -> None:
    row = place.questions.rows["cold_ohms"]
    with qtbot.waitSignal(place.spotAsked) as sent:
        row._way.click()
    assert sent.args[0] == Spot("elements")


# Evidence leads to where it is seen


def test_evidence_with_a_moment_leads_to_the_chart_by_mouse_and_by_key(qtbot, place) -> None:
    button = sign(place, "sections")
    with qtbot.waitSignal(place.spotAsked) as sent:
        qtbot.keyClick(button, Qt.Key.Key_Space)
    assert sent.args[0].place == "firing"
    assert sent.args[0].at_h == pytest.approx(3.55, abs=0.1)
    assert button.accessibleName().startswith("speaks for it: ")


def test_evidence_that_was_told_leads_to_its_question(qtbot, place) -> None:
    place.activateWindow()
    qtbot.waitUntil(place.isActiveWindow)
    sign(place, "onset").click()
    assert place.questions.rows["onset"].field.hasFocus()


@pytest.mark.parametrize(
    ("fact", "at_h", "where", "spot"),
    [
        ("shelves", None, "bottom", Spot("shelves", name="bottom")),
        ("ohms", None, "top", Spot("elements", name="top")),
        ("power", None, "", Spot("elements")),
        ("gap", 6.1, "", Spot("firing", 6.1)),
        ("waves", None, "", Spot("firing", name="findings")),
        ("supply_kind", None, "", Spot("firing", name="kiln")),
    ],
)
def test_every_sign_has_a_spot(fact, at_h, where, spot) -> None:
    assert spot_of(Sign(Said("x"), fact, at_h, where)) == spot


def test_everything_can_be_copied_as_text(place) -> None:
    place.copy.click()
    text = QGuiApplication.clipboard().text()
    assert "A dead section: very likely" in text
    assert "May it be fired again?" in text


# In the window


def test_evidence_in_the_window_selects_its_finding_and_puts_the_cursor_there(
    qtbot, window
) -> None:
    window.open_path(demo_logs() / DEAD)
    window.work.go_to("causes")
    sign(window.causes, "sections").click()
    assert window.work.list.key == "firing"
    finding = window.sitting.review.findings[window.showing.finding]
    assert finding.kind == "zone_gap"
    assert window.firing.chart.cursor.at_h == pytest.approx(finding.start_h)


def test_shelves_readings_and_pages_are_reached_with_the_keyboard_on_them(qtbot, window) -> None:
    window.open_path(demo_logs() / DEAD)
    window._on_spot(Spot("shelves", name="top"))
    row = window.shelves.view.table.currentIndex().row()
    assert window.shelves.model.rows[row][0] == "top"
    window._on_spot(Spot("elements", name="Middle"))
    assert window.elements.view.table.currentIndex().row() == 1
    window._on_spot(Spot("firing", name="kiln"))
    assert window.firing.view.pages.seen is window.firing.kiln
    window._on_spot(SAFETY)
    assert window.firing.view.pages.seen is window.firing.safety


def test_an_answer_in_the_window_is_an_edit_that_can_be_undone(window) -> None:
    window.open_path(demo_logs() / DEAD)
    window.work.go_to("causes")
    field = window.causes.questions.rows["probe_touched"].field
    field.activated.emit(field.findData(True))
    assert window.sitting.review.given.answers.probe_touched is True
    window.sitting.undo()
    assert window.sitting.review.given.answers.probe_touched is None
    assert field.currentIndex() == 0
