"""Rates of climb that survive noise, coarse steps and irregular sampling."""

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view

from firing_review.firing.units import Floats

MOST_PAIRS = 120
"""Points kept for a robust slope; more change nothing but the time it takes."""
MOST_IN_WINDOW = 60
"""Samples of a window that settle its median; more change it by less than a probe's noise."""
LONG_LOG_ROWS, ENOUGH_IN_WINDOW = 20_000, 12
"""In a log with more rows, so many samples of a window settle its median: a logger that writes
every half minute gives twelve in six minutes."""
MOST_SORTED = 2_000_000
"""Values sorted at once, so that a long log needs little memory."""
FAR_ROWS_H = 2.0
"""Rows written by hand may be so far apart and still tell how fast a kiln climbed [h]."""
HOUR_NS, MINUTE_NS = 3_600_000_000_000, 60_000_000_000
"""Nanoseconds of an hour and of a minute."""


def local_rate(elapsed_h: Floats, values_c: Floats, window_min: float) -> Floats:
    """Return the slope at each sample over a centred window of time.

    Parameters
    ----------
    elapsed_h, values_c : array, shape (rows,)
        Time [h] and reading [°C]; NaN readings are left out.
    window_min : float
        Full width of the window [min]; at the ends it is one-sided. Where rows are so far apart
        that it holds fewer than three, it reaches to the neighbours, if they are not too far.

    Returns
    -------
    array, shape (rows,)
        Least-squares slope [°C/h]; NaN where the window holds fewer than three readings.
    """
    half_h = window_min / 120.0
    first = np.searchsorted(elapsed_h, elapsed_h - half_h, side="left")
    last = np.searchsorted(elapsed_h, elapsed_h + half_h, side="right")
    first, last = _to_neighbours(elapsed_h, first, last)
    good = np.isfinite(values_c)
    origin_c = np.nanmedian(values_c) if good.any() else 0.0
    value = np.where(good, values_c - origin_c, 0.0)
    time = np.where(good, elapsed_h, 0.0)
    count, s_t, s_v, s_tt, s_tv = (
        _window_sums(x, first, last) for x in (good * 1.0, time, value, time * time, time * value)
    )
    with np.errstate(divide="ignore", invalid="ignore"):
        slope = (count * s_tv - s_t * s_v) / (count * s_tt - s_t * s_t)
    return np.where((count >= 3) & np.isfinite(slope), slope, np.nan)


def _to_neighbours(
    elapsed_h: Floats, first: np.ndarray, last: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Return windows that hold fewer than three rows widened by the rows beside them."""
    near = np.concatenate(([False], np.diff(elapsed_h) <= FAR_ROWS_H, [False]))
    place, few = np.arange(len(elapsed_h)), last - first < 3
    before, behind = few & near[:-1], few & near[1:]
    first = np.where(before, np.minimum(first, place - 1), first)
    return first, np.where(behind, np.maximum(last, place + 2), last)


def _window_sums(values: Floats, first: np.ndarray, last: np.ndarray) -> Floats:
    total = np.concatenate(([0.0], np.cumsum(values)))
    return np.asarray(total[last] - total[first], dtype=float)


def robust_slope(elapsed_h: Floats, values_c: Floats) -> float:
    """Return the median of the slopes between all pairs of readings [°C/h] (Theil-Sen).

    NaN with fewer than two readings.
    """
    good = np.isfinite(values_c)
    time, value = elapsed_h[good], values_c[good]
    if len(time) < 2:
        return float("nan")
    step = max(1, len(time) // MOST_PAIRS)
    time, value = time[::step], value[::step]
    i, j = np.triu_indices(len(time), k=1)
    span = time[j] - time[i]
    far = span > 0.2 * (time[-1] - time[0])
    return float(np.median((value[j] - value[i])[far] / span[far])) if far.any() else float("nan")


def running_median(elapsed_h: Floats, values: Floats, window_min: float) -> Floats:
    """Return the median over a centred window of time at each sample; NaN is left out.

    The window is open at its beginning and closed at its end. Of a log so dense that a window
    holds very many samples, every n-th is taken for the medians.
    """
    held = _samples(elapsed_h, window_min)
    step = held // (MOST_IN_WINDOW if len(elapsed_h) <= LONG_LOG_ROWS else ENOUGH_IN_WINDOW)
    if held >= 2 * MOST_IN_WINDOW and step > 1:
        sparse_h = elapsed_h[::step]
        sparse = _medians(sparse_h, values[::step], window_min)
        known = np.isfinite(sparse)
        return np.interp(elapsed_h, sparse_h[known], sparse[known]) if known.any() else values
    return _medians(elapsed_h, values, window_min)


def _samples(elapsed_h: Floats, window_min: float) -> int:
    """Return how many samples a window of time usually holds."""
    apart = max(1, len(elapsed_h) // LONG_LOG_ROWS)
    first = elapsed_h[:-1:apart]
    steps_h = elapsed_h[1::apart] - first
    step_h = float(np.median(steps_h)) if len(steps_h) else 0.0
    return int(window_min / 60.0 / step_h) if step_h > 0 else 1


def _medians(elapsed_h: Floats, values: Floats, window_min: float) -> Floats:
    """Return the median in the window about each sample, windows of like size together."""
    moments, reach = _nanoseconds(elapsed_h), int(window_min * MINUTE_NS) // 2
    good = np.isfinite(values)
    known, known_at = values[good], moments[good]
    first = np.searchsorted(known_at, moments - reach, side="right")
    count = np.searchsorted(known_at, moments + reach, side="right") - first
    result = np.full(len(values), np.nan)
    order = np.argsort(count, kind="stable")
    for alike in np.split(order, np.flatnonzero(np.diff(count[order])) + 1):
        held = int(count[alike[0]]) if len(alike) else 0
        for part in np.array_split(alike, 1 + held * len(alike) // MOST_SORTED) if held else ():
            result[part] = _medians_of(known, first[part], held)
    return result


def _medians_of(known: Floats, first: np.ndarray, count: int) -> Floats:
    """Return the medians of runs of so many values, each given by its first."""
    apart = -(-count // (2 * MOST_IN_WINDOW + 1))
    window = sliding_window_view(known, count)[first, ::apart]
    window.sort(axis=1)
    held = window.shape[1]
    return np.asarray((window[:, (held - 1) // 2] + window[:, held // 2]) / 2.0)


def _nanoseconds(elapsed_h: Floats) -> np.ndarray:
    """Return times as whole nanoseconds.

    In hours a sample at the edge of a window would be inside or outside by rounding.
    """
    whole = elapsed_h.astype(np.int64)
    parts = np.round(elapsed_h - whole, 12)
    return np.asarray(whole * HOUR_NS + (parts * HOUR_NS).astype(np.int64))


def first_lasting(
    elapsed_h: Floats, holds: np.ndarray, least_min: float, begin: int = 0
) -> int | None:
    """Return the first index from which ``holds`` stays true for ``least_min`` [min]."""
    for first, last in runs(holds):
        if last <= begin:
            continue
        entry = max(first, begin)
        if lasted_min(elapsed_h[entry:last]) >= least_min:
            return entry
    return None


def runs(holds: np.ndarray) -> list[tuple[int, int]]:
    """Return ``(first, end)`` index pairs of every unbroken run of true values; end is open."""
    flags = np.concatenate(([False], np.asarray(holds, dtype=bool), [False]))
    edges = np.flatnonzero(flags[1:] != flags[:-1])
    return [(int(a), int(b)) for a, b in zip(edges[::2], edges[1::2], strict=True)]


def lasting_from(hours: Floats, first: int, minutes: float, least: int) -> slice:
    """Return the samples of so many minutes from one on; ``least`` of them where rows are rare."""
    end = int(np.searchsorted(hours, hours[first] + minutes / 60.0, side="right"))
    return slice(first, max(end, first + least))


def lasting_until(hours: Floats, last: int, minutes: float, least: int) -> slice:
    """Return the samples of so many minutes up to one; ``least`` of them where rows are rare."""
    first = int(np.searchsorted(hours, hours[last] - minutes / 60.0))
    return slice(max(min(first, last + 1 - least), 0), last + 1)


def lasted_min(hours: Floats) -> float:
    """Return how long samples taken at these hours [h] lasted [min]."""
    return float(hours[-1] - hours[0]) * 60.0


def long_runs(elapsed_h: Floats, holds: np.ndarray, least_min: float) -> list[tuple[int, int]]:
    """Return the runs of true values that last at least ``least_min`` [min]."""
    return [(a, b) for a, b in runs(holds) if lasted_min(elapsed_h[a:b]) >= least_min]
