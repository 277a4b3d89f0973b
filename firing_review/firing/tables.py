"""The published tables a review rests on, read once and handed down."""

from dataclasses import dataclass

from firing_review.firing.cones import ConeTable
from firing_review.firing.knowledge import Knowledge


@dataclass(frozen=True)
class EmfPiece:
    """A thermocouple's reference function over one range of temperature.

    Attributes
    ----------
    kind : str
        Type letter.
    coefficients : tuple of float
        emf = Σ cᵢ Tⁱ [mV], T in °C.
    bump : tuple of float or None
        (a₀ [mV], a₁ [1/K²], a₂ [°C]) of a₀ exp(a₁ (T − a₂)²), added for type K above 0 °C.
    """

    kind: str
    from_c: float
    to_c: float
    coefficients: tuple[float, ...]
    bump: tuple[float, float, float] | None = None


@dataclass(frozen=True)
class ToleranceRow:
    """How far new wire of a class may be off: the greater of degrees and a share.

    The share counts from ``share_above_c``; where that is above 0 it is added to the degrees.
    """

    kind: str
    grade: str
    from_c: float
    to_c: float
    degrees_c: float
    share: float
    share_above_c: float


@dataclass(frozen=True)
class ThermocoupleTable:
    """Reference functions and tolerances of thermocouples, with their source."""

    pieces: tuple[EmfPiece, ...]
    tolerances: tuple[ToleranceRow, ...]
    source: str

    @property
    def kinds(self) -> tuple[str, ...]:
        """Type letters of the table."""
        return tuple(dict.fromkeys(piece.kind for piece in self.pieces))


@dataclass(frozen=True)
class WireAlloy:
    """One heating alloy.

    Attributes
    ----------
    rho20_uohm_m : float or None
        Resistivity at 20 °C [µΩ m], good to about 5 %.
    max_wire_c : float or None
        Highest temperature of the wire in air [°C].
    hot_over_cold : tuple of (°C, ratio)
        Resistance as a ratio of that at 20 °C; empty where nothing is published.
    status : str
        Published, or from memory.
    """

    name: str
    rho20_uohm_m: float | None
    max_wire_c: float | None
    hot_over_cold: tuple[tuple[float, float], ...]
    status: str


@dataclass(frozen=True)
class WireTable:
    """Heating alloys, with their source."""

    alloys: tuple[WireAlloy, ...]
    source: str


@dataclass(frozen=True)
class Tables:
    """Everything read from ``resources/`` that computation needs."""

    cones: ConeTable
    cones_iron_free: ConeTable
    thermocouples: ThermocoupleTable
    wire: WireTable
    knowledge: Knowledge
