"""Where the evidence of a cause is seen, and where what a question asks for is typed."""

from firing_review.firing.results import Sign
from firing_review.ui.spot import Spot

ASKED_ELSEWHERE = {
    "cones": Spot("shelves"),
    "schedule": Spot("firing", name="schedule"),
    "kiln": Spot("firing", name="kiln"),
    "cold_ohms": Spot("elements"),
    "volts_full_load": Spot("elements"),
    "amps": Spot("elements"),
    "earlier": Spot("elements"),
}
"""Questions that another place asks better than a line of text."""
SAFETY = Spot("firing", name="safety")
_BY_FACT = {
    "shelves": "shelves",
    "goal": "shelves",
    "ohms": "elements",
    "volts": "elements",
    "amps": "elements",
    "power": "elements",
    "load": "elements",
    "loss": "elements",
}
_BESIDE = {"supply_kind": "kiln", "danger": "safety", "typed": "schedule"}
QUESTION_OF = {
    "onset": "onset",
    "said_load": "load",
    "said_end": "ended",
    "touched": "probe_touched",
    "age": "firings_since_elements",
    "glow": "sections_dark",
}
"""Facts that a person told, and the question whose answer they are."""


def spot_of(sign: Sign) -> Spot:
    """Return where a sign is seen: a moment in the chart, a shelf, or the readings."""
    place = _BY_FACT.get(sign.fact)
    if place is not None:
        return Spot(place, name=sign.place)
    if sign.at_h is not None:
        return Spot("firing", sign.at_h)
    return Spot("firing", name=_BESIDE.get(sign.fact, "findings"))
