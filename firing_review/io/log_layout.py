"""How the rows of a log are laid out: delimiter, decimal sign, header, units."""

import csv
import re
from collections import defaultdict
from dataclasses import dataclass

from firing_review.firing.errors import InputError
from firing_review.firing.said import N_
from firing_review.firing.wording import tr
from firing_review.io.log_forms import MONTH_NAMED, is_odd_stamp
from firing_review.io.log_marks import GAP_WORDS

DELIMITER_WORDS = {
    N_("tab"): "\t",
    N_("semicolon"): ";",
    N_("comma"): ",",
    N_("bar"): "|",
    N_("space"): " ",
}
DELIMITERS = tuple(DELIMITER_WORDS.values())
"""In the order in which they are believed; a space stands for any run of them."""
DECIMAL_WORDS = {N_("point"): ".", N_("comma"): ","}
SAMPLE_LINES = 400
"""Lines looked at to tell the layout; a preamble is rarely longer."""
LEAST_CELLS = 2
"""A time and a value."""
LONGEST_STAMP = 40
LONGEST_LABEL = 24
"""Signs in a date with its time; and in a line that names channels above their names."""
HEADER_REACH = 4
"""Lines above the data in which names and units are looked for."""
FEW = 3
"""So many lines of numbers may stand among the words above the names."""
NUMBER = re.compile(
    r"^[+-]?\s*(\d+([.,]\d*)?|[.,]\d+|\d{1,3}([, ']\d{3})+\.\d+|\d{1,3}([. ']\d{3})+,\d+)"
    r"([eE][+-]?\d+)?"
    r"\s*((°|[dD]eg\.?)?\s?[CF]|K|%|A|V)?$"
)
_LAPSE = re.compile(
    r"^(\d+\s?(d|days?),?\s*|\d+\.(?=\d{2}:))?\d{1,3}:\d{2}(:\d{2})?$"
    r"|^\d{1,3}\s?h(\s?\d{1,2}(\s?m(in)?)?)?$|^\d{1,2}\s?[ap]\.?m\.?$",
    re.IGNORECASE,
)
"""Elapsed times and times of day in words."""
_STAMP = re.compile(
    r"^(\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4})?[T,\s]*"
    r"(\d{1,4}:\d{2}(:\d{2}([.,]\d+)?)?\s*([ap]\.?m\.?)?)?\s*(Z|[+-]\d{2}:?\d{2})?$",
    re.IGNORECASE,
)
_NAMES_TIME = re.compile(r"time|date|elapsed|clock|stamp|zeit|datum|hora|heure", re.IGNORECASE)
_SEVERAL = re.compile(r"[,;|\"]\S")
_PLAIN_UNITS = frozenset(
    (
        "c",
        "f",
        "k",
        "s",
        "sec",
        "secs",
        "seconds",
        "min",
        "mins",
        "minutes",
        "h",
        "hr",
        "hrs",
        "hours",
        "ms",
        "d",
        "days",
        "%",
        "a",
        "v",
        "kw",
        "w",
        "bar",
        "mbar",
        "mg",
        "g",
        "kw/m2",
        "degc",
        "degf",
        "celsius",
        "fahrenheit",
        "c.",
        "unit",
        "units",
        "°c",
        "°f",
        "pct",
        "-",
        "date",
        "time",
        "hh:mm:ss",
    )
) | {"deg c", "deg f", ""}


@dataclass(frozen=True)
class Layout:
    """How the rows of a log are laid out; ``first`` counts the lines above the data.

    ``thousands`` is the sign that parts thousands, known where a person told the decimal sign.
    """

    delimiter: str
    decimal: str
    cells: int
    first: int
    names: tuple[str, ...]
    units: tuple[str, ...]
    preamble: tuple[str, ...]
    thousands: str = ""

    @property
    def key(self) -> str:
        """Return what files of the same logger have in common."""
        return "|".join((self.delimiter, self.decimal, str(self.cells), *self.names, *self.units))


def split_line(line: str, delimiter: str) -> list[str]:
    """Split a line into cells without the blanks around them."""
    if delimiter == " ":
        return line.replace('"', "").split()
    if '"' in line:
        try:
            row = next(csv.reader([line], delimiter=delimiter, skipinitialspace=True), [])
        except csv.Error:
            row = line.replace('"', "").split(delimiter)
        return [cell.strip() for cell in row]
    return [cell.strip() for cell in line.split(delimiter)]


def find_layout(
    head: tuple[str, ...],
    tail: tuple[str, ...],
    source: str,
    delimiter: str | None = None,
    decimal: str | None = None,
) -> Layout:
    """Tell delimiter, decimal sign, header and first data line of a log.

    Raises
    ------
    InputError
        If no run of lines looks like a table of numbers.
    """
    sample = list(head[:SAMPLE_LINES])
    blocks = [(d, _block(sample, d)) for d in ((delimiter,) if delimiter else DELIMITERS)]
    found = [(d, block) for d, block in blocks if block is not None]
    if not found:
        remedy = tr("Give the logger's CSV export, or rows such as 2:30,410.")
        if delimiter:
            remedy = tr("Leave out what parts its cells, or name another sign.")
        expected = tr("a table with a time and a temperature in each row")
        raise InputError(source, expected, tr("no such rows"), remedy)
    marked = [pair for pair in found if pair[0] != " "]
    most = max(block.rows for _, block in found)
    believed = [pair for pair in marked if pair[1].rows >= most / 2] or found
    best, block = max(believed, key=lambda pair: pair[1].worth * min(pair[1].cells, 3))
    return _layout(sample, list(tail), best, block, decimal, source)


@dataclass(frozen=True)
class _Block:
    """Data lines under one delimiter; ``worth`` counts less those with cells of words."""

    rows: int
    worth: float
    first: int
    cells: int


def _block(sample: list[str], delimiter: str) -> _Block | None:
    """Return the longest block of data lines under one delimiter."""
    lines: dict[int, list[int]] = {}
    worth: defaultdict[int, float] = defaultdict(float)
    for number, line in enumerate(sample):
        if delimiter != " " and delimiter not in line:
            continue
        cells = split_line(line, delimiter)
        share = _share_of_data(cells)
        if share > 0.0:
            lines.setdefault(len(cells), []).append(number)
            worth[len(cells)] += share**2
    if not lines:
        return None
    usual = max(lines, key=lambda cells: len(lines[cells]))
    numbers = sorted(n for cells, found in lines.items() if cells >= usual for n in found)
    first = _below_names(sample, delimiter, numbers)
    return _Block(len(lines[usual]), worth[usual], first, usual)


def _below_names(sample: list[str], delimiter: str, numbers: list[int]) -> int:
    """Return the first data line; a few lines of numbers above the names are no data."""
    if _named_above(sample[: numbers[0]], delimiter):
        return numbers[0]
    for at, line in enumerate(sample[numbers[0] : numbers[0] + HEADER_REACH + FEW], numbers[0]):
        above = sum(number < at for number in numbers)
        below = [number for number in numbers if number > at]
        if above > FEW or len(below) <= above:
            break
        if above and at not in numbers and _is_name_row(split_line(line, delimiter)):
            return below[0]
    return numbers[0]


def _named_above(above: list[str], delimiter: str) -> bool:
    """Tell whether the last line of words above has names: those of the columns."""
    rows = [split_line(line, delimiter) for line in above if line.strip()]
    return bool(rows) and len(rows[-1]) >= LEAST_CELLS and _is_name_row(rows[-1])


def _is_datum(cell: str) -> bool:
    return bool(NUMBER.match(cell)) or _is_clock(cell)


def is_data(cells: list[str]) -> bool:
    """Tell whether most cells are numbers, clock times or marks of a missing reading."""
    return _share_of_data(cells) > 0.0


def _share_of_data(cells: list[str]) -> float:
    """Return the share of data among the cells that hold something; 0 for a row of no data."""
    filled = [c for c in cells if c.lower() not in GAP_WORDS]
    if len(filled) == 1:  # a time alone: every reading of that row is missing
        return float(LEAST_CELLS <= len(cells) <= 3 and _is_clock(filled[0]))
    good = sum(map(_is_datum, filled))
    is_row = len(filled) >= LEAST_CELLS and good >= max(2, 0.5 * len(filled))
    return good / len(filled) if is_row else 0.0


def _is_clock(cell: str) -> bool:
    """Tell a date or a time; a cell that holds several values is none."""
    plain = cell.removeprefix("-")
    if not plain[:1].isalnum() or len(cell) > LONGEST_STAMP:
        return False
    if _STAMP.match(cell) or _LAPSE.match(plain) or is_odd_stamp(cell):
        return True
    return bool(MONTH_NAMED.search(cell)) and not _SEVERAL.search(cell)


def _layout(
    sample: list[str],
    tail: list[str],
    delimiter: str,
    block: _Block,
    decimal: str | None,
    source: str,
) -> Layout:
    first = block.first
    data = [split_line(line, delimiter) for line in sample[first : first + 60]]
    if delimiter == " ":
        names, units = _header_by_place(sample, first)
    else:
        names, units = _header(sample[max(0, first - HEADER_REACH) : first], delimiter, block)
    if not names:
        names = _header_below(sample[first + 1 :] + tail, delimiter, block.cells)
    _refuse_double_commas(names or _words_above(sample, first), block.cells, delimiter, source)
    sign = decimal or _decimal(data)
    thousands = "" if decimal is None else {".": ",", ",": "."}[decimal]
    above = tuple(sample[:first])
    return Layout(delimiter, sign, block.cells, first, names, units, above, thousands)


def _header(
    above: list[str], delimiter: str, block: _Block
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return names and units from the lines right above the data, read upwards."""
    names: list[str] = []
    units: list[str] = []
    for line in reversed(above):
        row = split_line(line.lstrip("#"), delimiter)
        if len(row) < LEAST_CELLS or not re.search(r"[^\W_]", line):
            continue
        if not _fits(row, block.cells) or is_data(row):
            break
        if not units and not names and is_unit_row(row):
            units = row
        elif not names:
            names = row
        elif _goes_above(row, names, bool(units)):
            names = [" ".join(p for p in pair if p) for pair in zip(row, names, strict=True)]
        else:
            break
    return tuple(names or units), tuple(units)


def _goes_above(row: list[str], names: list[str], units: bool) -> bool:
    """Tell the upper of two lines of names from a line of words that happens to fit."""
    if len(row) != len(names) or row == names or not _is_name_row(row):
        return False
    short = all(len(cell) <= LONGEST_LABEL for cell in row)
    return short and len(row) > LEAST_CELLS and (units or not all(names) or _are_labels(row))


def _are_labels(row: list[str]) -> bool:
    """Tell names of channels, all different, such as CH0, CH1, CH2; or words above words."""
    filled = [cell for cell in row if cell]
    return len(set(filled)) == len(filled) or not row[0]


def _fits(row: list[str], cells: int) -> bool:
    return len(row) > cells or abs(len(row) - cells) <= max(1, len(row) // 3)


def _is_name_row(row: list[str]) -> bool:
    """Tell whether a row names at least half of its columns, as a second line of a header does."""
    worded = sum(bool(re.search("[A-Za-z]", c)) for c in row)
    return worded >= max(2, 0.5 * len(row))


def _header_by_place(sample: list[str], first: int) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return names and units of a fixed-width table; a short unit row is placed by position."""
    ends = [m.end() for m in re.finditer(r"\S+", sample[first])]
    names: tuple[str, ...] = ()
    units: tuple[str, ...] = ()
    for line in reversed(sample[max(0, first - HEADER_REACH) : first]):
        words = [(m.group(), m.end()) for m in re.finditer(r"\S+", line)]
        plain = [w for w, _ in words]
        if not re.search(r"[^\W_]", line) or is_data(plain):
            continue
        if not units and is_unit_row(plain):
            placed = [""] * len(ends)
            for word, end in words:
                placed[min(range(len(ends)), key=lambda i: abs(ends[i] - end))] = word
            units = tuple(placed)
        elif not names:
            parted = re.split(r"\s{2,}|\t", line.strip())
            forms = (plain, parted) if len(parted) > 1 else (plain,)
            fitting = (p for p in forms if len(p) in {len(ends), len(ends) - 1})
            names = tuple(next(fitting, ()))
    return names, units


def _header_below(lines: list[str], delimiter: str, cells: int) -> tuple[str, ...]:
    """Return a header that stands below the data."""
    for line in lines:
        row = split_line(line.lstrip("#"), delimiter)
        if len(row) == cells and not is_data(row) and all(re.search("[A-Za-z]", c) for c in row):
            return tuple(row)
    return ()


def is_unit_row(row: list[str]) -> bool:
    """Tell whether a row names units only."""
    plain = [re.sub(r"[\[\]()°.\ufffd]", "", c).strip().lower() for c in row]
    filled = [c for c in plain if c]
    if set(filled) - _PLAIN_UNITS == set(filled) - {"date", "time"}:
        return False
    return len(filled) >= 1 and sum(c in _PLAIN_UNITS for c in filled) >= 0.6 * len(filled)


def _decimal(rows: list[list[str]]) -> str:
    text = [c for row in rows for c in row if NUMBER.match(c)]
    return "," if sum("," in c for c in text) > sum("." in c for c in text) else "."


def _words_above(sample: list[str], first: int) -> tuple[str, ...]:
    """Return the comma-parted words of the last line of words above the data."""
    above = [split_line(line, ",") for line in sample[max(0, first - HEADER_REACH) : first]]
    rows = [row for row in above if len(row) >= LEAST_CELLS and all(row) and not is_data(row)]
    return tuple(rows[-1]) if rows else ()


def _refuse_double_commas(names: tuple[str, ...], cells: int, delimiter: str, source: str) -> None:
    """Refuse a comma file whose numbers were written with decimal commas as well."""
    named = sum(bool(n) for n in names)
    if delimiter == "," and named > 2 and cells >= 1.6 * named:
        raise InputError(
            source,
            tr("{named} values in a row, as the header says").format(named=named),
            tr("{cells}: decimal commas in a file parted by commas").format(cells=cells),
            tr("Export it again with semicolons or decimal points."),
        )


def column_names(layout: Layout, columns: int, first_rises: bool, last_given: bool) -> list[str]:
    """Return a name for every column: from the header, or its number.

    A header one name short of the data lacks the name of its first column, the time; so does
    one that ends in a blank name though that column has values, if nothing else is named a time
    and the first column rises.
    """
    names = list(layout.names)
    full = bool(names) and all(names[:-1])
    short = len(names) == columns - 1 and full and bool(names[-1])
    shifted = len(names) == columns and full and not names[-1]
    timed = any(_NAMES_TIME.search(n) for n in names)
    if ((short and last_given) or (shifted and last_given and first_rises)) and not timed:
        names.insert(0, "time")
    names += [""] * (columns - len(names))
    plain = [n.strip().strip('"') or f"column {i}" for i, n in enumerate(names[:columns], start=1)]
    return [n if plain.index(n) == i else f"{n} ({i + 1})" for i, n in enumerate(plain)]
