"""A schedule as a small table: rate, target, hold; or a curve tied to the clock.

``rate_c_per_h,target_c,hold_min`` (or ``_f``), one row a segment; the rate may be ``full`` and its
sign is ignored, because the target decides up or down; a hold is minutes or ``h:mm``.
Or ``time_min,temperature_c`` (or ``_f``), counted from the found start of the firing.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from firing_review.firing.errors import InputError
from firing_review.firing.said import N_
from firing_review.firing.schedule import ClockCurve, Intended, Schedule, Segment
from firing_review.firing.units import (
    TemperatureUnit,
    celsius_difference,
    celsius_from_fahrenheit,
    fahrenheit_difference,
    fahrenheit_from_celsius,
)
from firing_review.firing.wording import tr
from firing_review.io.csv_cells import guarded, unguarded
from firing_review.io.known_words import did_you_mean, plain
from firing_review.io.plain_text import Row, parse_number, read_small_text, table_rows
from firing_review.io.whole_file import write_whole

TOP_LIMIT_C = 1800.0
"""Above this no electric kiln for ceramics or glass goes [°C]; a higher target is a slip."""
BOTTOM_LIMIT_C = -40.0
"""Below this no room is where a kiln stands [°C]."""
FULL = "full"

_EXPECTED = N_("a schedule as a table of text (CSV)")
_REMEDY = N_("Begin with the line rate_c_per_h,target_c,hold_min, then one line a segment.")
_UNITS = {"c": TemperatureUnit.CELSIUS, "f": TemperatureUnit.FAHRENHEIT}
_SEGMENT_COLUMNS = ("rate_c_per_h", "rate_f_per_h", "target_c", "target_f", "hold_min")
_CLOCK_COLUMNS = ("time_min", "temperature_c", "temperature_f")
_WITHOUT_UNIT = {"rate": "rate", "target": "target", "hold": "hold", "temperature": "temperature"}


@dataclass(frozen=True)
class _Column:
    """Where a quantity stands in each row, and in which unit."""

    index: int
    unit: TemperatureUnit
    name: str


@dataclass(frozen=True)
class _Place:
    """A cell and where it is, for reading it or refusing it."""

    text: str
    where: str
    line: int
    column: int

    def refuse(self, expected: str, remedy: str) -> InputError:
        found = repr(self.text) if self.text else tr("nothing")
        return InputError(self.where, expected, found, remedy, self.line, self.column)


def read_schedule(path: Path) -> Intended:
    """Read a schedule file; its name is that of the file unless a line ``# name: ...`` says it."""
    text = read_small_text(
        path, tr(_EXPECTED), tr("Save the schedule as CSV text.") + " " + tr(_REMEDY)
    )
    return _named(parse_schedule_text(text, str(path)), _name_in(text) or path.stem)


def parse_schedule_text(text: str, where: str, unit: TemperatureUnit | None = None) -> Intended:
    """Read a schedule from text, as in a file or as pasted from a spreadsheet.

    Parameters
    ----------
    where : str
        What to call the text in an error: a file, or "pasted rows".
    unit : TemperatureUnit, optional
        Unit of rows that come without a header line, or whose header names no unit.

    Raises
    ------
    InputError
        With line and column of the first cell that cannot be read.
    """
    rows = table_rows(text)
    if not rows:
        raise InputError(where, tr(_EXPECTED), tr("no rows"), tr(_REMEDY))
    if not _is_header(rows[0]):
        return _rows_without_header(rows, where, unit)
    columns = _columns(rows[0], where, unit)
    if len(rows) == 1:
        remedy = tr("Add one line a segment below the header.")
        raise InputError(
            where, tr("at least one row below the header"), tr("none"), remedy, rows[0].line
        )
    name = _name_in(text)
    if "time" in columns:
        return ClockCurve(*_clock_points(rows[1:], columns, where), name=name)
    return Schedule(tuple(_segment(row, columns, where) for row in rows[1:]), name)


def _usual_columns(unit: TemperatureUnit) -> Mapping[str, _Column]:
    end = unit.value.lower()
    names = {"rate": f"rate_{end}_per_h", "target": f"target_{end}", "hold": "hold_min"}
    return {key: _Column(i, unit, name) for i, (key, name) in enumerate(names.items())}


def _rows_without_header(
    rows: Sequence[Row], where: str, unit: TemperatureUnit | None
) -> Schedule:
    if unit is None:
        found = repr(",".join(rows[0].cells))
        raise InputError(
            where, tr("a header line with the units"), found, tr(_REMEDY), rows[0].line
        )
    columns = _usual_columns(unit)
    return Schedule(tuple(_segment(row, columns, where) for row in rows))


def _is_header(row: Row) -> bool:
    known = {plain(name) for name in (*_SEGMENT_COLUMNS, *_CLOCK_COLUMNS, *_WITHOUT_UNIT)}
    words = [plain(cell) for cell in row.cells if cell]
    if any(word in known for word in words):
        return True
    return bool(words) and all(re.match(r"[a-z]{2}", word) and word != FULL for word in words)


def _columns(header: Row, where: str, unit: TemperatureUnit | None) -> Mapping[str, _Column]:
    found: dict[str, _Column] = {}
    for index, cell in enumerate(header.cells):
        if not cell:
            continue
        key, column = _column(_Place(cell, where, header.line, index + 1), unit)
        if key in found:
            raise _Place(cell, where, header.line, index + 1).refuse(
                tr("one {key} column").format(key=key), tr("Keep one of the two columns.")
            )
        found[key] = column
    clock = "time" in found or "temperature" in found
    for key in ("time", "temperature") if clock else ("rate", "target"):
        if key not in found:
            names = _CLOCK_COLUMNS if clock else _SEGMENT_COLUMNS
            expected = tr("a column {names}").format(
                names=_either(n for n in names if n.startswith(key))
            )
            raise InputError(
                where, expected, repr(",".join(header.cells)), tr(_REMEDY), header.line
            )
    if clock and len(found) > 2:
        expected = tr("either time and temperature, or rate, target and hold")
        raise InputError(where, expected, repr(",".join(header.cells)), tr(_REMEDY), header.line)
    return found


def _column(place: _Place, unit: TemperatureUnit | None) -> tuple[str, _Column]:
    name = plain(place.text)
    known = (*_SEGMENT_COLUMNS, *_CLOCK_COLUMNS)
    index = place.column - 1
    if name in known:
        key = name.split("_")[0]
        found = re.search(r"_([cf])(_|$)", name)
        return key, _Column(index, _UNITS[found[1]] if found else TemperatureUnit.CELSIUS, name)
    if name in _WITHOUT_UNIT and (unit is not None or name == "hold"):
        return name, _Column(index, unit or TemperatureUnit.CELSIUS, name)
    if name in _WITHOUT_UNIT:
        names = _either(n for n in known if n.startswith(name))
        raise place.refuse(
            tr("a column name with its unit"), tr("Write {names}.").format(names=names)
        )
    raise place.refuse(
        tr("a column of a schedule"),
        did_you_mean(name, known, tr("Known columns: {known}.").format(known=", ".join(known))),
    )


def _place(row: Row, column: _Column, where: str) -> _Place:
    return _Place(row.cell(column.index), where, row.line, column.index + 1)


def _segment(row: Row, columns: Mapping[str, _Column], where: str) -> Segment:
    last = max(column.index for column in columns.values())
    extra = next((i for i in range(last + 1, len(row.cells)) if row.cells[i]), None)
    if extra is not None:
        place = _Place(row.cells[extra], where, row.line, extra + 1)
        raise place.refuse(
            tr("{count} cells in a row").format(count=len(columns)),
            tr("Remove it; with commas between cells write decimals with a point."),
        )
    rate, target = columns["rate"], columns["target"]
    hold = columns.get("hold")
    return Segment(
        rate_c_per_h=_rate(_place(row, rate, where), rate),
        target_c=_temperature(_place(row, target, where), target),
        hold_min=_hold(_place(row, hold, where)) if hold else 0.0,
    )


def _rate(place: _Place, column: _Column) -> float | None:
    if plain(place.text) == FULL:
        return None
    expected = tr("degrees {value} per hour, or full ({name})").format(
        value=column.unit.value, name=column.name
    )
    number = _number(place, column, expected)
    if number == 0.0:
        raise place.refuse(
            expected, tr("A rate of 0 never arrives: write full, or a rate above 0.")
        )
    magnitude = abs(number)
    return celsius_difference(magnitude) if _fahrenheit(column) else magnitude


def _temperature(place: _Place, column: _Column) -> float:
    number = _number(place, column, f"a temperature in °{column.unit.value} ({column.name})")
    celsius = celsius_from_fahrenheit(number) if _fahrenheit(column) else number
    if not BOTTOM_LIMIT_C <= celsius <= TOP_LIMIT_C:
        top = fahrenheit_from_celsius(TOP_LIMIT_C) if _fahrenheit(column) else TOP_LIMIT_C
        remedy = tr("Check the number; {text} °{value} is beyond any kiln.").format(
            text=place.text, value=column.unit.value
        )
        if not _fahrenheit(column) and number <= fahrenheit_from_celsius(TOP_LIMIT_C):
            remedy = tr("Check the number; if it is in °F, name the column {column}f.").format(
                column=column.name[:-1]
            )
        raise place.refuse(
            tr("a temperature up to {top:.0f} °{value}").format(top=top, value=column.unit.value),
            remedy,
        )
    return celsius


def _number(place: _Place, column: _Column, expected: str) -> float:
    text = re.sub(
        rf"\s*°?\s*{column.unit.value}?\s*(/\s*h)?$", "", place.text, flags=re.IGNORECASE
    )
    number = parse_number(text)
    if number is None:
        remedy = tr("Write a plain number, for instance 1000.")
        if re.fullmatch(r"\s*[+-]?\d{1,3}(,\d{3})+\s*", text):
            remedy = tr("It can mean thousands or decimals: write it without the comma.")
        raise place.refuse(expected, remedy)
    return number


def _fahrenheit(column: _Column) -> bool:
    return column.unit is TemperatureUnit.FAHRENHEIT


def _hold(place: _Place) -> float:
    expected = tr("a hold in minutes or as h:mm (hold_min)")
    if not place.text:
        return 0.0
    clock = re.fullmatch(r"(\d{1,3}):([0-5]?\d)(?::([0-5]\d))?", place.text)
    if clock:
        return int(clock[1]) * 60.0 + int(clock[2]) + int(clock[3] or 0) / 60.0
    minutes = parse_number(re.sub(r"\s*min$", "", place.text, flags=re.IGNORECASE))
    if minutes is None or minutes < 0.0:
        raise place.refuse(expected, tr("Write for instance 30 or 0:30."))
    return minutes


def _clock_points(
    rows: Sequence[Row], columns: Mapping[str, _Column], where: str
) -> tuple[tuple[float, ...], tuple[float, ...]]:
    times: list[float] = []
    temperatures: list[float] = []
    for row in rows:
        place = _place(row, columns["time"], where)
        minutes = parse_number(place.text)
        if minutes is None or (times and minutes / 60.0 <= times[-1]):
            raise place.refuse(
                tr("minutes from the start, later than the row above"), tr("Mend the row.")
            )
        times.append(minutes / 60.0)
        temperature = columns["temperature"]
        temperatures.append(_temperature(_place(row, temperature, where), temperature))
    if len(times) < 2:
        remedy = tr("Add the points of the curve, one a line.")
        raise InputError(
            where, tr("a curve of at least two rows"), tr("one row"), remedy, rows[0].line
        )
    return tuple(times), tuple(temperatures)


def _either(names: Iterable[str]) -> str:
    return f" {tr('or')} ".join(names)


def _name_in(text: str) -> str:
    found = re.search(r"^\s*#\s*name:\s*(.*?)\s*$", text, flags=re.MULTILINE)
    return unguarded(found[1]) if found else ""


def _named(intended: Intended, name: str) -> Intended:
    if isinstance(intended, Schedule):
        return Schedule(intended.segments, name)
    return ClockCurve(intended.time_h, intended.temperature_c, name)


def write_schedule(path: Path, schedule: Intended, unit: TemperatureUnit) -> None:
    """Write a schedule so that :func:`read_schedule` gives it back.

    Raises
    ------
    InputError
        If it cannot be written.
    """
    write_whole(path, schedule_text(schedule, unit).encode())


def schedule_text(schedule: Intended, unit: TemperatureUnit) -> str:
    """Return the text of a schedule file; a name stands in a comment at its top."""
    name = [f"# name: {guarded(' '.join(schedule.name.split()))}"] if schedule.name else []
    end = unit.value.lower()
    if isinstance(schedule, ClockCurve):
        lines = [f"time_min,temperature_{end}"]
        lines += [
            f"{_figure(hour * 60.0)},{_shown(celsius, unit)}"
            for hour, celsius in zip(schedule.time_h, schedule.temperature_c, strict=True)
        ]
    else:
        lines = [f"rate_{end}_per_h,target_{end},hold_min"]
        lines += [
            f"{_shown_rate(s.rate_c_per_h, unit)},{_shown(s.target_c, unit)},{_exact(s.hold_min)}"
            for s in schedule.segments
        ]
    return "\n".join([*name, *lines]) + "\n"


def exact_schedule_text(schedule: Intended) -> str:
    """Return the text that reads back to the same numbers: in °F where °C would be crooked."""
    in_fahrenheit = schedule_text(schedule, TemperatureUnit.FAHRENHEIT)
    in_celsius = schedule_text(schedule, TemperatureUnit.CELSIUS)
    if len(in_fahrenheit) >= len(in_celsius):
        return in_celsius
    back = _named(parse_schedule_text(in_fahrenheit, "schedule"), schedule.name)
    return in_fahrenheit if back == schedule else in_celsius


def _shown_rate(rate_c_per_h: float | None, unit: TemperatureUnit) -> str:
    if rate_c_per_h is None:
        return FULL
    if unit is TemperatureUnit.FAHRENHEIT:
        return _figure(fahrenheit_difference(rate_c_per_h))
    return _exact(rate_c_per_h)


def _shown(celsius: float, unit: TemperatureUnit) -> str:
    if unit is TemperatureUnit.FAHRENHEIT:
        return _figure(fahrenheit_from_celsius(celsius))
    return _exact(celsius)


def _figure(number: float) -> str:
    """Return a converted number free of the dust of conversion."""
    return _exact(round(number, 9))


def _exact(number: float) -> str:
    return repr(float(number)).removesuffix(".0")
