"""Small hand-made logs for the tests: corners in hours and °C, joined by straight lines."""

from collections.abc import Sequence

import numpy as np

from firing_review.analysis.alignment import align
from firing_review.analysis.bad_samples import clean_channels
from firing_review.analysis.find import find_all
from firing_review.analysis.thresholds import DEFAULTS
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.findings import Finding
from firing_review.firing.log import Channel, ChannelRole, FiringLog
from firing_review.firing.schedule import Intended, Schedule, Segment
from firing_review.firing.units import Floats

Corners = Sequence[tuple[float, float]]


def cooling(from_h: float, from_c: float, hours: float = 12.0, per_h: float = 0.15) -> Corners:
    """Return corners of natural cooling towards a room of 20 °C."""
    steps = np.arange(0.0, hours, 0.1)
    return [(from_h + t, 20.0 + (from_c - 20.0) * float(np.exp(-per_h * t))) for t in steps[1:]]


def clock(corners: Corners, every_min: float = 1.0) -> Floats:
    return np.arange(0.0, corners[-1][0] + 1e-9, every_min / 60.0)


def line(elapsed_h: Floats, corners: Corners) -> Floats:
    hours, values = zip(*corners, strict=True)
    return np.interp(elapsed_h, hours, values)


def log_of(
    corners: Corners, every_min: float = 1.0, noise_c: float = 0.0, **extra: Corners
) -> FiringLog:
    """Return a log with one chamber probe; extra channels by role name or section name."""
    elapsed_h = clock(corners, every_min)
    noise = np.random.default_rng(7).normal(0.0, noise_c, len(elapsed_h)) if noise_c else 0.0
    channels = [Channel("chamber", ChannelRole.CHAMBER, line(elapsed_h, corners) + noise)]
    for name, points in extra.items():
        role = ChannelRole(name) if name in list(ChannelRole) else ChannelRole.SECTION
        channels.append(Channel(name, role, line(elapsed_h, points)))
    return FiringLog("hand-made.csv", elapsed_h, tuple(channels))


def sections_of(every_min: float = 1.0, **sections: Corners) -> FiringLog:
    """Return a log with one probe a section and none for the chamber."""
    elapsed_h = clock(next(iter(sections.values())), every_min)
    return FiringLog(
        "hand-made.csv",
        elapsed_h,
        tuple(Channel(n, ChannelRole.SECTION, line(elapsed_h, c)) for n, c in sections.items()),
    )


def schedule(*rows: tuple[float | None, float, float]) -> Schedule:
    return Schedule(tuple(Segment(*row) for row in rows))


TO_1000 = schedule((100.0, 120.0, 30.0), (200.0, 920.0, 0.0), (80.0, 1000.0, 15.0))
"""Takes 1 h + 30 min + 4 h + 1 h + 15 min from 20 °C."""

GOOD: Corners = [
    (0.0, 20.0),
    (1.0, 120.0),
    (1.5, 120.0),
    (5.5, 920.0),
    (6.5, 1000.0),
    (6.75, 1000.0),
    *cooling(6.75, 1000.0),
]
"""A firing that did what TO_1000 asks, to the minute."""


def firing_of(log: FiringLog, intended: Intended | None = TO_1000) -> AlignedFiring:
    return align(log, clean_channels(log, DEFAULTS), intended, DEFAULTS)


def findings_of(log: FiringLog, intended: Intended | None = TO_1000) -> tuple[Finding, ...]:
    clean = clean_channels(log, DEFAULTS)
    return find_all(align(log, clean, intended, DEFAULTS), clean, DEFAULTS)


def kinds_of(log: FiringLog, intended: Intended | None = TO_1000) -> set[str]:
    return {f.kind.value for f in findings_of(log, intended)}


def with_values(log: FiringLog, name: str, values: Floats) -> FiringLog:
    """Return the log with one channel's values replaced."""
    channels = tuple(
        Channel(c.name, c.role, values) if c.name == name else c for c in log.channels
    )
    return FiringLog(log.source, log.elapsed_h, channels)
