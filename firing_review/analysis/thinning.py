"""A log written far more often than a firing needs, as one sample for each short while.

A detector looks at windows of three minutes and more, so a logger that writes every second
tells it nothing that one mean every twenty seconds does not, and takes twenty times as long to
go through. What happens faster stays as it is: the samples about spikes, lost readings, leaps
and pauses of the record are kept one by one.
"""

from dataclasses import replace

import numpy as np

from firing_review.analysis.bad_samples import CleanChannel
from firing_review.analysis.rates import LONG_LOG_ROWS, runs
from firing_review.analysis.thresholds import Thresholds
from firing_review.firing.log import Channel, FiringLog
from firing_review.firing.units import Floats

WHILE_S = 20.0
"""One sample stands for so long [s]: many loggers write every half minute, and the shortest
window of a detector is three."""
DENSE_S = 5.0
"""Only a log written at least this often is thinned [s]; others would hardly become shorter."""

Cleaned = tuple[FiringLog, tuple[CleanChannel, ...]]


def thin_if_dense(log: FiringLog, clean: tuple[CleanChannel, ...], limits: Thresholds) -> Cleaned:
    """Return the log and its cleaned channels as means over short whiles, if it is dense.

    A log of up to 20,000 rows, or one written less often than every 5 s, comes back as it is.
    Times and readings are means over the same samples, so a straight climb stays the same line;
    a mean never leaves the range of its samples, so a reading that stood still still stands.
    """
    if log.rows <= LONG_LOG_ROWS or not log.sample_s <= DENSE_S:
        return log, clean
    starts = _starts(log, clean, limits)
    channels = tuple(replace(c, values=_means(c.values, starts)) for c in log.channels)
    thin = replace(log, elapsed_h=_means(log.elapsed_h, starts), channels=channels)
    return thin, tuple(
        _thin_clean(one, channels[log.channels.index(one.channel)], starts) for one in clean
    )


def _thin_clean(clean: CleanChannel, thin: Channel, starts: np.ndarray) -> CleanChannel:
    """Return the cleaned channel over whiles; bad samples never share one with good ones."""
    gone = np.isnan(clean.values_c[starts])
    missing = ~np.isfinite(thin.values)
    return CleanChannel(
        channel=thin,
        values_c=np.where(gone, np.nan, thin.values) if gone.any() else thin.values,
        missing=tuple(runs(missing)),
        spikes=tuple(runs(gone & ~missing)),
    )


def _starts(log: FiringLog, clean: tuple[CleanChannel, ...], limits: Thresholds) -> np.ndarray:
    """Return the first sample of each while; a sample that must not be mixed is one by itself."""
    elapsed_h = log.elapsed_h
    number = (elapsed_h * (3600.0 / WHILE_S)).astype(np.int64)
    alone = _alone(elapsed_h, clean, limits)
    begins = np.diff(number, prepend=-1) != 0
    begins[alone] = True
    begins[alone[alone + 1 < len(begins)] + 1] = True
    return np.flatnonzero(begins)


def _alone(elapsed_h: Floats, clean: tuple[CleanChannel, ...], limits: Thresholds) -> np.ndarray:
    """Return the samples about which something happened, and the first and the last."""
    last = len(elapsed_h) - 1
    steps_h = np.diff(elapsed_h)
    pauses = np.flatnonzero(steps_h > WHILE_S / 3600.0)
    found = [np.array([0, last]), pauses, pauses + 1]
    for channel in clean:
        events = np.array((*channel.missing, *channel.spikes), dtype=np.int64).reshape(-1, 2)
        first, end = events.T
        found += [first - 1, first, end - 1, end]
        rise = np.abs(np.diff(channel.values_c))
        with np.errstate(invalid="ignore"):
            leaps = np.flatnonzero(rise > limits.jump_c)
        found += [leaps, leaps + 1]
    alone = np.unique(np.concatenate(found))
    return np.asarray(alone[(alone >= 0) & (alone <= last)])


def _means(values: Floats, starts: np.ndarray) -> Floats:
    """Return the mean of each while, within the range of its samples; NaN where there are none."""
    good = np.isfinite(values)
    if good.all():
        total = np.add.reduceat(values, starts)
        count = np.diff(np.append(starts, len(values)))
    else:
        total = np.add.reduceat(np.where(good, values, 0.0), starts)
        count = np.add.reduceat(good, starts, dtype=np.int64)
    with np.errstate(invalid="ignore", divide="ignore"):
        mean = total / count
    low, high = np.fmin.reduceat(values, starts), np.fmax.reduceat(values, starts)
    mean = np.asarray(np.clip(mean, low, high))
    mean.setflags(write=False)
    return mean
