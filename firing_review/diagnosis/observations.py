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
    at_h : float or None
        Where in the log it was seen [h].
    place : str
        Shelf or section it was seen at; empty for the whole kiln.
    text : str
        Another sentence than that of the outcome, where that one does not fit; else empty.
    """

    fact: str
    shares: Mapping[str, float]
    figures: Figures = field(default_factory=dict)
    at_h: float | None = None
    place: str = ""
    text: str = ""

    @property
    def seen(self) -> str:
        """The outcome that agrees best."""
        return max(self.shares, key=lambda outcome: self.shares[outcome])


def surely(
    fact: str,
    outcome: str,
    figures: Figures | None = None,
    at_h: float | None = None,
    place: str = "",
) -> Observation:
    """Return an observation that leaves no doubt about its outcome."""
    return Observation(fact, {outcome: 1.0}, figures or {}, at_h, place)
