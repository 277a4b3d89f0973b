"""Kilns of a book: which kiln a firing belongs to, by the name on its sheet."""

import sqlite3

from firing_review.firing.kiln import Kiln
from firing_review.io.kiln_sheet import kiln_text
from firing_review.io.known_words import plain


def kiln_of_firing(db: sqlite3.Connection, kiln: Kiln | None, now: int | None) -> int | None:
    """Return the kiln that a firing with this sheet belongs to; kept if it is new.

    Parameters
    ----------
    now : int or None
        The kiln it belonged to before. A new name on the sheet of a kiln's only firing is that
        kiln renamed; with more firings it is another kiln. Without a sheet it stays where it is.
    """
    if kiln is None:
        return now
    same = _named(db, kiln.name)
    if same is None and now is not None and _firings(db, now) <= 1:
        same = now
    if same is None:
        return add_kiln(db, kiln)
    set_kiln(db, same, kiln)
    if now is not None and now != same:
        drop_if_empty(db, now)
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
