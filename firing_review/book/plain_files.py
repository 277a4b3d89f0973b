"""A whole book as plain files that any text program or spreadsheet opens, and back.

kilnbook.toml      what this folder is
firings.csv        one row a firing, with its figures
changes.csv        changes at the kilns
notes.csv          notes
attachments.csv    which file belongs to what
kilns/             a kiln sheet each
firings/           a firing folder each, its log byte for byte
attachments/       attached files byte for byte
"""

import csv
import io
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, fields
from pathlib import Path

from firing_review.book.book import Book
from firing_review.book.nouns import Attachment, Change, FiringKept, KilnKept, Note
from firing_review.book.summary import Summary, program_version, summary_text
from firing_review.firing.errors import InputError
from firing_review.firing.said import N_
from firing_review.firing.wording import tr
from firing_review.io.answers_table import readings_lines
from firing_review.io.csv_cells import guarded
from firing_review.io.kiln_sheet import kiln_text
from firing_review.io.sheets import write_firing_folder
from firing_review.io.toml_text import toml_lines
from firing_review.io.whole_file import write_whole

BOOK_NAME, FORMAT = "kilnbook.toml", "firing-review-book/1"
FIRINGS, KILNS, ATTACHMENTS = "firings", "kilns", "attachments"
SUMMARY_NAME = "summary.json"
"""Beside each firing: its figures, so that the folder reads back without a new review."""
LONGEST_NAME = 60
FIRING_COLUMNS = ("folder", "kiln", "title", "log", "fired_on", "added_at", "changed_at")
CHANGE_COLUMNS = ("kiln", "kind", "changed_on", "sections", "text", "readings")
NOTE_COLUMNS = ("firing", "kiln", "written_at", "text")
ATTACHMENT_COLUMNS = ("file", "name", "firing", "kiln", "added_at")
_FIGURES = tuple(field.name for field in fields(Summary) if field.type == float | None)
_EXPECTED = N_("a folder to write to")

Progress = Callable[[int, int], None]
"""Told how many of how many are done."""


def silent(_done: int, _all: int) -> None:
    """Show nothing."""


def never() -> bool:
    """Go on to the end."""
    return False


@dataclass(frozen=True)
class _Names:
    """Names of the folders and files of an export, by the number of what lies there."""

    kilns: Mapping[int, str]
    firings: Mapping[int, str]

    def of(self, one: Change | Note | Attachment) -> dict[str, str]:
        firing_id = None if isinstance(one, Change) else one.firing_id
        return {
            "firing": self.firings.get(firing_id or 0, ""),
            "kiln": self.kilns.get(one.kiln_id or 0, ""),
        }


def export_book(
    book: Book,
    folder: Path,
    progress: Progress = silent,
    cancelled: Callable[[], bool] = never,
) -> int:
    """Write all a book holds as plain files; return the number of firings written.

    Cancelled, what is written so far stays, each firing whole.

    Raises
    ------
    InputError
        If the folder holds something already, or cannot be written.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        remedy = tr("Choose another name; nothing that is there is written over.")
        raise InputError(
            str(folder), tr("a new or empty folder"), tr("one with files in it"), remedy
        )
    kept, kilns = book.list_firings(), book.kilns()
    names = _Names(
        {k.id: f"{n:03d} {_safe(k.kiln.name)}".strip() for n, k in enumerate(kilns, 1)},
        {f.id: _firing_name(n, f) for n, f in enumerate(kept, 1)},
    )
    try:
        _write_lists(book, folder, kept, kilns, names)
        done = 0
        for one in kept:
            if cancelled():
                break
            below = folder / FIRINGS / names.firings[one.id]
            write_firing_folder(book.given(one.id), below)
            write_whole(below / SUMMARY_NAME, summary_text(one.summary).encode())
            done += 1
            progress(done, len(kept))
    except OSError as error:
        found = error.strerror or str(error)
        remedy = tr("Choose a folder you may write to, with room left.")
        raise InputError(str(folder), tr(_EXPECTED), found, remedy) from None
    return done


def _safe(name: str) -> str:
    """Return a name that every system takes as that of a file."""
    plain = re.sub(r'[<>:"/\\|?*\x00-\x1f.]', " ", name)
    return " ".join(plain.split())[:LONGEST_NAME].strip()


def _firing_name(number: int, kept: FiringKept) -> str:
    day = f" {kept.when.date()}" if kept.when is not None else ""
    title = _safe(kept.title.removesuffix(".csv"))
    return f"{number:04d}{day} {title}".strip()


def _write_lists(
    book: Book,
    folder: Path,
    kept: Sequence[FiringKept],
    kilns: Sequence[KilnKept],
    names: _Names,
) -> None:
    """Write all but the firings themselves."""
    folder.mkdir(parents=True, exist_ok=True)
    head = {"format": FORMAT, "version": program_version() or None}
    write_whole(folder / BOOK_NAME, ("\n".join(toml_lines(head)) + "\n").encode())
    (folder / KILNS).mkdir()
    for one in kilns:
        target = folder / KILNS / f"{names.kilns[one.id]}.toml"
        write_whole(target, kiln_text(one.kiln).encode())
    columns = (*FIRING_COLUMNS, "started_at", "goal_cone", "cone", *_FIGURES)
    _write_table(folder / "firings.csv", columns, (_firing_row(f, names) for f in kept))
    changes = (_change_row(c, names) for c in book.changes())
    _write_table(folder / "changes.csv", CHANGE_COLUMNS, changes)
    notes = (_note_row(n, names) for n in book.notes())
    _write_table(folder / "notes.csv", NOTE_COLUMNS, notes)
    _write_attachments(book, folder, names)


def _firing_row(kept: FiringKept, names: _Names) -> Mapping[str, object]:
    figures = {name: getattr(kept.summary, name) for name in _FIGURES}
    return {
        "folder": names.firings[kept.id],
        "kiln": names.kilns.get(kept.kiln_id or 0, ""),
        "title": kept.summary.title,
        "log": kept.summary.source,
        "fired_on": kept.fired_on,
        "added_at": kept.added_at.isoformat(),
        "changed_at": kept.changed_at.isoformat(),
        "started_at": kept.summary.started_at,
        "goal_cone": f"cone {kept.summary.goal_cone}" if kept.summary.goal_cone else "",
        "cone": f"cone {kept.summary.cone}" if kept.summary.cone else "",
        **figures,
    }


def _change_row(change: Change, names: _Names) -> Mapping[str, object]:
    return {
        **names.of(change),
        "kind": change.kind.value,
        "changed_on": change.on,
        "sections": "\n".join(change.sections),
        "text": change.text,
        "readings": "\n".join(readings_lines(change.readings)).strip(),
    }


def _note_row(note: Note, names: _Names) -> Mapping[str, object]:
    written = note.written_at.isoformat() if note.written_at else ""
    return {**names.of(note), "written_at": written, "text": note.text}


def _write_attachments(book: Book, folder: Path, names: _Names) -> None:
    rows = []
    for number, one in enumerate(book.attachments(), start=1):
        ending = Path(_safe_ending(one.name)).suffix
        file = f"{number:04d} {_safe(Path(one.name).stem)}".strip() + ending
        target = folder / ATTACHMENTS / file
        target.parent.mkdir(exist_ok=True)
        write_whole(target, book.attachment_bytes(one.id))
        added = one.added_at.isoformat()
        rows.append({"file": file, "name": one.name, "added_at": added, **names.of(one)})
    _write_table(folder / "attachments.csv", ATTACHMENT_COLUMNS, rows)


def _safe_ending(name: str) -> str:
    return re.sub(r"[^A-Za-z0-9.]", "", name[-8:])


def _write_table(path: Path, columns: Sequence[str], rows: Iterable[Mapping[str, object]]) -> None:
    out = io.StringIO()
    writer = csv.writer(out, quoting=csv.QUOTE_ALL)
    writer.writerow(columns)
    writer.writerows([_cell(row.get(name)) for name in columns] for row in rows)
    write_whole(path, out.getvalue().encode("utf-8-sig"))


def _cell(value: object) -> str:
    """Return a cell; numbers stand as they are, for they are the program's own."""
    if value is None:
        return ""
    return repr(value) if isinstance(value, float) else guarded(str(value))
