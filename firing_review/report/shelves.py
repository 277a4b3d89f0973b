"""Shelves as they are shown: their names from the floor up, signs, places on them."""

from firing_review.firing.cones import Bend
from firing_review.firing.said import N_
from firing_review.firing.wording import tr
from firing_review.review.review import Review

SIGNS = {"hot": "+", "cold": "−", "even": "✓", "": "?"}
"""The sign of a shelf's word, so that nothing rests on color."""


BEND_WORDS = {
    Bend.UPRIGHT: N_("upright"),
    Bend.STARTING: N_("starting"),
    Bend.HALF: N_("half"),
    Bend.THREE_QUARTERS: N_("three quarters"),
    Bend.END_POINT: N_("end point"),
    Bend.FLAT: N_("flat"),
    Bend.MELTED: N_("melted"),
}


def spot_of(position: str) -> tuple[float, float]:
    """Return where a place lies on a shelf seen from above, from left and back, 0 to 1."""
    words = position.lower()
    x = 0.2 if "left" in words else 0.8 if "right" in words else 0.5
    y = 0.2 if "back" in words else 0.85 if "front" in words else 0.5
    return x, y


def shelf_names(review: Review) -> list[str]:
    """Return the shelves from the floor up: of the kiln sheet, else as the cones name them.

    Where no sheet says more, a shelf called bottom stands lowest and one called top highest,
    in whichever order their cones were written down.
    """
    kiln = review.given.kiln
    names = list(kiln.shelf_names) if kiln else []
    others = dict.fromkeys(c.shelf for c in review.given.cones if c.shelf not in names)
    names += sorted(others, key=_height)
    return names or [tr("bottom"), tr("middle"), tr("top")]


def _height(name: str) -> int:
    """Return 0 for what is called bottom, 2 for what is called top, 1 for all between."""
    word = name.strip().casefold()
    if word in {"bottom", tr("bottom").casefold()}:
        return 0
    return 2 if word in {"top", tr("top").casefold()} else 1
