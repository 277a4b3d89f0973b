"""Where the program keeps its own state: preferences, kept schedules, the recovery file."""

import os
import sys
from pathlib import Path

from PySide6.QtCore import QStandardPaths

HOME_VARIABLE = "FIRING_REVIEW_HOME"
BESIDE_PROGRAM = "firing-review-home"


def state_folder() -> Path:
    """Return the folder of the program's own state, made if it is not there yet.

    ``FIRING_REVIEW_HOME`` comes first; then a folder beside a stand-alone program, if there is
    one; then the platform's place for a user's application data.
    """
    folder = _chosen()
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def _chosen() -> Path:
    named = os.environ.get(HOME_VARIABLE)
    if named:
        return Path(named).expanduser()
    beside = Path(sys.executable).parent / BESIDE_PROGRAM
    if getattr(sys, "frozen", False) and beside.is_dir():
        return beside
    place = QStandardPaths.StandardLocation.GenericDataLocation
    return Path(QStandardPaths.writableLocation(place)) / "firing-review"
