"""The first rows of a file under the names of its columns."""

import math

from firing_review.firing.log import FiringLog
from firing_review.firing.wording import tr, written
from firing_review.io.log_preview import PREVIEW_ROWS, LogPreview
from firing_review.io.plain_text import parse_number


def shown_rows(seen: LogPreview, log: FiringLog | None) -> tuple[list[str], list[tuple[str, ...]]]:
    """Return names and cells: as they stand in the file, or as read where one row is one probe."""
    names, rows = list(seen.names), list(seen.first_rows)
    if log is None or _stand_under(seen):
        return names, rows
    return names, [_as_read(seen, log, row) for row in range(min(log.rows, PREVIEW_ROWS))]


def _stand_under(seen: LogPreview) -> bool:
    """Tell whether the cells of the file stand under the columns that were read."""
    width = max((len(row) for row in seen.first_rows), default=0)
    if width < len(seen.names):
        return False
    numbers = [
        parse_number(row[r.index]) is not None
        for row in seen.first_rows
        for r in seen.roles
        if r.index < len(row) and row[r.index].strip()
    ]
    return not numbers or sum(numbers) > len(numbers) / 2


def _as_read(seen: LogPreview, log: FiringLog, row: int) -> tuple[str, ...]:
    values = {c.name: float(c.values[row]) for c in log.channels}
    hours = tr("{hours} h").format(hours=written(f"{log.elapsed_h[row]:.2f}"))
    return tuple(
        hours if index in seen.time_columns else _cell(values.get(name, math.nan))
        for index, name in enumerate(seen.names)
    )


def _cell(value: float) -> str:
    return written(f"{value:.1f}") if math.isfinite(value) else ""
