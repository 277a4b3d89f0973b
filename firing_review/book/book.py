"""The kiln book: every firing of a kiln or a workshop in one file, kept as it is made.

``book = Book.create(path)`` or ``Book.open(path)``; every method that changes something has kept
it for good when it returns, and raises InputError when it could not.
"""

import sqlite3
from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from types import TracebackType
from typing import Self

from firing_review.analysis.probe_against_cones import ConeCheck
from firing_review.book import kilns
from firing_review.book.life import Life, life_of
from firing_review.book.like import Like, base_of, cone_checks, like_firings
from firing_review.book.nouns import Added, Change, FiringKept, KeptFiles, KilnKept
from firing_review.book.packing import Packed, log_checksum
from firing_review.book.records import Records, whole
from firing_review.book.store import ENDING, Store
from firing_review.book.summary import (
    Summary,
    summarize,
    summary_bytes,
    summary_of_bytes,
    summary_of_given,
)
from firing_review.book.trends import Trends, trends_of
from firing_review.firing.errors import InputError
from firing_review.firing.kiln import Kiln
from firing_review.firing.said import Said
from firing_review.firing.sheet import Given
from firing_review.firing.wording import tr
from firing_review.io.kiln_sheet import parse_kiln_text
from firing_review.io.sheets import KILN_NAME, firing_files, read_firing_files
from firing_review.review.review import Review

_LISTED = "id, kiln_id, source, summary, fired_on, added_at, changed_at"
LAST_RUN = -1
"""Stands for "the last firing of the file", which is what an unsettled log is read as."""


class Book(Records):
    """An open kiln book.

    Attributes
    ----------
    path : Path
    read_only : Said or None
        Why nothing can be written; None if it can.
    copied_to : Path or None
        Copy of the book from before it was brought to this version of the program.
    """

    def __init__(self, store: Store) -> None:
        self._store = store
        self.path = store.path

    @classmethod
    def open(cls, path: Path) -> Self:
        """Open a book; to read only, if another window writes it or it is newer than the program.

        Raises
        ------
        InputError
            If there is none, or it is no kiln book.
        """
        return cls(Store(path, new=False))

    @classmethod
    def create(cls, path: Path) -> Self:
        """Make a new, empty book; ``.kilnbook`` is added to a name without it.

        Raises
        ------
        InputError
            If there is a file of that name, or nothing can be written there.
        """
        if path.suffix.lower() != ENDING:
            path = path.with_name(path.name + ENDING)
        if path.exists():
            remedy = tr("Open it, or choose another name.")
            raise InputError(
                str(path), tr("a name that is free"), tr("a file of that name"), remedy
            )
        return cls(Store(path, new=True))

    @property
    def read_only(self) -> Said | None:
        """Why nothing can be written; None if it can."""
        return self._store.read_only

    @property
    def copied_to(self) -> Path | None:
        """Copy of the book from before it was brought to this version of the program."""
        return self._store.copied_to

    def copy_to(self, path: Path) -> None:
        """Write a copy of the book as it is now, for another disk or computer.

        A book that is open must not be copied in other ways: its newest edits may lie beside it.

        Raises
        ------
        InputError
            If there is a file of that name, or no room.
        """
        self._store.copy_to(path)

    def close(self) -> None:
        """Close the book; another window may then write it."""
        self._store.close()

    def __enter__(self) -> Self:
        """Return the open book."""
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Close the book."""
        self.close()

    # Kilns

    def kilns(self) -> tuple[KilnKept, ...]:
        """Return every kiln, in the order of names."""
        rows = self._store.rows(
            "SELECT kilns.id, sheet, count(firings.id) FROM kilns"
            " LEFT JOIN firings ON kiln_id = kilns.id GROUP BY kilns.id ORDER BY name, kilns.id"
        )
        return tuple(
            KilnKept(whole(i), parse_kiln_text(str(sheet), str(self.path)), whole(count))
            for i, sheet, count in rows
        )

    def keep_kiln(self, kiln: Kiln, kiln_id: int | None = None) -> int:
        """Keep a kiln's sheet and return its number; a kiln without number is known by name."""
        with self._store.writing() as db:
            if kiln_id is None:
                return kilns.kiln_by_name(db, kiln)
            kilns.set_kiln(db, kiln_id, kiln)
            return kiln_id

    def trends(self, kiln_id: int | None) -> Trends:
        """Return the trends of a kiln, or of the firings without one, from kept figures alone."""
        return trends_of(*self._course(kiln_id))

    def life(self, kiln_id: int | None) -> Life:
        """Return how many firings the heating elements of a kiln have left, or why not."""
        firings, changes = self._course(kiln_id)
        return life_of(firings, trends_of(firings, changes))

    def like(self, firing_id: int) -> tuple[Like, ...]:
        """Return the earlier firings of the same kiln and goal, newest first, with reasons."""
        kept = self.firing(firing_id)
        return like_firings(kept, *self._course(kept.kiln_id))

    def base_for(self, firing_id: int) -> Like | None:
        """Return the newest good firing that is most alike, to compare the heat balance with."""
        return base_of(self.like(firing_id))

    def cone_checks(self, firing_id: int) -> tuple[ConeCheck, ...]:
        """Return what cones said of the same probe before, for ``review_firing(past=...)``."""
        kept = self.firing(firing_id)
        return cone_checks(kept, *self._course(kept.kiln_id))

    def _course(self, kiln_id: int | None) -> tuple[tuple[FiringKept, ...], tuple[Change, ...]]:
        """Return the firings and changes of one kiln, or of no kiln, oldest first."""
        firings, changes = self.list_firings(kiln_id), self.changes(kiln_id)
        return (
            tuple(f for f in firings if f.kiln_id == kiln_id),
            tuple(c for c in changes if c.kiln_id == kiln_id),
        )

    # Firings

    def add(self, given: Given, review: Review | None = None, kiln_id: int | None = None) -> Added:
        """Put a firing into the book; the same log twice is recognized and not added again.

        Parameters
        ----------
        review : Review, optional
            Gives the figures of lists and trends; without it only what was entered is listed.
        kiln_id : int, optional
            The kiln, where the firing has no kiln sheet; a sheet goes before it.
        """
        now, text = _now(), _summary(given, review)
        return self._add(given, given.kiln or kiln_id, (None, now, now, text))

    def add_kept(self, given: Given, kept: FiringKept) -> Added:
        """Put a firing into the book with the days and figures that another book kept of it."""
        day = None if kept.fired_on is None else kept.fired_on.isoformat()
        days = (kept.added_at.isoformat(), kept.changed_at.isoformat())
        return self._add(given, kept.kiln_id, (day, *days, summary_bytes(kept.summary)))

    def _add(
        self, given: Given, kiln: Kiln | int | None, kept: tuple[str | bytes | None, ...]
    ) -> Added:
        there = self.firing_with_log(given)
        if there is not None:
            return Added(there, new=False)
        files = self._packed_files(given)
        with self._store.writing() as db:
            kiln_id = kilns.kiln_by_name(db, kiln) if isinstance(kiln, Kiln) else kiln
            added = db.execute(
                "INSERT INTO firings (kiln_id, source, log_sha256, log_run, fired_on, added_at,"
                " changed_at, summary) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
                (kiln_id, given.log.source, *_log_key(given), *kept),
            )
            firing_id = int(added.lastrowid or 0)
            self._keep_files(db, firing_id, files)
        return Added(firing_id, new=True)

    def keep(self, firing_id: int, given: Given, review: Review | None = None) -> None:
        """Keep a firing as it is now, in one transaction; for good when this returns.

        Without a review the figures of the last one stay, with what was entered brought on.

        Raises
        ------
        InputError
            If it cannot be kept; then the book is as it was before.
        """
        files = self._packed_files(given)
        with self._store.writing() as db:
            row = db.execute(
                "SELECT kiln_id, summary, changed_at FROM firings WHERE id = ?", (firing_id,)
            ).fetchone()
            if row is None:
                raise self._no_firing(firing_id)
            kiln = kilns.kiln_after_edit(db, given.kiln, self._kiln_kept(firing_id), row[0])
            text = _summary(given, review, summary_of_bytes(row[1], given.log.source))
            db.execute(
                "UPDATE firings SET kiln_id = ?, source = ?, log_sha256 = ?, log_run = ?,"
                " changed_at = ?, summary = ? WHERE id = ?",
                (kiln, given.log.source, *_log_key(given), _after(row[2]), text, firing_id),
            )
            self._keep_files(db, firing_id, files)

    def keep_figures(self, kept: FiringKept, review: Review) -> bool:
        """Keep the figures of a firing worked out anew, unless it was edited since it was listed.

        Only the figures are written, so an edit made meanwhile cannot be lost.
        """
        figures, since = summary_bytes(summarize(review)), kept.changed_at
        with self._store.writing() as db:
            done = db.execute(
                "UPDATE firings SET summary = ? WHERE id = ? AND changed_at = ?",
                (figures, kept.id, since.isoformat()),
            )
            return bool(done.rowcount)

    def _kiln_kept(self, firing_id: int) -> Kiln | None:
        """Return the kiln sheet of a firing as it was kept."""
        question = "SELECT blob_id FROM files WHERE firing_id = ? AND name = ?"
        blobs = self._store.rows(question, firing_id, KILN_NAME)
        texts = [self._store.get_bytes(whole(blob)).decode() for (blob,) in blobs]
        return parse_kiln_text(texts[0], str(self.path)) if texts else None

    def _packed_files(self, given: Given) -> Mapping[str, Packed]:
        """Return the files of a firing ready to be kept."""
        logs = (given.log, *(one.log for one in given.earlier))
        known = {id(log.raw): log_checksum(log) for log in logs}
        return {
            name: self._store.packed(data, known.get(id(data)))
            for name, data in firing_files(given).items()
        }

    def _keep_files(
        self, db: sqlite3.Connection, firing_id: int, files: Mapping[str, Packed]
    ) -> None:
        """Keep what differs from before, and let go of what is no longer used."""
        question = "SELECT name, blob_id FROM files WHERE firing_id = ?"
        before = dict(db.execute(question, (firing_id,)).fetchall())
        after = {name: self._store.put_bytes(db, packed) for name, packed in files.items()}
        gone = [(firing_id, name) for name in before if name not in after]
        db.executemany("DELETE FROM files WHERE firing_id = ? AND name = ?", gone)
        changed = [
            (firing_id, name, blob) for name, blob in after.items() if before.get(name) != blob
        ]
        db.executemany("INSERT OR REPLACE INTO files VALUES (?, ?, ?)", changed)
        self._store.drop_bytes(db, list(set(before.values()) - set(after.values())))

    def given(self, firing_id: int) -> Given:
        """Return a firing as it was kept: its log byte for byte, and all that was entered.

        Raises
        ------
        InputError
            If there is no such firing, or it was damaged since.
        """
        return read_kept(self.kept_files(firing_id))

    def kept_files(self, firing_id: int) -> KeptFiles:
        """Return the files of a firing byte for byte, for :func:`read_kept`.

        Raises
        ------
        InputError
            If there is no such firing, or they were damaged since.
        """
        question = "SELECT name, blob_id FROM files WHERE firing_id = ?"
        names = self._store.rows(question, firing_id)
        source = self._store.rows("SELECT source FROM firings WHERE id = ?", firing_id)
        if not source:
            raise self._no_firing(firing_id)
        files = {str(name): self._store.get_bytes(whole(blob)) for name, blob in names}
        return KeptFiles(str(self.path), firing_id, str(source[0][0]), files)

    def packed_bytes(self, firing_id: int) -> int:
        """Return how much room the files of a firing take in the book [bytes]."""
        question = (
            "SELECT coalesce(sum(length(data)), 0) FROM files JOIN blobs ON blobs.id = blob_id"
            " WHERE firing_id = ?"
        )
        return whole(self._store.rows(question, firing_id)[0][0])

    def list_firings(self, kiln_id: int | None = None) -> tuple[FiringKept, ...]:
        """Return every firing, or those of one kiln, oldest first, without reading a log.

        Firings without a date stand where they were put into the book, among those of that day.
        """
        where = "" if kiln_id is None else " WHERE kiln_id = ?"
        rows = self._store.rows(
            f"SELECT {_LISTED} FROM firings{where}",  # noqa: S608
            *(() if kiln_id is None else (kiln_id,)),
        )
        return tuple(sorted((_firing(row) for row in rows), key=_by_time))

    def firing(self, firing_id: int) -> FiringKept:
        """Return one firing as the list shows it."""
        rows = self._store.rows(
            f"SELECT {_LISTED} FROM firings WHERE id = ?",  # noqa: S608
            firing_id,
        )
        if not rows:
            raise self._no_firing(firing_id)
        return _firing(rows[0])

    def firing_with_log(self, given: Given) -> int | None:
        """Return the firing that has the same log, byte for byte, if one has."""
        if not given.log.raw:
            return None
        rows = self._store.rows(
            "SELECT id FROM firings WHERE log_sha256 = ? AND log_run = ?", *_log_key(given)
        )
        return whole(rows[0][0]) if rows else None

    def remove_firing(self, firing_id: int) -> None:
        """Take a firing out of the book, with its log, notes and attachments."""
        with self._store.writing() as db:
            blobs = [
                int(blob)
                for table in ("files", "attachments")
                for (blob,) in db.execute(
                    f"SELECT blob_id FROM {table} WHERE firing_id = ?",  # noqa: S608
                    (firing_id,),
                )
            ]
            db.execute("DELETE FROM firings WHERE id = ?", (firing_id,))
            self._store.drop_bytes(db, blobs)

    def _no_firing(self, firing_id: int) -> InputError:
        remedy = tr("It may have been taken out; open the book again.")
        return InputError(
            str(self.path),
            tr("firing {firing_id}").format(firing_id=firing_id),
            tr("none of that number"),
            remedy,
        )


def read_kept(kept: KeptFiles) -> Given:
    """Return a firing from its files.

    Raises
    ------
    InputError
        If they do not read.
    """
    try:
        given = read_firing_files(kept.files)
    except InputError as error:
        error.where = f"{kept.book}, {Path(error.where).name} of firing {kept.firing_id}"
        raise
    except OSError as error:
        found = error.strerror or str(error)
        remedy = tr("Make room in the folder for temporary files.")
        raise InputError(kept.book, tr("room to read a firing"), found, remedy) from None
    return replace(given, log=replace(given.log, source=kept.source))


def _summary(given: Given, review: Review | None, before: Summary | None = None) -> bytes:
    """Return the figures to keep: of the review, else the last ones with what was entered now."""
    if review is not None:
        return summary_bytes(summarize(review))
    entered = summary_of_given(given)
    if before is None or not before.reviewed:
        return summary_bytes(entered)
    names = ("title", "source", "started_at", "goal_cone", "load", "planned")
    return summary_bytes(replace(before, **{name: getattr(entered, name) for name in names}))


def _log_key(given: Given) -> tuple[bytes, int]:
    run = given.log.choices.run
    return log_checksum(given.log), LAST_RUN if run is None else run


def _firing(row: tuple[object, ...]) -> FiringKept:
    firing_id, kiln_id, source, summary, fired_on, added_at, changed_at = row
    return FiringKept(
        id=whole(firing_id),
        kiln_id=None if kiln_id is None else whole(kiln_id),
        summary=summary_of_bytes(summary, str(source)),
        fired_on=None if fired_on is None else date.fromisoformat(str(fired_on)),
        added_at=datetime.fromisoformat(str(added_at)),
        changed_at=datetime.fromisoformat(str(changed_at)),
    )


def _by_time(kept: FiringKept) -> tuple[datetime, int]:
    return kept.when or kept.added_at.replace(tzinfo=None), kept.id


def _now() -> str:
    return datetime.now(UTC).isoformat()


def _after(stamp: str) -> str:
    """Return the time now, or just after a stamp that the clock has not come to.

    So no two edits of a firing bear one stamp, however soon they follow and wherever the clock
    is set meanwhile.
    """
    least = datetime.fromisoformat(stamp).astimezone(UTC) + timedelta(microseconds=1)
    return max(datetime.now(UTC), least).isoformat()
