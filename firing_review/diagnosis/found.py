"""Findings looked up by their kind."""

from collections.abc import Sequence
from dataclasses import dataclass

from firing_review.firing.findings import Finding, FindingKind


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


def figure(found: Finding, name: str, default: float = 0.0) -> float:
    """Return a figure of a finding as a number."""
    value = found.figures.get(name)
    return float(value) if isinstance(value, int | float) else default
