"""Small files written by hand or by a spreadsheet: bytes to text to rows of cells."""

import codecs
import csv
import math
import re
from dataclasses import dataclass
from pathlib import Path

from firing_review.firing.errors import InputError
from firing_review.firing.said import N_
from firing_review.firing.wording import tr

_PICTURES = (
    (b"\x89PNG", N_("a picture (PNG)")),
    (b"\xff\xd8\xff", N_("a picture (JPEG)")),
    (b"GIF8", N_("a picture (GIF)")),
    (b"BM", N_("a picture (BMP)")),
    (b"II*\x00", N_("a picture (TIFF)")),
    (b"MM\x00*", N_("a picture (TIFF)")),
    (b"%PDF", N_("a PDF document")),
    (b"PK\x03\x04", N_("a zipped file or a spreadsheet workbook")),
    (b"\xd0\xcf\x11\xe0", N_("an old spreadsheet or document")),
    (b"SQLite format 3", N_("a database")),
    (b"\x1f\x8b", N_("a compressed file")),
)
_MARKS = (codecs.BOM_UTF8, codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
_CONTROLS = frozenset(range(32)) - frozenset(b"\t\n\r\x0b\x0c\x1a\x1b")
SNIFF_BYTES = 4096
"""How much of a file is looked at to tell text from anything else."""
TEXT_CONTROLS_MAX = 0.02
"""Share of control characters above which a file is no text; a logger may leave a stray one."""


@dataclass(frozen=True)
class Row:
    """One line of a table, split into cells; ``line`` counts from 1 as an editor shows it."""

    line: int
    cells: tuple[str, ...]

    def cell(self, index: int) -> str:
        """Return a cell, or nothing where the line is shorter."""
        return self.cells[index] if index < len(self.cells) else ""


def read_file(path: Path, expected: str) -> bytes:
    """Return the bytes of a file a person named, or say in one line why there are none."""
    data = read_any_file(path, expected)
    blank = b"\x00 \t\r\n\xef\xbb\xbf\xff\xfe"
    if not data[:SNIFF_BYTES].strip(blank) and not data.strip(blank):
        raise InputError(
            str(path), expected, tr("an empty file"), tr("Copy it again from where it was made.")
        )
    return data


def read_any_file(path: Path, expected: str) -> bytes:
    """Return the bytes of a file that is kept as it is, be they blank."""
    where = str(path)
    try:
        return path.read_bytes()
    except FileNotFoundError:
        raise InputError(
            where, expected, tr("no such file"), tr("Check the name and folder.")
        ) from None
    except IsADirectoryError:
        raise InputError(where, expected, tr("a folder"), tr("Name a file in it.")) from None
    except OSError as error:
        remedy = tr("Check that the file is there and may be read.")
        raise InputError(where, expected, error.strerror or tr("no access"), remedy) from None
    except ValueError:
        found, remedy = tr("a name that no file can have"), tr("Check the name and folder.")
        raise InputError(where, expected, found, remedy) from None


def refuse_what_is_no_text(data: bytes, where: str, expected: str, remedy: str) -> None:
    """Raise InputError if the bytes are a picture, a workbook or anything else but text."""
    for mark, name in _PICTURES:
        if data.startswith(mark) and not (mark == b"BM" and _looks_like_text(data)):
            raise InputError(where, expected, tr(name), remedy)
    if not _looks_like_text(data):
        raise InputError(where, expected, tr("a binary file"), remedy)


def _looks_like_text(data: bytes) -> bool:
    head = data[:SNIFF_BYTES]
    if head.startswith(_MARKS):
        return True
    zeros = (head[0::2].count(0), head[1::2].count(0))
    if min(zeros) == 0 and max(zeros) > 0.4 * len(head) / 2:
        return True  # UTF-16 without its mark
    controls = sum(byte in _CONTROLS for byte in head)
    return controls <= TEXT_CONTROLS_MAX * len(head)


def read_small_text(path: Path, expected: str, remedy: str) -> str:
    """Return the text of a schedule, cones file or sheet.

    Raises
    ------
    InputError
        If there is no such file, or it is empty or no text.
    """
    data = read_file(path, expected)
    refuse_what_is_no_text(data, str(path), expected, remedy)
    return decode(data)


def decode(data: bytes) -> str:
    """Return text from UTF-8 or UTF-16, with or without mark, else from Windows Latin-1."""
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return data.decode("utf-16", errors="replace")
    if b"\x00" in data[:SNIFF_BYTES]:
        order = "utf-16-le" if data[1:2] == b"\x00" else "utf-16-be"
        return data.decode(order, errors="replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")


def table_rows(text: str) -> tuple[Row, ...]:
    """Split text into cells at tabs, else semicolons, else commas.

    Blank lines and lines that begin with ``#`` are left out.
    """
    lines = [
        (number, line)
        for number, line in enumerate(re.split(r"\r\n|\r|\n", text), start=1)
        if line.strip().strip(",;\t ") and not line.lstrip().startswith("#")
    ]
    comma = _delimiter([line for _, line in lines])
    return tuple(
        Row(number, tuple(cell.strip() for cell in _cells(line, comma))) for number, line in lines
    )


def _cells(line: str, delimiter: str) -> list[str]:
    try:
        return next(csv.reader([line], delimiter=delimiter))
    except csv.Error:  # a cell longer than the module takes
        return line.split(delimiter)


def _delimiter(lines: list[str]) -> str:
    first = lines[0] if lines else ""
    return next((mark for mark in "\t;" if mark in first), ",")


def parse_number(text: str) -> float | None:
    """Return a plain number, with decimal point or decimal comma; None if it is no number.

    ``1,250`` is no number: it may be meant as 1250 or as 1.25, and nobody can tell.
    """
    plain = text.strip().replace("\N{MINUS SIGN}", "-")
    if re.fullmatch(r"[+-]?\d{1,3}(,\d{3})+", plain):
        return None
    if not re.fullmatch(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)([eE][+-]?\d+)?", plain):
        return None
    number = float(plain.replace(",", "."))
    return number if math.isfinite(number) else None
