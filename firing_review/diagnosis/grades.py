"""Doubt about a measurement, spread over the outcomes of a fact."""

import math


def above(value: float, limit: float, width: float) -> float:
    """Return how surely a value lies above a limit, 0 to 1, with a soft edge of ``width``."""
    return 1.0 / (1.0 + math.exp(-min(max((value - limit) / width, -50.0), 50.0)))


def normal_below(limit: float, mean: float, sd: float) -> float:
    """Return the share of a normal distribution that lies below a limit."""
    return 0.5 * math.erfc((mean - limit) / (math.sqrt(2.0) * max(sd, 1e-9)))
