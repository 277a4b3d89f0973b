"""Between rows as typed and a schedule; nothing of Qt."""

from collections.abc import Sequence
from dataclasses import dataclass

from firing_review.firing.errors import InputError
from firing_review.firing.said import N_
from firing_review.firing.schedule import ClockCurve, Intended, Schedule, Segment
from firing_review.firing.units import (
    TemperatureUnit,
    fahrenheit_difference,
    fahrenheit_from_celsius,
)
from firing_review.firing.wording import as_typed, tr
from firing_review.io.schedule_file import FULL, parse_schedule_text

Cells = tuple[str, ...]
RATE, TARGET, HOLD = range(3)
FULL_WORD = N_("full")
COLUMN_NAMES = (N_("rate"), N_("target"), N_("hold"))


@dataclass(frozen=True)
class RowsRead:
    """What rows amount to.

    Attributes
    ----------
    segments : tuple of Segment or None
        None while a row cannot be used; a last row still being typed is left out.
    wrong : mapping of (row, column) to a sentence
    unfinished : the sentence about a last row that is still being typed, or "".
    """

    segments: tuple[Segment, ...] | None
    wrong: dict[tuple[int, int], str]
    unfinished: str = ""


def headings(unit: TemperatureUnit) -> tuple[str, str, str]:
    """Return the headings of the table in the unit of the screen."""
    sign = f"°{unit.value}"
    return (
        tr("Rate\n{unit} per hour").format(unit=sign),
        tr("Target\n{unit}").format(unit=sign),
        tr("Hold\nmin or h:mm"),
    )


def read_rows(
    rows: Sequence[Cells], unit: TemperatureUnit, known: Sequence[Segment] = ()
) -> RowsRead:
    """Read rows as typed, marking every one that cannot be used.

    A row that still reads as one of the ``known`` segments is that segment, to the last digit,
    however much was rounded to show it.
    """
    exact = {cells_of(segment, unit): segment for segment in known}
    segments, wrong, unfinished = [], {}, ""
    filled = [place for place, cells in enumerate(rows) if any(cells)]
    for place in filled:
        cells = rows[place]
        if place == filled[-1] and not (cells[RATE] and cells[TARGET]):
            unfinished = _unfinished(place, cells)
            continue
        try:
            segments.append(exact.get(cells) or read_row(cells, unit))
        except InputError as error:
            column = min(max((error.column or 1) - 1, RATE), HOLD)
            wrong[place, column] = _sentence(error, place, column)
    return RowsRead(None if wrong else tuple(segments), wrong, unfinished)


def _unfinished(row: int, cells: Cells) -> str:
    if not cells[RATE] and not cells[TARGET]:
        return tr("Row {row} still needs a rate and a target.").format(row=row + 1)
    if not cells[TARGET]:
        return tr("Row {row} still needs a target.").format(row=row + 1)
    return tr("Row {row} still needs a rate; write full for as fast as the kiln can.").format(
        row=row + 1
    )


def read_row(cells: Cells, unit: TemperatureUnit) -> Segment:
    """Read one row; raises InputError with the column."""
    end = unit.value.lower()
    head = f"rate_{end}_per_h\ttarget_{end}\thold_min"
    rate = FULL if cells[RATE].casefold() == tr(FULL_WORD).casefold() else cells[RATE]
    text = f"{head}\n" + "\t".join((rate or "-", cells[TARGET] or "-", cells[HOLD]))
    found = parse_schedule_text(text, tr("schedule"))
    if not isinstance(found, Schedule):
        raise InputError(tr("schedule"), tr("rate, target and hold"), text, "")
    return found.segments[0]


def _sentence(error: InputError, row: int, column: int) -> str:
    text = tr("Row {row}, {column}: expected {expected}. {remedy}")
    expected = error.expected.split(" (")[0]
    return text.format(
        row=row + 1, column=tr(COLUMN_NAMES[column]), expected=expected, remedy=error.remedy
    )


def cells_of(segment: Segment, unit: TemperatureUnit) -> Cells:
    """Return a segment as a row in the unit of the screen."""
    fahrenheit = unit is TemperatureUnit.FAHRENHEIT
    rate, target = segment.rate_c_per_h, segment.target_c
    if fahrenheit:
        target = fahrenheit_from_celsius(target)
        rate = None if rate is None else fahrenheit_difference(rate)
    return (
        tr(FULL_WORD) if rate is None else _figure(rate),
        _figure(target),
        _hold(segment.hold_min),
    )


def _figure(number: float) -> str:
    return as_typed(f"{round(number, 1):.1f}".removesuffix(".0"))


def _hold(minutes: float) -> str:
    if minutes >= 60 and minutes == int(minutes):
        return f"{int(minutes) // 60}:{int(minutes) % 60:02d}"
    return _figure(minutes)


def converted(cells: Cells, before: TemperatureUnit, now: TemperatureUnit) -> Cells:
    """Return a row as typed in another unit; cells that make no sense stay as they are."""
    rate, target, hold = cells
    if rate:
        rate = _converted_cell((rate, "100", ""), before, now, RATE, rate)
    if target:
        target = _converted_cell(("100", target, ""), before, now, TARGET, target)
    return rate, target, hold


def _converted_cell(
    row: Cells, before: TemperatureUnit, now: TemperatureUnit, column: int, otherwise: str
) -> str:
    try:
        return cells_of(read_row(row, before), now)[column]
    except InputError:
        return otherwise


def rows_of(intended: Intended | None, unit: TemperatureUnit) -> list[Cells]:
    """Return a schedule as rows; none for a curve tied to the clock."""
    if intended is None or isinstance(intended, ClockCurve):
        return []
    return [cells_of(segment, unit) for segment in intended.segments]
