"""Rates of climb that survive noise, coarse steps and irregular sampling."""

import numpy as np

from firing_review.firing.units import Floats

MOST_PAIRS = 120
"""Points kept for a robust slope; more change nothing but the time it takes."""
MOST_IN_WINDOW = 60
"""Samples of a window that settle its median; more change it by less than a probe's noise."""


def local_rate(elapsed_h: Floats, values_c: Floats, window_min: float) -> Floats:
    """Return the slope at each sample over a centred window of time.

    Parameters
    ----------
    elapsed_h, values_c : array, shape (rows,)
        Time [h] and reading [°C]; NaN readings are left out.
    window_min : float
        Full width of the window [min]; at the ends it is one-sided.

    Returns
    -------
    array, shape (rows,)
        Least-squares slope [°C/h]; NaN where the window holds fewer than three readings.
    """
    half_h = window_min / 120.0
    first = np.searchsorted(elapsed_h, elapsed_h - half_h, side="left")
    last = np.searchsorted(elapsed_h, elapsed_h + half_h, side="right")
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

    Of a log so dense that a window holds very many samples, every n-th is taken for the medians.
    """
    import pandas as pd  # noqa: PLC0415 - keeps the start of the program quick

    step = _samples(elapsed_h, window_min) // MOST_IN_WINDOW
    if step > 1:
        sparse_h = elapsed_h[::step]
        sparse = running_median(sparse_h, values[::step], window_min)
        known = np.isfinite(sparse)
        return np.interp(elapsed_h, sparse_h[known], sparse[known]) if known.any() else values
    index = pd.to_timedelta(elapsed_h, unit="h")
    series = pd.Series(values, index=index)
    window = pd.Timedelta(minutes=window_min)
    median = series.rolling(window, center=True, min_periods=1).median()
    return np.asarray(median.to_numpy(dtype=float))


def _samples(elapsed_h: Floats, window_min: float) -> int:
    """Return how many samples a window of time usually holds."""
    step_h = float(np.median(np.diff(elapsed_h))) if len(elapsed_h) > 1 else 0.0
    return int(window_min / 60.0 / step_h) if step_h > 0 else 1


def first_lasting(
    elapsed_h: Floats, holds: np.ndarray, least_min: float, begin: int = 0
) -> int | None:
    """Return the first index from which ``holds`` stays true for ``least_min`` [min]."""
    for first, last in runs(holds):
        if last <= begin:
            continue
        entry = max(first, begin)
        if (elapsed_h[last - 1] - elapsed_h[entry]) * 60.0 >= least_min:
            return entry
    return None


def runs(holds: np.ndarray) -> list[tuple[int, int]]:
    """Return ``(first, end)`` index pairs of every unbroken run of true values; end is open."""
    flags = np.concatenate(([False], np.asarray(holds, dtype=bool), [False]))
    edges = np.flatnonzero(flags[1:] != flags[:-1])
    return [(int(a), int(b)) for a, b in zip(edges[::2], edges[1::2], strict=True)]


def long_runs(elapsed_h: Floats, holds: np.ndarray, least_min: float) -> list[tuple[int, int]]:
    """Return the runs of true values that last at least ``least_min`` [min]."""
    return [
        (a, b) for a, b in runs(holds) if (elapsed_h[b - 1] - elapsed_h[a]) * 60.0 >= least_min
    ]
