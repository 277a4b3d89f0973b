"""A schedule, or all of a firing, written where the person says."""

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


def save_folder(parent: QWidget, tools: Tools) -> FiringReviewError | None:
    """Ask for a name and write what is open as a firing folder; return what went wrong, if any."""
    review = tools.sitting.review
    if review is None:
        return None
    name = review.given.title or Path(review.given.log.source).stem
    suggested = tools.preferences.last_folder / file_name(name)
    folder = tools.questions.folder_to_save(parent, suggested)
    if folder is None:
        return None
    try:
        tools.sitting.save_as_folder(folder)
    except FiringReviewError as error:
        return error
    tools.preferences.remember(folder)
    return None


def file_name(title: str) -> str:
    """Return a title as a name any file system takes."""
    kept = "".join(sign if sign.isalnum() or sign in " -_." else "-" for sign in title)
    return kept.strip(" .") or "firing"
