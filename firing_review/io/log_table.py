"""The block of rows in a log as a frame, and the lines that are left out of it."""

import re
import warnings
from collections.abc import Hashable
from dataclasses import dataclass
from io import BytesIO
from typing import cast

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from firing_review.firing.errors import InputError
from firing_review.firing.log import ReadingNote
from firing_review.firing.said import N_, Said
from firing_review.firing.wording import tr
from firing_review.io.log_dates import is_stamps, year_first, year_first_form
from firing_review.io.log_even import parted_by_tabs, without_quotes
from firing_review.io.log_layout import LEAST_CELLS, Layout, is_data
from firing_review.io.log_marks import GAP_WORDS, spellings
from firing_review.io.log_numbers import BLANKS
from firing_review.io.log_text import LogText, below, pieces

MOST_NUMBERS = 0.6
"""A column with more numbers than this share of its cells is a column of numbers."""
PARTED_THOUSANDS = rf"\d[.,{BLANKS}]\d{{3}}(?:\D|$)"
"""A cell that is a number once the sign between its thousands is taken out."""
MOST_CELLS = 2000
"""No log has more columns; a longer line is a damaged one."""
LONG, PIECE_ROWS = 4_000_000, 50_000
"""Bytes of a long file; and rows read at a time, so that it needs little more than itself."""


ISO = re.compile(r"%Y-%m-%d[ T]%H:%M:%S")
"""Stamps that the reader of the table knows by itself."""


@dataclass(frozen=True, eq=False)
class RawTable:
    """Rows as text or numbers, before any column means anything."""

    layout: Layout
    frame: pd.DataFrame
    dropped: int
    notes: tuple[ReadingNote, ...]


@dataclass(frozen=True)
class _Sorted:
    """Lines kept as rows, and how many were left out for which reason."""

    data: bytes
    cells: int
    start: int = 0
    ragged: int = 0
    other: int = 0
    repeated: int = 0
    remarks: int = 0


def read_table(text: LogText, layout: Layout, source: str) -> RawTable:
    """Read the rows below the header; lines that are no data are left out and counted."""
    data, start = text.data, below(text.data, layout.first)
    delimiter = layout.delimiter
    if delimiter == " ":
        data, start, delimiter = parted_by_tabs(data[start:]), 0, "\t"
    elif data.find(b'"', start) >= 0:
        data, delimiter = without_quotes(data[start:], delimiter)
        start = 0
    if layout.thousands and layout.thousands != delimiter:
        data, start = _without_thousands(data[start:], delimiter, layout.thousands), 0
    rows = _sort_lines(data, start, delimiter, layout)
    frame = _frame(rows, delimiter, layout.decimal, source)
    if not len(frame):
        raise InputError(source, tr("rows of readings"), tr("none"), tr("Check the file."))
    frame, wordy = _numbers_where_most_are(frame)
    notes = _notes(rows.ragged, rows.other + wordy, rows.repeated)
    if rows.remarks:
        said = Said(N_("Rows with words behind the readings: {count}."), {"count": rows.remarks})
        notes = (*notes, ReadingNote("remarks", said, rows.remarks))
    return RawTable(layout, frame, rows.ragged + rows.other + rows.repeated + wordy, notes)


def _without_thousands(body: bytes, delimiter: str, sign: str) -> bytes:
    """Return the rows without the sign that parts thousands; other cells are left as they are."""
    apart, mark = re.escape(delimiter.encode()), re.escape(sign.encode())
    whole = rb"(?<![^\n%b ])[+-]?\d{1,3}(?:%b\d{3})+(?![\d:/-]|%b)" % (apart, mark, mark)
    return re.sub(whole, lambda found: found[0].replace(sign.encode(), b""), body)


def _sort_lines(data: bytes, start: int, delimiter: str, layout: Layout) -> _Sorted:
    """Keep lines with as many cells as usual; count the others by what is wrong with them."""
    usual, most = layout.cells, max(layout.cells, min(len(layout.names), MOST_CELLS))
    if _all_alike(data, start, delimiter, usual, most):
        return _Sorted(data, most, start)
    text = np.frombuffer(data, dtype=np.uint8, offset=start)
    ends = np.append(np.flatnonzero(text == ord("\n")), len(text))
    starts = np.concatenate(([0], ends[:-1] + 1))
    marks = np.flatnonzero(text == ord(delimiter))
    cells = np.diff(np.searchsorted(marks, np.append(starts, len(text)))) + 1
    lasts, remarks = ends.copy(), 0
    for at in np.flatnonzero(cells > most).tolist():
        line = data[start + starts[at] : start + ends[at]].rstrip(b" \t" + delimiter.encode())
        plain = _without_remark(line, delimiter.encode(), most)
        remarks += plain != line
        lasts[at] = starts[at] + len(plain)
        cells[at] = max(usual, plain.count(delimiter.encode()) + 1)
    kept = (cells >= usual) & (cells <= most) & (ends > starts)
    ragged, other = 0, 0
    for at in np.flatnonzero(~kept).tolist():
        line = data[start + starts[at] : start + ends[at]].strip(b" \t,;|")
        if line:
            short = LEAST_CELLS <= int(cells[at]) < usual and line[:1].isdigit()
            ragged, other = ragged + short, other + (not short)
    repeated = _repeats_of_header(data[start:], delimiter, layout, starts, kept)
    kept[repeated] = False
    lengths = ends - starts + 1
    lengths[-1] -= 1
    mask = np.repeat(kept, lengths)
    for at in np.flatnonzero(kept & (lasts < ends)).tolist():
        mask[lasts[at] : ends[at]] = False
    rows = text[mask].tobytes()
    return _Sorted(rows, most, 0, ragged, other, len(repeated), remarks)


def _without_remark(line: bytes, delimiter: bytes, most: int) -> bytes:
    """Return a row of readings without the words that somebody wrote behind them."""
    cells = line.split(delimiter)
    behind = cells[most:]
    first = behind[0].strip().decode("utf-8", errors="replace") if behind else ""
    readings = [cell.strip().decode("utf-8", errors="replace") for cell in cells[:most]]
    worded = first[:1].isalpha() and first.lower() not in GAP_WORDS and is_data(readings)
    return delimiter.join(cells[:most]) if worded else line


def _all_alike(data: bytes, start: int, delimiter: str, usual: int, most: int) -> bool:
    """Tell, a piece at a time, whether every line has as many cells as usual."""
    for piece in pieces(data, start):
        text = piece[:-1] if piece[-1] == ord("\n") else piece
        ends = np.flatnonzero(text == ord("\n"))
        marks = np.flatnonzero(text == ord(delimiter))
        inside = np.concatenate(([0], np.searchsorted(marks, ends), [len(marks)]))
        cells = np.diff(inside) + 1
        if cells.min() < usual or cells.max() > most:
            return False
    return True


def _repeats_of_header(
    body: bytes, delimiter: str, layout: Layout, starts: np.ndarray, kept: np.ndarray
) -> list[int]:
    """Return the kept lines that are the header once more."""
    head = delimiter.join(layout.names[:2]).encode("utf-8")
    if len(layout.names) < 2 or head not in body:
        return []
    size = len(head)
    return [i for i in np.flatnonzero(kept).tolist() if body[starts[i] : starts[i] + size] == head]


def _frame(rows: _Sorted, delimiter: str, decimal: str, source: str) -> pd.DataFrame:
    stream = BytesIO(rows.data)
    stream.seek(rows.start)
    if not rows.data[rows.start : rows.start + 4096].strip():
        raise InputError(source, tr("rows of readings"), tr("none"), tr("Check the file."))
    forms = _stamp_forms(rows, delimiter)
    others = {column: form for column, form in forms.items() if not ISO.match(form)}
    try:
        return _read(stream, rows, delimiter, decimal, list(forms), others)
    except (ValueError, OverflowError) as error:
        remedy = tr("Check the file for damaged lines.")
        raise InputError(source, tr("rows of readings"), str(error)[:80], remedy) from error


def _read(
    stream: BytesIO,
    rows: _Sorted,
    delimiter: str,
    decimal: str,
    stamped: list[int],
    forms: dict[int, str],
) -> pd.DataFrame:
    """Read rows piece by piece; ISO stamps without a form are read as fast as numbers."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # a damaged stamp is looked at later
        pieces = pd.read_csv(
            stream,
            sep=delimiter,
            decimal=decimal,
            header=None,
            names=list(range(rows.cells)),
            index_col=False,
            skipinitialspace=_has_blanks(rows, delimiter),
            engine="c",
            quoting=3,
            on_bad_lines="skip",
            low_memory=False,
            encoding_errors="replace",
            na_values=spellings(),
            chunksize=PIECE_ROWS,
            parse_dates=stamped,
            date_format=cast("dict[Hashable, str]", forms),
        )
        return _joined([piece for piece in pieces if len(piece)])


def _has_blanks(rows: _Sorted, delimiter: str) -> bool:
    """Tell whether a cell may begin with a blank; looking out for them takes time."""
    return any(_begins_blank(piece, delimiter) for piece in pieces(rows.data, rows.start))


def _begins_blank(text: NDArray[np.uint8], delimiter: str) -> bool:
    before = text[np.flatnonzero(text == ord(" ")) - 1]
    return bool(text[0] == ord(" ") or ((before == ord(delimiter)) | (before == ord("\n"))).any())


def _stamp_forms(rows: _Sorted, delimiter: str) -> dict[int, str]:
    """Return the form of each column of stamps that begin with the year, in a long file.

    As text such a column is many times larger, and slower to read, than as times.
    """
    if len(rows.data) < LONG:
        return {}
    end = rows.data.find(b"\n", rows.start)
    first = rows.data[rows.start : end].decode("utf-8", errors="replace").split(delimiter)
    forms = {i: year_first_form(cell) for i, cell in enumerate(first)}
    return {i: form for i, form in forms.items() if form is not None}


def _joined(pieces: list[pd.DataFrame]) -> pd.DataFrame:
    """Return the pieces as one frame, column by column."""
    if len(pieces) < 2:
        return pieces[0] if pieces else pd.DataFrame()
    columns = {}
    for index in range(pieces[0].shape[1]):
        parts = [piece[index] for piece in pieces]
        if any(pd.api.types.is_datetime64_any_dtype(part) for part in parts):
            parts = _alike_stamps(parts)
        columns[index] = pd.concat(parts, ignore_index=True)
    return pd.DataFrame(columns, copy=False)


def _alike_stamps(parts: list[pd.Series]) -> list[pd.Series]:
    """Return all parts of a column of stamps as times, or all as text."""
    timed = [p if pd.api.types.is_datetime64_any_dtype(p) else year_first(p) for p in parts]
    if all(p is not None for p in timed):
        return [p for p in timed if p is not None]
    return [p.astype(str) for p in parts]


def _numbers_where_most_are(frame: pd.DataFrame) -> tuple[pd.DataFrame, int]:
    """Turn columns that are numbers but for a few words into numbers; drop rows of words."""
    words = np.zeros(len(frame), dtype=int)
    for index in range(frame.shape[1]):
        if pd.api.types.is_bool_dtype(frame[index]):
            frame[index] = frame[index].map({True: "TRUE", False: "FALSE"})
        if pd.api.types.is_numeric_dtype(frame[index]) or is_stamps(frame[index]):
            continue
        given = frame[index].notna()
        if not given.any() or _starts_with_words(frame[index]):
            continue
        numbers = pd.to_numeric(frame[index], errors="coerce")
        lost = frame[index][given & numbers.isna()].astype(str)
        if lost.str.contains(PARTED_THOUSANDS).any():
            continue  # a kiln is above a thousand degrees at its top only
        if numbers.notna().sum() > MOST_NUMBERS * given.sum():
            words += (given & numbers.isna()).to_numpy()
            frame[index] = numbers
    if not words.any() and not all(frame[i].isna().any() for i in range(frame.shape[1])):
        return frame, 0
    keep = frame.notna().any(axis=1).to_numpy() & (words < max(2.0, 0.4 * frame.shape[1]))
    return frame[keep].reset_index(drop=True), int((~keep).sum())


def _starts_with_words(column: pd.Series) -> bool:
    """Tell a column of stamps or words by its first cells, so that it is not gone through."""
    first = column.dropna().iloc[:1000]
    numbers = pd.to_numeric(first, errors="coerce")
    return len(column) > 5000 and bool(numbers.isna().all())


def _notes(ragged: int, other: int, repeated: int) -> tuple[ReadingNote, ...]:
    texts = (
        (ragged, N_("Rows with a cell missing, left out so that no value shifts: {count}.")),
        (other, N_("Lines that are no readings, left out: {count}.")),
        (repeated, N_("Lines with the header once more, left out: {count}.")),
    )
    return tuple(
        ReadingNote("rows_dropped", Said(text, {"count": count}), count)
        for count, text in texts
        if count
    )
