"""A person's own notes stand in text and JSON with their time."""

import json
from dataclasses import replace
from datetime import datetime

import jsonschema
from firings import GOOD, log_of

from firing_review.firing.sheet import Given, TimeNote
from firing_review.io.resource_path import resource
from firing_review.io.tables import load_tables
from firing_review.report.review_json import review_json
from firing_review.report.text import review_text
from firing_review.review.pipeline import review_firing

NOTES = (TimeNote(1.5, "plug out"), TimeNote(6.25, "smell\nof <b>wax</b>"))
STARTED = datetime(2026, 3, 3, 21, 40)  # noqa: DTZ001 - a logger knows no zone


def review_of(started=None):
    log = replace(log_of(GOOD), started_at=started)
    return review_firing(Given(log, notes=NOTES), load_tables())


def test_the_text_has_the_notes_one_a_line():
    text = review_text(review_of())
    assert "Notes:\n  1 h 30 min: plug out\n  6 h 15 min: smell of <b>wax</b>\n" in text


def test_the_text_has_the_clock_where_there_is_one():
    assert "  1 h 30 min (11:10 PM): plug out" in review_text(review_of(STARTED))


def test_without_notes_the_text_says_nothing_of_them():
    review = review_of()
    assert "Notes:" not in review_text(replace(review, given=replace(review.given, notes=())))


def test_the_json_has_the_notes_as_they_are_and_keeps_to_its_schema():
    document = json.loads(review_json(review_of()))
    assert document["notes"] == [
        {"at_h": 1.5, "text": "plug out"},
        {"at_h": 6.25, "text": "smell\nof <b>wax</b>"},
    ]
    schema = json.loads(resource("review.schema.json").read_text(encoding="utf-8"))
    jsonschema.validate(document, schema)
