"""Tables with quotes, or of fixed width, made into plain ones parted by one sign a cell."""

import numpy as np
from numpy.typing import NDArray

from firing_review.io.log_layout import split_line
from firing_review.io.log_text import pieces

_BLANK, _TAB, _END, _QUOTE = 32, 9, 10, 34


def without_quotes(body: bytes, delimiter: str) -> tuple[bytes, str]:
    """Return quoted lines without quotes, and the sign that parts their cells then."""
    parts = [(piece, _lines_that_hide(piece, delimiter)) for piece in pieces(body)]
    if not any(hiding for _, hiding in parts):
        return body.replace(b'"', b""), delimiter
    return b"".join(_unquoted(piece, hiding, delimiter) for piece, hiding in parts), "\t"


def parted_by_tabs(body: bytes) -> bytes:
    """Return lines of fixed width with one tab for each run of blanks."""
    body = body.replace(b'"', b"")
    return b"".join(_one_tab(piece) for piece in pieces(body))


def _lines_that_hide(text: NDArray[np.uint8], delimiter: str) -> list[tuple[int, int]]:
    """Return where lines begin and end that have a delimiter inside quotes."""
    quotes = np.flatnonzero(text == _QUOTE)
    marks = np.flatnonzero(text == ord(delimiter))
    ends = np.append(np.flatnonzero(text == _END), len(text))
    starts = np.concatenate(([0], ends[:-1] + 1))
    line = np.searchsorted(ends, marks)
    inside = np.searchsorted(quotes, marks) - np.searchsorted(quotes, starts)[line]
    hiding = np.unique(line[inside % 2 == 1])
    return [(int(starts[at]), int(ends[at])) for at in hiding]


def _unquoted(text: NDArray[np.uint8], hiding: list[tuple[int, int]], delimiter: str) -> bytes:
    """Return lines parted by tabs; those that hide a delimiter are split one by one."""
    data, done = text.tobytes(), 0
    parts: list[bytes] = []
    for start, end in [*hiding, (len(data), len(data))]:
        parts.append(data[done:start].replace(delimiter.encode(), b"\t").replace(b'"', b""))
        cells = split_line(data[start:end].decode("utf-8", errors="replace"), delimiter)
        parts.append("\t".join(cell.replace("\t", " ") for cell in cells).encode("utf-8"))
        done = end
    return b"".join(parts)


def _one_tab(text: NDArray[np.uint8]) -> bytes:
    blank = (text == _BLANK) | (text == _TAB)
    edge = blank | (text == _END)
    before = np.concatenate(([True], edge[:-1]))
    behind = np.concatenate((text[1:] == _END, [True]))
    ends_blank = blank & behind
    kept = text[~(blank & before) & ~ends_blank].copy()
    kept[kept == _BLANK] = _TAB
    return bytes(kept.tobytes())
