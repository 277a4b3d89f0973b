"""``resources/causes`` to knowledge, checked when it is read."""

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

from firing_review.firing.errors import InputError
from firing_review.firing.knowledge import CauseKnown, Fact, Knowledge
from firing_review.firing.results import Check
from firing_review.firing.said import Said
from firing_review.io.resource_path import resource

FACTS_FILE = "_facts.toml"
WHO = ("look only", "cold and unplugged", "electrician")
CAUSE_KEYS = {
    "name",
    "what",
    "prior",
    "prior_source",
    "fix",
    "caution",
    "sources",
    "likelihood",
    "checks",
}
SUM_TOLERANCE = 0.011


@cache
def load_knowledge() -> Knowledge:
    """Return everything the program knows about causes.

    Raises
    ------
    InputError
        If a file breaks the scheme: an unknown fact or outcome, shares that do not sum to one,
        a check without who may do it.
    """
    folder = resource("causes")
    facts = {k: _fact(k, v) for k, v in _toml(folder / FACTS_FILE).items()}
    files = sorted(p for p in folder.glob("*.toml") if p.name != FACTS_FILE)
    return Knowledge(facts, tuple(_cause(path, facts) for path in files))


def _toml(path: Path) -> dict[str, Any]:
    with path.open("rb") as file:
        return tomllib.load(file)


def _refuse(where: str, expected: str, found: str) -> InputError:
    return InputError(where, expected, found, "Correct the file in resources/causes.")


def _fact(name: str, table: dict[str, Any]) -> Fact:
    if set(table) != {"question", "ordinary", "text"} or set(table["ordinary"]) != set(
        table["text"]
    ):
        raise _refuse(FACTS_FILE, "question, ordinary and text with the same outcomes", name)
    _sums_to_one(f"{FACTS_FILE}, {name}", table["ordinary"])
    return Fact(name, table["question"], table["ordinary"], table["text"])


def _sums_to_one(where: str, shares: dict[str, float]) -> None:
    total = sum(shares.values())
    if abs(total - 1.0) > SUM_TOLERANCE or min(shares.values()) <= 0.0:
        raise _refuse(where, "shares above zero that sum to 1", f"{total:.3f}")


def _cause(path: Path, facts: dict[str, Fact]) -> CauseKnown:
    table = _toml(path)
    unknown = set(table) - CAUSE_KEYS
    if unknown:
        raise _refuse(path.name, f"keys among {sorted(CAUSE_KEYS)}", str(sorted(unknown)))
    likelihood = table.get("likelihood", {})
    for fact, shares in likelihood.items():
        if fact not in facts or set(shares) != set(facts[fact].ordinary):
            raise _refuse(path.name, "a fact and all its outcomes", fact)
        _sums_to_one(f"{path.name}, {fact}", shares)
    return CauseKnown(
        id=path.stem,
        name=table["name"],
        what=table["what"],
        prior=float(table["prior"]),
        likelihood=likelihood,
        checks=tuple(_check(path.name, check, facts) for check in table.get("checks", ())),
        fix=table["fix"],
        caution=table["caution"],
        sources=tuple(table["sources"]),
    )


def _check(where: str, table: dict[str, Any], facts: dict[str, Fact]) -> tuple[str, Check]:
    if table["who"] not in WHO:
        raise _refuse(where, f"who: one of {WHO}", str(table["who"]))
    if table["fact"] not in facts:
        raise _refuse(where, "a check that answers a known fact", str(table["fact"]))
    check = Check(
        id=table["id"],
        text=Said(table["text"]),
        who=table["who"],
        minutes=float(table["minutes"]),
        settles=Said(table["settles"]),
        tool=Said(table["tool"]),
    )
    return table["fact"], check
