"""The block of rows in a log: delimiter, header, units, and the lines left out."""

import csv
import re
from collections import Counter
from dataclasses import dataclass
from io import StringIO

import pandas as pd

from firing_review.firing.errors import InputError
from firing_review.firing.log import ReadingNote
from firing_review.firing.said import N_, Said

DELIMITERS = ("\t", ";", ",", "|", " ")
"""In the order in which they are believed; a space stands for any run of them."""
SAMPLE_LINES = 400
"""Lines looked at to tell the layout; a preamble is rarely longer."""
BLANKS_BELIEVED = 0.7
"""Weight of a layout parted by blanks against one parted by a sign."""
LEAST_CELLS = 2
"""A time and a value."""
MOST_NUMBERS = 0.6
"""A column with more numbers than this share of its cells is a column of numbers."""
HEADER_REACH = 4
"""Lines above the data in which names and units are looked for."""
_NUMBER = re.compile(r"^[+-]?\d+([.,]\d+)?([eE][+-]?\d+)?\s*(°?\s?[CF]|K|%|A|V)?$")
_CLOCK = re.compile(r"\d{1,4}[-/.:]\d{1,2}([-/.:]\d{1,4})?")
_GAP_WORDS = frozenset(
    {
        "",
        "-",
        "--",
        "---",
        "nan",
        "n/a",
        "na",
        "ol",
        "open",
        "null",
        "none",
        "err",
        "error",
        "inf",
        "-inf",
    }
)


@dataclass(frozen=True)
class Layout:
    """How the rows of a log are laid out; ``first`` counts the lines above the data."""

    delimiter: str
    decimal: str
    cells: int
    first: int
    names: tuple[str, ...]
    units: tuple[str, ...]
    preamble: tuple[str, ...]

    @property
    def key(self) -> str:
        """Return what files of the same logger have in common."""
        return "|".join((self.delimiter, self.decimal, *self.names, *self.units))


@dataclass(frozen=True, eq=False)
class RawTable:
    """Rows as text or numbers, before any column means anything."""

    layout: Layout
    frame: pd.DataFrame
    dropped: int
    notes: tuple[ReadingNote, ...]


def split_line(line: str, delimiter: str) -> list[str]:
    """Split a line into cells without the blanks around them."""
    if delimiter == " ":
        return line.split()
    if '"' in line:
        return [cell.strip() for cell in next(csv.reader([line], delimiter=delimiter))]
    return [cell.strip() for cell in line.split(delimiter)]


def find_layout(lines: list[str], source: str) -> Layout:
    """Tell delimiter, decimal sign, header and first data line of a log.

    Raises
    ------
    InputError
        If no run of lines looks like a table of numbers.
    """
    sample = lines[:SAMPLE_LINES]
    best: tuple[str, int, int, int] | None = None
    for delimiter in DELIMITERS:
        block = _block(sample, delimiter)
        if block and (best is None or _weight(block, delimiter) > _weight(best[1:], best[0])):
            best = (delimiter, *block)
    if best is None:
        raise InputError(
            source,
            "a table with a time and a temperature in each row",
            "no such rows",
            "Check that this is the logger's CSV export.",
        )
    delimiter, _, first, cells = best
    return _layout(sample, delimiter, first, cells, source)


def _weight(block: tuple[int, int, int], delimiter: str) -> float:
    """Return how far a block is to be believed; blanks stand inside cells of other layouts."""
    rows, _, cells = block
    return rows * min(cells, 3) * (BLANKS_BELIEVED if delimiter == " " else 1.0)


def _block(sample: list[str], delimiter: str) -> tuple[int, int, int] | None:
    """Return rows, first line and cells of the longest block of data lines."""
    counts: Counter[int] = Counter()
    firsts: dict[int, int] = {}
    for number, line in enumerate(sample):
        cells = split_line(line, delimiter)
        if delimiter != " " and line.count(delimiter) == 0:
            continue
        if len(cells) >= LEAST_CELLS and _is_data(cells):
            counts[len(cells)] += 1
            firsts.setdefault(len(cells), number)
    if not counts:
        return None
    cells_usual, rows = counts.most_common(1)[0]
    return rows, min(n for c, n in firsts.items() if c >= cells_usual), cells_usual


def _is_data(cells: list[str]) -> bool:
    """Tell whether most cells are numbers, clock times or marks of a missing reading."""
    filled = [c for c in cells if c.lower() not in _GAP_WORDS]
    good = [bool(_NUMBER.match(c)) or bool(_CLOCK.search(c)) for c in filled]
    return len(filled) >= LEAST_CELLS and sum(good) >= max(2, 0.5 * len(good))


def _layout(sample: list[str], delimiter: str, first: int, cells: int, source: str) -> Layout:
    header = [split_line(line, delimiter) for line in sample[max(0, first - HEADER_REACH) : first]]
    near = [h for h in header if abs(len(h) - cells) <= max(1, len(h) // 3) or len(h) > cells]
    units: tuple[str, ...] = ()
    names: tuple[str, ...] = ()
    for row in reversed(near):
        if not units and not names and _is_unit_row(row):
            units = tuple(row)
        elif not names and not _is_data(row):
            names = tuple(row)
    below = _header_below(sample, delimiter, first, cells) if not names else ()
    data = [split_line(line, delimiter) for line in sample[first : first + 60]]
    decimal = _decimal(data, delimiter)
    _refuse_double_commas(names, cells, delimiter, source)
    preamble = tuple(sample[:first])
    return Layout(delimiter, decimal, cells, first, names or below, units, preamble)


def _header_below(sample: list[str], delimiter: str, first: int, cells: int) -> tuple[str, ...]:
    """Return a header that stands below the data."""
    for line in sample[first + 1 :]:
        row = split_line(line, delimiter)
        if (
            len(row) == cells
            and not _is_data(row)
            and sum(bool(re.search("[A-Za-z]", c)) for c in row) == cells
        ):
            return tuple(row)
    return ()


_UNITS = frozenset(
    {
        "c",
        "f",
        "k",
        "s",
        "sec",
        "seconds",
        "min",
        "minutes",
        "h",
        "hr",
        "hours",
        "ms",
        "%",
        "a",
        "v",
        "kw",
        "bar",
        "mbar",
        "mg",
        "kw/m2",
        "deg c",
        "deg f",
        "degc",
        "degf",
        "celsius",
        "fahrenheit",
        "c.",
        "unit",
        "units",
        "",
    }
)


def _is_unit_row(row: list[str]) -> bool:
    plain = [re.sub(r"[\[\]()°\ufffd]", "", c).strip().lower() for c in row]
    filled = [c for c in plain if c]
    return len(filled) >= 1 and sum(c in _UNITS for c in filled) >= 0.6 * len(filled)


def _decimal(rows: list[list[str]], delimiter: str) -> str:
    if delimiter == ",":
        return "."
    text = [c for row in rows for c in row if _NUMBER.match(c)]
    return "," if sum("," in c for c in text) > sum("." in c for c in text) else "."


def _refuse_double_commas(names: tuple[str, ...], cells: int, delimiter: str, source: str) -> None:
    """Refuse a comma file whose numbers were written with decimal commas as well."""
    named = sum(bool(n) for n in names)
    if delimiter == "," and named > 2 and cells >= 1.6 * named:
        raise InputError(
            source,
            f"{named} values in a row, as the header says",
            f"{cells}: decimal commas in a file parted by commas",
            "Export it again with semicolons or decimal points.",
        )


def read_table(text: str, layout: Layout) -> RawTable:
    """Read the rows below the header; lines that are no data are left out and counted."""
    lines = text.split("\n")[layout.first :]
    delimiter = layout.delimiter
    if delimiter == " ":
        counts = [len(line.split()) for line in lines]
    else:
        counts = [line.count(delimiter) + 1 for line in lines]
    filled = [c for c, line in zip(counts, lines, strict=True) if line]
    usual = layout.cells
    most = max(usual, len(layout.names), max(filled, default=usual) if '"' in text[:20000] else 0)
    kept, ragged, other, repeated = [], 0, 0, 0
    head = delimiter.join(layout.names[:2]).lower()
    head = head if any(sign.isalpha() for sign in head) else ""
    for line, count in zip(lines, counts, strict=True):
        if usual <= count <= most and not line.startswith("#"):
            if head and line[: len(head)].lower().replace('"', "") == head:
                repeated += 1
            else:
                kept.append(line)
        elif line.strip(" \t\r,;"):
            ragged += LEAST_CELLS <= count < usual
            other += not LEAST_CELLS <= count < usual
    frame, wordy = _numbers_where_most_are(_frame(kept, layout, most))
    other += wordy
    notes = _notes(ragged, other, repeated)
    return RawTable(layout, frame, ragged + other + repeated, notes)


def _frame(kept: list[str], layout: Layout, most: int) -> pd.DataFrame:
    separator = r"\s+" if layout.delimiter == " " else layout.delimiter
    return pd.read_csv(
        StringIO("\n".join(kept)),
        sep=separator,
        decimal=layout.decimal,
        header=None,
        names=list(range(most)),
        index_col=False,
        skipinitialspace=True,
        engine="c",
        on_bad_lines="skip",
        low_memory=False,
        na_values=["---", "--", "OL", "open", "OPEN", "Open", "err", "ERR", "Error"],
    )


def _numbers_where_most_are(frame: pd.DataFrame) -> tuple[pd.DataFrame, int]:
    """Turn columns that are numbers but for a few words into numbers; drop rows of words."""
    wordy = pd.Series(data=False, index=frame.index)
    for index in frame.columns:
        if pd.api.types.is_numeric_dtype(frame[index]):
            continue
        numbers = pd.to_numeric(frame[index], errors="coerce")
        given = frame[index].notna()
        if given.any() and numbers.notna().sum() > MOST_NUMBERS * given.sum():
            wordy |= given & numbers.isna()
            frame[index] = numbers
    kept = frame.notna().sum(axis=1) >= LEAST_CELLS
    keep = kept & ~(wordy & (frame.notna().sum(axis=1) < 0.7 * frame.notna().sum(axis=1).median()))
    return frame[keep].reset_index(drop=True), int((~keep).sum())


def _notes(ragged: int, other: int, repeated: int) -> tuple[ReadingNote, ...]:
    texts = (
        (ragged, N_("{count} rows with a cell missing were left out, so that no value shifts.")),
        (other, N_("{count} lines that are no readings were left out.")),
        (repeated, N_("The header stands again {count} times; those lines were left out.")),
    )
    return tuple(
        ReadingNote("rows_dropped", Said(text, {"count": count}), count)
        for count, text in texts
        if count
    )


def column_names(layout: Layout, columns: int) -> list[str]:
    """Return a name for every column: from the header, or its number.

    A header one name short of the data lacks the name of its first column, the time.
    """
    names = list(layout.names)
    if names and len(names) == columns - 1 and all(names):
        names.insert(0, "time")
    names += [""] * (columns - len(names))
    return [n.strip().strip('"') or f"column {i}" for i, n in enumerate(names[:columns], start=1)]
