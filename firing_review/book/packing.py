"""Bytes packed small for the book, each told apart by its checksum."""

import hashlib
import lzma
import zlib
from dataclasses import dataclass
from enum import StrEnum

from firing_review.firing.errors import InputError
from firing_review.firing.log import FiringLog
from firing_review.firing.remembered import remembered
from firing_review.firing.wording import tr

LONG_BYTES = 2_000_000
"""From this length on packing is chosen for speed: a log of a week of seconds is 25 MB."""
SHORT_BYTES = 4_000
"""Sheets and tables up to this length come out smaller from the plainer way of packing."""


class Packing(StrEnum):
    """How bytes are kept."""

    PLAIN = "plain"
    XZ = "xz"
    ZLIB = "zlib"


def checksum(data: bytes) -> bytes:
    """Return the SHA-256 of the bytes as they are, before packing."""
    return hashlib.sha256(data).digest()


@remembered
def log_checksum(log: FiringLog) -> bytes:
    """Return the checksum of the file of a log."""
    return checksum(log.raw)


@dataclass(frozen=True)
class Packed:
    """Bytes ready to be kept; ``packed`` is None where the book has them already."""

    digest: bytes
    data: bytes
    packed: tuple[Packing, bytes] | None


def pack(data: bytes) -> tuple[Packing, bytes]:
    """Return how the bytes are packed, and them packed; never longer than they were."""
    if SHORT_BYTES < len(data) < LONG_BYTES:
        way, packed = Packing.XZ, lzma.compress(data, preset=6)
    else:
        way, packed = Packing.ZLIB, zlib.compress(data, 6)
    return (way, packed) if len(packed) < len(data) else (Packing.PLAIN, data)


def unpack(way: str, packed: bytes, sha256: bytes, where: str) -> bytes:
    """Return the bytes as they were.

    Raises
    ------
    InputError
        If they are no longer what was kept.
    """
    try:
        data = _unpacked(Packing(way), packed)
    except (lzma.LZMAError, zlib.error, EOFError, ValueError):
        data = None
    if data is None or checksum(data) != sha256:
        remedy = tr("Take it from a copy of the book of an earlier day.")
        raise InputError(where, tr("what was kept in the book"), tr("damaged bytes"), remedy)
    return data


def _unpacked(way: Packing, packed: bytes) -> bytes:
    if way is Packing.XZ:
        return lzma.decompress(packed)
    return zlib.decompress(packed) if way is Packing.ZLIB else packed
