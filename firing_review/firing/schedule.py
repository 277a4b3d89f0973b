"""The intended firing: segments of rate, target and hold, or a curve tied to the clock."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Segment:
    """One step of a schedule.

    Attributes
    ----------
    rate_c_per_h : float or None
        Magnitude of the rate [°C/h]; None is "full", as fast as the kiln can.
    target_c : float
        Temperature at the end of the ramp [°C].
    hold_min : float
        Hold at the target [min].
    """

    rate_c_per_h: float | None
    target_c: float
    hold_min: float = 0.0


@dataclass(frozen=True)
class Schedule:
    """Segments in order, from the found start of the firing."""

    segments: tuple[Segment, ...]
    name: str = ""

    @property
    def top_c(self) -> float:
        """Highest target [°C]."""
        return max(s.target_c for s in self.segments)


@dataclass(frozen=True)
class ClockCurve:
    """Temperatures tied to the clock, from the found start of the firing."""

    time_h: tuple[float, ...]
    temperature_c: tuple[float, ...]
    name: str = ""

    @property
    def top_c(self) -> float:
        """Highest temperature of the curve [°C]."""
        return max(self.temperature_c)


Intended = Schedule | ClockCurve
