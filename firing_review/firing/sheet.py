"""What a person says and measures beside the log, and all that one review starts from."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from firing_review.firing.cones import ConeNumber, ShelfCone
from firing_review.firing.kiln import Kiln
from firing_review.firing.log import FiringLog
from firing_review.firing.schedule import Intended


@dataclass(frozen=True)
class Answers:
    """Answers to the program's questions; None means not asked or skipped."""

    safety: tuple[str, ...] | None = None
    onset: str | None = None
    ended: str | None = None
    load: str | None = None
    ware: str | None = None
    ware_rated_cone: ConeNumber | None = None
    load_place: str | None = None
    usual_hours: float | None = None
    firings_since_elements: int | None = None
    changed: str | None = None
    probe_touched: bool | None = None
    sections_dark: tuple[str, ...] | None = None


NO_SIGN = "none"
DANGER_SIGNS = ("burning_smell", "hot_plug", "tripped_breaker", "heats_when_off")
"""Answers to the safety question: none of the signs, and each sign that stops everything."""
OPEN_CIRCUIT = float("inf")
"""Resistance [Ω] that stands for a reading of "open", no continuity."""


@dataclass(frozen=True)
class Readings:
    """Meter readings: supply volts [V], and by section amps [A] and cold resistance [Ω]."""

    volts_no_load: float | None = None
    volts_full_load: float | None = None
    amps: Mapping[str, float] = field(default_factory=dict)
    cold_ohms: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True)
class Picture:
    """A picture kept with a firing, byte for byte, such as one of cones on their shelf."""

    name: str
    data: bytes = field(repr=False)


@dataclass(frozen=True)
class TimeNote:
    """What a person noted at a moment of the firing [h from the first sample]."""

    at_h: float
    text: str


@dataclass(frozen=True, eq=False)
class Given:
    """All that one review starts from; everything but the log may be missing."""

    log: FiringLog
    title: str = ""
    intended: Intended | None = None
    cones: tuple[ShelfCone, ...] = ()
    kiln: Kiln | None = None
    goal_cone: ConeNumber | None = None
    earlier: tuple["Given", ...] = ()
    answers: Answers = field(default_factory=Answers)
    readings: Readings = field(default_factory=Readings)
    tolerance_cones: float = 0.5
    pictures: tuple[Picture, ...] = ()
    notes: tuple[TimeNote, ...] = ()
