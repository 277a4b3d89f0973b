"""The file of a kiln book: opening, one writer, transactions that hold or never were."""

import contextlib
import os
import shutil
import sqlite3
import tempfile
import threading
from collections.abc import Iterator, Sequence
from pathlib import Path
from urllib.parse import quote

from firing_review.book import schema
from firing_review.book.lock import WriterLock
from firing_review.book.packing import Packed, checksum, pack, unpack
from firing_review.book.trouble import BOOK, STILL_HERE, in_plain_words
from firing_review.firing.errors import InputError
from firing_review.firing.said import N_, Said
from firing_review.firing.wording import tr

ENDING = ".kilnbook"
WAIT_S = 2.0
"""How long to wait for another program that is just reading the same file [s]."""
_IN_USE = N_("This book is open in another window, so here it can only be read.")
_NEWER = N_("This book was made by a newer version of the program, so here it can only be read.")
_NO_WRITE = N_("This book lies where nothing may be written, so it can only be read.")


class Store:
    """The open file of a book; every method may be called from any thread.

    Attributes
    ----------
    read_only : Said or None
        Why the book can only be read; None if it can be written.
    copied_to : Path or None
        The copy made before the book was brought to this version of the program.
    """

    def __init__(self, path: Path, *, new: bool) -> None:
        self.path = path
        self.read_only: Said | None = None
        self.copied_to: Path | None = None
        self._turn = threading.RLock()
        self._lock = WriterLock(path)
        self._place: os.stat_result | None = None
        self._aside: tempfile.TemporaryDirectory[str] | None = None
        try:
            with in_plain_words(path):
                self._db = self._open(new=new)
        except BaseException:
            self._lock.release()
            raise

    def close(self) -> None:
        """Close the file and give the right to write back."""
        with self._turn:
            self._db.close()
            self._lock.release()
            if self._aside is not None:
                self._aside.cleanup()

    def copy_to(self, path: Path) -> None:
        """Write the book as it is now to another file, which may not be there yet."""
        if path.exists():
            remedy = tr("Choose another name; nothing that is there is written over.")
            raise InputError(
                str(path), tr("a name that is free"), tr("a file of that name"), remedy
            )
        try:
            with self._turn, in_plain_words(path), contextlib.closing(sqlite3.connect(path)) as to:
                self._db.backup(to)
        except InputError:
            with contextlib.suppress(OSError):
                path.unlink()
            raise

    # Opening

    def _open(self, *, new: bool) -> sqlite3.Connection:
        if not new:
            _refuse_no_book(self.path)
        self.read_only = self._why_read_only()
        if self.read_only is not None:
            return self._checked(self._connect_to_read())
        db = self._connect(self.path, "rwc" if new else "rw")
        try:
            db.execute(f"PRAGMA page_size = {schema.PAGE_BYTES}")
            self._refuse_other(db, new=new)
            if schema.version_of(db) > len(schema.STEPS):
                db.close()
                self.read_only = Said(_NEWER)
                self._lock.release()
                return self._checked(self._connect_to_read())
            db.execute("PRAGMA journal_mode = WAL")
            db.execute("PRAGMA synchronous = FULL")
            db.execute("PRAGMA foreign_keys = ON")
            self.copied_to = schema.migrate(db, self.path, schema.STEPS)
        except BaseException:
            db.close()
            raise
        self._place = self.path.stat()
        return db

    def _why_read_only(self) -> Said | None:
        if self.path.exists() and not os.access(self.path, os.W_OK):
            return Said(_NO_WRITE)
        try:
            return None if self._lock.take() else Said(_IN_USE)
        except OSError:
            if not self.path.exists():
                raise
            return Said(_NO_WRITE)

    def _connect(self, path: Path, mode: str, *, still: bool = False) -> sqlite3.Connection:
        """Connect to a file; ``still`` promises that nobody writes it meanwhile."""
        name = f"file:{quote(path.resolve().as_posix())}?mode={mode}"
        return sqlite3.connect(
            name + ("&immutable=1" if still else ""),
            uri=True,
            timeout=WAIT_S,
            isolation_level=None,
            check_same_thread=False,
        )

    def _connect_to_read(self) -> sqlite3.Connection:
        """Connect to a file that is not ours to write.

        The newest edits may lie in a file beside it, which a database must be able to lock; where
        it cannot, both are copied aside and the copy is read.
        """
        db = self._connect(self.path, "ro")
        try:
            db.execute("SELECT count(*) FROM sqlite_master").fetchone()
        except sqlite3.OperationalError:
            db.close()
            edits = self.path.with_name(self.path.name + "-wal")
            if not edits.exists():
                return self._connect(self.path, "ro", still=True)
            self._aside = tempfile.TemporaryDirectory()
            for path in (self.path, edits):
                shutil.copy(path, self._aside.name)
            db = self._connect(Path(self._aside.name) / self.path.name, "rw")
        return db

    def _checked(self, db: sqlite3.Connection) -> sqlite3.Connection:
        try:
            self._refuse_other(db, new=False)
        except BaseException:
            db.close()
            raise
        return db

    def _refuse_other(self, db: sqlite3.Connection, *, new: bool) -> None:
        tables = db.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]
        if new and not tables:
            return
        if not schema.is_book(db):
            remedy = tr("Choose a file that ends in .kilnbook.")
            raise InputError(str(self.path), tr(BOOK), tr("another database"), remedy)

    # Reading and writing

    def rows(self, question: str, *values: object) -> list[tuple[object, ...]]:
        """Return the answer to a question."""
        with self._turn, in_plain_words(self.path):
            return self._db.execute(question, values).fetchall()

    @contextlib.contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """Make changes that are kept whole, or not at all; kept for good once this ends.

        Raises
        ------
        InputError
            If they cannot be kept; then the book is as it was before.
        """
        if self.read_only is not None:
            remedy = tr("Keep what was changed in another book or in a firing folder.")
            raise InputError(str(self.path), tr("a book that may be written"), _why(self), remedy)
        with self._turn, in_plain_words(self.path, writing=True):
            self._refuse_gone()
            self._db.execute("BEGIN IMMEDIATE")
            try:
                yield self._db
                self._db.execute("COMMIT")
            except BaseException:
                if self._db.in_transaction:
                    with contextlib.suppress(sqlite3.Error):
                        self._db.execute("ROLLBACK")
                raise
            self._refuse_gone()

    def _refuse_gone(self) -> None:
        """Refuse to write into a file that is no longer where it was: nobody would find it."""
        try:
            here = self._place is not None and os.path.samestat(self.path.stat(), self._place)
        except OSError:
            here = False
        if not here:
            found = tr("none there any more: moved, deleted, or on a stick pulled out")
            remedy = f"{tr('Put it back and open it again.')} {tr(STILL_HERE)}"
            raise InputError(str(self.path), tr(BOOK), found, remedy)

    # Bytes

    def packed(self, data: bytes, digest: bytes | None = None) -> Packed:
        """Return bytes ready to be kept, of this checksum if it is known.

        It may take long, so it is done before anything is written: nobody waits for it.
        """
        digest = digest or checksum(data)
        there = self.rows("SELECT 1 FROM blobs WHERE sha256 = ?", digest)
        return Packed(digest, data, None if there else pack(data))

    def put_bytes(self, db: sqlite3.Connection, one: Packed) -> int:
        """Keep bytes once, whoever asks for them; return their number."""
        there = db.execute("SELECT id FROM blobs WHERE sha256 = ?", (one.digest,)).fetchone()
        if there:
            return int(there[0])
        way, packed = one.packed or pack(one.data)
        values = (one.digest, way.value, packed)
        added = db.execute("INSERT INTO blobs (sha256, packing, data) VALUES (?, ?, ?)", values)
        return int(added.lastrowid or 0)

    def get_bytes(self, blob_id: int) -> bytes:
        """Return bytes as they were kept.

        Raises
        ------
        InputError
            If they were damaged since.
        """
        found = self.rows("SELECT packing, data, sha256 FROM blobs WHERE id = ?", blob_id)
        (way, packed, digest), *_ = found
        return unpack(str(way), _bytes(packed), _bytes(digest), str(self.path))

    def drop_bytes(self, db: sqlite3.Connection, blob_ids: Sequence[int]) -> None:
        """Let go of those bytes that nothing refers to any more."""
        db.executemany(
            "DELETE FROM blobs WHERE id = ?1"
            " AND NOT EXISTS (SELECT 1 FROM files WHERE blob_id = ?1)"
            " AND NOT EXISTS (SELECT 1 FROM attachments WHERE blob_id = ?1)",
            [(blob_id,) for blob_id in blob_ids],
        )


def _bytes(value: object) -> bytes:
    if not isinstance(value, bytes):
        raise TypeError(f"expected bytes, found {type(value)}")
    return value


def _why(store: Store) -> str:
    reasons = {
        _IN_USE: "one that another window is writing",
        _NEWER: "one made by a newer version of the program",
    }
    text = store.read_only.text if store.read_only else ""
    return reasons.get(text, "one that is read only")


def _refuse_no_book(path: Path) -> None:
    """Refuse what is not there, a folder or an empty file, which a database would be made of.

    The file itself is not opened here: closing it would take the locks of another connection.
    """
    if path.is_dir():
        raise InputError(str(path), tr(BOOK), tr("a folder"), tr("Name the book itself."))
    try:
        empty = path.stat().st_size == 0
    except FileNotFoundError:
        remedy = tr("Check the name and folder.")
        raise InputError(str(path), tr(BOOK), tr("no such file"), remedy) from None
    if empty:
        remedy = tr("Choose a file that ends in .kilnbook.")
        raise InputError(str(path), tr(BOOK), tr("an empty file"), remedy)
