"""The channels of a log: columns in °C, % and A, open probes as gaps, and what is said of it."""

from collections.abc import Sequence

import numpy as np

from firing_review.firing.kiln import HOTTEST_KILN_C
from firing_review.firing.log import TEMPERATURE_ROLES, Channel, ChannelRole, ReadingNote
from firing_review.firing.said import N_, Said
from firing_review.firing.units import Floats, TemperatureUnit, celsius_from_fahrenheit
from firing_review.io import log_gaps
from firing_review.io.log_columns import ColumnRole
from firing_review.io.log_steps import Reading

NAMES_SHOWN = 3
"""Names told before the rest is only counted."""
PAUSE_STEPS, PAUSE_H = 10.0, 5.0 / 60.0
"""A pause in a record is told from this many usual intervals on, and from five minutes on [h]."""


def channels_of(
    reading: Reading, order: np.ndarray | None, hours: Floats
) -> tuple[tuple[Channel, ...], tuple[ReadingNote, ...]]:
    """Return the channels in the order of time, and the notes on what was taken as gaps."""
    channels: list[Channel] = []
    gaps: list[tuple[ColumnRole, Floats]] = []
    for role in reading.roles:
        column = reading.columns[role.index]
        values = np.ascontiguousarray(column) if order is None else column[order]
        if role.degrees:
            values, marks = _in_celsius(values, role, reading.units.of(role.index), hours)
            gaps += [(role, marks)] if len(marks) else []
        elif role.role is ChannelRole.OUTPUT and np.fmax.reduce(values, initial=0.0) <= 1.0:
            values = 100.0 * values
        values = values.view()
        values.setflags(write=False)
        channels.append(Channel(role.name, role.role, values, role.confidence))
    return tuple(channels), (*_open_probes(gaps), *_not_used(reading.roles))


def _in_celsius(
    values: Floats, role: ColumnRole, unit: TemperatureUnit, hours: Floats
) -> tuple[Floats, Floats]:
    """Return a column in °C with its marks as gaps, and the marks as the file has them."""
    in_c = celsius_from_fahrenheit(values) if unit is TemperatureUnit.FAHRENHEIT else values
    if role.role is ChannelRole.SET_POINT:  # it may well leap, or be zero when nothing is asked
        bad = log_gaps.impossible(in_c, HOTTEST_KILN_C)
    else:
        bad = log_gaps.open_probe(in_c, hours, zero_c=in_c[values == 0.0][:1])
    marks = values[bad & np.isfinite(values)]
    return (np.where(bad, np.nan, in_c) if len(marks) else in_c), marks


def _open_probes(gaps: Sequence[tuple[ColumnRole, Floats]]) -> tuple[ReadingNote, ...]:
    """Tell of each temperature of the kiln; of other columns only their names."""
    notes = [
        log_gaps.said_of(role.name, marks)
        for role, marks in gaps
        if role.role in TEMPERATURE_ROLES
    ]
    others = [role.name for role, _ in gaps if role.role not in TEMPERATURE_ROLES]
    if others:
        samples = sum(len(m) for r, m in gaps if r.role not in TEMPERATURE_ROLES)
        text = N_("{names}: not used, and {samples} samples of it show no temperature.")
        said = Said(text, {"names": short_list(others), "samples": samples})
        notes.append(ReadingNote("open_probe_elsewhere", said, samples))
    return tuple(notes)


def _not_used(roles: Sequence[ColumnRole]) -> tuple[ReadingNote, ...]:
    names = [role.name for role in roles if role.role is ChannelRole.OTHER]
    if not names:
        return ()
    said = Said(N_("Columns kept but not used: {names}."), {"names": short_list(names)})
    return (ReadingNote("column_ignored", said, len(names)),)


def pauses(hours: Floats) -> tuple[ReadingNote, ...]:
    """Tell how often the record pauses, and the longest pause."""
    steps = np.diff(hours)
    if len(steps) < 3:
        return ()
    found = steps[steps > PAUSE_H]
    found = found[found > PAUSE_STEPS * float(np.median(steps))] if len(found) else found
    if not len(found):
        return ()
    text = N_("Pauses in the record: {count}, the longest {longest_min}.")
    figures = {"count": len(found), "longest_min": 60.0 * float(found.max())}
    return (ReadingNote("gap", Said(text, figures), len(found)),)


def short_list(names: Sequence[str]) -> str:
    """Return the first names, and how many more there are."""
    more = len(names) - NAMES_SHOWN
    return ", ".join(names[:NAMES_SHOWN]) + (f" (+{more})" if more > 0 else "")
