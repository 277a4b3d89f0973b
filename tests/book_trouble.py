"""What happens to a kiln book in the tests: killed while writing, written by nobody, no room."""

import os
import random
import signal
import tempfile
import time
import traceback
import warnings
from collections.abc import Callable
from contextlib import contextmanager, suppress
from dataclasses import dataclass, replace
from pathlib import Path

from book_firings import firing, log_bytes

from firing_review.book.book import Book
from firing_review.book.nouns import Note

NOBODY = 65534


@dataclass(frozen=True)
class Written:
    """What a book held after its writer was killed, beside what it had been told is kept."""

    confirmed: int
    title: str
    notes: frozenset[str]
    titles: frozenset[str]
    sound: bool

    @property
    def lost(self) -> list[int]:
        """Edits that were confirmed and are not there."""
        done = range(1, self.confirmed + 1)
        newest = int(self.title.rsplit(" ", 1)[-1])
        lost = [n for n in done if kind_of(n) == "note" and f"note {n}" not in self.notes]
        lost += [n for n in done if kind_of(n) == "firing" and f"firing {n}" not in self.titles]
        return lost + [n for n in done if kind_of(n) == "edit" and newest < n]


def kind_of(number: int) -> str:
    """Return what the edit of that number is; a new firing takes longest and is rarest."""
    if number % 9 == 5:
        return "firing"
    return "edit" if number % 2 else "note"


def forked() -> int:
    """Return what ``os.fork`` does; newer versions warn of threads that the child does not use."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)
        return os.fork()


def write_and_kill(path: Path, seed: int, longest_s: float = 0.2) -> Written:
    """Write edits into a new book in another process, kill it at a random moment, look again."""
    if path.exists():
        path.unlink()
    with Book.create(path) as book:
        first = book.add(firing(title="edit 0")).firing_id
    reader, writer = os.pipe()
    child = forked()
    if child == 0:
        os.close(reader)
        _write_for_ever(path, first, writer)
    os.close(writer)
    told = _killed_after(child, reader, random.Random(seed).uniform(0.0, longest_s))  # noqa: S311
    with Book.open(path) as book:
        return Written(
            confirmed=told,
            title=book.firing(first).title,
            notes=frozenset(note.text for note in book.notes()),
            titles=frozenset(kept.title for kept in book.list_firings()),
            sound=book._store.rows("PRAGMA integrity_check") == [("ok",)],
        )


def _write_for_ever(path: Path, first: int, told: int) -> None:
    """Make one edit after the other and tell each once it is confirmed; never return."""
    with suppress(BaseException):
        book = Book.open(path)
        edited, added, number = firing(), log_bytes(), 0
        while True:
            number += 1
            title = f"{kind_of(number)} {number}"
            if kind_of(number) == "edit":
                book.keep(first, replace(edited, title=title))
            elif kind_of(number) == "note":
                book.keep_note(Note(title, firing_id=first))
            else:
                raw = added + f"# {number}\r\n".encode()
                book.add(replace(edited, log=replace(edited.log, raw=raw), title=title))
            os.write(told, b"%d\n" % number)
    os._exit(1)


def _killed_after(child: int, told: int, delay_s: float) -> int:
    """Kill the writer some time after its first edit; return the last edit it was told is kept."""
    text = os.read(told, 4096)
    time.sleep(delay_s)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    while part := os.read(told, 4096):
        text += part
    os.close(told)
    return max((int(line) for line in text.split(b"\n")[:-1]), default=0)


@contextmanager
def folder_of_nobody():
    """Yield a folder that a person without rights can reach."""
    with tempfile.TemporaryDirectory() as folder:
        Path(folder).chmod(0o755)
        yield Path(folder)


def as_nobody(act: Callable[[], None]) -> None:
    """Do something as a person without rights, for the one who runs the tests may have all."""
    if os.geteuid() != 0:
        act()
        return

    def without_rights() -> None:
        os.setuid(NOBODY)
        act()

    in_another_process(without_rights)


def in_another_process(act: Callable[[], None]) -> None:
    """Do something that must not touch this process, and check that it went well."""
    child = forked()
    if child == 0:
        try:
            act()
        except BaseException:  # noqa: BLE001 - said by the exit code, whatever it was
            traceback.print_exc()
            os._exit(1)
        os._exit(0)
    assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0
