"""Cones of one place that cannot both be right: pack reversed, cone misread, wrong number."""

from collections.abc import Sequence
from itertools import combinations

from firing_review.analysis.cone_likelihood import LAW_WEIGHTS, ConeSays
from firing_review.firing.said import N_, Said

CONTRADICTED = 0.011
"""Two cones contradict where both together are this unlikely: three standard deviations."""

TWO_ALIKE = N_(
    "Two cones {cooler_cone} at the same place bent differently: "
    "one may be misread, in a draft, or its number wrong."
)
REVERSED = N_(
    "Cone {hotter_cone} bent farther than cone {cooler_cone} allows: the pack may stand "
    "reversed, a cone may be misread, or a number wrong."
)
TOO_FAR = N_(
    "Cone {cooler_cone} bent so far that cone {hotter_cone} should have bent more: "
    "a cone may be misread, or a number wrong."
)
CONTRADICTION_TEXTS = frozenset({TWO_ALIKE, REVERSED, TOO_FAR})
"""How a contradiction of cones can be known among the notes of a shelf."""


def contradictions(said: Sequence[ConeSays]) -> tuple[Said, ...]:
    """Name the pair that contradicts itself most, if any does beyond its errors."""
    found = []
    ordered = sorted(said, key=lambda s: s.cone.cone.rank)
    for cooler, hotter in combinations(ordered, 2):
        agreed = agreement(cooler, hotter)
        if agreed < CONTRADICTED:
            found.append((agreed, _contradiction(cooler, hotter)))
    return tuple(words for _, words in sorted(found, key=lambda f: f[0])[:1])


def agreement(one: ConeSays, other: ConeSays) -> float:
    """Return how well one shift suits both cones, 1 for fully (a ratio of likelihoods)."""
    both = LAW_WEIGHTS @ (one.likelihood * other.likelihood)
    single = [LAW_WEIGHTS @ s.likelihood for s in (one, other)]
    return float(both.max() / (single[0].max() * single[1].max()))


def _contradiction(cooler: ConeSays, hotter: ConeSays) -> Said:
    figures = {"cooler_cone": cooler.cone.cone.text, "hotter_cone": hotter.cone.cone.text}
    if cooler.cone.cone == hotter.cone.cone:
        return Said(TWO_ALIKE, figures)
    return Said(REVERSED if hotter.best_c > cooler.best_c else TOO_FAR, figures)
