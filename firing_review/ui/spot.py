"""A spot in the window where something can be seen or typed."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Spot:
    """Where to go.

    Attributes
    ----------
    place : str
        Key of the place at the left.
    at_h : float or None
        A moment of the log [h].
    name : str
        A shelf, a section, or the page beside the chart.
    """

    place: str
    at_h: float | None = None
    name: str = ""
