"""Which samples of a channel are not the kiln's temperature, and the one reading that stands."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from firing_review.analysis.rates import running_median, runs
from firing_review.analysis.thresholds import Thresholds
from firing_review.firing.log import Channel, ChannelRole, FiringLog
from firing_review.firing.units import Floats


@dataclass(frozen=True, eq=False)
class CleanChannel:
    """A temperature channel with its bad samples named.

    Attributes
    ----------
    values_c : array, shape (rows,)
        Spikes taken out [°C]; NaN is a gap.
    missing, spikes : list of (first, end)
        Index runs of samples that were not there, and of samples that were wrong.
    """

    channel: Channel
    values_c: Floats
    missing: tuple[tuple[int, int], ...]
    spikes: tuple[tuple[int, int], ...]


def clean_channel(log: FiringLog, channel: Channel, limits: Thresholds) -> CleanChannel:
    """Return the channel with spikes removed: samples that leave the local median and return."""
    values = channel.values
    wrong = _wrong(log.elapsed_h, values, limits)
    return CleanChannel(
        channel=channel,
        values_c=np.where(wrong, np.nan, values) if wrong.any() else values,
        missing=tuple(runs(~np.isfinite(values))),
        spikes=tuple(runs(wrong)),
    )


def _wrong(elapsed_h: Floats, values: Floats, limits: Thresholds) -> np.ndarray:
    """Tell which samples are spikes."""
    median = running_median(elapsed_h, values, limits.spike_window_min)
    away = values - median
    np.abs(away, out=away)
    wrong = np.asarray(away > limits.spike_c)
    if not wrong.any():
        return wrong
    # where a reading is restless throughout, single samples are no spikes
    restless = running_median(elapsed_h, away, 10.0 * limits.spike_window_min)
    wrong &= away > limits.spike_times * restless
    return np.asarray(wrong & ~_is_steep(elapsed_h, median, limits))


def _is_steep(elapsed_h: Floats, median_c: Floats, limits: Thresholds) -> np.ndarray:
    """Tell where the trend itself moves so fast that its samples leave the median."""
    if len(elapsed_h) < 3:
        return np.zeros(len(elapsed_h), dtype=bool)
    reach_h = limits.spike_window_min / 60.0
    before = np.interp(elapsed_h - reach_h, elapsed_h, median_c)
    after = np.interp(elapsed_h + reach_h, elapsed_h, median_c)
    steps_h = np.gradient(elapsed_h)
    return (np.abs(after - before) > 6.0 * limits.spike_c) | (steps_h > reach_h)


def clean_channels(log: FiringLog, limits: Thresholds) -> tuple[CleanChannel, ...]:
    """Return every temperature channel of the log, cleaned."""
    return tuple(clean_channel(log, channel, limits) for channel in log.temperatures)


def bridge(elapsed_h: Floats, values_c: Floats, longest_min: float) -> Floats:
    """Fill gaps up to ``longest_min`` [min] with a straight line; longer ones stay gaps."""
    good = np.isfinite(values_c)
    if good.all() or not good.any():
        return values_c
    filled = np.interp(elapsed_h, elapsed_h[good], values_c[good])
    filled[~_bridgeable(elapsed_h, good, longest_min)] = np.nan
    return filled


def _bridgeable(elapsed_h: Floats, good: np.ndarray, longest_min: float) -> np.ndarray:
    allowed = good.copy()
    for first, end in runs(~good):
        inside = first > 0 and end < len(good)
        if inside and (elapsed_h[end] - elapsed_h[first - 1]) * 60.0 <= longest_min:
            allowed[first:end] = True
    return allowed


def chamber_reading(log: FiringLog, clean: tuple[CleanChannel, ...], limits: Thresholds) -> Floats:
    """Return the one reading that stands for the chamber [°C].

    A chamber probe is taken as it is; otherwise the mean of the sections. Where a section is
    missing, the mean of the others is moved by what the missing one last made of it, so that a
    gap leaves no step.
    """
    chamber = [c for c in clean if c.channel.role is ChannelRole.CHAMBER] or list(clean)
    if not chamber:
        return np.full(log.rows, np.nan)
    stacked = np.vstack([bridge(log.elapsed_h, c.values_c, limits.bridge_min) for c in chamber])
    if len(chamber) == 1:
        return np.asarray(stacked[0])
    return _steady_mean(stacked)


def _steady_mean(stacked: Floats) -> Floats:
    """Return the mean over rows without steps where a row begins or ends to be missing."""
    present = np.isfinite(stacked)
    count = present.sum(axis=0)
    mean = np.where(count > 0, np.nansum(stacked, axis=0) / np.maximum(count, 1), np.nan)
    result = mean.copy()
    shift = 0.0
    change = np.flatnonzero((present[:, 1:] != present[:, :-1]).any(axis=0)) + 1
    bounds = [0, *change.tolist(), stacked.shape[1]]
    for first, end in pairwise(bounds):
        shift = _step_before(stacked, present, first, mean, shift)
        result[first:end] = mean[first:end] + shift
    return result


def _step_before(
    stacked: Floats, present: np.ndarray, first: int, mean: Floats, shift: float
) -> float:
    """Return the shift that joins the mean at ``first`` to the sample before it."""
    if first == 0 or present[:, first].all():
        return 0.0
    both = present[:, first - 1] & present[:, first]
    if not both.any():
        return shift
    step = float(np.mean(stacked[both, first] - stacked[both, first - 1]))
    return float(mean[first - 1] + shift + step - mean[first])
