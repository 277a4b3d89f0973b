"""A schedule written where the person says."""

from PySide6.QtWidgets import QWidget

from firing_review.firing.errors import FiringReviewError, InputError
from firing_review.firing.schedule import Schedule
from firing_review.firing.units import TemperatureUnit
from firing_review.firing.wording import tr
from firing_review.io.schedule_file import write_schedule
from firing_review.ui.ask import Questions


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
    except OSError as error:
        reason = error.strerror or str(error)
        remedy = tr("Choose another place.")
        return InputError(str(path), tr("a place to write to"), reason, remedy)
    return None
