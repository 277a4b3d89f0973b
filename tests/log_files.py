"""Logs written out in a test, read as a file would be."""

from firing_review.firing.log import ChannelRole, FiringLog
from firing_review.io.log_csv import ReadingChoices, read_log_bytes


def read(text: str | bytes, **choices: object) -> FiringLog:
    raw = text.encode("utf-8") if isinstance(text, str) else text
    return read_log_bytes(raw, "log.csv", choices=ReadingChoices(**choices))


def chamber(log: FiringLog) -> list[float]:
    channel = log.first(ChannelRole.CHAMBER)
    assert channel is not None, [(c.name, c.role) for c in log.channels]
    return channel.values.round(3).tolist()


def minutes(log: FiringLog) -> list[float]:
    return (60.0 * log.elapsed_h).round(4).tolist()


def said(log: FiringLog) -> set[str]:
    return {note.kind for note in log.notes}
