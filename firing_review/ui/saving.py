"""A schedule, or all of a firing, written where the person says."""

from collections.abc import Callable
from functools import partial
from pathlib import Path

from PySide6.QtWidgets import QWidget

from firing_review.firing.errors import FiringReviewError
from firing_review.firing.schedule import Schedule
from firing_review.firing.units import TemperatureUnit
from firing_review.io.schedule_file import write_schedule
from firing_review.ui.ask import Questions
from firing_review.ui.tools import Tools


def save_schedule(
    parent: QWidget,
    questions: Questions,
    schedule: Schedule,
    suggested: str,
    unit: TemperatureUnit,
) -> FiringReviewError | None:
    """Ask for a name and write a schedule; return what went wrong, if anything did."""
    path = questions.file_to_save(parent, suggested)
    if path is None:
        return None
    try:
        write_schedule(path, schedule, unit)
    except FiringReviewError as error:
        return error
    return None


def save_folder(
    parent: QWidget, tools: Tools, refused: Callable[[FiringReviewError], None]
) -> None:
    """Ask for a name and write what is open as a firing folder; tell what goes wrong."""
    review = tools.sitting.review
    if review is None:
        return
    name = review.given.title or Path(review.given.log.source).stem
    suggested = tools.preferences.last_folder / file_name(name)
    folder = tools.questions.folder_to_save(parent, suggested)
    if folder is not None:
        tools.sitting.save_as_folder(folder, partial(tools.preferences.remember, folder), refused)


def file_name(title: str) -> str:
    """Return a title as a name any file system takes."""
    kept = "".join(sign if sign.isalnum() or sign in " -_." else "-" for sign in title)
    return kept.strip(" .") or "firing"
