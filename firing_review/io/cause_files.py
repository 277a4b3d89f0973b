"""``resources/causes`` to knowledge, checked when it is read."""

import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from firing_review.firing.errors import InputError
from firing_review.firing.knowledge import CauseKnown, CheckKnown, Fact, Knowledge
from firing_review.firing.results import AgainWord, Check
from firing_review.firing.said import N_, Said
from firing_review.io.resource_path import resource

FACTS_FILE = "_facts.toml"
WHO = (N_("look only"), N_("cold and unplugged"), N_("electrician"))
AGAIN = (AgainWord.YES, AgainWord.WITH_CARE, AgainWord.NOT_YET)
"""What a cause may say of the next firing."""
FACT_KEYS = frozenset({"question", "source", "ordinary", "text"})
CAUSE_KEYS = frozenset(
    {"name", "what", "prior", "prior_source", "fix", "caution", "again", "again_text", "sources"}
    | {"likelihood", "checks"}
)
CHECK_KEYS = frozenset({"id", "text", "who", "tool", "minutes", "fact", "settles", "power_on"})
MAY_MISS = frozenset({"likelihood", "checks", "power_on"})
"""Keys that may be left out."""
SUM_TOLERANCE = 1e-6

Table = dict[str, Any]


@cache
def load_knowledge() -> Knowledge:
    """Return everything the program knows about causes."""
    return read_knowledge(resource("causes"))


def read_knowledge(folder: Path) -> Knowledge:
    """Read facts and causes from a folder.

    Raises
    ------
    InputError
        If a file breaks the scheme: an unknown key, fact or outcome, shares that do not sum to
        one, a check without who may do it.
    """
    facts = {k: _fact(k, v) for k, v in _toml(folder / FACTS_FILE).items()}
    files = sorted(p for p in folder.glob("*.toml") if p.name != FACTS_FILE)
    return Knowledge(facts, tuple(_cause(path, facts) for path in files))


def _toml(path: Path) -> Table:
    with path.open("rb") as file:
        try:
            return tomllib.load(file)
        except tomllib.TOMLDecodeError as error:
            raise _refuse(path.name, "a TOML file", str(error)) from error


def _refuse(where: str, expected: str, found: str) -> InputError:
    return InputError(where, expected, found, "Correct the file in resources/causes.")


def _check_keys(where: str, table: Table, known: frozenset[str]) -> None:
    unknown, missing = set(table) - known, known - set(table) - MAY_MISS
    if unknown:
        raise _refuse(where, f"keys among {', '.join(sorted(known))}", ", ".join(sorted(unknown)))
    if missing:
        raise _refuse(where, f"the keys {', '.join(sorted(missing))}", "none of that name")


def _fact(name: str, table: Table) -> Fact:
    where = f"{FACTS_FILE}, {name}"
    _check_keys(where, table, FACT_KEYS)
    if set(table["ordinary"]) != set(table["text"]):
        raise _refuse(where, "a text for every outcome", ", ".join(sorted(table["text"])))
    return Fact(name, table["question"], _shares(where, table["ordinary"]), table["text"])


def _shares(where: str, shares: Table) -> Mapping[str, float]:
    total = sum(shares.values())
    if abs(total - 1.0) > SUM_TOLERANCE or min(shares.values()) <= 0.0:
        raise _refuse(where, "shares above zero that sum to 1", f"a sum of {total:.4f}")
    return {outcome: float(share) for outcome, share in shares.items()}


def _cause(path: Path, facts: Mapping[str, Fact]) -> CauseKnown:
    table = _toml(path)
    _check_keys(path.name, table, CAUSE_KEYS)
    if not 0.0 < table["prior"] < 1.0:
        raise _refuse(path.name, "a prior between 0 and 1", str(table["prior"]))
    if table["again"] not in AGAIN:
        raise _refuse(path.name, f"again: {', '.join(AGAIN)}", str(table["again"]))
    return CauseKnown(
        id=path.stem,
        name=table["name"],
        what=table["what"],
        prior=float(table["prior"]),
        prior_source=table["prior_source"],
        likelihood=_likelihood(path.name, table.get("likelihood", {}), facts),
        checks=tuple(_check(path.name, check, facts) for check in table.get("checks", ())),
        fix=table["fix"],
        caution=table["caution"],
        sources=tuple(table["sources"]),
        again=AgainWord(table["again"]),
        again_text=table["again_text"],
    )


def _likelihood(
    where: str, tables: Table, facts: Mapping[str, Fact]
) -> Mapping[str, Mapping[str, float]]:
    for name, shares in tables.items():
        if name not in facts:
            raise _refuse(where, f"a fact of {FACTS_FILE}", name)
        if set(shares) != set(facts[name].ordinary):
            expected = f"the outcomes {', '.join(facts[name].ordinary)} of {name}"
            raise _refuse(where, expected, ", ".join(shares))
    return {name: _shares(f"{where}, {name}", shares) for name, shares in tables.items()}


def _check(where: str, table: Table, facts: Mapping[str, Fact]) -> CheckKnown:
    _check_keys(f"{where}, checks", table, CHECK_KEYS)
    if table["who"] not in WHO:
        raise _refuse(where, f"who: {', '.join(WHO)}", str(table["who"]))
    if table["fact"] not in facts:
        raise _refuse(where, f"a check that answers a fact of {FACTS_FILE}", str(table["fact"]))
    check = Check(
        id=table["id"],
        text=Said(table["text"]),
        who=table["who"],
        minutes=float(table["minutes"]),
        settles=Said(table["settles"]),
        tool=Said(table["tool"]),
    )
    return CheckKnown(table["fact"], check, bool(table.get("power_on", False)))
