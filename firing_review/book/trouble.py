"""What can go wrong with the file of a book, as one clear line for a person."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from firing_review.firing.errors import InputError
from firing_review.firing.said import N_
from firing_review.firing.wording import tr

BOOK = N_("a kiln book")
STILL_HERE = N_("What was changed last is still open: keep it in another book or a firing folder.")
_BY_CODE = {
    sqlite3.SQLITE_FULL: (
        N_("room for it on the disk"),
        N_("none left"),
        N_("Make room, then try again."),
    ),
    sqlite3.SQLITE_READONLY: (N_("a book that may be written"), N_("one that is read only"), ""),
    sqlite3.SQLITE_BUSY: (
        N_("a book that no other program is writing"),
        N_("one that is being written"),
        N_("Close it in the other program."),
    ),
    sqlite3.SQLITE_IOERR: (
        N_("a disk that answers"),
        N_("none: a stick pulled out, a full disk, or a lost connection"),
        N_("Put it back or make room, and open the book again."),
    ),
    sqlite3.SQLITE_CANTOPEN: (
        BOOK,
        N_("none that can be opened"),
        N_("Check the name and folder."),
    ),
    sqlite3.SQLITE_CORRUPT: (
        BOOK,
        N_("a damaged one"),
        N_("Open a copy of an earlier day, or take out what can be read by exporting it."),
    ),
    sqlite3.SQLITE_NOTADB: (
        BOOK,
        N_("another kind of file"),
        N_("Choose a file that ends in .kilnbook."),
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
    expected, found, remedy = known or (BOOK, "", "")
    found = tr(found) or tr("one that fails with {error!r}").format(error=str(error))
    after = tr(STILL_HERE) if writing else ""
    return InputError(str(path), tr(expected), found, f"{tr(remedy)} {after}".strip())


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
        after = STILL_HERE if writing else N_("Check that the file is there and may be read.")
        found = error.strerror or tr("no access")
        raise InputError(str(path), tr(BOOK), found, tr(after)) from error
