"""A log in a spreadsheet workbook, turned into the text a logger would have written."""

from __future__ import annotations

import functools
import sys
import zipfile
import zlib
from datetime import date, datetime, time, timedelta
from importlib.util import find_spec
from io import BytesIO
from typing import TYPE_CHECKING

from firing_review.firing.errors import InputError
from firing_review.firing.said import N_
from firing_review.firing.wording import tr

if TYPE_CHECKING:
    import pandas as pd

WORKBOOK_MARK = b"PK\x03\x04"
LARGEST_BYTES = 400_000_000
"""A workbook that unpacks to more than this is no log; a week of seconds needs less."""
_BODY = "xl/workbook.xml"
_EXPECTED = N_("a log with a time and a temperature in each row")
_DAMAGED = (
    ValueError,
    LookupError,
    TypeError,
    AttributeError,
    ArithmeticError,
    OSError,
    EOFError,
    SyntaxError,
    RuntimeError,
    zipfile.BadZipFile,
    zlib.error,
)
"""What reading a damaged workbook ends in, by the libraries it goes through."""


def as_text(raw: bytes, source: str) -> bytes:
    """Return the sheet with the most rows of a workbook as text; any other bytes unchanged.

    Raises
    ------
    InputError
        If it is a workbook that is damaged, or nothing is installed to read one.
    """
    return unpacked(raw, source) if raw.startswith(WORKBOOK_MARK) else raw


@functools.lru_cache(maxsize=2)
def unpacked(raw: bytes, source: str) -> bytes:
    """Return the longest sheet of a workbook as text, any other archive as it is."""
    if not _is_workbook(raw, source):
        return raw
    if find_spec("openpyxl") is None:
        remedy = tr("Save it as CSV, or install what reads it: {command}").format(
            command=f'"{sys.executable}" -m pip install openpyxl'
        )
        raise InputError(source, tr(_EXPECTED), tr("a spreadsheet workbook"), remedy)
    import pandas as pd  # noqa: PLC0415 - slow to load, and only workbooks need it here

    try:
        sheets = pd.read_excel(
            BytesIO(raw), sheet_name=None, header=None, dtype=object, engine="openpyxl"
        )
    except _DAMAGED:
        remedy = tr("Open it in the spreadsheet and save it as CSV.")
        raise InputError(source, tr(_EXPECTED), tr("a damaged workbook"), remedy) from None
    longest = max(sheets.values(), key=lambda sheet: sheet.size, default=pd.DataFrame())
    if longest.empty:
        raise InputError(
            source, tr(_EXPECTED), tr("an empty workbook"), tr("Give the one with the log.")
        )
    return _lines(longest).encode()


def _is_workbook(raw: bytes, source: str) -> bool:
    try:
        with zipfile.ZipFile(BytesIO(raw)) as packed:
            parts = packed.infolist()
    except _DAMAGED:
        return False
    if sum(part.file_size for part in parts) > LARGEST_BYTES:
        remedy = tr("Save the log alone as CSV and give that file.")
        raise InputError(source, tr(_EXPECTED), tr("a workbook too large to be a log"), remedy)
    return any(part.filename == _BODY for part in parts)


def _lines(sheet: pd.DataFrame) -> str:
    rows = sheet.itertuples(index=False, name=None)
    return "".join("\t".join(map(_cell, row)) + "\n" for row in rows)


def _cell(value: object) -> str:
    """Return a cell as a logger writes it; lengths of time may pass a day."""
    if value is None or value != value:  # noqa: PLR0124 - NaN and NaT are not themselves
        return ""
    if isinstance(value, datetime):
        return value.strftime("%Y-%m-%d %H:%M:%S")
    if isinstance(value, timedelta):
        seconds = round(value.total_seconds())
        return f"{seconds // 3600}:{seconds // 60 % 60:02d}:{seconds % 60:02d}"
    if isinstance(value, date | time):
        return value.isoformat()
    return " ".join(str(value).split())
