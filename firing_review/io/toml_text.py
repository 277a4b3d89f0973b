"""Sheets in TOML: read with the place of every slip, and written by hand-sized rules."""

import json
import math
import re
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from firing_review.firing.errors import InputError
from firing_review.firing.wording import tr
from firing_review.io.known_words import did_you_mean, plain
from firing_review.io.plain_text import read_small_text

_HEADER = re.compile(r"^\s*(\[\[?)\s*([^\[\]]+?)\s*\]\]?\s*(#.*)?$")
_BARE_ZERO = re.compile(r"^\s*(?P<key>[\w-]+)\s*=\s*(?P<number>0\d+(\.\d+)?)\s*(#.*)?$")
_BARE_WORDS = re.compile(r"^\s*(?P<key>[\w-]+)\s*=\s*(?P<words>[A-Za-z][^\"'#]*?)\s*(#.*)?$")
_BACKSLASH = re.compile(r"^\s*(?P<key>[\w-]+)\s*=\s*\"[^\"]*\\")


@dataclass(frozen=True)
class Sheet:
    """A TOML file as text and as values."""

    where: str
    text: str
    values: Mapping[str, object]

    def line_of(self, key: str, table: str = "", index: int = 0) -> int | None:
        """Return the line, from 1, where a key of a table stands; None if it is not plain to see.

        ``index`` counts the tables of one name, as in ``[[sections]]``.
        """
        here, seen = "", dict.fromkeys([table], -1)
        for number, line in enumerate(self.text.splitlines(), start=1):
            header = _HEADER.match(line)
            if header:
                here = header[2].replace(" ", "")
                seen[here] = seen.get(here, -1) + 1
            wanted = here == table and max(seen[table], 0) == index
            if wanted and re.match(rf"\s*[\"']?{re.escape(key)}[\"']?\s*=", line):
                return number
        return self._line_of_header(f"{table}.{key}" if table else key)

    def _line_of_header(self, name: str) -> int | None:
        for number, line in enumerate(self.text.splitlines(), start=1):
            header = _HEADER.match(line)
            if header and header[2].replace(" ", "").split(".")[: name.count(".") + 1] == (
                name.split(".")
            ):
                return number
        return None


def read_sheet(path: Path, expected: str) -> Sheet:
    """Read a TOML file.

    Raises
    ------
    InputError
        If it is missing, no text, or not TOML; a bare ``06`` is answered with the right form.
    """
    text = read_small_text(path, expected, tr("Sheets are plain text with lines key = value."))
    return parse_sheet(text, str(path), expected)


def parse_sheet(text: str, where: str, expected: str) -> Sheet:
    """Read a sheet from its text; see :func:`read_sheet`."""
    plain_lines = text.replace("\r\n", "\n").replace("\r", "\n")
    try:
        return Sheet(where, plain_lines, tomllib.loads(plain_lines))
    except tomllib.TOMLDecodeError as error:
        raise _not_toml(str(error), plain_lines, where, expected) from None


def _not_toml(message: str, text: str, where: str, expected: str) -> InputError:
    place = re.search(r"\(at line (\d+), column (\d+)\)", message)
    lines = text.splitlines()
    line = int(place[1]) if place else len(lines)
    column = int(place[2]) if place else None
    content = lines[line - 1].strip() if 0 < line <= len(lines) else ""
    remedy = _remedy(content)
    if "overwrite" in message or "twice" in message:
        remedy = tr("This is written a second time; keep one of them.")
    found = f"'{content}'" if content else message.split(" (at", maxsplit=1)[0].lower()
    return InputError(where, expected, found, remedy, line, column)


def _remedy(line: str) -> str:
    zero = _BARE_ZERO.match(line)
    if zero and "cone" not in zero["key"]:
        return tr("Write {key} = {number}, no zero in front.").format(
            key=zero["key"], number=zero["number"].lstrip("0") or "0"
        )
    if zero:
        return tr(
            'Write {key} = "{number}" with quotes: a cone number is text, because 06 is not 6.'
        ).format(key=zero["key"], number=zero["number"])
    words = _BARE_WORDS.match(line)
    if words:
        return tr('Put text in quotes: {key} = "{words}".').format(
            key=words["key"], words=words["words"]
        )
    if _BACKSLASH.match(line):
        return tr("Write folders with / instead of \\, or put the text in single quotes.")
    return tr('Write key = value, text in quotes, for instance title = "March glaze".')


@dataclass(frozen=True)
class Table:
    """One table of a sheet, read key by key with an error that names file, line and key."""

    sheet: Sheet
    values: Mapping[str, object]
    name: str = ""
    index: int = 0

    def refuse(self, key: str, expected: str, remedy: str) -> InputError:
        """Return the error for a value that is not as expected."""
        value = self.values.get(key)
        found = (
            f"{key} = {_toml_value(value)}"
            if key in self.values
            else tr("no {key}").format(key=key)
        )
        if isinstance(value, dict):
            found = f"[{key}]"
        line = self.sheet.line_of(key, self.name, self.index)
        return InputError(self.sheet.where, expected, found, remedy, line)

    def refuse_unknown(self, known: Sequence[str], top: Sequence[str] = ()) -> None:
        """Raise InputError for the first key that is not known, with the nearest that is."""
        for key in self.values:
            if key in known:
                continue
            place = f"[{self.name}]" if self.name else tr("the sheet")
            remedy = did_you_mean(
                key, known, tr("Known keys: {known}.").format(known=", ".join(known))
            )
            if key in top:
                remedy = tr(
                    "Move {key} to the top of the file, above the first line in brackets."
                ).format(key=key)
            line = self.sheet.line_of(key, self.name, self.index)
            expected = tr("a known key in {place}").format(place=place)
            raise InputError(self.sheet.where, expected, repr(key), remedy, line)

    def text(self, key: str) -> str | None:
        """Return a text."""
        value = self.values.get(key)
        if value is None or isinstance(value, str):
            return value
        raise self.refuse(key, tr("text in quotes"), tr('Write {key} = "...".').format(key=key))

    def cone_text(self, key: str) -> str | None:
        """Return a cone number, which must be text."""
        value = self.values.get(key)
        if value is None or isinstance(value, str):
            return value
        remedy = tr('Write {key} = "{value}" or {key} = "0{value}": 06 is not 6.').format(
            key=key, value=value
        )
        raise self.refuse(key, tr("a cone number as text in quotes"), remedy)

    def word(self, key: str, allowed: Sequence[str]) -> str | None:
        """Return one of a few words."""
        value = self.text(key)
        return None if value is None else self._one_of(key, value, allowed)

    def _one_of(self, key: str, value: str, allowed: Sequence[str]) -> str:
        if plain(value) in allowed:
            return plain(value)
        remedy = did_you_mean(value, allowed, tr("Write one of these words."))
        raise self.refuse(key, tr("one of {allowed}").format(allowed=", ".join(allowed)), remedy)

    def words(self, key: str, allowed: Sequence[str]) -> tuple[str, ...] | None:
        """Return a list of words out of a few; a single word will do."""
        values = self.texts(key)
        if values is None:
            return None
        return tuple(self._one_of(key, value, allowed) for value in values)

    def texts(self, key: str) -> tuple[str, ...] | None:
        """Return a list of texts; a single text will do."""
        value = self.values.get(key)
        if value is None:
            return None
        if isinstance(value, str):
            return (value,)
        if isinstance(value, list) and all(isinstance(one, str) for one in value):
            return tuple(value)
        raise self.refuse(
            key, tr("a list of texts"), tr('Write {key} = ["...", "..."].').format(key=key)
        )

    def number(self, key: str) -> float | None:
        """Return a number above 0."""
        value = self.values.get(key)
        if value is None:
            return None
        good = isinstance(value, int | float) and not isinstance(value, bool)
        if not good or not math.isfinite(float(value)) or float(value) <= 0.0:  # type: ignore[arg-type]
            raise self.refuse(key, tr("a number above 0"), tr("Write it without quotes and unit."))
        return float(value)  # type: ignore[arg-type]

    def count(self, key: str) -> int | None:
        """Return a whole number from 0 up."""
        value = self.values.get(key)
        if value is None:
            return None
        if not isinstance(value, int) or isinstance(value, bool) or value < 0:
            raise self.refuse(key, tr("a whole number from 0 up"), tr("Write it without quotes."))
        return value

    def flag(self, key: str) -> bool | None:
        """Return true or false."""
        value = self.values.get(key)
        if value is None or isinstance(value, bool):
            return value
        raise self.refuse(key, tr("true or false"), tr("Write it without quotes."))

    def table(self, key: str) -> "Table":
        """Return a table within; an empty one if it is not there."""
        value = self.values.get(key, {})
        name = f"{self.name}.{key}" if self.name else key
        if isinstance(value, dict):
            return Table(self.sheet, value, name)
        raise self.refuse(
            key,
            tr("a table [{name}]").format(name=name),
            tr("Write [{name}] on a line of its own.").format(name=name),
        )

    def tables(self, key: str) -> tuple["Table", ...]:
        """Return the tables of a list, such as ``[[sections]]``."""
        value = self.values.get(key, [])
        if isinstance(value, list) and all(isinstance(one, dict) for one in value):
            return tuple(Table(self.sheet, one, key, i) for i, one in enumerate(value))
        remedy = tr("Write [[{key}]] above each, in double brackets.").format(key=key)
        raise self.refuse(key, tr("tables [[{key}]]").format(key=key), remedy)


def toml_lines(values: Mapping[str, object]) -> list[str]:
    """Return lines ``key = value`` for the values that are there."""
    return [
        f"{_toml_key(key)} = {_toml_value(value)}"
        for key, value in values.items()
        if value is not None
    ]


def _toml_key(key: str) -> str:
    return key if re.fullmatch(r"[A-Za-z0-9_-]+", key) else _toml_text(key)


def _toml_text(text: str) -> str:
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _toml_value(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return _toml_text(value)
    if isinstance(value, int | float):
        return repr(value)
    if isinstance(value, list | tuple):
        return f"[{', '.join(_toml_value(one) for one in value)}]"
    return str(value)
