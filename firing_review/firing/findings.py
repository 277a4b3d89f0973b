"""What was found in a firing, graded, with its evidence."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Self

from firing_review.firing.said import Figure, Said
from firing_review.firing.units import Floats


class Severity(StrEnum):
    """How much a finding matters: worth knowing, worth watching, a fault."""

    NOTE = "note"
    WATCH = "watch"
    FAULT = "fault"


class FindingKind(StrEnum):
    """Everything the program can find in a log."""

    STALL = "stall"
    SLOW_CLIMB = "slow_climb"
    FAST_CLIMB = "fast_climb"
    OVERSHOOT = "overshoot"
    SHORT_OF_TARGET = "short_of_target"
    SHORT_HOLD = "short_hold"
    LONG_HOLD = "long_hold"
    HUNTING = "hunting"
    BEHIND_SCHEDULE = "behind_schedule"
    ENDED_EARLY = "ended_early"
    POWER_GAP = "power_gap"
    HEATS_WITHOUT_DEMAND = "heats_without_demand"
    FAST_COOLING = "fast_cooling"
    SLOW_COOLING = "slow_cooling"
    REHEATING = "reheating"
    SCHEDULE_DIFFERS = "schedule_differs"
    ZONE_GAP = "zone_gap"
    LATE_START = "late_start"
    RECORD_ENDS_HOT = "record_ends_hot"
    ROWS_FAR_APART = "rows_far_apart"
    PROBE_DROPOUT = "probe_dropout"
    PROBE_SPIKE = "probe_spike"
    PROBE_JUMP = "probe_jump"
    PROBE_FROZEN = "probe_frozen"
    PROBE_DEAD = "probe_dead"
    PROBE_FALLS_WHILE_HEATING = "probe_falls_while_heating"
    DAMP_FLAT_SPOT = "damp_flat_spot"
    NOT_A_FIRING = "not_a_firing"


@dataclass(frozen=True)
class Finding:
    """One thing found: where in time, on which channel, how bad, and the figures behind it.

    Attributes
    ----------
    start_h, end_h : float
        Hours from the first sample of the log [h].
    text : str
        The finding as a catalogue sentence with places for its figures.
    figures : mapping
        Measured and expected values; the ending of a name is its unit.
    """

    kind: FindingKind
    severity: Severity
    start_h: float
    end_h: float
    text: str
    figures: Mapping[str, Figure]
    channel: str | None = None

    @classmethod
    def over(
        cls,
        hours: Floats,
        kind: FindingKind,
        severity: Severity,
        text: str,
        figures: Mapping[str, Figure],
        channel: str | None = None,
    ) -> Self:
        """Return a finding from the first to the last of the samples taken at these hours [h]."""
        return cls(kind, severity, float(hours[0]), float(hours[-1]), text, figures, channel)

    @property
    def summary(self) -> Said:
        """The finding as a sentence."""
        return Said(self.text, self.figures)
