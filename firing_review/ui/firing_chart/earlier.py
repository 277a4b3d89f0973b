"""Earlier firings laid over this one: from the same start, temperature or top."""

from enum import StrEnum
from pathlib import PurePath

import numpy as np

from firing_review.analysis.thresholds import DEFAULTS
from firing_review.firing.aligned import AlignedFiring
from firing_review.firing.sheet import Given
from firing_review.firing.units import TemperatureUnit
from firing_review.firing.wording import day
from firing_review.report.chart_lines import Line, LineRole, temperatures_in
from firing_review.report.curves import Curve
from firing_review.report.shown_text import LONGEST_NAME, shown
from firing_review.report.thin import with_holes
from firing_review.review.pipeline import earlier_firings
from firing_review.review.review import Review


class LaidOver(StrEnum):
    """Where earlier firings are made to meet this one."""

    NOT = "not"
    START = "start"
    TEMPERATURE = "temperature"
    TOP = "top"


class EarlierFirings:
    """The earlier firings of a review, aligned once, when they are first to be seen."""

    def __init__(self) -> None:
        self._given: tuple[Given, ...] = ()
        self._aligned: list[tuple[str, AlignedFiring]] = []
        self.left_out: tuple[str, ...] = ()

    def lines(
        self, review: Review, laid: LaidOver, at_c: float, unit: TemperatureUnit
    ) -> tuple[Line, ...]:
        """Return a line for each earlier firing that can be laid over this one.

        ``left_out`` then names those that cannot.

        Parameters
        ----------
        at_c : float
            Where they meet on the climb, if it is a temperature [°C].
        """
        self.left_out = ()
        if laid is LaidOver.NOT or review.firing is None:
            return ()
        if review.given.earlier is not self._given:
            self._given = review.given.earlier
            aligned = earlier_firings(review.given, DEFAULTS)
            self._aligned = [(earlier_name(one), firing) for one, firing in aligned]
        here_h = meeting_h(review.firing, laid, at_c)
        found = []
        for place, (name, firing) in enumerate(self._aligned):
            there_h = meeting_h(firing, laid, at_c)
            if here_h is not None and there_h is not None:
                x_h, y = with_holes(firing.log.elapsed_h + here_h - there_h, firing.reading_c)
                convert = temperatures_in(unit)
                found.append(Line(LineRole.EARLIER, name, Curve(x_h, y), place, convert))
            else:
                self.left_out += (name,)
        return tuple(found)


def earlier_name(given: Given) -> str:
    """Return what an earlier firing is called at its line's end: its day, or else its title."""
    if given.log.started_at is not None:
        return day(given.log.started_at)
    return shown(given.title or PurePath(given.log.source).stem, LONGEST_NAME)


def meeting_h(firing: AlignedFiring, laid: LaidOver, at_c: float) -> float | None:
    """Return the moment of a firing that is laid on the same moment of another [h].

    None if it never came to the temperature on its climb.
    """
    if laid is LaidOver.START:
        return firing.start_h
    if laid is LaidOver.TOP:
        return firing.peak_h
    hours, reading = firing.log.elapsed_h, firing.reading_c
    reached = np.flatnonzero((reading >= at_c) & (hours <= firing.peak_h))
    if not len(reached):
        return None
    after = int(reached[0])
    before = max(after - 1, 0)
    span_c = float(reading[after] - reading[before])
    share = (at_c - float(reading[before])) / span_c if span_c > 0 else 1.0
    return float(hours[before] + share * (hours[after] - hours[before]))
