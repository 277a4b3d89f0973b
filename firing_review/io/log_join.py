"""One firing in two files, as after a restart of the logger."""

from dataclasses import replace

import numpy as np

from firing_review.firing.errors import InputError
from firing_review.firing.log import Channel, FiringLog, ReadingNote
from firing_review.firing.said import N_, Figures, Said
from firing_review.firing.units import Floats
from firing_review.firing.wording import tr

NO_FIRING_PAUSE_H = 7 * 24.0
"""Files further apart than this are not of one firing [h]."""


def join_logs(first: FiringLog, second: FiringLog) -> FiringLog:
    """Return one log of two; by their clocks if both have dates, else one after the other.

    Channels go together by name; what one file lacks is a gap there. The files are kept one
    behind the other.

    Raises
    ------
    InputError
        If the files overlap in time, are a week apart, or share no channel.
    """
    early, late = _by_date(first, second)
    start_h = _start_of(early, late)
    names = [c.name for c in early.channels] + [c.name for c in late.channels]
    joined = [_channel(name, early, late) for name in dict.fromkeys(names)]
    if not {c.name for c in early.temperatures} & {c.name for c in late.temperatures}:
        found = tr("none shared with {source}").format(source=early.source)
        raise InputError(
            late.source, tr("the same columns"), found, tr("Join two files of one firing.")
        )
    text = N_("Joined with {source}; {gap_min} lie between the two.")
    figures: Figures = {"source": late.source, "gap_min": 60.0 * (start_h - early.hours)}
    return replace(
        early,
        elapsed_h=_frozen(np.concatenate((early.elapsed_h, start_h + late.elapsed_h))),
        channels=tuple(joined),
        rows_dropped=early.rows_dropped + late.rows_dropped,
        notes=(*early.notes, *late.notes, ReadingNote("joined", Said(text, figures))),
        confidence=min(early.confidence, late.confidence),
        raw=early.raw.rstrip(b"\r\n") + b"\n" + late.raw,
    )


def _by_date(first: FiringLog, second: FiringLog) -> tuple[FiringLog, FiringLog]:
    if first.started_at is None or second.started_at is None:
        return first, second
    return (first, second) if first.started_at <= second.started_at else (second, first)


def _start_of(early: FiringLog, late: FiringLog) -> float:
    """Return when the later file begins, from the first sample of the earlier [h]."""
    if early.started_at is None or late.started_at is None:
        steps = np.diff(early.elapsed_h)
        return early.hours + (float(np.median(steps)) if len(steps) else 0.0)
    start_h = (late.started_at - early.started_at).total_seconds() / 3600.0
    if start_h <= early.hours:
        found = tr("times that overlap")
        remedy = tr("Open each on its own, or check the clock of the logger.")
        raise InputError(
            late.source, tr("times after {source}").format(source=early.source), found, remedy
        )
    if start_h - early.hours > NO_FIRING_PAUSE_H:
        days = (start_h - early.hours) / 24.0
        remedy = tr("Open each on its own.")
        raise InputError(
            late.source,
            tr("the firing of {source}").format(source=early.source),
            tr("{days:.0f} days").format(days=days),
            remedy,
        )
    return start_h


def _channel(name: str, early: FiringLog, late: FiringLog) -> Channel:
    before, after = _of(name, early), _of(name, late)
    values = np.concatenate(
        (
            before.values if before else np.full(early.rows, np.nan),
            after.values if after else np.full(late.rows, np.nan),
        )
    )
    model = before or after
    if model is None:
        raise KeyError(name)
    return replace(model, values=_frozen(values))


def _of(name: str, log: FiringLog) -> Channel | None:
    return next((c for c in log.channels if c.name == name), None)


def _frozen(values: Floats) -> Floats:
    values.setflags(write=False)
    return values
