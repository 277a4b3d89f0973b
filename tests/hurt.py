"""Ways to hurt a write: no room, no right, an end in the middle."""

import contextlib
import os
import signal
import warnings
from collections.abc import Callable, Iterator
from pathlib import Path

NOBODY = 65534


@contextlib.contextmanager
def disk_full_after(count: int) -> Iterator[None]:
    """Let no file grow beyond ``count`` bytes, as on a disk that fills up."""
    import resource  # noqa: PLC0415 - not on every system

    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (count, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


def _fork() -> int:
    with warnings.catch_warnings():  # the child does nothing with threads
        warnings.simplefilter("ignore", DeprecationWarning)
        return os.fork()


def told_without_rights(act: Callable[[], object], folder: Path) -> str:
    """Do something as a user who may not write to ``folder``; return what was raised, as text."""

    def powerless() -> str:
        folder.chmod(0o555)
        if os.geteuid() == 0:
            os.setgroups([])
            os.setgid(NOBODY)
            os.setuid(NOBODY)
        try:
            act()
        except Exception as error:  # noqa: BLE001 - told to the parent
            return f"{type(error).__name__}: {error}"
        return ""

    reader, writer = os.pipe()
    child = _fork()
    if child == 0:
        try:
            os.write(writer, powerless().encode()[:4000])
        finally:
            os._exit(0)
    os.close(writer)
    with os.fdopen(reader, encoding="utf-8") as told:
        text = told.read()
    os.waitpid(child, 0)
    folder.chmod(0o755)
    return text


def killed_at_write(number: int, act: Callable[[], object]) -> bool:
    """Do something in a process that is killed as its ``number``-th file reaches the disk.

    Tell whether it was killed; False if it wrote fewer files than that.
    """
    child = _fork()
    if child == 0:
        left, real = [number], os.fsync

        def sync(handle: int) -> None:
            left[0] -= 1
            if left[0] < 0:
                os.kill(os.getpid(), signal.SIGKILL)
            real(handle)

        os.fsync = sync
        try:
            act()
        finally:
            os._exit(0)
    _, status = os.waitpid(child, 0)
    return os.WIFSIGNALED(status)
