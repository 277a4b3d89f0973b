"""Cone numbers, witness cones on shelves, and the published table of end points."""

import re
from dataclasses import dataclass
from enum import StrEnum

from firing_review.firing.errors import InputError
from firing_review.firing.wording import tr

CONE_SCALE: tuple[str, ...] = (
    *(f"0{n}" for n in range(22, 5, -1)),
    "05.5",
    *(f"0{n}" for n in range(5, 0, -1)),
    *("1", "2", "3", "4", "5", "5.5"),
    *(str(n) for n in range(6, 15)),
)
"""Every cone number of the chart from the coolest to the hottest; ``06`` is not ``6``."""

_CONE_TEXT = re.compile(
    r"^\s*(?:cone|c|Δ|\^)?\s*(0?\d{1,2}(?:\.5)?|0?\d{1,2}\s?1/2)\s*$", re.IGNORECASE
)


@dataclass(frozen=True, order=False)
class ConeNumber:
    """A cone number, kept as text because its leading zero matters."""

    text: str

    def __post_init__(self) -> None:
        """Refuse what is no cone of the chart."""
        if self.text not in CONE_SCALE:
            raise ValueError(f"no such cone: {self.text!r}")

    def __str__(self) -> str:
        """Return the number as it is printed."""
        return self.text

    def __lt__(self, other: "ConeNumber") -> bool:
        """Tell whether this cone ends at less heat than ``other``."""
        return self.rank < other.rank

    @property
    def rank(self) -> int:
        """Place in the series from cool to hot, counted from 0."""
        return CONE_SCALE.index(self.text)


def parse_cone(text: str, where: str, line: int | None = None) -> ConeNumber:
    """Read a cone number as people write it: ``06``, ``c06``, ``cone 06``, ``5 1/2``.

    Raises
    ------
    InputError
        If it is no cone number of the chart; a letter O in place of a zero is named.
    """
    match = _CONE_TEXT.match(text)
    if match:
        number = match[1].replace(" 1/2", ".5").replace("1/2", ".5")
        if number in CONE_SCALE:
            return ConeNumber(number)
    remedy = tr("Write the number as text, for instance cone 06 or cone 6.")
    if re.search(r"[oO]\d", text.strip().removeprefix("cone")):
        remedy = tr("The first sign is a letter O; write a zero, for instance cone 04.")
    raise InputError(where, tr("a cone number from 022 to 14"), repr(text), remedy, line)


class ConeKind(StrEnum):
    """Makes of cone whose end points differ."""

    SELF_SUPPORTING = "self_supporting"
    LARGE = "large"
    SMALL = "small"


class Bend(StrEnum):
    """Seven words for how far a cone has bent, one drawing each."""

    UPRIGHT = "upright"
    STARTING = "starting"
    HALF = "half"
    THREE_QUARTERS = "three_quarters"
    END_POINT = "end_point"
    FLAT = "flat"
    MELTED = "melted"


BEND_DEG: dict[Bend, float] = {
    Bend.UPRIGHT: 0.0,
    Bend.STARTING: 15.0,
    Bend.HALF: 45.0,
    Bend.THREE_QUARTERS: 68.0,
    Bend.END_POINT: 90.0,
    Bend.FLAT: 110.0,
    Bend.MELTED: 130.0,
}
"""Degrees of bend from the unmoved position [°]; 90 is the end point, tip level with the base."""


@dataclass(frozen=True)
class ShelfCone:
    """One witness cone after the firing.

    Attributes
    ----------
    shelf : str
        Name of the shelf, as in the kiln sheet.
    position : str
        Where on the shelf, in the person's words; may be empty.
    bend_deg : float
        Degrees from the unmoved position [°]; from 110 on only a bound.
    reading_error_deg : float
        Standard error of the bend as read [°]; wider when taken from a photo.
    """

    shelf: str
    position: str
    cone: ConeNumber
    kind: ConeKind
    bend_deg: float
    reading_error_deg: float = 5.0


@dataclass(frozen=True)
class ConeCell:
    """One cell of the published chart: end point [°C] at a heating rate [°C/h]."""

    cone: ConeNumber
    kind: str
    rate_c_per_h: float
    temperature_c: float
    temperature_f: float
    status: str

    @property
    def suspect(self) -> bool:
        """Tell whether the printed number itself looks wrong."""
        return "SUSPECT" in self.status


@dataclass(frozen=True)
class ConeTable:
    """The published chart, cell by cell, with its source line."""

    cells: tuple[ConeCell, ...]
    source: str

    def of_kind(self, kind: str) -> tuple[ConeCell, ...]:
        """Return the cells of one make of cone."""
        return tuple(cell for cell in self.cells if cell.kind == kind)
