"""An observation: how well each outcome of a fact agrees with what was seen."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from firing_review.firing.said import Figures


@dataclass(frozen=True)
class Observation:
    """What was seen of one fact.

    Attributes
    ----------
    shares : mapping
        How likely what was seen is under each outcome, scaled to sum to 1; a doubtful
        measurement spreads over several.
    figures : mapping
        This firing's figures for the sentences.
    """

    fact: str
    shares: Mapping[str, float]
    figures: Figures = field(default_factory=dict)

    @property
    def seen(self) -> str:
        """The outcome that agrees best."""
        return max(self.shares, key=lambda outcome: self.shares[outcome])


def surely(fact: str, outcome: str, figures: Figures | None = None) -> Observation:
    """Return an observation that leaves no doubt about its outcome."""
    return Observation(fact, {outcome: 1.0}, figures or {})
