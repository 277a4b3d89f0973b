"""What the program is built on: ranges, exact versions for the checks, licences."""

import ast
import importlib.metadata
import re
import sys
import tomllib
from collections.abc import Iterable
from pathlib import Path

import pytest
from packaging.requirements import Requirement

ROOT = Path(__file__).resolve().parent.parent
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
LOCK = (ROOT / ".ci" / "lock.txt").read_text(encoding="utf-8")
LICENCES = (ROOT / "resources" / "LICENCES.md").read_text(encoding="utf-8")
HANDED_ON = [*PROJECT["dependencies"], *PROJECT["optional-dependencies"]["spreadsheet"]]
CHECKED_WITH = [*PROJECT["dependencies"], *PROJECT["optional-dependencies"]["test"]]
PINNED = dict(re.findall(r"^([\w.-]+)==([\w.]+)", LOCK, re.MULTILINE))
NAMED = dict(re.findall(r"^\| ([\w.-]+) \| ([^|]+?) \|$", LICENCES, re.MULTILINE))


def plain(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name).lower()


def all_below(wanted: Iterable[str]) -> set[str]:
    """Return all that is installed for these requirements, with what they need in turn."""
    found: set[str] = set()
    left = list(wanted)
    while left:
        one = Requirement(left.pop())
        if plain(one.name) in found or (one.marker and not one.marker.evaluate({"extra": ""})):
            continue
        found.add(plain(one.name))
        left += importlib.metadata.requires(one.name) or []
    return found


def said_of(name: str) -> str:
    """Return all that an installed library says of its licence."""
    about = importlib.metadata.metadata(name)
    fields = [about.get("License-Expression"), (about.get("License") or "")[:200]]
    kinds = [kind for kind in about.get_all("Classifier") or [] if kind.startswith("License")]
    return " ".join([*filter(None, fields), *kinds])


def imported() -> set[str]:
    """Return the libraries that the program imports anywhere, by the names of their packages."""
    found: set[str] = set()
    for path in (ROOT / "firing_review").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                found |= {alias.name.partition(".")[0] for alias in node.names}
            elif isinstance(node, ast.ImportFrom) and node.module:
                found.add(node.module.partition(".")[0])
    return found - sys.stdlib_module_names - {"firing_review"}


def test_what_the_program_imports_is_what_it_needs_to_run():
    packages = importlib.metadata.packages_distributions()
    used = {plain(packages[name][0]) for name in imported()}
    assert used == {plain(Requirement(wanted).name) for wanted in PROJECT["dependencies"]}


@pytest.mark.parametrize("wanted", CHECKED_WITH)
def test_every_library_has_a_range_and_an_exact_version_within_it(wanted):
    one = Requirement(wanted)
    assert any(part.operator == ">=" for part in one.specifier), "no lowest version"
    assert one.specifier.contains(PINNED[plain(one.name)])


def test_every_exact_version_has_its_hash_and_no_place_to_get_it_from():
    pins = re.split(r"\n(?=\S)", LOCK)
    assert len(pins) >= len(CHECKED_WITH)
    assert [pin for pin in pins if "--hash=sha256:" not in pin] == []
    assert "://" not in LOCK
    assert "--find-links" not in LOCK
    assert "--index" not in LOCK


def test_whatever_is_installed_for_the_checks_is_pinned():
    assert all_below(CHECKED_WITH) - set(PINNED) == set()


def test_every_library_is_named_with_its_licence():
    assert all_below([*HANDED_ON, *CHECKED_WITH]) - set(NAMED) == set()


def test_what_is_handed_on_stands_in_the_first_table():
    first, _, second = LICENCES.partition("Only for making and checking")
    for name in all_below(HANDED_ON):
        assert f"| {name} |" in first
        assert f"| {name} |" not in second


@pytest.mark.parametrize("name", sorted(all_below([*HANDED_ON, *CHECKED_WITH])))
def test_a_licence_is_the_one_the_library_names_itself(name):
    said = said_of(name)
    kinds = re.findall(r"BSD|MIT|LGPL|GPL|Apache|MPL|PSF|0BSD|Zlib|CC0|ISC", NAMED[name])
    assert kinds
    named = [kind for kind in kinds if kind in said or (kind == "MPL" and "Mozilla" in said)]
    assert named == kinds, said


def test_nothing_handed_on_asks_for_the_source_of_the_program():
    strict = [name for name in all_below(HANDED_ON) if re.match(r"A?GPL", NAMED[name])]
    assert strict == []
