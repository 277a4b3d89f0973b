"""Every fact is answered by some evidence, and every fact is changed by some cause."""

import ast
import json
from pathlib import Path

import pytest

from firing_review import diagnosis
from firing_review.firing.errors import InputError
from firing_review.firing.results import AgainWord
from firing_review.io.cause_files import load_knowledge, read_knowledge
from firing_review.io.resource_path import resource

KNOWN = load_knowledge()
SOURCES = list(Path(diagnosis.__file__).parent.glob("*.py"))
TREES = [ast.parse(path.read_text(encoding="utf-8")) for path in SOURCES]
WORDS = {
    node.value
    for tree in TREES
    for node in ast.walk(tree)
    if isinstance(node, ast.Constant) and isinstance(node.value, str)
}
SIDED = {
    f"{start}_{side}" for start in ("all", "all_far", "one", "one_far") for side in ("cold", "hot")
}
"""Outcomes whose side is put into the word by the evidence itself."""
TOLD = {"onset", "said_load", "said_end"}
"""Facts whose outcomes are the words of the firing sheet itself."""


@pytest.mark.parametrize("fact", KNOWN.facts.values(), ids=lambda f: f.id)
def test_every_outcome_of_every_fact_is_given_by_some_evidence(fact) -> None:
    assert fact.id in WORDS
    if fact.id not in TOLD:
        assert {o for o in fact.ordinary if o not in WORDS | SIDED} == set()


@pytest.mark.parametrize("fact", KNOWN.facts.values(), ids=lambda f: f.id)
def test_every_fact_is_changed_by_some_cause(fact) -> None:
    assert any(fact.id in cause.likelihood for cause in KNOWN.causes)


@pytest.mark.parametrize("fact", KNOWN.facts.values(), ids=lambda f: f.id)
def test_every_fact_is_a_question_with_exclusive_outcomes(fact) -> None:
    assert fact.question.endswith("?")
    assert sum(fact.ordinary.values()) == pytest.approx(1.0)
    assert all(text.endswith(".") for text in fact.texts.values())


@pytest.mark.parametrize("cause", KNOWN.causes, ids=lambda c: c.id)
def test_shares_of_every_cause_sum_to_one(cause) -> None:
    for fact, shares in cause.likelihood.items():
        assert set(shares) == set(KNOWN.facts[fact].ordinary)
        assert sum(shares.values()) == pytest.approx(1.0)


@pytest.mark.parametrize("cause", KNOWN.causes, ids=lambda c: c.id)
def test_every_fault_changes_some_fact_a_lot(cause) -> None:
    if cause.id in {"none", "other"}:
        return
    factors = [
        share / KNOWN.facts[fact].ordinary[outcome]
        for fact, shares in cause.likelihood.items()
        for outcome, share in shares.items()
    ]
    assert max(factors) > 4.0


def test_priors_sum_to_one_and_say_where_they_come_from() -> None:
    assert sum(c.prior for c in KNOWN.causes) == pytest.approx(1.0, abs=0.02)
    assert all(c.prior_source for c in KNOWN.causes)


def test_the_causes_are_those_of_the_review_document() -> None:
    schema = json.loads(resource("review.schema.json").read_text(encoding="utf-8"))
    ids = schema["properties"]["causes"]["items"]["properties"]["id"]["enum"]
    assert {c.id for c in KNOWN.causes} == set(ids)


@pytest.mark.parametrize("cause", KNOWN.causes, ids=lambda c: c.id)
def test_every_cause_says_what_to_do_with_its_caution_and_who_may_do_it(cause) -> None:
    assert cause.fix
    assert cause.caution
    assert cause.sources
    assert all(c.check.who and c.check.minutes > 0 for c in cause.checks)
    if cause.id not in {"none", "other"}:
        assert cause.checks


@pytest.mark.parametrize("cause", KNOWN.causes, ids=lambda c: c.id)
def test_every_check_says_what_each_answer_would_mean(cause) -> None:
    for known in cause.checks:
        assert known.check.settles.text.count(":") >= 2 or known.check.id == "joints"
        assert known.check.settles.text.count(".") >= 2


@pytest.mark.parametrize("word", ["bridge", "bypass", "defeat", "jumper", "straight to the wall"])
def test_nothing_asks_to_get_round_a_safety_device(word: str) -> None:
    texts = [
        t for c in KNOWN.causes for t in (c.fix, c.caution, *(k.check.text.text for k in c.checks))
    ]
    assert not [t for t in texts if word in t.lower()]


@pytest.mark.parametrize("word", ["your fault", "you should have", "careless", "wrongly", "!"])
def test_no_sentence_blames(word: str) -> None:
    assert not [t for t in KNOWN.texts() if word in t.lower()]


def test_every_text_of_the_files_that_can_be_shown_is_there_for_the_catalogue() -> None:
    texts = set(KNOWN.texts())
    assert len(texts) == len(KNOWN.texts())
    cause = next(c for c in KNOWN.causes if c.id == "worn_elements")
    assert {cause.name, cause.what, cause.fix, cause.caution, cause.again_text} <= texts
    assert {"multimeter", "cold and unplugged", cause.checks[0].check.text.text} <= texts
    assert "Does the kiln have its usual power?" in texts
    assert "The supply holds {volts_v}." in texts
    assert not [t for t in texts if "http" in t or "prior" in t]


def test_what_can_burn_or_run_away_is_not_fired_again_before_it_is_mended() -> None:
    waits = {c.id for c in KNOWN.causes if c.again is AgainWord.NOT_YET}
    assert {"dead_section", "stuck_on_section", "lost_phase", "probe_loose"} <= waits


def test_live_measurements_are_for_the_electrician_and_resistances_for_a_cold_kiln() -> None:
    for cause in KNOWN.causes:
        for known in cause.checks:
            if known.fact in {"volts", "amps"}:
                assert known.check.who == "electrician"
                assert known.power_on
            if known.fact == "ohms":
                assert known.check.who == "cold and unplugged"
                assert not known.power_on


def test_whatever_opens_the_kiln_is_done_cut_off_at_the_breaker() -> None:
    for cause in KNOWN.causes:
        for known in cause.checks:
            if known.check.who == "cold and unplugged":
                assert "cut off at the breaker" in known.check.text.text


def test_faults_of_mains_wiring_carry_the_caution_of_mains_power() -> None:
    mains = {"worn_elements", "low_supply", "dead_section", "lost_phase", "stuck_on_section"}
    for cause in KNOWN.causes:
        if cause.id in mains:
            assert "breaker" in cause.caution
            assert "electrician" in cause.caution


# The scheme is checked when the files are read

FACTS = '[power]\nquestion = "?"\nsource = "-"\nordinary = {up = 0.5, down = 0.5}\n'
FACTS += 'text = {up = "u", down = "d"}\n'
CAUSE = 'name = "n"\nwhat = "w"\nprior = 0.1\nprior_source = "p"\nfix = "f"\ncaution = "c"\n'
CAUSE += 'sources = []\nagain = "yes"\nagain_text = "a"\n'


def refused(tmp_path: Path, facts: str, cause: str) -> str:
    (tmp_path / "_facts.toml").write_text(facts, encoding="utf-8")
    (tmp_path / "some_cause.toml").write_text(cause, encoding="utf-8")
    with pytest.raises(InputError) as caught:
        read_knowledge(tmp_path)
    return str(caught.value)


def test_a_sound_folder_is_read(tmp_path: Path) -> None:
    (tmp_path / "_facts.toml").write_text(FACTS, encoding="utf-8")
    (tmp_path / "some_cause.toml").write_text(CAUSE, encoding="utf-8")
    assert [c.id for c in read_knowledge(tmp_path).causes] == ["some_cause"]


@pytest.mark.parametrize(
    ("facts", "cause", "told"),
    [
        (FACTS.replace("down = 0.5}", "down = 0.6}", 1), CAUSE, "a sum of 1.1"),
        (FACTS, CAUSE + "[likelihood.power]\nup = 0.9\ndown = 0.2\n", "some_cause.toml, power"),
        (FACTS, CAUSE + "[likelihood.power]\nup = 1.0\n", "the outcomes up, down of power"),
        (FACTS, CAUSE + "[likelihood.amps]\nup = 1.0\n", "found amps"),
        (FACTS, CAUSE.replace("fix", "mend"), "found mend"),
        (FACTS, CAUSE.replace('fix = "f"\n', ""), "the keys fix"),
        (FACTS, CAUSE.replace("prior = 0.1", "prior = 0"), "a prior between 0 and 1"),
        (FACTS, CAUSE.replace('"yes"', '"soon"'), "again: yes, with_care, not_yet, found soon"),
        (FACTS, CAUSE + '[[checks]]\nid = "x"\n', "the keys fact, minutes, settles, text"),
        (FACTS, "name = ", "a TOML file"),
    ],
)
def test_what_breaks_the_scheme_is_named(
    tmp_path: Path, facts: str, cause: str, told: str
) -> None:
    assert told in refused(tmp_path, facts, cause)


def test_a_check_without_somebody_who_may_do_it_is_refused(tmp_path: Path) -> None:
    check = '[[checks]]\nid = "x"\ntext = "t"\nwho = "anybody"\ntool = "t"\nminutes = 1\n'
    check += 'fact = "power"\nsettles = "s"\n'
    assert "look only, cold and unplugged, electrician" in refused(tmp_path, FACTS, CAUSE + check)
