"""What a book holds beside the firings: changes at the kiln, notes, attached files."""

import json
from collections.abc import Sequence
from datetime import UTC, date, datetime

from firing_review.book.nouns import Attachment, Change, ChangeKind, Note
from firing_review.book.store import Store
from firing_review.firing.errors import InputError
from firing_review.firing.said import N_
from firing_review.firing.sheet import Readings
from firing_review.firing.wording import tr
from firing_review.io.answers_table import read_readings, readings_lines
from firing_review.io.toml_text import Table, parse_sheet

_EXPECTED = N_("meter readings (TOML)")


class Records:
    """Changes, notes and attachments of an open book."""

    _store: Store

    # Changes

    def changes(self, kiln_id: int | None = None) -> tuple[Change, ...]:
        """Return the changes at a kiln, oldest first, or all; those without a day first."""
        rows = self._store.rows(
            "SELECT id, kiln_id, kind, changed_on, sections, text, readings FROM changes"
            " WHERE ?1 IS NULL OR kiln_id = ?1 ORDER BY changed_on, id",
            kiln_id,
        )
        return tuple(self._change(row) for row in rows)

    def _change(self, row: tuple[object, ...]) -> Change:
        change_id, kiln_id, kind, on, sections, text, readings = row
        return Change(
            kind=ChangeKind(str(kind)),
            on=None if on is None else date.fromisoformat(str(on)),
            kiln_id=None if kiln_id is None else whole(kiln_id),
            sections=tuple(json.loads(str(sections))),
            text=str(text),
            readings=readings_of(str(readings), str(self._store.path)),
            id=whole(change_id),
        )

    def keep_change(self, change: Change) -> int:
        """Keep a change, a new one if its ``id`` is 0; return its number."""
        values = (
            change.kiln_id,
            change.kind.value,
            None if change.on is None else change.on.isoformat(),
            json.dumps(change.sections, ensure_ascii=False),
            change.text,
            "\n".join(readings_lines(change.readings)),
        )
        return self._keep(
            "changes", ("kiln_id", "kind", "changed_on", "sections", "text", "readings"),
            values, change.id,
        )  # fmt: skip

    def remove_change(self, change_id: int) -> None:
        """Take a change out of the book."""
        self._remove("changes", change_id)

    # Notes

    def notes(self, firing_id: int | None = None, kiln_id: int | None = None) -> tuple[Note, ...]:
        """Return the notes on a firing or a kiln, or all; oldest first."""
        rows = self._store.rows(
            "SELECT id, text, firing_id, kiln_id, written_at FROM notes"
            " WHERE (?1 IS NULL OR firing_id = ?1) AND (?2 IS NULL OR kiln_id = ?2)"
            " ORDER BY written_at, id",
            firing_id,
            kiln_id,
        )
        return tuple(_note(row) for row in rows)

    def keep_note(self, note: Note) -> int:
        """Keep a note, a new one if its ``id`` is 0; return its number."""
        written = (note.written_at or datetime.now(UTC)).isoformat(timespec="seconds")
        values = (note.text, note.firing_id, note.kiln_id, written)
        columns = ("text", "firing_id", "kiln_id", "written_at")
        return self._keep("notes", columns, values, note.id)

    def remove_note(self, note_id: int) -> None:
        """Take a note out of the book."""
        self._remove("notes", note_id)

    # Attachments

    def attach(
        self, name: str, data: bytes, firing_id: int | None = None, kiln_id: int | None = None
    ) -> int:
        """Keep a file, such as a photo, with a firing or a kiln; return its number."""
        added = datetime.now(UTC).isoformat(timespec="seconds")
        packed = self._store.packed(data)
        with self._store.writing() as db:
            values = (name, firing_id, kiln_id, self._store.put_bytes(db, packed), added)
            kept = db.execute(
                "INSERT INTO attachments (name, firing_id, kiln_id, blob_id, added_at)"
                " VALUES (?, ?, ?, ?, ?)",
                values,
            )
            return int(kept.lastrowid or 0)

    def attachments(
        self, firing_id: int | None = None, kiln_id: int | None = None
    ) -> tuple[Attachment, ...]:
        """Return the files kept with a firing or a kiln, or all, without their bytes."""
        rows = self._store.rows(
            "SELECT id, name, firing_id, kiln_id, added_at FROM attachments"
            " WHERE (?1 IS NULL OR firing_id = ?1) AND (?2 IS NULL OR kiln_id = ?2) ORDER BY id",
            firing_id,
            kiln_id,
        )
        return tuple(_attachment(row) for row in rows)

    def attachment_bytes(self, attachment_id: int) -> bytes:
        """Return an attached file byte for byte."""
        rows = self._store.rows("SELECT blob_id FROM attachments WHERE id = ?", attachment_id)
        if not rows:
            raise self._none(tr("an attached file of the book"))
        return self._store.get_bytes(whole(rows[0][0]))

    def detach(self, attachment_id: int) -> None:
        """Take an attached file out of the book."""
        question = "SELECT blob_id FROM attachments WHERE id = ?"
        blobs = [whole(blob) for (blob,) in self._store.rows(question, attachment_id)]
        with self._store.writing() as db:
            db.execute("DELETE FROM attachments WHERE id = ?", (attachment_id,))
            self._store.drop_bytes(db, blobs)

    # Shared

    def _keep(
        self, table: str, columns: Sequence[str], values: Sequence[object], row_id: int
    ) -> int:
        with self._store.writing() as db:
            if not row_id:
                places = ", ".join("?" * len(columns))
                names = ", ".join(columns)
                insert = f"INSERT INTO {table} ({names}) VALUES ({places})"  # noqa: S608
                return int(db.execute(insert, values).lastrowid or 0)
            names = ", ".join(f"{column} = ?" for column in columns)
            update = f"UPDATE {table} SET {names} WHERE id = ?"  # noqa: S608
            if not db.execute(update, (*values, row_id)).rowcount:
                raise self._none(tr("an entry of the book"))
            return row_id

    def _remove(self, table: str, row_id: int) -> None:
        with self._store.writing() as db:
            db.execute(f"DELETE FROM {table} WHERE id = ?", (row_id,))  # noqa: S608

    def _none(self, what: str) -> InputError:
        remedy = tr("It may have been taken out; open the book again.")
        return InputError(
            str(self._store.path),
            what,
            tr("none"),
            remedy,
        )


def readings_of(text: str, where: str) -> Readings:
    """Return meter readings from the lines they were kept as."""
    sheet = parse_sheet(text, where, tr(_EXPECTED))
    return read_readings(Table(sheet, sheet.values).table("readings"), None)


def _note(row: tuple[object, ...]) -> Note:
    note_id, text, firing_id, kiln_id, written_at = row
    return Note(
        text=str(text),
        firing_id=None if firing_id is None else whole(firing_id),
        kiln_id=None if kiln_id is None else whole(kiln_id),
        written_at=datetime.fromisoformat(str(written_at)),
        id=whole(note_id),
    )


def _attachment(row: tuple[object, ...]) -> Attachment:
    attachment_id, name, firing_id, kiln_id, added_at = row
    return Attachment(
        id=whole(attachment_id),
        name=str(name),
        firing_id=None if firing_id is None else whole(firing_id),
        kiln_id=None if kiln_id is None else whole(kiln_id),
        added_at=datetime.fromisoformat(str(added_at)),
    )


def whole(value: object) -> int:
    """Return a number of a row, which the database does not type."""
    if not isinstance(value, int):
        raise TypeError(f"expected a whole number, found {value!r}")
    return value
