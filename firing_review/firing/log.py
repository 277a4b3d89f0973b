"""A thermocouple log as read, with what was mended on the way."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from enum import StrEnum
from functools import cached_property

import numpy as np

from firing_review.firing.said import Said
from firing_review.firing.units import Floats, TemperatureUnit, TimeUnit

_UNIT_AT_END = re.compile(r"[\s_]*[(\[]?\s*(?:°\s*|deg\s*|(?<![A-Za-z]))[CF]\s*[)\]]?$")


class ChannelRole(StrEnum):
    """What a column of a log records."""

    CHAMBER = "chamber"
    SECTION = "section"
    SET_POINT = "set_point"
    OUTPUT = "output"
    AMPS = "amps"
    COLD_END = "cold_end"
    OTHER = "other"


TEMPERATURE_ROLES = frozenset({ChannelRole.CHAMBER, ChannelRole.SECTION})


@dataclass(frozen=True)
class ReadingChoices:
    """What a person settled about a file; None or absent is left to the reader.

    Attributes
    ----------
    roles : mapping
        Role of a column by its name.
    run : int, optional
        Which firing of a file that holds several, from 0; absent: the last one.
    delimiter, decimal : str, optional
        What parts the cells of a row, and the decimal sign; with it, the other of point and comma
        parts thousands.
    time_unit : TimeUnit, optional
        What a time of plain elapsed numbers counts; a time of any other form is not touched.
    """

    unit: TemperatureUnit | None = None
    day_first: bool | None = None
    roles: Mapping[str, ChannelRole] = field(default_factory=dict)
    run: int | None = None
    delimiter: str | None = None
    decimal: str | None = None
    time_unit: TimeUnit | None = None


@dataclass(frozen=True, eq=False)
class Channel:
    """One column of a log.

    Attributes
    ----------
    name : str
        As in the file.
    values : array, shape (rows,)
        [°C] for temperatures and set point, [%] for output, [A] for amps; NaN is a gap.
    confidence : float
        How sure the role is, 0 to 1.
    """

    name: str
    role: ChannelRole
    values: Floats
    confidence: float = 1.0

    @property
    def title(self) -> str:
        """The name without its unit, for sentences: ``bottom`` for ``bottom_F``."""
        plain = _UNIT_AT_END.sub("", self.name).replace("_", " ").strip()
        return plain or self.name

    @property
    def is_temperature(self) -> bool:
        """Tell whether this is a reading of the chamber or of a section."""
        return self.role in TEMPERATURE_ROLES


@dataclass(frozen=True)
class ReadingNote:
    """Something the reader did or noticed: what, and how many rows or samples it touched."""

    kind: str
    said: Said
    count: int = 0


@dataclass(frozen=True, eq=False)
class FiringLog:
    """A log with one clock and any number of channels.

    Attributes
    ----------
    source : str
        File name as the person knows it.
    elapsed_h : array, shape (rows,)
        Hours from the first sample [h], strictly increasing.
    rows, rows_dropped : int
        Data rows read into the log, and rows left out.
    raw : bytes
        The file as it was, byte for byte.
    choices : ReadingChoices
        What a person settled about the file.
    """

    source: str
    elapsed_h: Floats
    channels: tuple[Channel, ...]
    started_at: datetime | None = None
    rows_dropped: int = 0
    unit_read: TemperatureUnit = TemperatureUnit.CELSIUS
    notes: tuple[ReadingNote, ...] = ()
    confidence: float = 1.0
    raw: bytes = field(default=b"", repr=False)
    choices: ReadingChoices = ReadingChoices()

    @property
    def rows(self) -> int:
        """Number of samples."""
        return len(self.elapsed_h)

    @property
    def hours(self) -> float:
        """Length of the record [h]."""
        return float(self.elapsed_h[-1]) if self.rows else 0.0

    @cached_property
    def sample_s(self) -> float:
        """Usual time between samples [s]; NaN with fewer than two rows."""
        steps_h = np.diff(self.elapsed_h)
        if not len(steps_h):
            return float("nan")
        return float(np.median(steps_h, overwrite_input=True) * 3600.0)

    @property
    def temperatures(self) -> tuple[Channel, ...]:
        """Channels that read the chamber or a section of it."""
        return tuple(c for c in self.channels if c.is_temperature)

    def first(self, role: ChannelRole) -> Channel | None:
        """Return the first channel of that role, if any."""
        return next((c for c in self.channels if c.role is role), None)
