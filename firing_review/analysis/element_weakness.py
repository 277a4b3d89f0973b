"""The heating elements: what the curve says, and what meter readings say."""

from firing_review.analysis.power_balance import judge_power
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.kiln import Kiln
from firing_review.firing.results import ElementsJudged
from firing_review.firing.sheet import Readings


def judge_elements(
    firing: AlignedFiring,
    earlier: tuple[AlignedFiring, ...],
    kiln: Kiln | None,
    readings: Readings,
) -> ElementsJudged:
    """Judge power, load, heat loss and heating elements of a kiln.

    Parameters
    ----------
    earlier : tuple of AlignedFiring
        Good firings of the same kiln, the newest last.
    kiln, readings : Kiln or None, Readings
        Rated values and what a meter showed; either may be empty.
    """
    del kiln, readings
    return judge_power(firing, earlier)
