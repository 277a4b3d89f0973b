"""May it be fired again? Danger first, then what the causes ask for.

A cause that can burn or run away counts long before it is the likeliest one.
"""

from collections.abc import Sequence

from firing_review.firing.knowledge import Knowledge
from firing_review.firing.results import AgainWord, CauseWeighed, FireAgain
from firing_review.firing.said import N_, Said
from firing_review.firing.sheet import Answers

WAIT_FROM = 0.3
"""Causes that forbid firing do so where they are this probable together: a needless look costs
minutes, a burnt joint a kiln."""
CARE_FROM = 0.5
NOT_IN_DANGER = Said(
    N_("Not before a licensed electrician has found the danger and it is mended.")
)
ASK_FIRST = Said(N_("Answer the question about safety first."))


def fire_again(
    causes: Sequence[CauseWeighed], knowledge: Knowledge, answers: Answers, *, danger: bool
) -> FireAgain | None:
    """Return whether the kiln may be fired again; None where nothing was weighed."""
    if danger:
        return FireAgain(AgainWord.STOP, NOT_IN_DANGER)
    if not causes:
        return None
    if answers.safety is None:
        return FireAgain(AgainWord.ASK, ASK_FIRST)
    known = {c.id: c for c in knowledge.causes}
    wait = [c for c in causes if known[c.id].again is AgainWord.NOT_YET]
    care = [c for c in causes if known[c.id].again is not AgainWord.YES]
    leading = causes[0]
    if sum(c.probability for c in wait) >= WAIT_FROM:
        leading = wait[0]
    elif sum(c.probability for c in care) >= CARE_FROM:
        leading = care[0]
    return FireAgain(known[leading.id].again, Said(known[leading.id].again_text))
