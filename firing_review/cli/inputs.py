"""What is to be reviewed: what a person named, folders and kiln books taken apart."""

import tomllib
from collections.abc import Iterable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from firing_review.firing.errors import InputError
from firing_review.firing.wording import tr
from firing_review.io.firing_parts import SHEET_NAME
from firing_review.io.open_any import LOG_ENDINGS
from firing_review.report.shown_text import LONGEST_NAME, shown

BOOK_ENDING = ".kilnbook"
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
    firing_id : int or None
        Which firing of a kiln book; None where the path is a log, a sheet or a folder.
    """

    name: str
    path: Path
    result: str
    firing_id: int | None = None


def inputs_of(names: Sequence[str]) -> list[Input]:
    """Return every firing that is named, each with a name of its own for its results.

    Raises
    ------
    InputError
        If a kiln book cannot be read, or holds no firing.
    """
    found = [one for name in names for path in _paths_in(Path(name)) for one in _firings(path)]
    results = _own_names(one.result for one in found)
    return [replace(one, result=result) for one, result in zip(found, results, strict=True)]


def _firings(path: Path) -> Iterator[Input]:
    """Yield what a path stands for: itself, or each firing of a book."""
    if path.suffix.lower() != BOOK_ENDING or not path.is_file():
        yield Input(str(path), path, _stem(path))
        return
    from firing_review.book.book import Book  # noqa: PLC0415 - only where there is a book

    with Book.open(path) as book:
        kept = book.list_firings()
    if not kept:
        remedy = tr("Add firings to it, or name another.")
        raise InputError(str(path), tr("a kiln book with firings"), tr("none in it"), remedy)
    for firing in kept:
        title = shown(firing.title, LONGEST_NAME)
        when = f"{firing.when:%Y-%m-%d} " if firing.when is not None else ""
        yield Input(f"{path} › {when}{title}", path, _file_name(when + title), firing.id)


def _file_name(title: str) -> str:
    """Return a title as a name any file system takes."""
    kept = "".join(sign if sign.isalnum() or sign in " -_" else "-" for sign in title)
    return kept.strip() or "firing"


@contextmanager
def books_held(inputs: Iterable[Input]) -> Iterator[None]:
    """Keep the books of a run open, so that every worker finds them steady and only reads."""
    from firing_review.book.book import Book  # noqa: PLC0415 - only where there is a book

    with ExitStack() as held:
        for path in {one.path for one in inputs if one.firing_id is not None}:
            held.enter_context(Book.open(path))
        yield


def _paths_in(path: Path) -> list[Path]:
    """Return a folder's firings; a folder that is one, or anything else, is what it is."""
    if not path.is_dir() or (path / SHEET_NAME).exists():
        return [path]
    sheets = sorted(path.rglob(SHEET_NAME)) or sorted(p for p in path.glob("*.toml") if _ties(p))
    books = sorted(p for p in path.iterdir() if p.suffix.lower() == BOOK_ENDING)
    logs = sorted(p for p in path.iterdir() if p.suffix.lower() in LOG_ENDINGS)
    return [*sheets, *books] or logs or [path]


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
