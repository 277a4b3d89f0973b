"""The rows of any log: table, clock and columns of numbers, whatever their form."""

from dataclasses import replace

import pandas as pd

from firing_review.firing.errors import DoubtError
from firing_review.firing.log import ReadingChoices
from firing_review.io.log_begin import with_begin
from firing_review.io.log_clock import Clock, mend_clock
from firing_review.io.log_layout import Layout, column_names
from firing_review.io.log_long import widen
from firing_review.io.log_numbers import number_columns
from firing_review.io.log_plain import Rows
from firing_review.io.log_repeats import without_second_telling
from firing_review.io.log_table import RawTable, read_table
from firing_review.io.log_text import LogText
from firing_review.io.log_time import read_clock


def rows_of(
    text: LogText, layout: Layout, source: str, choices: ReadingChoices, *, ask: bool
) -> Rows:
    """Return the rows of a log of any form; see :func:`firing_review.io.log_steps.take_apart`."""
    table = read_table(text, layout, source)
    last_given = bool(table.frame.iloc[:, -1].notna().any())
    names = column_names(layout, table.frame.shape[1], _rises(table.frame), last_given)
    clock, doubts = _clock(table, names, source, choices, ask)
    frame = table.frame
    long = widen(frame, names, clock)
    if long is not None:
        frame, names, clock = long
    rows = len(frame)
    frame, clock, repeats = without_second_telling(frame, clock)
    clock = with_begin(mend_clock(clock), layout.preamble)
    return Rows(
        names=tuple(names),
        clock=clock,
        numbers=number_columns(frame, clock.columns),
        unit_row=() if long is not None else layout.units,
        unit_words=tuple(_unit_columns(table.frame)),
        notes=(*table.notes, *repeats),
        dropped=table.dropped + rows - len(frame),
        doubts=doubts,
    )


def _rises(frame: pd.DataFrame) -> bool:
    column = frame[0]
    if not pd.api.types.is_numeric_dtype(column) or len(column) < 3:
        return False
    return bool((column.diff().iloc[1:] > 0).mean() > 0.9)


def _clock(
    table: RawTable, names: list[str], source: str, choices: ReadingChoices, ask: bool
) -> tuple[Clock, tuple[DoubtError, ...]]:
    layout = table.layout
    try:
        return read_clock(table.frame, names, layout.units, layout.preamble, source, choices), ()
    except DoubtError as doubt:
        if ask:
            raise
        likelier = replace(choices, day_first=False)
        clock = read_clock(table.frame, names, layout.units, layout.preamble, source, likelier)
        return clock, (doubt,)


def _unit_columns(frame: pd.DataFrame) -> list[str]:
    """Return the text of columns that hold one word only, such as a unit beside each value."""
    words = []
    for index in range(frame.shape[1]):
        if not pd.api.types.is_numeric_dtype(frame[index]):
            seen = frame[index].iloc[:2000].dropna().astype(str).str.strip().unique()
            words += [f"°{seen[0][-1]}" for _ in (0,) if len(seen) == 1 and _is_unit(seen[0])]
    return words


def _is_unit(word: str) -> bool:
    return word.strip("° ").removeprefix("deg ") in {"C", "F"}
