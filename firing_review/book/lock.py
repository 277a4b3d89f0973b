"""One window writes a book: a lock that the system takes back when its window ends."""

import contextlib
import os
import sys
from pathlib import Path

ENDING = "-writing"


class WriterLock:
    """The right to write one book; held from :meth:`take` until :meth:`release`."""

    def __init__(self, book: Path) -> None:
        self._path = book.with_name(book.name + ENDING)
        self._handle: int | None = None

    def take(self) -> bool:
        """Take the lock; False if another window holds it.

        Raises
        ------
        OSError
            If no lock can be made there, as in a folder that may only be read.
        """
        handle = os.open(self._path, os.O_RDWR | os.O_CREAT, 0o666)
        try:
            taken = _lock(handle) and self._is_still_the_file(handle)
        except OSError:
            os.close(handle)
            raise
        if not taken:
            os.close(handle)
            return False
        self._handle = handle
        return True

    def _is_still_the_file(self, handle: int) -> bool:
        """Tell whether the file was not taken away by a window that ended just now."""
        try:
            return os.path.samestat(os.fstat(handle), self._path.stat())
        except FileNotFoundError:
            return False

    def release(self) -> None:
        """Give the lock back and leave no file behind."""
        if self._handle is None:
            return
        with contextlib.suppress(OSError):
            self._path.unlink()
        os.close(self._handle)
        self._handle = None
        with contextlib.suppress(OSError):  # a system that removes no file that is open
            if sys.platform == "win32":
                self._path.unlink()


def _lock(handle: int) -> bool:
    """Lock an open file without waiting; False if another holds it."""
    try:
        if sys.platform == "win32":
            import msvcrt  # noqa: PLC0415 - each system has its own

            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl  # noqa: PLC0415

            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except (BlockingIOError, PermissionError):
        return False
    return True
