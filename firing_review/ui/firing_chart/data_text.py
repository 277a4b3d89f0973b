"""The chart's figures as a table for a spreadsheet: tabs between cells, units in the heading."""

from dataclasses import dataclass

import numpy as np
import pandas as pd

from firing_review.firing.log import Channel, ChannelRole, FiringLog
from firing_review.firing.units import Floats, TemperatureUnit
from firing_review.firing.wording import tr
from firing_review.io.csv_cells import guarded
from firing_review.report.chart_lines import rates_in, temperatures_in
from firing_review.report.shown_text import LONGEST_NAME, shown
from firing_review.review.review import Review
from firing_review.ui.side_process import Tell

PIECE_BYTES = 1_000_000
"""So much is copied in less time than a person could notice."""


def table_text(review: Review, unit: TemperatureUnit, low_h: float, high_h: float) -> str:
    """Return every row of the log between two times [h], with rate where it was worked out.

    Temperatures are in the unit of the screen, one decimal; a gap is an empty cell.
    """
    log = review.given.log
    inside = (log.elapsed_h >= low_h) & (log.elapsed_h <= high_h)
    table = pd.DataFrame({tr("time, h"): np.round(log.elapsed_h[inside], 5)})
    if log.started_at is not None:
        stamps = pd.Timestamp(log.started_at) + pd.to_timedelta(log.elapsed_h[inside], unit="h")
        table[tr("clock")] = stamps.round("s").strftime("%Y-%m-%d %H:%M:%S")
    for heading, values in _columns(review, unit):
        table[heading] = np.round(values[inside], 1)
    return table.to_csv(sep="\t", index=False, lineterminator="\n")


@dataclass(frozen=True)
class TableMade:
    """Rows under a heading, in UTF-8, in pieces."""

    rows: int
    pieces: tuple[bytes, ...]


def table_made(review: Review, unit: TemperatureUnit, low_h: float, high_h: float) -> TableMade:
    """Return the same in pieces, which are handed on one by one so that nobody waits for all."""
    text = table_text(review, unit, low_h, high_h).encode()
    pieces = tuple(text[at : at + PIECE_BYTES] for at in range(0, len(text), PIECE_BYTES))
    return TableMade(text.count(b"\n") - 1, pieces)


def table_beside(
    _tell: Tell, review: Review, unit: TemperatureUnit, low_h: float, high_h: float
) -> TableMade:
    """Return the same as work beside the window."""
    return table_made(review, unit, low_h, high_h)


def rows_between(log: FiringLog, low_h: float, high_h: float) -> int:
    """Return how many rows of a log lie between two times [h]."""
    first, last = np.searchsorted(log.elapsed_h, (low_h, high_h))
    return int(last - first)


def _columns(review: Review, unit: TemperatureUnit) -> list[tuple[str, Floats]]:
    log, firing = review.given.log, review.firing
    degrees = f"°{unit.value}"
    found = [
        (f"{_heading(channel)}, {degrees}", temperatures_in(unit)(channel.values))
        for channel in (*log.temperatures, log.first(ChannelRole.SET_POINT))
        if channel is not None
    ]
    if firing is not None:
        heading = tr("rate, {unit} per hour").format(unit=degrees)
        rate = np.interp(log.elapsed_h, firing.log.elapsed_h, firing.rate_c_per_h)
        found.append((heading, rates_in(unit)(rate)))
    output = log.first(ChannelRole.OUTPUT)
    if output is not None:
        found.append((f"{_heading(output)}, %", output.values))  # noqa: PD011 - no data frame
    return found


def _heading(channel: Channel) -> str:
    """Return the name of a column as one cell that no spreadsheet takes for a formula."""
    return guarded(shown(channel.title, LONGEST_NAME))
