"""Notes at moments of a firing, the tables ``[[notes]]`` of a firing sheet."""

import math
from collections.abc import Sequence

from firing_review.firing.sheet import TimeNote
from firing_review.firing.wording import tr
from firing_review.io.toml_text import Table, toml_lines

NOTE_KEYS = ("at_h", "text")


def read_notes(sheet: Table) -> tuple[TimeNote, ...]:
    """Read every ``[[notes]]``, earliest first.

    Raises
    ------
    InputError
        For a note without a moment or without words.
    """
    return in_order([_note(table) for table in sheet.tables("notes")])


def in_order(notes: Sequence[TimeNote]) -> tuple[TimeNote, ...]:
    """Return notes by their time; those of one moment stay as they stand."""
    return tuple(sorted(notes, key=lambda note: note.at_h))


def _note(table: Table) -> TimeNote:
    table.refuse_unknown(NOTE_KEYS)
    text = table.text("text")
    if text is None or not text.strip():
        raise table.refuse("text", tr("the words of the note"), tr('Write text = "...".'))
    return TimeNote(_at_h(table), text)


def _at_h(table: Table) -> float:
    value = table.values.get("at_h")
    good = isinstance(value, int | float) and not isinstance(value, bool)
    if good and isinstance(value, int | float) and math.isfinite(value) and value >= 0.0:
        return float(value)
    remedy = tr("Write hours from the first row of the log, for instance at_h = 3.5.")
    raise table.refuse("at_h", tr("hours from 0 up"), remedy)


def notes_lines(notes: Sequence[TimeNote]) -> list[str]:
    """Return the lines of ``[[notes]]``; none if there are no notes."""
    lines = []
    for note in notes:
        lines += ["", "[[notes]]", *toml_lines({"at_h": note.at_h, "text": note.text})]
    return lines
