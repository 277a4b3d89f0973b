"""The kiln: chamber, sections from the floor up, shelves, supply."""

from dataclasses import dataclass
from enum import StrEnum

HOTTEST_KILN_C = 1450.0
"""No kiln is hotter [°C]; the hottest cone of the chart ends below 1400."""


class Supply(StrEnum):
    """How the heating elements are connected to the supply."""

    SINGLE_PHASE = "single_phase"
    THREE_PHASE_STAR = "three_phase_star"
    THREE_PHASE_STAR_NEUTRAL = "three_phase_star_neutral"
    THREE_PHASE_DELTA = "three_phase_delta"


@dataclass(frozen=True)
class Section:
    """One stacking part of the kiln with its own heating elements."""

    name: str
    rated_kw: float | None = None
    rated_cold_ohms: float | None = None
    elements: int | None = None
    wiring: str | None = None
    alloy: str | None = None
    wire_mm: float | None = None
    probe_column: str | None = None


@dataclass(frozen=True)
class Shelf:
    """A shelf that carries ware, with the section it stands in."""

    name: str
    section: str | None = None
    height_mm: float | None = None


@dataclass(frozen=True)
class Kiln:
    """What the kiln sheet says; sections and shelves run from the floor up."""

    name: str = ""
    volume_l: float | None = None
    wall_mm: float | None = None
    rated_kw: float | None = None
    rated_volts: float | None = None
    supply: Supply | None = None
    thermocouple: str | None = None
    tariff_per_kwh: float | None = None
    sections: tuple[Section, ...] = ()
    shelves: tuple[Shelf, ...] = ()

    @property
    def shelf_names(self) -> tuple[str, ...]:
        """Names of the shelves from the floor up; the sections serve when none are given."""
        return tuple(s.name for s in self.shelves or self.sections)
