"""Where the program keeps its own state: preferences, kept schedules, the recovery file."""

import os
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from PySide6.QtCore import QStandardPaths

from firing_review.firing.errors import InputError
from firing_review.firing.wording import tr

HOME_VARIABLE = "FIRING_REVIEW_HOME"
BESIDE_PROGRAM = "firing-review-home"
PASSING = "firing-review-"
"""How the folder begins that is used where nothing can be kept."""


def state_folder() -> Path:
    """Return the folder of the program's own state, made if it is not there yet.

    ``FIRING_REVIEW_HOME`` comes first; then a folder beside a stand-alone program, if there is
    one; then the platform's place for a user's application data. A place that cannot be written
    to is passed over; the last is a new folder among the system's passing files, so that the
    window opens on any computer; :func:`not_kept` says so.
    """
    for folder in _places():
        if _can_be_written(folder):
            return folder
    return Path(tempfile.mkdtemp(prefix=PASSING))


def not_kept(folder: Path) -> InputError | None:
    """Return what to tell the person if ``folder`` is not where the state was meant to be."""
    wanted = next(_places())
    if folder == wanted:
        return None
    remedy = tr(
        "Preferences and what is not yet saved lie in {folder} this time. "
        "Save as a firing folder what you want to keep."
    )
    return InputError(
        str(wanted),
        tr("a place to write to"),
        tr("one that cannot be written to"),
        remedy.format(folder=folder),
    )


def _places() -> Iterator[Path]:
    named = os.environ.get(HOME_VARIABLE)
    if named:
        yield Path(os.path.expanduser(named))  # noqa: PTH111 - the other form fails without a home
    beside = Path(sys.executable).parent / BESIDE_PROGRAM
    if getattr(sys, "frozen", False) and beside.is_dir():
        yield beside
    place = QStandardPaths.StandardLocation.GenericDataLocation
    yield Path(QStandardPaths.writableLocation(place)) / "firing-review"


def _can_be_written(folder: Path) -> bool:
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=folder):
            return True
    except OSError:
        return False
