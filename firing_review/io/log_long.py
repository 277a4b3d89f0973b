"""Logs in long form: one row a probe and moment, turned into one column a probe."""

from dataclasses import replace

import numpy as np
import pandas as pd

from firing_review.firing.units import Floats
from firing_review.io.log_clock import Clock
from firing_review.io.log_columns import LOOKED_AT, MOST_SENSORS, SENSOR_NAMES

LEAST_ROUNDS = 2
"""A word must come back at least as often to be the name of a probe."""


def widen(
    frame: pd.DataFrame, names: list[str], clock: Clock
) -> tuple[pd.DataFrame, list[str], Clock] | None:
    """Return a long table as a wide one with its clock, or None if it is none."""
    values = _value_columns(frame, names, clock)
    if len(values) != 1:
        return None
    for column in range(frame.shape[1]):
        if column in clock.columns or column == values[0]:
            continue
        if _names_probes(frame[column], names[column], clock):
            return _wide(frame, column, values[0], clock)
        if _names_blocks(frame[column], clock):
            return _side_by_side(frame, column, values[0], clock)
    return None


def _names_blocks(column: pd.Series, clock: Clock) -> bool:
    """Tell a column that says which probe a whole block of rows is of: each begins anew."""
    codes, probes = pd.factorize(column)
    changes = np.flatnonzero(np.diff(codes))
    if not 2 <= len(probes) <= MOST_SENSORS or len(changes) != len(probes) - 1:
        return False
    steps = np.diff(clock.hours)
    inside = np.delete(steps, changes)
    return bool((steps[changes] < 0).all() and len(inside) and (inside >= 0).all())


def _side_by_side(
    frame: pd.DataFrame, sensor: int, value: int, clock: Clock
) -> tuple[pd.DataFrame, list[str], Clock]:
    """Return blocks of rows as columns on the times of the longest block."""
    codes, probes = pd.factorize(frame[sensor])
    numbers = frame[value].to_numpy(dtype=float)
    hours = clock.hours
    longest = hours[codes == np.bincount(codes[codes >= 0]).argmax()]
    columns = [
        _on_times(longest, hours[codes == i], numbers[codes == i]) for i in range(len(probes))
    ]
    wide = pd.DataFrame(dict(enumerate([longest, *columns])))
    plain = replace(clock, hours=longest, columns=(0,))
    return wide, ["time", *(_name(p) for p in probes)], plain


def _on_times(times: Floats, hours: Floats, values: Floats) -> Floats:
    """Return for each time the value read nearest to it, within half an interval."""
    within = 0.55 * float(np.median(np.diff(times))) if len(times) > 1 else 0.0
    right = np.clip(np.searchsorted(hours, times), 1, max(1, len(hours) - 1))
    near = np.where(
        np.abs(hours[right - 1] - times) <= np.abs(hours[right % len(hours)] - times),
        right - 1,
        right % len(hours),
    )
    return np.where(np.abs(hours[near] - times) <= within, values[near], np.nan)


def _value_columns(frame: pd.DataFrame, names: list[str], clock: Clock) -> list[int]:
    found = []
    for column in range(frame.shape[1]):
        if column in clock.columns or not pd.api.types.is_numeric_dtype(frame[column]):
            continue
        numbers = frame[column].iloc[:LOOKED_AT].to_numpy(dtype=float)
        counts = len(numbers) > 3 and np.mean(np.diff(numbers) == 1.0) > 0.95
        sensor = SENSOR_NAMES.search(names[column]) and _few(frame[column])
        if not counts and not sensor:
            found.append(column)
    return found


def _few(column: pd.Series) -> bool:
    """Tell whether a column holds few different values; its beginning mostly shows that."""
    return column.iloc[:LOOKED_AT].nunique() <= MOST_SENSORS and column.nunique() <= MOST_SENSORS


def _names_probes(column: pd.Series, name: str, clock: Clock) -> bool:
    """Tell whether a column says which probe a row is of: each moment has several."""
    if not 2 <= column.iloc[:2000].nunique() <= MOST_SENSORS:
        return False
    numeric = pd.api.types.is_numeric_dtype(column)
    if numeric and not SENSOR_NAMES.search(name):
        return False
    if column.value_counts().min() < LEAST_ROUNDS or column.nunique() > MOST_SENSORS:
        return False
    repeated = float(np.mean(np.diff(clock.hours) == 0.0)) > 0.4
    turns = float((column != column.shift()).mean()) > 0.8
    return repeated or (turns and bool(SENSOR_NAMES.search(name)))


def _wide(
    frame: pd.DataFrame, sensor: int, value: int, clock: Clock
) -> tuple[pd.DataFrame, list[str], Clock]:
    known = frame[sensor].notna().to_numpy() & np.isfinite(clock.hours)
    codes, sensors = pd.factorize(frame[sensor][known])
    hours = clock.hours[known]
    scan = _scans(codes, hours)
    first = np.flatnonzero(np.diff(scan, prepend=-1))
    table = np.full((int(scan[-1]) + 1 if len(scan) else 0, len(sensors)), np.nan)
    numbers = frame[value].to_numpy(dtype=float)[known]
    table[scan, codes] = numbers
    wide = pd.DataFrame(table, columns=range(1, len(sensors) + 1))
    plain = replace(clock, hours=hours[first], columns=(0,))
    wide.insert(0, 0, hours[first])
    return wide, ["time", *(_name(s) for s in sensors)], plain


def _name(sensor: object) -> str:
    if isinstance(sensor, float) and sensor.is_integer():
        return f"probe {int(sensor)}"
    return (
        f"probe {sensor}" if isinstance(sensor, int | float | np.integer) else str(sensor).strip()
    )


def _scans(codes: np.ndarray, hours: np.ndarray) -> np.ndarray:
    """Return the round of each row; one begins with a new time or where a probe comes again."""
    if float(np.mean(np.diff(hours) == 0.0)) > 0.4:
        new = np.diff(hours, prepend=hours[:1]) != 0.0
        return np.asarray(np.cumsum(new))
    scan, number, seen = np.zeros(len(codes), dtype=int), 0, set[int]()
    for row, code in enumerate(codes.tolist()):
        if code in seen:
            number, seen = number + 1, set()
        seen.add(code)
        scan[row] = number
    return scan
