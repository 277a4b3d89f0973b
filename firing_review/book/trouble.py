"""What can go wrong with the file of a book, as one clear line for a person."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from firing_review.firing.errors import InputError

BOOK = "a kiln book"
STILL_HERE = "What was changed last is still open: keep it in another book or a firing folder."
_BY_CODE = {
    sqlite3.SQLITE_FULL: ("room for it on the disk", "none left", "Make room, then try again. "),
    sqlite3.SQLITE_READONLY: ("a book that may be written", "one that is read only", ""),
    sqlite3.SQLITE_BUSY: (
        "a book that no other program is writing",
        "one that is being written",
        "Close it in the other program. ",
    ),
    sqlite3.SQLITE_IOERR: (
        "a disk that answers",
        "none: a stick pulled out, a full disk, or a lost connection",
        "Put it back or make room, and open the book again. ",
    ),
    sqlite3.SQLITE_CANTOPEN: (BOOK, "none that can be opened", "Check the name and folder. "),
    sqlite3.SQLITE_CORRUPT: (
        BOOK,
        "a damaged one",
        "Open a copy of an earlier day, or take out what can be read by exporting it. ",
    ),
    sqlite3.SQLITE_NOTADB: (
        BOOK,
        "another kind of file",
        "Choose a file that ends in .kilnbook. ",
    ),
}
_LOCKED_TABLE, _PERMISSION, _TOO_LARGE = 6, 3, 18
_SAME_AS = {
    _LOCKED_TABLE: sqlite3.SQLITE_BUSY,
    _PERMISSION: sqlite3.SQLITE_READONLY,
    _TOO_LARGE: sqlite3.SQLITE_FULL,
}
PRIMARY_CODE = 0xFF
"""The low byte of an error code says what kind it is, the others where it arose."""


def trouble(error: sqlite3.Error, path: Path, *, writing: bool) -> InputError:
    """Return what went wrong with a book, where, and what to do about it."""
    code = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_ERROR) & PRIMARY_CODE
    known = _BY_CODE.get(_SAME_AS.get(code, code))
    expected, found, remedy = known or (BOOK, f"one that fails with {str(error)!r}", "")
    after = STILL_HERE if writing else ""
    return InputError(str(path), expected, found, f"{remedy}{after}".strip())


@contextmanager
def in_plain_words(path: Path, *, writing: bool = False) -> Iterator[None]:
    """Turn an error of the database within into an InputError; slips of the program pass."""
    try:
        yield
    except sqlite3.ProgrammingError:
        raise
    except sqlite3.Error as error:
        raise trouble(error, path, writing=writing) from error
    except OSError as error:
        after = STILL_HERE if writing else "Check that the file is there and may be read."
        found = error.strerror or "no access"
        raise InputError(str(path), BOOK, found, after) from error
