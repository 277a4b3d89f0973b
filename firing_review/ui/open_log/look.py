"""How a file would be read, as a person is shown it; no Qt, so that another process can look."""

from dataclasses import dataclass, replace

from firing_review.firing.errors import InputError
from firing_review.firing.log import FiringLog, ReadingChoices
from firing_review.firing.wording import tr
from firing_review.io.log_csv import read_log_bytes
from firing_review.io.log_preview import LogPreview, preview_log
from firing_review.ui.open_log.open_questions import Open, open_questions
from firing_review.ui.open_log.rows import shown_rows
from firing_review.ui.side_process import Tell

POINTS = 1200
"""More points than a small picture has columns are not to be seen."""


@dataclass(frozen=True, eq=False)
class Look:
    """A file as these choices read it.

    Attributes
    ----------
    asked : Open
        What a person has to settle.
    log : FiringLog, optional
        The log in outline, none if it cannot be read so.
    wrong : str
        What stands in the way of using it so; empty if nothing does.
    names, rows : list
        Names of the columns, and the first rows under them.
    """

    choices: ReadingChoices
    seen: LogPreview
    asked: Open
    log: FiringLog | None
    wrong: str
    names: list[str]
    rows: list[tuple[str, ...]]

    @property
    def is_usable(self) -> bool:
        """Whether the file can be opened so."""
        return not self.wrong and not self.asked


def look_at(_tell: Tell, raw: bytes, source: str, choices: ReadingChoices) -> Look:
    """Return how a file is read with these choices.

    Raises
    ------
    InputError
        If it cannot be read as a log at all.
    """
    seen = preview_log(raw, source, choices)
    asked = open_questions(seen)
    day_first = choices.day_first
    if day_first is None and asked.order:
        day_first = "day first" in seen.time_form
    log, wrong = _read(raw, source, replace(choices, unit=seen.unit, day_first=day_first))
    outline = None if log is None else _outline(log)
    return Look(choices, seen, asked, outline, wrong, *shown_rows(seen, log))


def _read(raw: bytes, source: str, choices: ReadingChoices) -> tuple[FiringLog | None, str]:
    """Return the log as it would be read, and what is wrong with it."""
    try:
        log = read_log_bytes(raw, source, choices=choices)
    except InputError as error:
        return None, str(error)
    if not log.temperatures:
        return log, tr("Say which column is the chamber or a section of the kiln.")
    return log, ""


def _outline(log: FiringLog) -> FiringLog:
    """Return a log with so many rows as are to be seen, without its file."""
    every = max(1, log.rows // POINTS)
    channels = tuple(replace(one, values=one.values[::every].copy()) for one in log.channels)
    return replace(log, elapsed_h=log.elapsed_h[::every].copy(), channels=channels, raw=b"")
