"""Round marks for axes: hours or clock along, temperatures up."""

import math
from datetime import datetime, timedelta

from firing_review.firing.wording import clock, tr

STEPS_H = (1 / 60, 2 / 60, 5 / 60, 10 / 60, 0.25, 0.5, 1.0, 2.0, 3.0, 6.0, 12.0, 24.0, 48.0, 168.0)
"""Distances between time marks that people count in [h]."""
ROUND = (1.0, 2.0, 2.5, 5.0, 10.0)


def time_step_h(span_h: float, most: int) -> float:
    """Return the smallest usual step that puts at most ``most`` marks on ``span_h``."""
    return next((step for step in STEPS_H if span_h / step <= most), STEPS_H[-1])


def round_step(span: float, most: int) -> float:
    """Return a step of 1, 2, 2.5 or 5 times a power of ten with at most ``most`` marks."""
    rough = max(span, 1e-9) / max(most, 1)
    power = 10.0 ** math.floor(math.log10(rough))
    return next(power * r for r in ROUND if power * r >= rough * (1 - 1e-9))


def marks(low: float, high: float, step: float, origin: float = 0.0) -> list[float]:
    """Return the multiples of ``step`` from ``origin`` inside the range."""
    first = math.ceil((low - origin) / step - 1e-9)
    last = math.floor((high - origin) / step + 1e-9)
    return [origin + n * step for n in range(first, last + 1)]


def elapsed_text(hours: float, step_h: float) -> str:
    """Return hours as ``3 h``, or ``3:15`` between full hours."""
    if step_h >= 1.0:
        return f"{hours:.0f} h"
    minutes = round(hours * 60)
    sign = "−" if minutes < 0 else ""
    return f"{sign}{abs(minutes) // 60}:{abs(minutes) % 60:02d}"


def clock_text(started_at: datetime, hours: float, *, with_day: bool = False) -> str:
    """Return the clock time ``hours`` after the first sample, to the minute."""
    moment = started_at + timedelta(hours=hours) + timedelta(seconds=30)
    text = clock(moment)
    return f"{weekday(moment)} {text}" if with_day else text


def weekday(moment: datetime) -> str:
    """Return the short name of a day."""
    names = (tr("Mon"), tr("Tue"), tr("Wed"), tr("Thu"), tr("Fri"), tr("Sat"), tr("Sun"))
    return names[moment.weekday()]
