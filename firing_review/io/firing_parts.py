"""What belongs to one firing, file by file, and reading it all into one object."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from firing_review.firing.cones import ConeNumber
from firing_review.firing.errors import InputError
from firing_review.firing.log import ChannelRole, FiringLog, ReadingChoices
from firing_review.firing.said import N_
from firing_review.firing.sheet import Answers, Given, Picture, Readings
from firing_review.firing.units import TemperatureUnit, TimeUnit
from firing_review.firing.wording import tr
from firing_review.io.answers_table import read_answers, read_cone, read_readings
from firing_review.io.cones_file import note_lost_zeros, read_cones
from firing_review.io.kiln_sheet import KILN_KEYS, read_kiln
from firing_review.io.known_words import plain
from firing_review.io.log_csv import read_log_bytes
from firing_review.io.log_layout import DECIMAL_WORDS, DELIMITER_WORDS
from firing_review.io.log_workbook import as_text
from firing_review.io.notes_table import read_notes
from firing_review.io.plain_text import (
    SNIFF_BYTES,
    decode,
    read_any_file,
    read_file,
    refuse_what_is_no_text,
    table_rows,
)
from firing_review.io.schedule_file import read_schedule
from firing_review.io.tables import load_tables
from firing_review.io.toml_text import Sheet, Table, read_sheet

SHEET_NAME = "firing.toml"
SHEET_KEYS = (
    "title",
    "log",
    "schedule",
    "cones",
    "kiln",
    "goal_cone",
    "earlier",
    "answers",
    "readings",
    "log_unit",
    "log_day_first",
    "log_time_unit",
    "log_delimiter",
    "log_decimal",
    "log_run",
    "log_columns",
    "tolerance_cones",
    "pictures",
    "notes",
)
HEADER_AND_ONE_ROW = 2
"""Lines of a file that is too short for anything else about it to matter."""
_SHEET = N_("a firing sheet (TOML)")
_LOG = N_("the log of a firing as text (CSV)")
_LOG_REMEDY = N_("Export the log as CSV text and give that file.")


@dataclass(frozen=True)
class FiringParts:
    """The files of a firing and what its sheet says; everything but the log may be missing."""

    log: Path
    title: str = ""
    schedule: Path | None = None
    cones: Path | None = None
    kiln: Path | None = None
    goal_cone: ConeNumber | None = None
    earlier: tuple[Path, ...] = ()
    unit: TemperatureUnit | None = None
    tolerance_cones: float | None = None
    choices: ReadingChoices | None = None
    pictures: tuple[Path, ...] = ()
    sheet: Table | None = field(default=None, repr=False)


def parts_of(path: Path) -> FiringParts:
    """Return the parts of a log, a firing sheet or a folder with a firing sheet in it."""
    if path.is_dir():
        if not (path / SHEET_NAME).is_file():
            remedy = tr("Give the log itself, or a folder that has a {sheet_name}.").format(
                sheet_name=SHEET_NAME
            )
            raise InputError(
                str(path),
                tr("a folder with a {sheet_name}").format(sheet_name=SHEET_NAME),
                tr("none in it"),
                remedy,
            )
        return parts_of_sheet(path / SHEET_NAME)
    if path.suffix.lower() == ".toml":
        return parts_of_sheet(path)
    return FiringParts(log=path)


def parts_of_sheet(path: Path) -> FiringParts:
    """Return the parts that a firing sheet names; files are looked for beside the sheet."""
    sheet = read_sheet(path, tr(_SHEET))
    table = Table(sheet, sheet.values)
    _refuse_kiln_sheet(sheet)
    table.refuse_unknown(SHEET_KEYS)
    if "log" not in table.values:
        raise table.refuse("log", tr('a line log = "..."'), tr("Name the file of the log."))
    unit = table.word("log_unit", [u.value.lower() for u in TemperatureUnit])
    return FiringParts(
        log=path.parent / (table.text("log") or ""),
        title=table.text("title") or "",
        schedule=_beside(path, table.text("schedule")),
        cones=_beside(path, table.text("cones")),
        kiln=_beside(path, table.text("kiln")),
        goal_cone=read_cone(table, "goal_cone"),
        earlier=tuple(path.parent / name for name in table.texts("earlier") or ()),
        unit=TemperatureUnit(unit.upper()) if unit else None,
        tolerance_cones=table.number("tolerance_cones"),
        choices=_choices(table),
        pictures=tuple(path.parent / name for name in table.texts("pictures") or ()),
        sheet=table,
    )


def _choices(sheet: Table) -> ReadingChoices:
    """Return what the sheet says of how its log is to be read; firings count from 1 there."""
    columns, run = sheet.table("log_columns"), sheet.count("log_run")
    allowed = [role.value for role in ChannelRole]
    roles = {name: ChannelRole(columns.word(name, allowed) or "") for name in columns.values}
    time_unit = sheet.word("log_time_unit", list(TimeUnit))
    return ReadingChoices(
        day_first=sheet.flag("log_day_first"),
        roles=roles,
        run=None if run is None else run - 1,
        delimiter=_sign(sheet, "log_delimiter", DELIMITER_WORDS),
        decimal=_sign(sheet, "log_decimal", DECIMAL_WORDS),
        time_unit=TimeUnit(time_unit) if time_unit else None,
    )


def _sign(sheet: Table, key: str, words: Mapping[str, str]) -> str | None:
    word = sheet.word(key, list(words))
    return words[word] if word else None


def _beside(sheet: Path, name: str | None) -> Path | None:
    return sheet.parent / name if name else None


def _refuse_kiln_sheet(sheet: Sheet) -> None:
    only_kiln = set(KILN_KEYS) - set(SHEET_KEYS)
    if "log" not in sheet.values and only_kiln & set(sheet.values):
        remedy = tr("Open the log, or a firing sheet that names both.")
        raise InputError(sheet.where, tr(_SHEET), tr("a kiln sheet"), remedy)


def load(parts: FiringParts) -> Given:
    """Read every part of a firing.

    Raises
    ------
    InputError
        For the first file that cannot be used.
    """
    log = _read_log(parts)
    kiln = read_kiln(parts.kiln) if parts.kiln else None
    given = Given(
        log=log,
        title=parts.title,
        intended=read_schedule(parts.schedule) if parts.schedule else None,
        cones=read_cones(parts.cones, kiln) if parts.cones else (),
        kiln=kiln,
        goal_cone=parts.goal_cone,
        earlier=tuple(load_earlier(path, parts.unit) for path in parts.earlier),
        answers=read_answers(parts.sheet.table("answers"), kiln) if parts.sheet else Answers(),
        readings=read_readings(parts.sheet.table("readings"), kiln) if parts.sheet else Readings(),
    )
    if parts.sheet is not None:
        given = replace(given, notes=read_notes(parts.sheet))
    if parts.pictures:
        given = replace(given, pictures=tuple(_picture(path) for path in parts.pictures))
    if parts.tolerance_cones is not None:
        given = replace(given, tolerance_cones=parts.tolerance_cones)
    return note_lost_zeros(given, load_tables().cones) if given.cones else given


def _picture(path: Path) -> Picture:
    return Picture(path.name, read_any_file(path, tr("a picture")))


def _read_log(parts: FiringParts) -> FiringLog:
    data = read_file(parts.log, tr(_LOG))
    text = as_text(data, str(parts.log))
    refuse_what_is_no_text(text, str(parts.log), tr(_LOG), tr(_LOG_REMEDY))
    other = _other_table(text)
    if other:
        remedy = tr("Open the log, and give this file beside it.")
        raise InputError(str(parts.log), tr(_LOG), other, remedy)
    try:
        return read_log_bytes(data, parts.log.name, parts.unit, parts.choices)
    except InputError as error:
        error.where = str(parts.log)
        if len(table_rows(decode(text))) <= HEADER_AND_ONE_ROW:
            error.expected, error.found = tr(_LOG), tr("one row at most")
            error.remedy = tr("Export the whole firing from the logger.")
        raise


def _other_table(data: bytes) -> str | None:
    """Return what a file is that was taken for a log."""
    rows = table_rows(decode(data[:SNIFF_BYTES]))[:1]
    names = {plain(cell) for row in rows for cell in row.cells}
    if names & {"rate_c_per_h", "rate_f_per_h"}:
        return tr("a schedule")
    return tr("a table of witness cones") if {"shelf", "bend_deg"} <= names else None


def load_earlier(path: Path, unit: TemperatureUnit | None) -> Given:
    """Read an earlier firing; a firing before that one would tell nothing more.

    ``unit`` is that of the firing it is compared with, for a log that does not say its own.

    Raises
    ------
    InputError
        One clear line for the first file that cannot be used.
    """
    parts = replace(parts_of(path), earlier=())
    return load(parts if parts.unit else replace(parts, unit=unit))
