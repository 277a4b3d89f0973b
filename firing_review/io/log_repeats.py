"""The same record told twice in one file, as when a logger writes a table for each quantity."""

from dataclasses import replace

import numpy as np
import pandas as pd

from firing_review.firing.log import ReadingNote
from firing_review.firing.said import N_, Said
from firing_review.io.log_clock import Clock

LEAST_ROWS = 20
"""Fewer rows alike may be chance."""
ALIKE = 0.98
"""Share of the rows whose temperature must be the same."""


def without_second_telling(
    frame: pd.DataFrame, clock: Clock
) -> tuple[pd.DataFrame, Clock, tuple[ReadingNote, ...]]:
    """Leave out rows that repeat time and values of the rows from the first on."""
    again = np.flatnonzero(clock.hours == clock.hours[:1])
    starts = again[again >= LEAST_ROWS][:1].tolist()
    for start in starts:
        rows = min(start, len(frame) - start)
        if rows < LEAST_ROWS or not _alike(frame, clock, start, rows):
            continue
        lost = len(frame) - start
        text = N_("Rows that tell the same times once more, left out: {count}.")
        note = ReadingNote("rows_dropped", Said(text, {"count": lost}), lost)
        return frame.iloc[:start], replace(clock, hours=clock.hours[:start]), (note,)
    return frame, clock, ()


def _alike(frame: pd.DataFrame, clock: Clock, start: int, rows: int) -> bool:
    """Tell whether times and a column that moves are the same after ``start`` as from the top."""
    same_times = clock.hours[:rows] == clock.hours[start : start + rows]
    if same_times.mean() < ALIKE:
        return False
    for column in range(frame.shape[1]):
        if column in clock.columns or not pd.api.types.is_numeric_dtype(frame[column]):
            continue
        values = frame[column].to_numpy(dtype=float)
        first, second = values[:rows], values[start : start + rows]
        counts = np.mean(np.diff(first) == 1.0) > 0.9
        if not counts and len(np.unique(first)) > rows / 4 and np.mean(first == second) > ALIKE:
            return True
    return False
