"""The tables of a kiln book, and the steps from one version of them to the next."""

import sqlite3
from collections.abc import Sequence
from contextlib import closing
from pathlib import Path

APPLICATION_ID = 0x6B694C6E
"""Marks a database as a kiln book, so that no other one is taken for it."""
PAGE_BYTES = 1024
"""A packed log ends somewhere within a page; small pages leave little of it empty."""

FIRST = """
CREATE TABLE kilns (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL,
    sheet TEXT NOT NULL
);
CREATE TABLE blobs (
    id INTEGER PRIMARY KEY,
    sha256 BLOB NOT NULL UNIQUE,
    packing TEXT NOT NULL,
    data BLOB NOT NULL
);
CREATE TABLE firings (
    id INTEGER PRIMARY KEY,
    kiln_id INTEGER REFERENCES kilns ON DELETE SET NULL,
    source TEXT NOT NULL,
    log_sha256 BLOB NOT NULL,
    log_run INTEGER NOT NULL,
    fired_on TEXT,
    added_at TEXT NOT NULL,
    changed_at TEXT NOT NULL,
    summary BLOB NOT NULL
);
CREATE INDEX firings_of_kiln ON firings (kiln_id);
CREATE INDEX firings_of_log ON firings (log_sha256);
CREATE TABLE files (
    firing_id INTEGER NOT NULL REFERENCES firings ON DELETE CASCADE,
    name TEXT NOT NULL,
    blob_id INTEGER NOT NULL REFERENCES blobs,
    PRIMARY KEY (firing_id, name)
) WITHOUT ROWID;
CREATE INDEX files_of_blob ON files (blob_id);
CREATE TABLE changes (
    id INTEGER PRIMARY KEY,
    kiln_id INTEGER REFERENCES kilns ON DELETE CASCADE,
    kind TEXT NOT NULL,
    changed_on TEXT,
    sections TEXT NOT NULL,
    text TEXT NOT NULL,
    readings TEXT NOT NULL
);
CREATE TABLE notes (
    id INTEGER PRIMARY KEY,
    kiln_id INTEGER REFERENCES kilns ON DELETE CASCADE,
    firing_id INTEGER REFERENCES firings ON DELETE CASCADE,
    text TEXT NOT NULL,
    written_at TEXT NOT NULL
);
CREATE TABLE attachments (
    id INTEGER PRIMARY KEY,
    kiln_id INTEGER REFERENCES kilns ON DELETE CASCADE,
    firing_id INTEGER REFERENCES firings ON DELETE CASCADE,
    name TEXT NOT NULL,
    blob_id INTEGER NOT NULL REFERENCES blobs,
    added_at TEXT NOT NULL
);
CREATE INDEX attachments_of_blob ON attachments (blob_id);
"""

STEPS: Sequence[str] = (FIRST,)
"""Each step brings a book one version on; a step that was ever given out is never changed."""


def version_of(db: sqlite3.Connection) -> int:
    """Return the version of the tables in a book; 0 for a new file."""
    return int(db.execute("PRAGMA user_version").fetchone()[0])


def is_book(db: sqlite3.Connection) -> bool:
    """Tell whether a database is a kiln book."""
    return int(db.execute("PRAGMA application_id").fetchone()[0]) == APPLICATION_ID


def migrate(db: sqlite3.Connection, path: Path, steps: Sequence[str]) -> Path | None:
    """Bring a book to the newest version, each step whole or not at all.

    Returns the copy of the book as it was before; None if there was nothing to bring on.
    """
    begun = version_of(db)
    if begun >= len(steps):
        return None
    copy = _backup(db, path, begun) if begun else None
    for version, step in enumerate(steps[begun:], start=begun + 1):
        marks = f"PRAGMA application_id = {APPLICATION_ID}; PRAGMA user_version = {version};"
        db.executescript(f"BEGIN IMMEDIATE; {step} {marks} COMMIT;")
    return copy


def _backup(db: sqlite3.Connection, path: Path, version: int) -> Path:
    copy = path.with_name(f"{path.stem}.before-version-{version + 1}{path.suffix}")
    number = 1
    while copy.exists():
        number += 1
        copy = path.with_name(f"{path.stem}.before-version-{version + 1}-{number}{path.suffix}")
    with closing(sqlite3.connect(copy)) as target:
        db.backup(target)
    return copy
