"""The cells of an even table turned into numbers and times as they lie in the bytes of a file.

A column is gone through at once, sign by sign from the right, so that nothing is made of a
single cell. What this cannot read it does not guess: it says None, and another reader looks.
"""

from dataclasses import dataclass

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import NDArray

from firing_review.firing.units import Floats
from firing_review.io.log_marks import spellings

Bytes = NDArray[np.uint8]
Places = NDArray[np.intp]

MOST_EXACT, MOST_SIGNS = 15, 24
"""So many digits are exact in a floating-point number, and so many signs tell any of them."""
GAPS = frozenset(word.encode() for word in (*spellings(), ""))
DAY_S = 86_400.0
_CLOCK = ((11, 3600.0, 24), (14, 60.0, 60), (17, 1.0, 60))
"""Where hour, minute and second stand in a stamp, their length [s], and how many there are."""
_ZERO, _NINE = ord("0"), 9
_END = ord("\n")


@dataclass(frozen=True, eq=False)
class Cells:
    """A piece of text that ends with a line, and where each cell begins and ends, by column."""

    text: Bytes
    starts: Places
    ends: Places


def cells_of(lines: Bytes, delimiter: str, count: int) -> Cells | None:
    """Return the cells of lines, the last with its end or without; None if one has not so many."""
    text = lines if lines[-1] == _END else np.append(lines, np.uint8(_END))
    line_end = text == _END
    marks = np.flatnonzero(line_end | (text == ord(delimiter)))
    if not len(marks) or len(marks) % count:
        return None
    closes = line_end[marks].reshape(-1, count)
    if closes[:, :-1].any() or not closes[:, -1].all():
        return None
    ends = np.ascontiguousarray(marks.reshape(-1, count).T)
    starts = np.empty_like(ends)
    starts[1:] = ends[:-1] + 1
    starts[0] = np.append(0, ends[-1, :-1] + 1)
    return Cells(text, starts, ends)


def seconds_of(cells: Cells, column: int, like: str) -> Floats | None:
    """Return stamps as seconds since 1970; None if one is no date or has not the form of this one.

    The form is ``2026-04-11 22:00``, with another sign between or not, and with seconds or not.
    """
    starts, size = cells.starts[column], len(like)
    if (cells.ends[column] - starts != size).any():
        return None
    signs = sliding_window_view(cells.text, size)[starts]
    digits = signs - _ZERO
    form = np.array([sign.isdigit() for sign in like])
    between = np.frombuffer(like.encode(), dtype=np.uint8)[~form]
    if ((digits <= _NINE) != form).any() or (signs[:, ~form] != between).any():
        return None
    days = _days(signs[:, :10])
    if days is None:
        return None
    seconds = DAY_S * days
    for at, worth_s, count in _CLOCK[: (size - 9) // 3]:
        part = 10 * digits[:, at] + digits[:, at + 1]
        if part.max() >= count:
            return None
        seconds += worth_s * part
    return seconds


def _days(dates: Bytes) -> Floats | None:
    """Return dates as days since 1970, each read once while it stands; None if one is none."""
    begins = np.flatnonzero(np.append(True, (dates[1:] != dates[:-1]).any(axis=1)))
    texts = [dates[at].tobytes().decode() for at in begins.tolist()]
    try:
        days = np.array(texts, dtype="datetime64[D]").astype(np.float64)
    except ValueError:  # the thirty-first of February
        return None
    return np.repeat(days, np.diff(np.append(begins, len(dates))))


def numbers_of(cells: Cells, column: int, point: str) -> Floats | None:
    """Return a column of numbers, NaN for gaps; None if a cell is neither."""
    starts, ends = cells.starts[column], cells.ends[column]
    even = _even(cells.text, starts, ends, ord(point))
    return _any(cells.text, starts, ends, ord(point)) if even is None else even


def _even(text: Bytes, starts: Places, ends: Places, point: int) -> Floats | None:
    """Return numbers without a sign that all have as many decimals; None if one is another."""
    lengths = ends - starts
    shortest, longest = int(lengths.min()), int(lengths.max())
    behind = np.flatnonzero(text[starts[0] : ends[0]][::-1] == point)
    parted = int(behind[0]) + 1 if len(behind) else 0
    if longest > MOST_EXACT or shortest <= parted:
        return None
    if parted and (text[ends - parted] != point).any():
        return None
    total, weight = np.zeros(len(ends)), 1.0
    for place in (p for p in range(1, longest + 1) if p != parted):
        digit = text[ends - place] - _ZERO
        if place > shortest:
            digit[lengths < place] = 0
        if digit.max() > _NINE:
            return None
        total += weight * digit
        weight *= 10.0
    return total / 10.0 ** (parted - 1) if parted else total


def _any(text: Bytes, starts: Places, ends: Places, point: int) -> Floats | None:
    """Return numbers of any form but with an exponent, NaN for gaps; None if a cell is neither."""
    lengths = ends - starts
    size = max(int(lengths.max()), len("nan"))
    if size > MOST_SIGNS:
        return None
    beyond = np.zeros(size, dtype=np.uint8)
    signs = sliding_window_view(np.concatenate((text, beyond)), size)[starts]
    signs[np.arange(size) >= lengths[:, None]] = 0
    digits = signs - _ZERO <= _NINE
    fit = digits | (signs == 0) | (signs == point) | (signs == ord("+")) | (signs == ord("-"))
    odd = ~(fit.all(axis=1) & digits.any(axis=1))
    if not set(signs[odd].view(f"S{size}").ravel().tolist()) <= GAPS:
        return None
    signs[odd] = np.frombuffer(b"nan".ljust(size, b"\x00"), dtype=np.uint8)
    signs[signs == point] = ord(".")
    try:
        return signs.view(f"S{size}").ravel().astype(np.float64)
    except ValueError:  # signs of a number in an order that makes none
        return None
