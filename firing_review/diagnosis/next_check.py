"""The one check that would tell most, for the least effort and without danger."""

import math
from collections.abc import Mapping, Sequence

import numpy as np

from firing_review.diagnosis.observations import Observation, surely
from firing_review.diagnosis.weigh import NONE, OTHER, likelihoods, probabilities
from firing_review.firing.knowledge import CheckKnown, Knowledge
from firing_review.firing.results import Check

LEADING = 5
"""Checks of the leading causes are compared."""
WORTH_CHECKING = 0.05
"""Where some cause is this probable, those below it are not worth a way to the kiln."""
EFFORT_MIN = {"look only": 0.0, "cold and unplugged": 20.0, "electrician": 90.0}
"""What who may do it adds to the minutes of a check: coming, waiting, paying [min]."""
BASE_MIN = 10.0
LEAST_GAIN, LEAST_PER_MIN = 0.05, 0.0015
"""Below this no check is worth naming, or not worth its effort [bit], [bit/min]."""
CONFIRM_FROM = 0.3
"""A leading fault this probable is confirmed by its own check where no check tells much."""
DANGEROUS = "stuck_on_section"
DANGER_FROM = 0.1
"""Where heat without demand is this probable, nothing that needs the kiln on is advised."""


def best_check(
    seen: Sequence[Observation], knowledge: Knowledge, *, power_may_be_on: bool = True
) -> Check | None:
    """Return the unanswered check with the greatest expected gain of information per effort.

    Parameters
    ----------
    power_may_be_on : bool
        False where there is a sign of danger: only checks on a kiln cut off are left.
    """
    now = probabilities(seen, knowledge)
    may_be_on = power_may_be_on and now[DANGEROUS] < DANGER_FROM
    candidates = _candidates(seen, now, knowledge, may_be_on=may_be_on)
    gains = {c.fact: _gain(c.fact, seen, now, knowledge) for c in candidates}
    rates = [(gains[c.fact] / _effort(c.check), c) for c in candidates]
    worth = [(r, c) for r, c in rates if r > LEAST_PER_MIN and gains[c.fact] > LEAST_GAIN]
    if not worth:
        return _confirming(candidates, now, knowledge)
    # of equal ones the first stays: that of the more probable cause
    return max(worth, key=lambda pair: pair[0])[1].check


def _confirming(
    candidates: Sequence[CheckKnown], now: Mapping[str, float], knowledge: Knowledge
) -> Check | None:
    """Return an open check of the leading fault, to look before anything is bought or changed."""
    fault = max(
        (c for c in knowledge.causes if c.id not in {NONE, OTHER}), key=lambda c: now[c.id]
    )
    if now[fault.id] < CONFIRM_FROM:
        return None
    return next((c.check for c in fault.checks if c in candidates), None)


def _candidates(
    seen: Sequence[Observation],
    now: Mapping[str, float],
    knowledge: Knowledge,
    *,
    may_be_on: bool,
) -> list[CheckKnown]:
    looked = {o.fact for o in seen}
    faults = [c for c in knowledge.causes if c.id not in {NONE, OTHER}]
    leading = sorted(faults, key=lambda c: (-now[c.id], c.id))[:LEADING]
    leading = [c for c in leading if now[c.id] >= WORTH_CHECKING] or leading
    return [
        check
        for cause in leading
        for check in cause.checks
        if check.fact not in looked and (may_be_on or not check.power_on)
    ]


def _effort(check: Check) -> float:
    return BASE_MIN + check.minutes + EFFORT_MIN[check.who]


def _gain(
    fact: str, seen: Sequence[Observation], now: Mapping[str, float], knowledge: Knowledge
) -> float:
    """Return the expected fall of doubt if a fact were known [bit]."""
    expected, shares = 0.0, np.array([now[c.id] for c in knowledge.causes])
    for outcome in knowledge.facts[fact].ordinary:
        answer = surely(fact, outcome)
        chance = float(shares @ likelihoods(answer, knowledge))
        expected += chance * _doubt(probabilities([*seen, answer], knowledge))
    return _doubt(now) - expected


def _doubt(shares: Mapping[str, float]) -> float:
    return -sum(p * math.log2(p) for p in shares.values() if p > 0.0)
