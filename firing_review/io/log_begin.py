"""When a record without dates began, from the lines above it."""

import re
from dataclasses import replace
from datetime import datetime

from firing_review.io.log_clock import Clock

_WORDS = re.compile(
    r"start|begin|began|date|datum|record|collect|created|logged|mission", re.IGNORECASE
)
_TIME = r"(?:[T,\s]+(\d{1,2}:\d{2}(?::\d{2})?))?"
_YEAR_FIRST = re.compile(rf"(?<!\d)(\d{{4}}[-/.]\d{{1,2}}[-/.]\d{{1,2}}){_TIME}")
_DAY_FIRST = re.compile(rf"(?<!\d)(\d{{1,2}}\.\d{{1,2}}\.\d{{4}}){_TIME}")


def with_begin(clock: Clock, preamble: tuple[str, ...]) -> Clock:
    """Return the clock with the date that a line above the data gives, if it has none itself.

    Only dates that can be read in one way count: the year first, or parted by points.
    """
    if clock.started_at is not None or clock.form.startswith("date"):
        return clock
    for line in preamble:
        begin = _begin(line) if _WORDS.search(line) else None
        if begin is None:
            continue
        day, timed = begin
        if timed and clock.form.startswith("elapsed"):
            return replace(clock, started_at=day)
        if clock.form == "time of day":
            return replace(clock, started_at=day.replace(hour=0, minute=0, second=0))
    return clock


def _begin(line: str) -> tuple[datetime, bool] | None:
    """Return the date in a line, and whether a time stands with it."""
    import pandas as pd  # noqa: PLC0415 - slow to load, and rarely needed

    for form, day_first in ((_YEAR_FIRST, False), (_DAY_FIRST, True)):
        found = form.search(line)
        if found:
            text = f"{found[1]} {found[2] or '0:00'}"
            stamp = pd.to_datetime(text, dayfirst=day_first, errors="coerce")
            if not pd.isna(stamp):
                return stamp.to_pydatetime(), found[2] is not None
    return None
