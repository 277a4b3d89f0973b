"""Causes weighed: how probable each is, given what was seen and how often it happens.

Naive Bayes over exclusive causes, pairs of causes and an open remainder. Facts are exclusive
questions, so that several signs of one thing count once; what was not looked at moves nothing.
The sum of log ratios is tempered, for the facts that remain are not independent in full.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from firing_review.diagnosis.observations import Observation
from firing_review.firing.knowledge import Knowledge
from firing_review.firing.units import Floats

TEMPER = 0.85
"""Exponent on the evidence. Naive Bayes is overconfident where facts depend on each other; on
planted firings of several kilns 0.85 makes what is said with 80 % right at least as often."""
PAIR_SHARE = 0.5
"""Two faults meet half as often as chance would have it: most firings are looked into at the
first fault; an estimate."""
SECOND_FROM = 0.4
"""A second cause is named if it is about as probable as not that there is one."""
NONE, OTHER = "none", "other"


@dataclass(frozen=True)
class Weights:
    """How probable each cause is, alone or as the main one of two; and which second goes with it.

    Attributes
    ----------
    shares : mapping
        Probability by cause; sums to 1.
    second : mapping
        The second cause, for a main cause that hardly explains everything alone.
    """

    shares: Mapping[str, float]
    second: Mapping[str, str]


def likelihoods(seen: Observation, knowledge: Knowledge) -> Floats:
    """Return how likely an observation is if each cause holds, shape (causes,)."""
    tables, _, shares = _tables(seen, knowledge)
    return np.asarray(tables @ shares)


def probabilities(seen: Sequence[Observation], knowledge: Knowledge) -> dict[str, float]:
    """Return the probability of every cause, each taken to be alone; they sum to 1."""
    weights = _scaled(_alone(seen, knowledge))
    return {c.id: float(w) for c, w in zip(knowledge.causes, weights, strict=True)}


def weigh(seen: Sequence[Observation], knowledge: Knowledge) -> Weights:
    """Return the probability of every cause, pairs of causes included."""
    alone, pairs = _alone(seen, knowledge), _in_pairs(seen, knowledge)
    top = max(float(alone.max()), float(pairs.max(initial=-np.inf)))
    single, double = np.exp(alone - top), np.exp(pairs - top)
    # the one that would lead alone is the main cause of a pair; equals go by their order
    ahead = np.round(alone[:, None] - alone[None, :], 9)
    leads = (ahead > 0.0) | ((ahead == 0.0) & np.tri(len(alone), dtype=bool).T)
    as_main = np.where(leads, double, 0.0)
    shares = single + as_main.sum(axis=1)
    second = _seconds(shares, as_main, knowledge)
    shares = shares / shares.sum()
    return Weights({c.id: float(p) for c, p in zip(knowledge.causes, shares, strict=True)}, second)


def _seconds(shares: Floats, as_main: Floats, knowledge: Knowledge) -> dict[str, str]:
    ids = [c.id for c in knowledge.causes]
    found = {}
    for index, name in enumerate(ids):
        if as_main[index].sum() > SECOND_FROM * shares[index]:
            found[name] = ids[int(np.argmax(as_main[index]))]
    return found


def _scaled(logs: Floats) -> Floats:
    weights = np.exp(logs - logs.max())
    return np.asarray(weights / weights.sum())


def _alone(seen: Sequence[Observation], knowledge: Knowledge) -> Floats:
    """Return the log weight of each cause alone, shape (causes,)."""
    logs = np.log([c.prior for c in knowledge.causes])
    for one in seen:
        logs = logs + TEMPER * np.log(likelihoods(one, knowledge))
    return np.asarray(logs)


def _in_pairs(seen: Sequence[Observation], knowledge: Knowledge) -> Floats:
    """Return the log weight of each pair of faults, shape (causes, causes); -inf for no pair."""
    causes = knowledge.causes
    prior = np.log([c.prior for c in causes])
    logs = np.log(PAIR_SHARE) + prior[:, None] + prior[None, :]
    for one in seen:
        tables, changes, shares = _tables(one, knowledge)
        logs = logs + TEMPER * np.log(_both(tables, changes) @ shares)
    fault = np.array([c.id not in {NONE, OTHER} for c in causes])
    real = fault[:, None] & fault[None, :] & ~np.eye(len(causes), dtype=bool)
    return np.where(real, logs, -np.inf)


def _tables(seen: Observation, knowledge: Knowledge) -> tuple[Floats, np.ndarray, Floats]:
    """Return, for one fact, shares by cause and outcome, who changes it, and what was seen."""
    tables, changes = _table(knowledge, seen.fact)
    outcomes = knowledge.facts[seen.fact].ordinary
    return tables, changes, np.array([seen.shares.get(o, 0.0) for o in outcomes])


@lru_cache(maxsize=256)
def _table(knowledge: Knowledge, fact: str) -> tuple[Floats, np.ndarray]:
    outcomes = tuple(knowledge.facts[fact].ordinary)
    rows = [[knowledge.share(c, fact, o) for o in outcomes] for c in knowledge.causes]
    return np.array(rows), np.array([fact in c.likelihood for c in knowledge.causes])


def _both(tables: Floats, changes: np.ndarray) -> Floats:
    """Return the table of two causes at work, shape (causes, causes, outcomes).

    A fact is as the one of them says that changes it; where both do, either may show.
    """
    either = np.maximum(tables[:, None, :], tables[None, :, :])
    either = either / either.sum(axis=2, keepdims=True)
    first = changes[:, None, None] & ~changes[None, :, None]
    second = ~changes[:, None, None] & changes[None, :, None]
    mixed = np.where(first, tables[:, None, :], either)
    return np.where(second, tables[None, :, :], mixed)
