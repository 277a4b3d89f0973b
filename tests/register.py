"""The register of outside checks: every test of ``tests/published/`` as a row of a table.

    python tests/register.py            print the table
    python tests/register.py --write    put it into DEVELOPERS.md

Everything is read from the text of the tests; none of them is run.
"""

import ast
import re
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

import outside

TESTS = Path(__file__).resolve().parent
PUBLISHED = TESTS / "published"
PAGE = TESTS.parent / "DEVELOPERS.md"
BEGIN, END = "<!-- register: begin -->", "<!-- register: end -->"
WORDS = {"PRACTICE": outside.PRACTICE, "MEMORY": outside.MEMORY}


@dataclass(frozen=True)
class Check:
    """One outside check: what, against which source, how near, and where the two part."""

    file: str
    what: str
    source: str
    within: str
    differs: str


class RegisterError(Exception):
    """A file of outside checks that does not say what it must."""


def checks_of(text: str, file: str) -> list[Check]:
    """Return the checks of one file; raises RegisterError for a test that names no source."""
    tree = ast.parse(text)
    sources = _sources(tree, file)
    found = [_check(test, sources, file) for test in tests_of(tree)]
    used = {check.source for check in found}
    idle = [name for name, told in sources.items() if told not in used]
    if idle:
        raise RegisterError(f"{file}: no test uses the source {', '.join(idle)}")
    return found


def tests_of(tree: ast.Module) -> Iterator[ast.FunctionDef]:
    """Return the tests of a file."""
    for node in tree.body:
        if isinstance(node, ast.FunctionDef) and node.name.startswith("test_"):
            yield node


def _sources(tree: ast.Module, file: str) -> Mapping[str, str]:
    for node in tree.body:
        if isinstance(node, ast.Assign) and getattr(node.targets[0], "id", "") == "SOURCES":
            return ast.literal_eval(node.value)
    raise RegisterError(f"{file}: no SOURCES")


def _check(test: ast.FunctionDef, sources: Mapping[str, str], file: str) -> Check:
    for mark in test.decorator_list:
        if isinstance(mark, ast.Call) and getattr(mark.func, "id", "") == "outside":
            source, (within, *differs) = mark.args[0], [ast.literal_eval(a) for a in mark.args[1:]]
            if not within.strip():
                raise RegisterError(f"{file}: {test.name} does not say how near")
            what = re.sub(r"(?<=\d)_(?=\d)", ".", test.name.removeprefix("test_")).replace(
                "_", " "
            )
            return Check(file, what, _source(source, sources, file), within, *(differs or [""]))
    raise RegisterError(f"{file}: {test.name} names no source")


def _source(node: ast.expr, sources: Mapping[str, str], file: str) -> str:
    if isinstance(node, ast.Name) and node.id in WORDS:
        return WORDS[node.id]
    name = ast.literal_eval(node)
    if name not in sources:
        raise RegisterError(f"{file}, line {node.lineno}: no source {name!r}")
    return sources[name]


def all_checks() -> list[Check]:
    """Return the checks of every file, in the order of the files."""
    found = []
    for path in sorted(PUBLISHED.glob("test_*.py")):
        found += checks_of(path.read_text(encoding="utf-8"), path.name)
    return found


def table(checks: list[Check]) -> str:
    """Return the register as Markdown: a heading with its sources a file, a row a check."""
    lines = []
    for file in dict.fromkeys(check.file for check in checks):
        rows = [check for check in checks if check.file == file]
        sources = list(dict.fromkeys(check.source for check in rows))
        lines += [f"`{file}`", ""]
        lines += [f"{number}. {source}" for number, source in enumerate(sources, start=1)]
        lines += ["", "| what is checked | source | how near, and why | where they part |"]
        lines += ["|---|---|---|---|"]
        for row in rows:
            number = sources.index(row.source) + 1
            lines += [f"| {row.what} | {number} | {row.within} | {row.differs} |"]
        lines += [""]
    return "\n".join(lines)


def page_with(text: str, page: str) -> str:
    """Return the page with the table between its two marks."""
    before, _, rest = page.partition(BEGIN)
    _, mark, after = rest.partition(END)
    if not mark:
        raise RegisterError(f"no {BEGIN} and {END} in the page")
    return f"{before}{BEGIN}\n\n{text}\n{END}{after}"


if __name__ == "__main__":
    made = table(all_checks())
    if sys.argv[1:] == ["--write"]:
        PAGE.write_text(page_with(made, PAGE.read_text(encoding="utf-8")), encoding="utf-8")
    else:
        sys.stdout.write(made)
