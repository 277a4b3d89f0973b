"""Firings brought into a book: a folder of logs and sheets, or a book that was exported."""

import csv
import io
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from pathlib import Path

from firing_review.book.book import Book
from firing_review.book.nouns import Attachment, Change, ChangeKind, FiringKept, Note
from firing_review.book.plain_files import (
    ATTACHMENTS,
    BOOK_NAME,
    FIRINGS,
    KILNS,
    SUMMARY_NAME,
    Progress,
    never,
    silent,
)
from firing_review.book.records import readings_of
from firing_review.book.summary import Summary, read_summary, summary_of_given
from firing_review.firing.errors import InputError
from firing_review.firing.tables import Tables
from firing_review.firing.wording import tr
from firing_review.io.csv_cells import unguarded
from firing_review.io.firing_parts import SHEET_NAME, FiringParts, parts_of_sheet
from firing_review.io.kiln_sheet import read_kiln
from firing_review.io.open_any import LOG_ENDINGS, gather
from firing_review.io.plain_text import read_file
from firing_review.review.pipeline import review_firing


@dataclass(frozen=True)
class Imported:
    """What came of an import.

    Attributes
    ----------
    added : tuple of int
        Numbers of the firings that are new in the book.
    known : tuple of (path, number)
        Logs the book had already, with the firing they are.
    refused : tuple of InputError
        Files that could not be used, each with its reason; the others went in all the same.
    cancelled : bool
        Whether it was ended before all were tried; what went in stays.
    """

    added: tuple[int, ...] = ()
    known: tuple[tuple[Path, int], ...] = ()
    refused: tuple[InputError, ...] = ()
    cancelled: bool = False


@dataclass
class _Tally:
    """What came of it so far."""

    added: list[int] = field(default_factory=list)
    known: list[tuple[Path, int]] = field(default_factory=list)
    refused: list[InputError] = field(default_factory=list)

    def done(self, *, cancelled: bool = False) -> Imported:
        return Imported(tuple(self.added), tuple(self.known), tuple(self.refused), cancelled)


def import_folder(
    book: Book,
    folder: Path,
    tables: Tables,
    progress: Progress = silent,
    cancelled: Callable[[], bool] = never,
    kiln_id: int | None = None,
) -> Imported:
    """Bring every firing of a folder, and of those in it, into a book.

    A bad file is reported and the rest goes on; a log the book has is not added again. A folder
    that a book was exported to brings back all that the book held.

    Parameters
    ----------
    progress : callable
        Called with how many of how many are done.
    cancelled : callable
        Asked before each firing; True ends the import, and what went in stays.
    kiln_id : int, optional
        The kiln of firings without a kiln sheet.

    Raises
    ------
    InputError
        If the folder or the book itself cannot be used.
    """
    if not folder.is_dir():
        remedy = tr("Name a folder with logs or firing sheets in it.")
        raise InputError(str(folder), tr("a folder"), tr("none of that name"), remedy)
    if (folder / BOOK_NAME).is_file():
        return _Export(book, folder).bring_in(progress, cancelled)
    tally = _Tally()
    paths = firings_in(folder, tally.refused)
    for number, path in enumerate(paths, start=1):
        if cancelled():
            return tally.done(cancelled=True)
        _add(book, path, tables, kiln_id, tally)
        progress(number, len(paths))
    return tally.done()


def _add(book: Book, path: Path, tables: Tables, kiln_id: int | None, tally: _Tally) -> None:
    """Add one firing; what is wrong with the file is noted, what is wrong with the book is not."""
    try:
        given = gather(path)
        there = book.firing_with_log(given)
        review = review_firing(given, tables) if there is None else None
    except InputError as error:
        tally.refused.append(error)
        return
    added = book.add(given, review, kiln_id)
    if added.new:
        tally.added.append(added.firing_id)
    else:
        tally.known.append((path, added.firing_id))


def firings_in(folder: Path, refused: list[InputError]) -> tuple[Path, ...]:
    """Return every firing sheet of a folder and below, and every log that no sheet names.

    Sheets that cannot be read are added to ``refused``.
    """
    sheets, named = [], set()
    for path in sorted(folder.rglob("*.toml")):
        parts = _parts(path, refused)
        if parts is not None:
            sheets.append(path)
            named |= _files_of(parts)
    logs = [
        path
        for path in sorted(folder.rglob("*"))
        if path.suffix.lower() in LOG_ENDINGS and path.is_file() and path.resolve() not in named
    ]
    return (*sheets, *logs)


def _parts(path: Path, refused: list[InputError]) -> FiringParts | None:
    """Return what a firing sheet names; None for a kiln sheet or what is no sheet at all."""
    try:
        return parts_of_sheet(path)
    except InputError as error:
        if path.name == SHEET_NAME or _names_a_log(path):
            refused.append(error)
        return None


def _names_a_log(path: Path) -> bool:
    """Tell whether a sheet that does not read was meant as one of a firing."""
    try:
        return re.search(rb"^\s*log\s*=", path.read_bytes(), re.MULTILINE) is not None
    except OSError:
        return False


def _files_of(parts: FiringParts) -> set[Path]:
    files = [parts.log, parts.schedule, parts.cones, *parts.earlier, *parts.pictures]
    return {path.resolve() for path in files if path is not None}


# A book that was exported


@dataclass(frozen=True)
class _Export:
    """The folder of an exported book, on its way into a book."""

    book: Book
    folder: Path
    tally: _Tally = field(default_factory=_Tally)

    def bring_in(self, progress: Progress, cancelled: Callable[[], bool]) -> Imported:
        kilns = self._kilns()
        firings: dict[str, int] = {}
        rows = self._rows("firings.csv")
        for number, row in enumerate(rows, start=1):
            if cancelled():
                return self.tally.done(cancelled=True)
            firing_id = self._firing(row, kilns.get(row.get("kiln", "")))
            if firing_id is not None:
                firings[row["folder"]] = firing_id
            progress(number, len(rows))
        self._kilns()  # their newest sheets, for each firing has that of its own day
        self._each("changes.csv", lambda row: self._change(row, kilns))
        self._each("notes.csv", lambda row: self._note(row, kilns, firings))
        self._each("attachments.csv", lambda row: self._attachment(row, kilns, firings))
        return self.tally.done()

    def _kilns(self) -> Mapping[str, int]:
        found = {}
        for path in sorted((self.folder / KILNS).glob("*.toml")):
            try:
                found[path.stem] = self.book.keep_kiln(read_kiln(path))
            except InputError as error:
                self.tally.refused.append(error)
        return found

    def _rows(self, name: str) -> list[dict[str, str]]:
        path = self.folder / name
        if not path.is_file():
            return []
        text = read_file(path, tr("a table of a kiln book (CSV)")).decode("utf-8-sig")
        rows = csv.DictReader(io.StringIO(text, newline=""))
        return [{k: unguarded(v or "") for k, v in row.items() if k} for row in rows]

    def _each(self, name: str, keep: Callable[[Mapping[str, str]], None]) -> None:
        """Keep each row of a table; a row that does not read is noted with its number."""
        for number, row in enumerate(self._rows(name), start=1):
            try:
                keep(row)
            except (ValueError, KeyError) as error:
                remedy = tr("Mend the row, or leave it out.")
                where = f"{self.folder / name}, row {number}"
                refused = InputError(where, tr("a row as it was exported"), str(error), remedy)
                self.tally.refused.append(refused)
            except InputError as error:
                self.tally.refused.append(error)

    def _firing(self, row: Mapping[str, str], kiln_id: int | None) -> int | None:
        below = self.folder / FIRINGS / row.get("folder", "")
        try:
            given = gather(below)
            given = replace(given, log=replace(given.log, source=row["log"]))
            kept = FiringKept(
                id=0,
                kiln_id=kiln_id,
                summary=_summary_in(below) or summary_of_given(given),
                fired_on=_day(row.get("fired_on", "")),
                added_at=datetime.fromisoformat(row["added_at"]),
                changed_at=datetime.fromisoformat(row["changed_at"]),
            )
        except InputError as error:
            self.tally.refused.append(error)
            return None
        except (ValueError, KeyError) as error:
            remedy = tr("Mend its row in firings.csv, or leave it out.")
            wrong = InputError(str(below), tr("days as they were exported"), str(error), remedy)
            self.tally.refused.append(wrong)
            return None
        added = self.book.add_kept(given, kept)
        if added.new:
            self.tally.added.append(added.firing_id)
        else:
            self.tally.known.append((below, added.firing_id))
        return added.firing_id

    def _change(self, row: Mapping[str, str], kilns: Mapping[str, int]) -> None:
        change = Change(
            kind=ChangeKind(row["kind"]),
            on=_day(row["changed_on"]),
            kiln_id=kilns.get(row["kiln"]),
            sections=tuple(filter(None, row["sections"].split("\n"))),
            text=row["text"],
            readings=readings_of(row["readings"], str(self.folder / "changes.csv")),
        )
        if change not in [replace(one, id=0) for one in self.book.changes()]:
            self.book.keep_change(change)

    def _note(
        self, row: Mapping[str, str], kilns: Mapping[str, int], firings: Mapping[str, int]
    ) -> None:
        note = Note(
            text=row["text"],
            firing_id=firings.get(row["firing"]),
            kiln_id=kilns.get(row["kiln"]),
            written_at=datetime.fromisoformat(row["written_at"]),
        )
        if note not in [replace(one, id=0) for one in self.book.notes()]:
            self.book.keep_note(note)

    def _attachment(
        self, row: Mapping[str, str], kilns: Mapping[str, int], firings: Mapping[str, int]
    ) -> None:
        data = self._attached(self.folder / ATTACHMENTS / row["file"])
        firing_id, kiln_id = firings.get(row["firing"]), kilns.get(row["kiln"])
        there = self.book.attachments(firing_id, kiln_id)
        if not any(self._same(one, row["name"], data) for one in there):
            self.book.attach(row["name"], data, firing_id, kiln_id)

    def _attached(self, path: Path) -> bytes:
        try:
            return path.read_bytes()
        except OSError as error:
            found, remedy = (
                error.strerror or tr("no access"),
                tr("Put the file back beside the others."),
            )
            raise InputError(str(path), tr("an attached file"), found, remedy) from None

    def _same(self, one: Attachment, name: str, data: bytes) -> bool:
        return one.name == name and self.book.attachment_bytes(one.id) == data


def _summary_in(folder: Path) -> Summary | None:
    try:
        return read_summary((folder / SUMMARY_NAME).read_text(encoding="utf-8"))
    except (OSError, ValueError, TypeError, KeyError):
        return None


def _day(text: str) -> date | None:
    return date.fromisoformat(text) if text else None
