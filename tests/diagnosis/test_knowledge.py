"""Every fact is answered by some evidence, and every fact is changed by some cause."""

import ast
import json
from pathlib import Path

import pytest

from firing_review import diagnosis
from firing_review.io.cause_files import load_knowledge
from firing_review.io.resource_path import resource

KNOWN = load_knowledge()
SOURCES = list(Path(diagnosis.__file__).parent.glob("*.py"))
LITERALS = {
    node.value
    for path in SOURCES
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
    if isinstance(node, ast.Constant) and isinstance(node.value, str)
}
TOLD = {"onset", "said_load", "said_end"}
"""Facts whose outcomes are the words of the firing sheet itself."""
NOT_YET_SEEN = {("reading", "wrong_slope")}
"""A slope wrong from the first minute is known to the causes, but no detector tells it yet."""


@pytest.mark.parametrize("fact", KNOWN.facts.values(), ids=lambda f: f.id)
def test_every_fact_is_answered_by_some_evidence(fact) -> None:
    assert fact.id in LITERALS
    if fact.id not in TOLD:
        missing = {o for o in fact.ordinary if o not in LITERALS}
        assert missing == {o for f, o in NOT_YET_SEEN if f == fact.id}


@pytest.mark.parametrize("fact", KNOWN.facts.values(), ids=lambda f: f.id)
def test_every_fact_is_changed_by_some_cause(fact) -> None:
    assert any(fact.id in cause.likelihood for cause in KNOWN.causes)


def test_the_causes_are_those_of_the_review_document() -> None:
    schema = json.loads(resource("review.schema.json").read_text(encoding="utf-8"))
    ids = schema["properties"]["causes"]["items"]["properties"]["id"]["enum"]
    assert {c.id for c in KNOWN.causes} == set(ids)


@pytest.mark.parametrize("cause", KNOWN.causes, ids=lambda c: c.id)
def test_every_cause_says_what_to_do_with_its_caution_and_who_may_do_it(cause) -> None:
    assert cause.fix
    assert cause.caution
    assert cause.sources
    assert all(check.who and check.minutes > 0 for _, check in cause.checks)
    if cause.id not in {"none", "other"}:
        assert cause.checks


@pytest.mark.parametrize("word", ["bridge", "bypass", "defeat", "jumper", "straight to the wall"])
def test_nothing_asks_to_get_round_a_safety_device(word: str) -> None:
    texts = [
        t for c in KNOWN.causes for t in (c.fix, c.caution, *(k.text.text for _, k in c.checks))
    ]
    assert not [t for t in texts if word in t.lower()]


@pytest.mark.parametrize("word", ["your fault", "you should have", "careless", "wrongly", "!"])
def test_no_sentence_blames(word: str) -> None:
    texts = [t for c in KNOWN.causes for t in (c.name, c.what, c.fix, c.caution)]
    texts += [t for f in KNOWN.facts.values() for t in f.texts.values()]
    assert not [t for t in texts if word in t.lower()]


def test_live_measurements_are_for_the_electrician() -> None:
    for cause in KNOWN.causes:
        for fact, check in cause.checks:
            if fact in {"volts", "amps"}:
                assert check.who == "electrician"
            if fact == "ohms":
                assert check.who == "cold and unplugged"
