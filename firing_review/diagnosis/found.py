"""Findings looked up by their kind."""

from collections.abc import Sequence
from dataclasses import dataclass

from firing_review.firing.findings import Finding, FindingKind

SETTLES_BELOW_C, SETTLES_BY_C = 250.0, 30.0
"""At the first low targets a kiln shoots over and falls back by a few tens of degrees [°C]."""


@dataclass(frozen=True)
class Found:
    """The findings of a firing."""

    findings: Sequence[Finding]

    def all(self, *kinds: FindingKind) -> tuple[Finding, ...]:
        """Return the findings of these kinds, the gravest first."""
        return tuple(f for f in self.findings if f.kind in kinds)

    def first(self, *kinds: FindingKind) -> Finding | None:
        """Return the gravest finding of these kinds, if any."""
        return next(iter(self.all(*kinds)), None)


def power_gap(found: Found) -> Finding | None:
    """Return the gap of power, if any; a kiln that settles after a low overshoot had none."""
    for gap in found.all(FindingKind.POWER_GAP):
        low = figure(gap, "from_c", 1e9) < SETTLES_BELOW_C
        if not low or figure(gap, "fell_delta_c", 1e9) > SETTLES_BY_C:
            return gap
    return None


def figure(found: Finding, name: str, default: float = 0.0) -> float:
    """Return a figure of a finding as a number."""
    value = found.figures.get(name)
    return float(value) if isinstance(value, int | float) else default
