"""What is to be reviewed: what a person named, with folders replaced by what lies in them."""

import tomllib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from firing_review.io.firing_parts import SHEET_NAME
from firing_review.io.open_any import LOG_ENDINGS

SUMMARY = "summary"


@dataclass(frozen=True)
class Input:
    """One firing to review.

    Attributes
    ----------
    name : str
        As the person knows it.
    result : str
        Name of its files among the results, without ending; no other firing of the run has it.
    """

    name: str
    path: Path
    result: str


def inputs_of(names: Sequence[str]) -> list[Input]:
    """Return every firing that is named, each with a name of its own for its results."""
    paths = [path for name in names for path in _paths_in(Path(name))]
    results = _own_names(_stem(path) for path in paths)
    return [Input(str(path), path, result) for path, result in zip(paths, results, strict=True)]


def _paths_in(path: Path) -> list[Path]:
    """Return a folder's firings; a folder that is one, or anything else, is what it is."""
    if not path.is_dir() or (path / SHEET_NAME).exists():
        return [path]
    sheets = sorted(path.rglob(SHEET_NAME)) or sorted(p for p in path.glob("*.toml") if _ties(p))
    logs = sorted(p for p in path.iterdir() if p.suffix.lower() in LOG_ENDINGS)
    return sheets or logs or [path]


def _ties(path: Path) -> bool:
    """Tell whether a sheet is one of a firing: it names a log."""
    try:
        return "log" in tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except (OSError, ValueError):
        return True


def _stem(path: Path) -> str:
    whole = path.resolve()
    return whole.parent.name if path.name == SHEET_NAME else whole.stem


def _own_names(stems: Iterable[str]) -> list[str]:
    """Return names of which no two are the same, not even where capitals do not count."""
    taken, names = {SUMMARY}, []
    for stem in stems:
        name, number = stem, 1
        while name.casefold() in taken:
            number += 1
            name = f"{stem}-{number}"
        taken.add(name.casefold())
        names.append(name)
    return names
