"""Kilns of a book: which kiln a firing belongs to, by the name on its sheet."""

import sqlite3

from firing_review.firing.kiln import Kiln
from firing_review.io.kiln_sheet import kiln_text
from firing_review.io.known_words import plain


def kiln_after_edit(
    db: sqlite3.Connection, kiln: Kiln | None, before: Kiln | None, now: int | None
) -> int | None:
    """Return the kiln that a firing belongs to after its sheet may have changed.

    The same name, or no sheet any more, and it stays where it is. A new name is that of another
    kiln in the book, or a new one; on the sheet of a kiln's only firing it is that kiln renamed.

    Parameters
    ----------
    before : Kiln or None
        The sheet as it was kept.
    now : int or None
        The kiln it belonged to.
    """
    if kiln is None or kiln == before:
        return now
    same = _named(db, kiln.name)
    if before is not None and plain(before.name) == plain(kiln.name) and now is not None:
        same = now
    if same is None and now is not None and _firings(db, now) <= 1:
        same = now
    if same is None:
        return add_kiln(db, kiln)
    set_kiln(db, same, kiln)
    if now is not None and now != same:
        drop_if_empty(db, now)
    return same


def kiln_by_name(db: sqlite3.Connection, kiln: Kiln) -> int:
    """Keep the sheet of the kiln of that name, a new one if there is none; return its number."""
    same = _named(db, kiln.name)
    if same is None:
        return add_kiln(db, kiln)
    set_kiln(db, same, kiln)
    return same


def add_kiln(db: sqlite3.Connection, kiln: Kiln) -> int:
    """Keep a kiln."""
    values = (kiln.name, kiln_text(kiln))
    return int(db.execute("INSERT INTO kilns (name, sheet) VALUES (?, ?)", values).lastrowid or 0)


def set_kiln(db: sqlite3.Connection, kiln_id: int, kiln: Kiln) -> None:
    """Keep the newest sheet of a kiln."""
    values = (kiln.name, kiln_text(kiln), kiln_id)
    db.execute("UPDATE kilns SET name = ?, sheet = ? WHERE id = ?", values)


def drop_if_empty(db: sqlite3.Connection, kiln_id: int) -> None:
    """Let go of a kiln that nothing in the book belongs to but the firing being kept now."""
    held = _firings(db, kiln_id)
    for table in ("changes", "notes", "attachments"):
        question = f"SELECT count(*) FROM {table} WHERE kiln_id = ?"  # noqa: S608 - names above
        held += int(db.execute(question, (kiln_id,)).fetchone()[0])
    if held <= 1:
        db.execute("DELETE FROM kilns WHERE id = ?", (kiln_id,))


def _named(db: sqlite3.Connection, name: str) -> int | None:
    for kiln_id, known in db.execute("SELECT id, name FROM kilns ORDER BY id"):
        if plain(known) == plain(name):
            return int(kiln_id)
    return None


def _firings(db: sqlite3.Connection, kiln_id: int) -> int:
    question = "SELECT count(*) FROM firings WHERE kiln_id = ?"
    return int(db.execute(question, (kiln_id,)).fetchone()[0])
