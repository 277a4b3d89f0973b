"""Meter readings as typed: volts, and by section cold resistance and amps."""

from collections.abc import Sequence
from dataclasses import dataclass

from firing_review.firing.kiln import Kiln
from firing_review.firing.said import N_
from firing_review.firing.sheet import OPEN_CIRCUIT, Readings
from firing_review.firing.wording import as_typed, tr
from firing_review.io.plain_text import parse_number
from firing_review.ui.text_table.model import Cells

OPEN_WORD = "open"


OPEN = N_("open")
"""The word for no continuity, as it is shown and may be typed."""


@dataclass(frozen=True)
class ReadingsRead:
    """What was typed: readings, or None with the cells and fields that cannot be used."""

    readings: Readings | None
    wrong: dict[tuple[int, int], str]
    wrong_volts: tuple[str, ...] = ("", "")

    @property
    def message(self) -> str:
        """The first sentence about what cannot be used, or "" if all can."""
        return next((text for text in (*self.wrong_volts, *self.wrong.values()) if text), "")


def headings() -> tuple[str, str, str]:
    """Return the headings of the table."""
    return (tr("section"), tr("Ω cold"), tr("A"))


def rows_of(readings: Readings, kiln: Kiln | None) -> list[Cells]:
    """Return a row for every section known, with what was measured."""
    names = [s.name for s in kiln.sections] if kiln else []
    names += [n for n in (*readings.cold_ohms, *readings.amps) if n not in names]
    return [
        (name, _cell(readings.cold_ohms.get(name)), _cell(readings.amps.get(name)))
        for name in dict.fromkeys(names)
    ]


def _cell(value: float | None) -> str:
    if value is None:
        return ""
    return tr(OPEN) if value == OPEN_CIRCUIT else as_typed(f"{value:g}")


def read_readings_typed(rows: Sequence[Cells], at_rest: str, at_load: str) -> ReadingsRead:
    """Read all that was typed; nothing is taken as long as a cell makes no sense."""
    wrong: dict[tuple[int, int], str] = {}
    ohms, amps = _column(rows, 1, wrong), _column(rows, 2, wrong)
    volts, sentences = [], []
    for text, name in ((at_rest, tr("supply at rest")), (at_load, tr("supply at full power"))):
        value = parse_number(text) if text.strip() else None
        usable = not text.strip() or (value is not None and 0 < value < 1000)
        advice = tr("{name}: write volts as a number, for instance 238.").format(name=name)
        sentences.append("" if usable else advice)
        volts.append(value)
    if wrong or any(sentences):
        return ReadingsRead(None, wrong, tuple(sentences))
    return ReadingsRead(Readings(volts[0], volts[1], amps, ohms), {})


def _column(
    rows: Sequence[Cells], column: int, wrong: dict[tuple[int, int], str]
) -> dict[str, float]:
    found = {}
    for number, cells in enumerate(rows):
        text = cells[column].strip()
        if not text:
            continue
        is_open = column == 1 and text.lower() in (OPEN_WORD, tr(OPEN).lower())
        value = OPEN_CIRCUIT if is_open else parse_number(text)
        if value is None or value < 0 or not cells[0]:
            wrong[number, column] = tr(
                "Row {row}: name the section and write a number, or the word open."
            ).format(row=number + 1)
        else:
            found[cells[0]] = value
    return found
