"""The one check that would tell most, for the least effort and without danger."""

import math
from collections.abc import Sequence

from firing_review.diagnosis.observations import Observation, surely
from firing_review.diagnosis.weigh import NONE, OTHER, likelihood, probabilities
from firing_review.firing.knowledge import Knowledge
from firing_review.firing.results import Check

LEADING = 4
"""Checks of the leading causes are compared."""
EFFORT_MIN = {"look only": 0.0, "cold and unplugged": 20.0, "electrician": 90.0}
"""What who may do it adds to the minutes of a check: coming, waiting, paying [min]."""
BASE_MIN = 10.0
LEAST_GAIN = 0.01
"""Below this no check is worth naming [bit]."""


def best_check(seen: Sequence[Observation], knowledge: Knowledge) -> Check | None:
    """Return the unanswered check with the greatest expected gain of information per effort."""
    shares = probabilities(seen, knowledge)
    leading = sorted(
        (c for c in knowledge.causes if c.id not in {NONE, OTHER}), key=lambda c: -shares[c.id]
    )[:LEADING]
    looked = {o.fact for o in seen}
    ranked = [
        (_gain(fact, seen, knowledge) / _effort(check), check.id, check)
        for cause in leading
        for fact, check in cause.checks
        if fact not in looked
    ]
    if not ranked:
        return None
    gain, _, check = max(ranked, key=lambda r: (r[0], r[1]))
    return check if gain * _effort(check) > LEAST_GAIN else None


def _effort(check: Check) -> float:
    return BASE_MIN + check.minutes + EFFORT_MIN[check.who]


def _gain(fact: str, seen: Sequence[Observation], knowledge: Knowledge) -> float:
    """Return the expected fall of doubt if a fact were known [bit]."""
    now = probabilities(seen, knowledge)
    before = _doubt(now)
    expected = 0.0
    for outcome in knowledge.facts[fact].ordinary:
        answer = surely(fact, outcome)
        chance = sum(now[c.id] * likelihood(c, answer, knowledge) for c in knowledge.causes)
        expected += chance * _doubt(probabilities([*seen, answer], knowledge))
    return before - expected


def _doubt(shares: dict[str, float]) -> float:
    return -sum(p * math.log2(p) for p in shares.values() if p > 0.0)
