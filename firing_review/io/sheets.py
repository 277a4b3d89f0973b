"""Kiln sheets and firing sheets, and a whole firing as a folder."""

import contextlib
import re
import shutil
import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path, PurePath

from firing_review.firing.errors import InputError
from firing_review.firing.log import FiringLog, ReadingChoices
from firing_review.firing.remembered import remembered
from firing_review.firing.said import N_
from firing_review.firing.sheet import Given
from firing_review.firing.units import TemperatureUnit
from firing_review.firing.wording import tr
from firing_review.io.answers_table import answers_lines, readings_lines
from firing_review.io.cones_file import cones_text
from firing_review.io.firing_parts import SHEET_NAME, load, parts_of_sheet
from firing_review.io.kiln_sheet import kiln_text, read_kiln
from firing_review.io.log_csv import read_log_bytes
from firing_review.io.log_layout import DECIMAL_WORDS, DELIMITER_WORDS
from firing_review.io.notes_table import notes_lines
from firing_review.io.schedule_file import exact_schedule_text
from firing_review.io.toml_text import toml_lines
from firing_review.io.whole_file import write_whole

__all__ = [
    "firing_files",
    "kiln_text",
    "read_firing_files",
    "read_firing_sheet",
    "read_kiln",
    "write_firing_folder",
]
_NO_FILE_NAME = re.compile(r'[<>:"|?*\x00-\x1f]')
"""Signs that some systems refuse in a file name."""
SCHEDULE_NAME, CONES_NAME, KILN_NAME = "schedule.csv", "cones.csv", "kiln.toml"
_CHOOSE = N_("Choose a folder you may write to, with room left.")
PICTURES = "pictures"
"""Folder of the pictures kept with a firing."""
USUAL_TOLERANCE_CONES = Given.__dataclass_fields__["tolerance_cones"].default


def read_firing_sheet(path: Path) -> Given:
    """Read a firing sheet and every file it names.

    Raises
    ------
    InputError
        One clear line for the first thing that cannot be used.
    """
    return load(parts_of_sheet(path))


def read_firing_files(files: Mapping[str, bytes]) -> Given:
    """Read back what :func:`firing_files` returned, from wherever the bytes were kept.

    Raises
    ------
    InputError
        If they do not read.
    """
    with tempfile.TemporaryDirectory() as folder:
        for name, data in files.items():
            target = Path(folder) / name
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(data)
        return read_firing_sheet(Path(folder) / SHEET_NAME)


def write_firing_folder(given: Given, folder: Path) -> Path:
    """Write a firing as a folder that reads back to the same; return its sheet.

    The log is written byte for byte as it was.

    Raises
    ------
    InputError
        If the folder holds something already, or cannot be written.
    """
    there = _is_there_and_empty(folder)
    try:
        for name, data in firing_files(given).items():
            write_whole(folder / name, data, tr(_CHOOSE))
    except BaseException:
        with contextlib.suppress(OSError):
            _empty(folder, there=there)
        raise
    return folder / SHEET_NAME


def _is_there_and_empty(folder: Path) -> bool:
    try:
        there = folder.exists()
        full = there and (not folder.is_dir() or any(folder.iterdir()))
    except OSError as error:
        found = error.strerror or str(error)
        raise InputError(str(folder), tr("a new or empty folder"), found, tr(_CHOOSE)) from None
    if full:
        remedy = tr("Choose another name; nothing that is there is written over.")
        raise InputError(
            str(folder), tr("a new or empty folder"), tr("one with files in it"), remedy
        )
    return there


def _empty(folder: Path, *, there: bool) -> None:
    """Take away what was begun, so that the same name can be tried again."""
    for path in folder.iterdir() if folder.is_dir() else ():
        shutil.rmtree(path, ignore_errors=True) if path.is_dir() else path.unlink()
    if not there and folder.is_dir():
        folder.rmdir()


def firing_files(given: Given, *, tell_unit: bool = False) -> Mapping[str, bytes]:
    """Return the files of a firing folder by name, the sheet last.

    Names of earlier firings have a folder before them, with a forward slash. With ``tell_unit``
    the unit of a log is written whether its file says it or not; no log is then read anew.
    """
    files = {_log_name(given.log): given.log.raw}
    if given.intended is not None:
        files[SCHEDULE_NAME] = exact_schedule_text(given.intended).encode()
    if given.cones:
        files[CONES_NAME] = cones_text(given.cones).encode()
    if given.kiln is not None:
        files[KILN_NAME] = kiln_text(given.kiln).encode()
    earlier = []
    for number, one in enumerate(given.earlier, start=1):
        below = firing_files(one, tell_unit=True) if tell_unit else _earlier_files(one)
        folder = f"earlier_{number}"
        files |= {f"{folder}/{name}": data for name, data in below.items()}
        earlier.append(f"{folder}/{list(below)[-1]}")
    files |= {f"{PICTURES}/{picture.name}": picture.data for picture in given.pictures}
    files[SHEET_NAME] = _sheet_text(given, earlier, tell_unit=tell_unit).encode()
    return files


def _earlier_files(given: Given) -> Mapping[str, bytes]:
    """Return the files of an earlier firing; the log alone where there is no more to say."""
    files = firing_files(given)
    bare = replace(given.log, choices=ReadingChoices())
    bare_text = _sheet_text(Given(bare), (), tell_unit=True)
    lone = len(files) == 2 and _sheet_text(given, (), tell_unit=True) == bare_text
    if lone and _unit_to_tell(given.log) is None:
        return {_log_name(given.log): given.log.raw}
    return files


def _log_name(log: FiringLog) -> str:
    name = _NO_FILE_NAME.sub("_", PurePath(log.source.replace("\\", "/")).name)
    taken = {SHEET_NAME, SCHEDULE_NAME, CONES_NAME, KILN_NAME}
    if name.lower() in taken or name.lower().endswith(".toml") or not name.strip(". "):
        return f"log {name}.csv" if name.strip(". ") else "log.csv"
    return name


def _sheet_text(given: Given, earlier: Sequence[str], *, tell_unit: bool = False) -> str:
    choices = given.log.choices
    unit = given.log.unit_read if tell_unit else _unit_to_tell(given.log)
    usual = given.tolerance_cones == USUAL_TOLERANCE_CONES
    values = {
        "title": given.title or None,
        "log": _log_name(given.log),
        "log_unit": unit.value if unit else None,
        "log_day_first": choices.day_first,
        "log_time_unit": choices.time_unit.value if choices.time_unit else None,
        "log_delimiter": _word(choices.delimiter, DELIMITER_WORDS),
        "log_decimal": _word(choices.decimal, DECIMAL_WORDS),
        "log_run": None if choices.run is None else choices.run + 1,
        "schedule": SCHEDULE_NAME if given.intended is not None else None,
        "cones": CONES_NAME if given.cones else None,
        "kiln": KILN_NAME if given.kiln is not None else None,
        "goal_cone": given.goal_cone.text if given.goal_cone else None,
        "tolerance_cones": None if usual else given.tolerance_cones,
        "earlier": list(earlier) or None,
        "pictures": [f"{PICTURES}/{picture.name}" for picture in given.pictures] or None,
    }
    roles = {name: role.value for name, role in choices.roles.items()}
    lines = [
        *toml_lines(values),
        *(["", "[log_columns]", *toml_lines(roles)] if roles else []),
        *answers_lines(given.answers),
        *readings_lines(given.readings),
        *notes_lines(given.notes),
    ]
    return "\n".join(lines) + "\n"


def _word(sign: str | None, words: Mapping[str, str]) -> str | None:
    return next((word for word, one in words.items() if one == sign), None)


def _unit_to_tell(log: FiringLog) -> TemperatureUnit | None:
    """Return the unit a person settled, or the one that the file does not say by itself."""
    if log.choices.unit is not None:
        return log.choices.unit
    found = _unit_found(log)
    return None if found is log.unit_read else log.unit_read


@remembered
def _unit_found(log: FiringLog) -> TemperatureUnit | None:
    """Return the unit in which the file is read where nobody says one."""
    try:
        return read_log_bytes(log.raw, _log_name(log)).unit_read
    except InputError:
        return None
