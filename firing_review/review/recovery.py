"""What is open kept in one file, so that nothing typed is lost if the program ends.

The file is JSON with the files of a firing folder in it, each as Base64, the log byte for byte.
"""

import base64
import binascii
import json
from collections.abc import Iterator, Mapping
from pathlib import Path, PurePosixPath

from firing_review.firing.errors import InputError
from firing_review.firing.said import N_
from firing_review.firing.sheet import Given
from firing_review.firing.wording import tr
from firing_review.io.firing_parts import SHEET_NAME
from firing_review.io.plain_text import read_file
from firing_review.io.sheets import firing_files, read_firing_files
from firing_review.io.whole_file import write_whole

FORMAT = "firing-review-recovery/1"
PIECE_BYTES = 3 * 2**18
"""A multiple of three, so that Base64 of the pieces is Base64 of the whole [bytes]."""
_EXPECTED = N_("a recovery file")
_REMEDY = N_("It cannot be used; open the log again.")


def write_recovery(given: Given, path: Path) -> None:
    """Write the recovery file in one stroke: the old one stays whole until the new one is.

    Raises
    ------
    InputError
        If it cannot be written.
    """
    remedy = tr("Make room or choose another place; until then save as a firing folder.")
    write_whole(path, _pieces(firing_files(given, tell_unit=True)), remedy)


def _pieces(files: Mapping[str, bytes]) -> Iterator[bytes]:
    """Return the text in small pieces, so that a long log holds nobody up."""
    yield f'{{"format": {json.dumps(FORMAT)}, "files": {{'.encode()
    for number, (name, data) in enumerate(files.items()):
        yield f'{", " if number else ""}\n{json.dumps(name)}: "'.encode()
        for start in range(0, len(data), PIECE_BYTES):
            yield base64.b64encode(data[start : start + PIECE_BYTES])
        yield b'"'
    yield b"}}\n"


def read_recovery(path: Path) -> Given:
    """Read a recovery file.

    Raises
    ------
    InputError
        If there is none, or it is damaged.
    """
    files = _files(read_file(path, tr(_EXPECTED)), str(path))
    try:
        return read_firing_files(files)
    except InputError as error:
        found = tr("one whose {name} has {found}").format(
            name=Path(error.where).name, found=error.found
        )
        raise InputError(str(path), tr(_EXPECTED), found, tr(_REMEDY)) from None
    except OSError as error:
        found = error.strerror or str(error)
        raise InputError(str(path), tr(_EXPECTED), found, tr(_REMEDY)) from None


def _files(data: bytes, where: str) -> Mapping[str, bytes]:
    try:
        document = json.loads(data)
        if document["format"] != FORMAT:
            raise InputError(
                where,
                tr(_EXPECTED),
                tr("the form {document!r}").format(document=document["format"]),
                tr(_REMEDY),
            )
        files = {
            name: base64.b64decode(text, validate=True) for name, text in document["files"].items()
        }
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError, binascii.Error):
        raise InputError(where, tr(_EXPECTED), tr("a damaged file"), tr(_REMEDY)) from None
    if SHEET_NAME not in files or not all(_stays_inside(name) for name in files):
        raise InputError(where, tr(_EXPECTED), tr("a damaged file"), tr(_REMEDY))
    return files


def _stays_inside(name: str) -> bool:
    path = PurePosixPath(name)
    plain = "\\" not in name and ":" not in name and "\x00" not in name
    return plain and not path.is_absolute() and ".." not in path.parts and bool(path.name)
