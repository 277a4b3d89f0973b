import json

import jsonschema
import pytest
from firings import GOOD, TO_1000, Corners, cooling, log_of, sections_of

from firing_review.firing.cones import ConeNumber
from firing_review.firing.findings import FindingKind
from firing_review.firing.log import FiringLog
from firing_review.firing.sheet import Given
from firing_review.io.resource_path import resource
from firing_review.io.tables import load_tables
from firing_review.report.review_json import review_json
from firing_review.review.pipeline import review_firing

SCHEMA = json.loads(resource("review.schema.json").read_text(encoding="utf-8"))
STOPPED: Corners = [(0, 20), (1, 120), (1.5, 120), (4.0, 620), *cooling(4.0, 620)]
ROOM: Corners = [(0, 20), (5, 40), (9, 21)]

LOGS = {
    "good": log_of(GOOD),
    "stopped": log_of(STOPPED, output=[(0, 50), (4, 50), (4.01, 0), (15, 0)]),
    "sections": sections_of(top=GOOD, bottom=GOOD),
    "room": log_of(ROOM),
}


@pytest.mark.parametrize("log", LOGS.values(), ids=LOGS.keys())
@pytest.mark.parametrize("plan", [TO_1000, None], ids=["plan", "no plan"])
def test_every_review_keeps_to_the_schema(log: FiringLog, plan: object) -> None:
    given = Given(log, "test", plan, goal_cone=ConeNumber("06"))
    document = json.loads(review_json(review_firing(given, load_tables())))
    jsonschema.validate(document, SCHEMA)


def test_the_schema_knows_every_kind_of_finding() -> None:
    kinds = SCHEMA["properties"]["findings"]["items"]["properties"]["kind"]["enum"]
    assert set(kinds) == {k.value for k in FindingKind}


def test_a_room_log_is_complete_in_its_log_part_and_says_why_it_is_no_firing() -> None:
    document = json.loads(review_json(review_firing(Given(LOGS["room"]), load_tables())))
    assert document["log"]["rows"] == 541
    assert [f["kind"] for f in document["findings"]] == ["not_a_firing"]
    assert document["peak_c"] is None


def test_numbers_that_do_not_exist_are_null() -> None:
    text = review_json(review_firing(Given(LOGS["good"]), load_tables()))
    assert "NaN" not in text
    assert "Infinity" not in text


def test_the_schema_knows_the_kinds_of_findings_and_no_others():
    known = SCHEMA["properties"]["findings"]["items"]["properties"]["kind"]["enum"]
    assert sorted(known) == sorted(kind.value for kind in FindingKind)
