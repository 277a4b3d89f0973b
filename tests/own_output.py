"""Finds asserts whose expected side is worked out by the program itself.

What comes out of a function or a constant of ``firing_review`` is the program's own, and so is
all that is made of it: variables, helpers of the test file, loops over it. Nouns (the classes of
``firing_review.firing``) only name things and are nobody's output. Every comparison of an assert
must have a side that is not the program's own, and so must every ``approx(...)``.

Its limit: it sees where a figure comes from, not whether it was typed off the screen; that a
literal is the source's and not the program's stays a matter of reading.
"""

import ast
from collections.abc import Iterator

NOUNS = "firing_review.firing"


def own_expectations(text: str) -> list[tuple[int, str]]:
    """Return line and text of each comparison in which every side is the program's own."""
    tree = ast.parse(text)
    names = _imported(tree)
    module = [n for n in tree.body if not isinstance(n, ast.FunctionDef)]
    helpers = [n for n in tree.body if isinstance(n, ast.FunctionDef)]
    for _ in range(len(tree.body)):
        names |= {h.name for h in helpers if _is_own(h, names | _within(h, names))}
        names |= set().union(*(_made(node, names) for node in module))
    found = []
    for test in helpers:
        if test.name.startswith("test_"):
            found += _in_test(test, names | _within(test, names))
    return found


def _imported(tree: ast.Module) -> set[str]:
    """Return the names the file takes from the program, nouns left out."""
    names = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("firing_review"):
            nouns = (node.module or "").startswith(NOUNS)
            names |= {
                alias.asname or alias.name
                for alias in node.names
                if not (nouns and alias.name[:1].isupper())
            }
    return names


def _is_own(node: ast.AST, names: set[str]) -> bool:
    return any(isinstance(n, ast.Name) and n.id in names for n in ast.walk(node))


def _targets(node: ast.AST) -> set[str]:
    return {n.id for n in ast.walk(node) if isinstance(n, ast.Name)}


def _made(tree: ast.AST, names: set[str]) -> set[str]:
    """Return the names that get their value from the program's own, directly or in a loop."""
    made: set[str] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Assign) and _is_own(node.value, names):
            for target in node.targets:
                made |= _targets(target)
        elif isinstance(node, ast.For | ast.comprehension) and _is_own(node.iter, names):
            made |= _targets(node.target)
        elif isinstance(node, ast.FunctionDef) and node is not tree and _is_own(node, names):
            made.add(node.name)
    return made


def _within(function: ast.FunctionDef, names: set[str]) -> set[str]:
    """Return what is the program's own inside one function, its marked arguments with it."""
    own: set[str] = set()
    for mark in function.decorator_list:
        if isinstance(mark, ast.Call) and len(mark.args) > 1:
            own |= _marked(mark.args[0], mark.args[1], names)
    for _ in range(4):
        own |= _made(function, names | own)
    return own


def _marked(arguments: ast.expr, values: ast.expr, names: set[str]) -> set[str]:
    """Return the arguments of a marked test that are given the program's own, by column."""
    words = [name.strip() for name in _words(arguments)]
    rows = getattr(values, "elts", [])
    if not rows or not all(len(getattr(row, "elts", ())) == len(words) for row in rows):
        return set(words) if _is_own(values, names) else set()
    columns = zip(*(row.elts for row in rows), strict=True)
    owned = [any(_is_own(cell, names) for cell in column) for column in columns]
    return {word for word, is_own in zip(words, owned, strict=True) if is_own}


def _words(node: ast.expr) -> Iterator[str]:
    for part in ast.walk(node):
        if isinstance(part, ast.Constant) and isinstance(part.value, str):
            yield from part.value.split(",")


def _in_test(test: ast.FunctionDef, names: set[str]) -> Iterator[tuple[int, str]]:
    for statement in ast.walk(test):
        if not isinstance(statement, ast.Assert):
            continue
        for node in ast.walk(statement.test):
            if isinstance(node, ast.Compare):
                sides = [node.left, *node.comparators]
                if all(_is_own(side, names) for side in sides):
                    yield node.lineno, ast.unparse(node)
