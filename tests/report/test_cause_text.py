"""Load, causes and questions as text: complete, cautious, in a fixed order."""

import json
from dataclasses import replace
from functools import cache

import jsonschema
import pytest

from firing_review.firing.results import LoadWord
from firing_review.io.open_any import gather
from firing_review.io.resource_path import demo_logs, resource
from firing_review.io.tables import load_tables
from firing_review.report.cause_text import AFTER_SAFETY, causes_page_text, likely_word
from firing_review.report.review_json import review_document
from firing_review.report.text import review_text
from firing_review.report.wording import Show
from firing_review.review import edits
from firing_review.review.pipeline import review_firing
from firing_review.review.review import Review

DEAD, HOT_PROBE = "3_dead_section", "5_probe_reads_high"


@cache
def demo(name: str) -> Review:
    return review_firing(gather(demo_logs() / name), load_tables())


def answered(name: str, **answers: object) -> Review:
    review = demo(name)
    return edits.set_answers(replace(review.given.answers, **answers))(review, load_tables())


def test_the_page_goes_from_the_load_to_the_next_firing_to_the_causes_to_the_questions() -> None:
    text = causes_page_text(demo(DEAD), Show.CELSIUS)
    places = [
        text.index(head)
        for head in ("The load", "May it be fired again?", "Most likely causes", "Not said yet")
    ]
    assert places == sorted(places)


def test_a_cause_is_told_with_word_number_check_meaning_fix_and_caution() -> None:
    text = causes_page_text(demo(DEAD), Show.CELSIUS)
    assert "A dead section: very likely, over 95 %" in text
    assert "+ It began suddenly, from one firing to the next." in text
    assert "? What do the amps by section say?" in text
    assert "→ look only, about 10 min, welding shade 3 to 5: Switched on" in text
    assert "→ One dark section: it is that section" in text
    assert "Then: Resistance open or doubled: replace that heating element" in text
    assert "Caution: Mains power: off at the breaker" in text


def test_a_shelf_is_told_with_what_it_got_and_what_to_do() -> None:
    text = causes_page_text(demo(DEAD), Show.CELSIUS)
    assert "  Refire: bottom, about cone 07 + 0.9 (about 996 °C). Cone 04" in text
    assert "  Look at each piece: top, cone 02 (about 1102 °C) or hotter. Cone 04" in text


def test_shelves_with_the_same_advice_share_a_line() -> None:
    text = causes_page_text(demo(HOT_PROBE), Show.CELSIUS)
    assert text.count("one that rattles is not refired") == 1
    assert "Refire: top, about cone 4.9" in text
    assert "; middle, about cone 5.3" in text


def test_refire_advice_waits_for_the_question_about_safety() -> None:
    assert AFTER_SAFETY not in causes_page_text(demo(DEAD), Show.CELSIUS)
    open_one = causes_page_text(answered(DEAD, safety=None), Show.CELSIUS)
    assert AFTER_SAFETY in open_one
    assert "Cannot tell yet. Answer the question about safety first." in open_one


def test_with_a_danger_sign_nothing_is_said_about_firing_the_pieces_again() -> None:
    review = answered(DEAD, safety=("burning_smell",))
    assert [a.word for a in review.load_advice] == [LoadWord.WAIT]
    text = review_text(review)
    assert "Refire" not in text
    assert text.index("Switch off at the breaker and do not fire") < text.index("The load")
    assert "No. Not before a licensed electrician has found the danger" in text
    assert "Switched on for a few minutes" not in text


def test_no_line_has_an_exclamation_mark() -> None:
    for name in (DEAD, HOT_PROBE):
        assert "!" not in review_text(demo(name))


def test_the_one_next_check_stands_at_the_top_of_the_text() -> None:
    review = demo(HOT_PROBE)
    assert review.next_check is not None
    head = review_text(review).split("The load")[0]
    assert "Next check: look only, about 5 min: Cold, look at the probe" in head


def test_the_document_says_questions_load_signs_with_their_places_and_the_next_firing() -> None:
    document = json.loads(json.dumps(review_document(demo(DEAD))))
    schema = json.loads(resource("review.schema.json").read_text(encoding="utf-8"))
    jsonschema.validate(document, schema)
    assert document["fire_again"]["word"] == "not_yet"
    assert {a["shelf"]: a["word"] for a in document["load_advice"]} == {
        "bottom": "refire",
        "middle": "keep",
        "top": "look",
    }
    first = document["causes"][0]
    sections = next(s for s in first["signs_for"] if s["fact"] == "sections")
    assert sections["place"] == "Bottom"
    assert sections["at_h"] == pytest.approx(3.55, abs=0.1)
    assert [s["text"] for s in first["signs_for"]] == first["for"]
    assert {"key", "text", "settles", "choices"} == set(document["questions"][0])


@pytest.mark.parametrize(
    ("probability", "word"),
    [
        (0.95, "very likely"),
        (0.8, "very likely"),
        (0.5, "likely"),
        (0.2, "possible"),
        (0.1, "unlikely"),
    ],
)
def test_words_stand_for_fixed_probabilities(probability: float, word: str) -> None:
    assert likely_word(probability) == word
