"""Text logs: each line begins with a time and tells its values in words."""

import re
from collections import Counter
from dataclasses import replace

from firing_review.io.log_text import LogText, log_text

_CLOCK = r"\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?(?:\s*[AaPp][Mm])?"
_DATE = r"\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}"
_STAMP = re.compile(
    rf"^\s*[\[(<]?((?:{_DATE}[T\s,]+)?{_CLOCK}(?:Z|[+-]\d{{2}}:?\d{{2}})?)[\])>]?[\s,:;|-]+(?=\S)"
)
_NUMBER = r"([+-]?\d+(?:\.\d+)?)\s*(°?\s?[CFK]\b|deg\s?[CF]\b|%|A\b)?"
_TOLD = re.compile(rf"([A-Za-z][A-Za-z_.# -]*\d{{0,2}})\s*[=:]\s*{_NUMBER}(?![\d:/-])")
_LAST = re.compile(rf"([A-Za-z][A-Za-z_ ]*?)\s+{_NUMBER}\s*$")
_LEVELS = re.compile(
    r"^(?:(?:info|debug|warn|warning|error|notice|trace|log)\b[\s:-]*)+", re.IGNORECASE
)
SAMPLE, MOST, OFTEN = 300, 0.6, 0.1
"""Lines looked at; share of them that must be told so; and share in which a name must come."""
MOST_NAMES = 32


def table_text(raw: bytes) -> LogText:
    """Return the text of a log; a text log as a table with a column for each value told."""
    text = log_text(raw)
    form = _form(text.head)
    if form is None:
        return text
    lines = text.data.decode("utf-8", errors="replace").split("\n")
    names = _names(lines, form)
    if not names:
        return text
    rows = ["\t".join(("time", *names)), *_rows(lines, form, names)]
    data = "\n".join(rows)
    head = tuple(rows[: len(text.head)])
    tail = tuple(rows[-20:])
    return replace(text, data=data.encode("utf-8"), head=head, tail=tail, as_written=False)


def _form(head: tuple[str, ...]) -> re.Pattern[str] | None:
    """Return how values are told, if most lines begin with a time and tell some."""
    lines = [line for line in head[:SAMPLE] if line.strip()]
    stamped = [line[m.end() :] for line in lines if (m := _STAMP.match(line))]
    if len(stamped) < max(2, MOST * len(lines)):
        return None
    for form in (_TOLD, _LAST):
        if sum(bool(form.search(rest)) for rest in stamped) >= MOST * len(stamped):
            parted = sum(bool(re.search(r"^[^A-Za-z]*[\d\"][;,\t|]", rest)) for rest in stamped)
            return form if parted < 0.2 * len(stamped) else None
    return None


def _values(line: str, form: re.Pattern[str]) -> tuple[str, dict[str, str]]:
    stamp = _STAMP.match(line)
    if stamp is None:
        return "", {}
    rest = line[stamp.end() :]
    found = ((_name(m[1]), m[2] + (f" {m[3]}" if m[3] else "")) for m in form.finditer(rest))
    return stamp[1].replace(",", "."), {name: value for name, value in found if name}


def _name(words: str) -> str:
    plain = _LEVELS.sub("", words.strip(" -.")).strip(" -.")
    return " ".join(plain.split()[-3:])


def _names(lines: list[str], form: re.Pattern[str]) -> list[str]:
    counts: Counter[str] = Counter()
    sample = lines[:SAMPLE]
    for line in sample:
        counts.update(_values(line, form)[1].keys())
    often = [name for name, count in counts.items() if count >= max(2, OFTEN * len(sample))]
    return often[:MOST_NAMES]


def _rows(lines: list[str], form: re.Pattern[str], names: list[str]) -> list[str]:
    """Return a row for each line that tells a value; lines of one moment are one row."""
    rows: list[str] = []
    moment, told = "", dict[str, str]()
    for line in lines:
        stamp, values = _values(line, form)
        values = {name: value for name, value in values.items() if name in names}
        if told and (stamp != moment or not values or set(values) & set(told)):
            rows.append("\t".join((moment, *(told.get(name, "") for name in names))))
            told = {}
        if values:
            moment, told = stamp, {**told, **values}
        elif line.strip():
            rows.append(line.replace("\t", " "))
    if told:
        rows.append("\t".join((moment, *(told.get(name, "") for name in names))))
    return rows
