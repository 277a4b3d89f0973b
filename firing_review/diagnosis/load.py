"""The load before the kiln: what to do with the pieces of each shelf, and why.

Advice for ware is common practice where no source is named; nobody here sees the pieces.
"""

from firing_review.diagnosis.evidence import Reviewed
from firing_review.firing.cones import ConeNumber
from firing_review.firing.results import LoadWord, ShelfAdvice, ShelfHeat
from firing_review.firing.said import N_, Figures, Said
from firing_review.firing.sheet import Answers

BISQUE_WORDS = ("bisque", "biscuit")
GLASS_WORDS = ("glass", "fus", "slump")
BISQUE_LEFT_CONES = 4.0
"""Bisque up to about this many cones low has been kept and glazed; told of one case."""
RUINED_CONES = 3.0
"""A body blisters about one cone over its range (a ceramics reference page); three are past it."""
ENOUGH_SHARE, TOO_MUCH_SHARE = 0.8, 1.35
"""Shares of the goal cone's work between which a load is within about a third of a cone."""

KEEP = N_("That is as meant.")
COLD = N_("Cone {goal_cone} was meant. Tap each piece first: one that rattles is not refired.")
COLD_BISQUE = N_(
    "Bisque, and cone {goal_cone} was meant. Mostly glazed as it is; try one piece first."
)
COLD_AND_RATED_LOWER = N_(
    "The ware is rated for cone {rated_cone} only, below the goal of cone {goal_cone}. Settle "
    "which is right before anything is refired."
)
HOT = N_(
    "Cone {goal_cone} was meant. Look for runs, blisters and bent pieces; what is sound is kept. "
    "A second firing does not take heat back."
)
RUINED = N_(
    "Far past cone {goal_cone}. Glazes have run and bodies blistered in most ware: discard what "
    "has, keep what is sound and rings."
)
WAIT = N_("The pieces lose nothing by waiting until the kiln is safe.")
GLASS = N_("Cones do not judge glass: look at edges and stress, piece by piece.")
UNKNOWN = N_("Its cones do not tell. Look at the pieces beside a shelf that is known.")
GOT = N_("about cone {got_cone}")
GOT_AT_MOST = N_("cone {got_cone} or cooler")
GOT_AT_LEAST = N_("cone {got_cone} or hotter")
BY_LOG_COLD = N_(
    "No cones: by the log the load got {share_pct} of the heat work of cone {goal_cone}. If the "
    "pieces look so too, refire them with cones on every shelf."
)
BY_LOG_GOOD = N_("No cones: by the log the load got what cone {goal_cone} needs. Look, and keep.")
BY_LOG_OPEN = N_(
    "No cones, and the log leaves open how hot the top was. Look at the pieces: only they tell."
)
BY_LOG_HOT = N_(
    "No cones: by the log the load got {share_pct} of the heat work of cone {goal_cone}. Look for "
    "runs and blisters."
)


def load_advice(reviewed: Reviewed, *, danger: bool) -> tuple[ShelfAdvice, ...]:
    """Return what to do with the pieces, shelf by shelf; with a sign of danger, to wait."""
    goal, answers = reviewed.given.goal_cone, reviewed.given.answers
    if danger:
        return (ShelfAdvice("", LoadWord.WAIT, Said(WAIT)),)
    if _ware_is(answers, GLASS_WORDS):
        return (ShelfAdvice("", LoadWord.LOOK, Said(GLASS)),)
    if goal is None:
        return ()
    if reviewed.shelves:
        return tuple(_shelf(shelf, goal, answers) for shelf in reviewed.shelves)
    return _by_log(reviewed, goal)


def _ware_is(answers: Answers, words: tuple[str, ...]) -> bool:
    return any(word in (answers.ware or "").lower() for word in words)


def _shelf(shelf: ShelfHeat, goal: ConeNumber, answers: Answers) -> ShelfAdvice:
    figures: Figures = {
        "goal_cone": goal.text,
        "rated_cone": answers.ware_rated_cone.text if answers.ware_rated_cone else None,
    }
    word, text = _cold_or_hot(shelf, goal, answers)
    return ShelfAdvice(shelf.shelf, word, Said(text, figures), _got(shelf))


def _cold_or_hot(shelf: ShelfHeat, goal: ConeNumber, answers: Answers) -> tuple[LoadWord, str]:
    off = _cones_off(shelf, goal)
    if shelf.word == "even":
        return LoadWord.KEEP, KEEP
    if shelf.word == "hot":
        ruined = off is not None and off > RUINED_CONES
        return (LoadWord.DISCARD, RUINED) if ruined else (LoadWord.LOOK, HOT)
    if shelf.word != "cold":
        return LoadWord.LOOK, UNKNOWN
    rated = answers.ware_rated_cone
    if rated is not None and rated < goal:
        return LoadWord.LOOK, COLD_AND_RATED_LOWER
    if _ware_is(answers, BISQUE_WORDS) and off is not None and off > -BISQUE_LEFT_CONES:
        return LoadWord.KEEP, COLD_BISQUE
    return LoadWord.REFIRE, COLD


def _cones_off(shelf: ShelfHeat, goal: ConeNumber) -> float | None:
    """Return how many cones hotter than the goal a shelf was, or at least was."""
    if shelf.cone_equivalent is not None:
        return shelf.cone_equivalent - goal.rank
    bound = shelf.figures.get("at_least_rank")
    return bound - goal.rank if isinstance(bound, float) else None


def _got(shelf: ShelfHeat) -> Said | None:
    """Return the cone a shelf got, or the bound its cones give; None if they give neither."""
    if shelf.label is not None:
        return Said(GOT, {"got_cone": shelf.label})
    for bound, text in (("at_most_cone", GOT_AT_MOST), ("at_least_cone", GOT_AT_LEAST)):
        if shelf.figures.get(bound) is not None:
            return Said(text, {"got_cone": shelf.figures[bound]})
    return None


def _by_log(reviewed: Reviewed, goal: ConeNumber) -> tuple[ShelfAdvice, ...]:
    share = reviewed.heat[0].goal_fraction if reviewed.heat else None
    if share is None:
        return ()
    figures: Figures = {"goal_cone": goal.text, "share_pct": 100.0 * share}
    if reviewed.heat[0].at_least and share <= TOO_MUCH_SHARE:
        return (ShelfAdvice("", LoadWord.LOOK, Said(BY_LOG_OPEN)),)
    if share < ENOUGH_SHARE:
        return (ShelfAdvice("", LoadWord.REFIRE, Said(BY_LOG_COLD, figures)),)
    if share > TOO_MUCH_SHARE:
        return (ShelfAdvice("", LoadWord.LOOK, Said(BY_LOG_HOT, figures)),)
    return (ShelfAdvice("", LoadWord.KEEP, Said(BY_LOG_GOOD, figures)),)
