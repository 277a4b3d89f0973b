"""Files written in one stroke: what was there stays whole until the new one is."""

import contextlib
import errno
import os
import uuid
from collections.abc import Iterable
from pathlib import Path

from firing_review.firing.errors import InputError
from firing_review.firing.said import N_
from firing_review.firing.wording import tr

MAKE_ROOM = N_("Make room, or choose a place you may write to.")


def write_whole(path: Path, data: bytes | Iterable[bytes], remedy: str | None = None) -> None:
    """Write a file, whole or in pieces; a full disk or a stop leaves the old one, or none.

    Its folder is made if need be. A link stays a link; a device or a pipe is written to as it is.

    Raises
    ------
    InputError
        If it cannot be written.
    """
    pieces = (data,) if isinstance(data, bytes) else data
    try:
        target = path.resolve()
        if target.exists() and not target.is_file():
            with target.open("wb") as file:
                file.writelines(pieces)
            return
        if target.exists() and not os.access(target, os.W_OK):
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))
        target.parent.mkdir(parents=True, exist_ok=True)
        _replace(target, pieces)
    except (OSError, RuntimeError, ValueError) as error:  # RuntimeError: a ring of links
        found = getattr(error, "strerror", None) or str(error)
        raise InputError(
            str(path), tr("a place to write to"), found, remedy or tr(MAKE_ROOM)
        ) from None


def _replace(target: Path, pieces: Iterable[bytes]) -> None:
    part = target.with_name(f"{uuid.uuid4().hex[:12]}.part")
    try:
        with part.open("xb") as file:
            file.writelines(pieces)
            file.flush()
            os.fsync(file.fileno())
        if target.exists():
            part.chmod(target.stat().st_mode)
        part.replace(target)
    except BaseException:
        with contextlib.suppress(OSError):
            part.unlink()
        raise
