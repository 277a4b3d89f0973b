"""What a file that was dropped or chosen is, and how to take it in."""

from dataclasses import dataclass
from pathlib import Path

from firing_review.firing.errors import InputError
from firing_review.firing.log import ReadingChoices
from firing_review.firing.said import N_, Said
from firing_review.firing.sheet import Given
from firing_review.firing.units import TemperatureUnit
from firing_review.firing.wording import tr
from firing_review.io.cones_file import read_cones
from firing_review.io.firing_parts import SHEET_NAME
from firing_review.io.kiln_sheet import read_kiln
from firing_review.io.open_any import LOG_ENDINGS, gather
from firing_review.io.schedule_file import read_schedule
from firing_review.review.edits import Edit, set_cones, set_kiln, set_schedule
from firing_review.ui.side_process import Tell

ENDINGS = (*LOG_ENDINGS, ".toml")
SMALL_BYTES = 64_000
"""Schedules, cones and kiln sheets are typed by hand; anything larger is a log."""


@dataclass(frozen=True)
class Sorted:
    """Paths dropped together: what to open, logs that go on where it ends, what belongs beside."""

    firing: Path | None
    beside: tuple[Path, ...]
    more: tuple[Path, ...] = ()


def is_bare_folder(path: Path) -> bool:
    """Tell whether a path is a folder of files without a sheet that says what they are.

    A folder that cannot be looked into is none: it is refused where it is read.
    """
    try:
        names = {one.name for one in path.iterdir()} if path.is_dir() else {SHEET_NAME}
    except OSError:
        return False
    return SHEET_NAME not in names


def sort_paths(tell: Tell, paths: list[Path]) -> Sorted:
    """Tell the log or sheet from the schedules, cones and kiln sheets dropped with it.

    The files of a folder without a sheet count as dropped together; raises InputError where it has
    several logs, for nothing says which of them is of this firing.
    """
    folder = next(filter(is_bare_folder, paths), None)
    files = [one for path in paths for one in _files_in(path)]
    beside: tuple[Path, ...] = ()
    firings: list[Path] = []
    for number, path in enumerate(files):
        tell(number / len(files), Said(N_("Reading {name}"), {"name": path.name}))
        if is_beside(path):
            beside = (*beside, path)
        else:
            firings.append(path)
    logs = [path for path in firings if path.is_file() and path.suffix.lower() != ".toml"]
    if folder is not None and len(logs) > 1:
        raise _several_logs(folder, len(logs))
    if len(logs) < len(firings):
        return Sorted(firings[0], beside)
    return Sorted(logs[0] if logs else None, beside, tuple(logs[1:]))


def _files_in(path: Path) -> list[Path]:
    """Return what a folder without a sheet is made of; any other path stays itself."""
    if not is_bare_folder(path):
        return [path]
    return [one for one in sorted(path.iterdir()) if one.suffix.lower() in ENDINGS] or [path]


def _several_logs(folder: Path, count: int) -> InputError:
    return InputError(
        str(folder),
        tr("one log, or a {sheet_name} that says which").format(sheet_name=SHEET_NAME),
        tr("{count} logs").format(count=count),
        tr("Open one of them, or bring the folder into a kiln book."),
    )


def is_beside(path: Path) -> bool:
    """Tell whether a file is a schedule, a table of cones or a kiln sheet."""
    return any(_reads(reader, path) for reader in (_schedule, _cones, _kiln))


def edit_from(path: Path, given: Given) -> Edit | None:
    """Return the edit that takes a schedule, cones or a kiln sheet into the firing."""
    if _reads(_schedule, path):
        return set_schedule(read_schedule(path))
    if _reads(_kiln, path):
        return set_kiln(read_kiln(path))
    if _reads(_cones, path):
        return set_cones(read_cones(path, given.kiln))
    return None


def read_firing(
    path: Path, unit: TemperatureUnit | None = None, choices: ReadingChoices | None = None
) -> Given:
    """Read a log, a firing sheet or a folder; raises InputError with the next step."""
    return gather(path, unit=unit, choices=choices)


def _reads(reader: object, path: Path) -> bool:
    if not path.is_file() or path.stat().st_size > SMALL_BYTES or not callable(reader):
        return False
    try:
        reader(path)
    except (InputError, OSError):
        return False
    return True


def _schedule(path: Path) -> object:
    return read_schedule(path)


def _kiln(path: Path) -> object:
    return read_kiln(path) if path.suffix.lower() == ".toml" else _refuse(path)


def _cones(path: Path) -> object:
    return read_cones(path, None)


def _refuse(path: Path) -> None:
    raise InputError(str(path), "", "", "")
