"""Columns of a table shared out so that it need not be scrolled sideways."""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QTableView

from firing_review.report.shown_text import kept_together

EDGES = 20
"""Pixels beside the words of a cell."""


def shared_out(room: int, natural: Sequence[int], least: Sequence[int]) -> list[int]:
    """Return widths [px]: what each would like, else its least and a share of what is left.

    Where not even the least of all columns has room, all give way alike.
    """
    if sum(natural) <= room:
        return [*natural[:-1], natural[-1] + room - sum(natural)]
    if sum(least) > room:
        return [low * room // sum(least) for low in least]
    wanted, left = sum(natural) - sum(least), room - sum(least)
    return [
        low + int(left * (high - low) / wanted) if wanted else low
        for high, low in zip(natural, least, strict=True)
    ]


def fit_columns(table: QTableView) -> bool:
    """Give every column that is shown its share of the width; tell whether all had room.

    Long cells wrap; where not even the longest words have room, some are cut.
    """
    header = table.horizontalHeader()
    columns = [n for n in range(header.count()) if not table.isColumnHidden(n)]
    natural = [max(table.sizeHintForColumn(n), header.sectionSizeHint(n)) for n in columns]
    least = [
        min(like, longest_word(table, n) + EDGES) for like, n in zip(natural, columns, strict=True)
    ]
    room = table.viewport().width()
    for column, width in zip(columns, shared_out(room, natural, least), strict=True):
        header.resizeSection(column, width)
    return sum(least) <= room


def longest_word(table: QTableView, column: int) -> int:
    """Return the width of the longest word of a column and its heading [px]."""
    model, metrics = table.model(), table.fontMetrics()
    heading = str(model.headerData(column, Qt.Orientation.Horizontal) or "")
    cells = (str(model.index(row, column).data() or "") for row in range(model.rowCount()))
    lines = (line for text in (heading, *cells) for line in text.splitlines())
    words = {word for line in lines for word in kept_together(line).split(" ")}
    return max(map(metrics.horizontalAdvance, words), default=0)
