"""Causes weighed: how probable each is, given what was seen and how often it happens.

Naive Bayes over exclusive causes, with an open remainder. Facts are exclusive questions, so that
several signs of one thing count once; what was not looked at moves nothing. The sum of log
ratios is tempered, for the facts that remain are not independent in full.
"""

import math
from collections.abc import Mapping, Sequence

from firing_review.diagnosis.observations import Observation
from firing_review.firing.knowledge import CauseKnown, Knowledge
from firing_review.firing.results import CauseWeighed
from firing_review.firing.said import Said

TEMPER = 0.85
"""Exponent on the evidence: naive Bayes is overconfident; set on planted firings as a whole."""
TELLING = 1.5
"""A fact is named for or against a cause if it changes its odds at least by this factor."""
MOST_NAMED = 5
SECOND_ODDS = 0.5
"""A second cause is named if what the first leaves unexplained makes it this likely: odds of its
being there as well."""
NONE, OTHER = "none", "other"


def probabilities(seen: Sequence[Observation], knowledge: Knowledge) -> dict[str, float]:
    """Return the probability of every cause; they sum to 1."""
    logs = {
        cause.id: math.log(cause.prior)
        + TEMPER * sum(math.log(likelihood(cause, o, knowledge)) for o in seen)
        for cause in knowledge.causes
    }
    top = max(logs.values())
    weights = {name: math.exp(value - top) for name, value in logs.items()}
    total = sum(weights.values())
    return {name: weight / total for name, weight in weights.items()}


def likelihood(cause: CauseKnown, seen: Observation, knowledge: Knowledge) -> float:
    """Return how likely an observation is if a cause holds."""
    return sum(
        share * knowledge.share(cause, seen.fact, outcome)
        for outcome, share in seen.shares.items()
    )


def weigh_causes(seen: Sequence[Observation], knowledge: Knowledge) -> tuple[CauseWeighed, ...]:
    """Return all causes, the most probable first, each with what speaks for and against it."""
    shares = probabilities(seen, knowledge)
    known = {cause.id: cause for cause in knowledge.causes}
    ordered = sorted(known.values(), key=lambda c: (-shares[c.id], c.id))
    first = ordered[0]
    return tuple(
        _weighed(
            cause,
            shares,
            seen,
            knowledge,
            _second(first, known, seen, knowledge) if cause is first else None,
        )
        for cause in ordered
    )


def _weighed(
    cause: CauseKnown,
    shares: Mapping[str, float],
    seen: Sequence[Observation],
    knowledge: Knowledge,
    together_with: str | None,
) -> CauseWeighed:
    ratios = [(o, _ratio(cause, o, shares, knowledge)) for o in seen]
    speaks_for = sorted((r for r in ratios if r[1] >= TELLING), key=lambda r: -r[1])
    against = sorted((r for r in ratios if r[1] <= 1.0 / TELLING), key=lambda r: r[1])
    looked = {o.fact for o in seen}
    missing = [f for f in cause.likelihood if f not in looked]
    return CauseWeighed(
        id=cause.id,
        name=Said(cause.name),
        probability=shares[cause.id],
        speaks_for=tuple(_said(o, knowledge) for o, _ in speaks_for[:MOST_NAMED]),
        speaks_against=tuple(_said(o, knowledge) for o, _ in against[:MOST_NAMED]),
        not_looked_at=tuple(Said(knowledge.facts[f].question) for f in missing),
        next_check=next((check for fact, check in cause.checks if fact not in looked), None)
        or (cause.checks[0][1] if cause.checks else None),
        fix=Said(cause.fix),
        caution=Said(cause.caution),
        together_with=together_with,
    )


def _ratio(
    cause: CauseKnown, seen: Observation, shares: Mapping[str, float], knowledge: Knowledge
) -> float:
    """Return how an observation changes the odds of a cause against all others together."""
    others = [c for c in knowledge.causes if c.id != cause.id]
    weight = sum(shares[c.id] for c in others) or 1.0
    rest = sum(shares[c.id] * likelihood(c, seen, knowledge) for c in others) / weight
    ordinary = sum(
        share * knowledge.facts[seen.fact].ordinary[outcome]
        for outcome, share in seen.shares.items()
    )
    # against what is usual where nothing else explains it, so that good signs are named too
    return likelihood(cause, seen, knowledge) / max(min(rest, ordinary), 1e-6)


def _said(seen: Observation, knowledge: Knowledge) -> Said:
    return Said(knowledge.facts[seen.fact].texts[seen.seen], seen.figures)


def _second(
    first: CauseKnown,
    known: Mapping[str, CauseKnown],
    seen: Sequence[Observation],
    knowledge: Knowledge,
) -> str | None:
    """Return the cause that best explains what the first one leaves unexplained, if any.

    Two causes at work: each fact is as the one of them says that fits it better.
    """
    if first.id in {NONE, OTHER}:
        return None
    best, best_gain = None, SECOND_ODDS
    for cause in known.values():
        if cause.id in {first.id, NONE, OTHER}:
            continue
        gain = cause.prior
        for o in seen:
            alone = likelihood(first, o, knowledge)
            gain *= max(alone, likelihood(cause, o, knowledge)) / alone
        if gain > best_gain:
            best, best_gain = cause.id, gain
    return best
