"""The bytes of a log as text in one encoding, with one kind of line end."""

import codecs
import re
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firing_review.io.plain_text import SNIFF_BYTES, decode

HEAD_BYTES, TAIL_BYTES = 400_000, 20_000
"""As much of a file as is looked at to tell its layout; the rest is only counted through."""
PIECE = 1_000_000
"""Bytes gone through at a time, so that a long file needs little more than itself."""

_ODD_SIGNS = tuple(
    (sign.encode("utf-8"), plain.encode("utf-8"))
    for sign, plain in (
        ("\N{NO-BREAK SPACE}", " "),
        ("\N{NARROW NO-BREAK SPACE}", " "),
        ("\N{THIN SPACE}", " "),
        ("\N{MINUS SIGN}", "-"),
        ("\N{DEGREE CELSIUS}", "°C"),
        ("\N{DEGREE FAHRENHEIT}", "°F"),
        ("\N{MASCULINE ORDINAL INDICATOR}", "°"),
        ("\N{RIGHT SINGLE QUOTATION MARK}", "'"),
    )
)
"""Signs that stand for others: blanks that do not break, one-sign units, a minus of print."""
ZERO_TAIL, ZERO_FREE = 8, 16
"""So many zeros behind the text fill a block; a file with some at its head is UTF-16."""
_EUROPE = ("cp1252", "cp1250", "cp1251", "cp1253", "cp1254")
_PAGES = (*_EUROPE, "shift_jis", "gb18030", "euc_kr")
_DEGREES = ((_EUROPE, b"\xb0"), (("cp437",), b"\xf8"), (("mac_roman",), b"\xa1"))
"""Code pages by the degree sign that stands before a C or an F."""
SAMPLE_BYTES = 8_000
"""As much of the lines with letters beyond ASCII as is looked at to tell the code page."""
STRAY_ZEROS = 0.1
"""Fewer zero bytes than this share are damage, as where a card was pulled; more are UTF-16."""


@dataclass(frozen=True)
class LogText:
    """A log in UTF-8 with plain line ends; ``head`` and ``tail`` are its outer lines.

    ``as_written`` tells a table whose signs are those of the file.
    """

    data: bytes
    head: tuple[str, ...]
    tail: tuple[str, ...]
    as_written: bool = True


def log_text(raw: bytes) -> LogText:
    """Return the text of a log in any encoding a logger writes, with any line end."""
    data = _as_utf8(raw)
    if b"\r" in data:
        data = data.replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    if not data.isascii():
        for sign, plain in _ODD_SIGNS:
            data = data.replace(sign, plain)
    if b"\x00" in data:
        data = data.replace(b"\x00", b"")
    head = data[:HEAD_BYTES].decode("utf-8", errors="replace").split("\n")
    if len(data) > HEAD_BYTES:
        head = head[:-1]
    tail = data[-TAIL_BYTES:].decode("utf-8", errors="replace").split("\n")
    return LogText(data, tuple(head), tuple(tail[1:] if len(data) > TAIL_BYTES else tail))


def below(data: bytes, lines: int) -> int:
    """Return where the text behind so many lines begins."""
    start = 0
    for _ in range(lines):
        start = data.find(b"\n", start) + 1
    return start


def pieces(data: bytes, start: int = 0, end: int | None = None) -> Iterator[NDArray[np.uint8]]:
    """Yield the bytes of a text in pieces that end with a line."""
    last = len(data) if end is None else end
    while start < last:
        stop = last
        if start + PIECE < last:
            stop = data.rfind(b"\n", start, start + PIECE) + 1 or last
        yield np.frombuffer(data, dtype=np.uint8, count=stop - start, offset=start)
        start = stop


def without_zero_tail(raw: bytes) -> bytes:
    """Return a file without the zeros that fill a card's block behind its last line."""
    if raw.endswith(bytes(ZERO_TAIL)) and b"\x00" not in raw[:ZERO_FREE]:
        return raw.rstrip(b"\x00")
    return raw


def _as_utf8(raw: bytes) -> bytes:
    """Return the text in UTF-8; a file in plain ASCII is not copied."""
    head = raw[:SNIFF_BYTES]
    if 0 < head.count(0) < STRAY_ZEROS * len(head) and not head.startswith((b"\xff", b"\xfe")):
        raw = raw.replace(b"\x00", b"")
        head = raw[:SNIFF_BYTES]
    if b"\x00" in head or head.startswith((b"\xff\xfe", b"\xfe\xff")):
        return decode(raw).encode("utf-8")
    if raw.isascii():
        return raw
    return raw.removeprefix(codecs.BOM_UTF8) if _is_utf8(raw) else _from_code_page(raw)


def _is_utf8(raw: bytes) -> bool:
    try:
        raw.decode("utf-8")
    except UnicodeDecodeError:
        return False
    return True


def _from_code_page(raw: bytes) -> bytes:
    """Return text in an older code page as UTF-8; told by its degree sign, else by its letters."""
    sample = b"\n".join(line for line in raw[:HEAD_BYTES].split(b"\n") if not line.isascii())
    sample = sample[:SAMPLE_BYTES]
    marked = (pages for pages, degree in _DEGREES if re.search(degree + rb"\s?[CF]\b", sample))
    pages = next(marked, _PAGES)
    page = pages[0] if len(pages) == 1 else _guessed(sample, pages)
    return raw.decode(page, errors="replace").encode("utf-8")


def _guessed(sample: bytes, pages: tuple[str, ...]) -> str:
    from charset_normalizer import from_bytes  # noqa: PLC0415 - slow to load, and rarely needed

    best = from_bytes(sample, cp_isolation=list(pages)).best() if sample else None
    return best.encoding if best else pages[0]
