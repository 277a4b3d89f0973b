"""What a person settled about a log that the reader could not, or got wrong."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from firing_review.firing.log import ChannelRole
from firing_review.firing.units import TemperatureUnit


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
        What parts the cells of a row, and the decimal sign.
    """

    unit: TemperatureUnit | None = None
    day_first: bool | None = None
    roles: Mapping[str, ChannelRole] = field(default_factory=dict)
    run: int | None = None
    delimiter: str | None = None
    decimal: str | None = None
