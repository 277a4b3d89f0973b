"""What speaks for a cause, what against it, and what was not looked at."""

import math
from collections.abc import Mapping, Sequence

import numpy as np

from firing_review.diagnosis.observations import Observation
from firing_review.diagnosis.weigh import NONE, OTHER, Weights, likelihoods, weigh
from firing_review.firing.knowledge import CauseKnown, Fact, Knowledge
from firing_review.firing.results import CauseWeighed, Check, Sign
from firing_review.firing.said import Said
from firing_review.firing.units import Floats

TELLING = 1.5
"""A fact is named for or against a cause if it changes its odds at least by this factor."""
MOST_NAMED = 5
WORTH_ASKING = 2.0
"""A fact that was not looked at is named if some answer would change the odds by this factor."""


def weigh_causes(
    seen: Sequence[Observation], knowledge: Knowledge, *, power_may_be_on: bool = True
) -> tuple[CauseWeighed, ...]:
    """Return all causes, the most probable first, each with what speaks for and against it.

    Parameters
    ----------
    power_may_be_on : bool
        False where there is a sign of danger: no check that needs the kiln on is named.
    """
    weights = weigh(seen, knowledge)
    ratios = odds_ratios(seen, weights.shares, knowledge)
    causes = [
        _weighed(
            cause,
            weights,
            [(o, float(r[place])) for o, r in zip(seen, ratios, strict=True)],
            knowledge,
            power_may_be_on=power_may_be_on,
        )
        for place, cause in enumerate(knowledge.causes)
    ]
    return tuple(sorted(causes, key=lambda c: (-c.probability, c.id)))


def _weighed(
    cause: CauseKnown,
    weights: Weights,
    ratios: Sequence[tuple[Observation, float]],
    knowledge: Knowledge,
    *,
    power_may_be_on: bool,
) -> CauseWeighed:
    speaks_for = sorted((r for r in ratios if r[1] >= TELLING), key=lambda r: -r[1])
    against = sorted((r for r in ratios if r[1] <= 1.0 / TELLING), key=lambda r: r[1])
    signs_for = tuple(_sign(o, knowledge) for o, _ in speaks_for[:MOST_NAMED])
    signs_against = tuple(_sign(o, knowledge) for o, _ in against[:MOST_NAMED])
    looked = {o.fact for o, _ in ratios}
    return CauseWeighed(
        id=cause.id,
        name=Said(cause.name),
        probability=weights.shares[cause.id],
        speaks_for=tuple(s.said for s in signs_for),
        speaks_against=tuple(s.said for s in signs_against),
        not_looked_at=_not_looked_at(cause, looked, knowledge),
        next_check=_check_of(cause, looked, power_may_be_on=power_may_be_on),
        fix=Said(cause.fix),
        caution=Said(cause.caution),
        together_with=None if cause.id in {NONE, OTHER} else weights.second.get(cause.id),
        signs_for=signs_for,
        signs_against=signs_against,
        what=Said(cause.what),
    )


def odds_ratios(
    seen: Sequence[Observation], shares: Mapping[str, float], knowledge: Knowledge
) -> list[Floats]:
    """Return how each observation changes the odds of each cause against all others together.

    One array a row of ``seen``, in the order of the causes.
    """
    weight = np.array([shares[c.id] for c in knowledge.causes])
    others = np.maximum(1.0 - weight, 1e-9)
    found = []
    for one in seen:
        mine = likelihoods(one, knowledge)
        rest = (weight @ mine - weight * mine) / others
        ordinary = knowledge.facts[one.fact].ordinary
        usual = sum(share * ordinary[outcome] for outcome, share in one.shares.items())
        # against what is usual where nothing else explains it, so that good signs are named too
        found.append(mine / np.maximum(np.minimum(rest, usual), 1e-6))
    return found


def _sign(seen: Observation, knowledge: Knowledge) -> Sign:
    text = seen.text or knowledge.facts[seen.fact].texts[seen.seen]
    return Sign(Said(text, seen.figures), seen.fact, seen.at_h, seen.place)


def _not_looked_at(cause: CauseKnown, looked: set[str], knowledge: Knowledge) -> tuple[Said, ...]:
    """Return the questions still open for a cause, the most telling first."""
    telling = {
        name: _most_telling(table, knowledge.facts[name])
        for name, table in cause.likelihood.items()
        if name not in looked
    }
    names = sorted(telling, key=lambda name: (-telling[name], name))
    return tuple(
        Said(knowledge.facts[n].question) for n in names if telling[n] >= math.log(WORTH_ASKING)
    )


def _most_telling(table: Mapping[str, float], fact: Fact) -> float:
    return max(share * abs(math.log(share / fact.ordinary[o])) for o, share in table.items())


def _check_of(cause: CauseKnown, looked: set[str], *, power_may_be_on: bool) -> Check | None:
    """Return the first check that was not done and may be done; None if there is none."""
    left = (c for c in cause.checks if c.fact not in looked)
    return next((c.check for c in left if power_may_be_on or not c.power_on), None)
