"""Dates and times in unusual forms, rewritten in a usual one before they are read."""

import re

import numpy as np
import pandas as pd

from firing_review.io.log_forms import (
    CLOCK_NAMES,
    DATE,
    DATE_NAMES,
    EIGHT_DIGITS,
    MONTH_NAMED,
    ODD_STAMPS,
)

_WHOLE_DATE = re.compile(r"^\s*(\d{4})(\d{2})(\d{2})(?:\.0)?\s*$")
_SHORT_DATE = re.compile(r"^\s*(\d{2})(\d{2})(\d{2})\s*$")
_PARTED_DATE = re.compile(
    rf"^\s*({DATE})(?:[T ]\s*(?:0?0:00(?::00(?:\.0+)?)?|12:00(?::00)?\s*[Aa][Mm]))?\s*$"
)
"""A date alone; a spreadsheet writes one as the midnight of its day."""
_WHOLE_TIME = re.compile(r"^\s*(\d{1,2})(\d{2})(\d{2})\s*$")
_DOTTED_TIME = re.compile(r"^\s*(\d{1,2})[.-](\d{2})(?:[.-](\d{2}))?\s*$")
MOST = 0.8
"""Share of cells that must have a form for the column to have it."""
YEARS = ("19", "20")
NOON = 12.0


def usual_stamps(column: pd.Series) -> pd.Series | None:
    """Return stamps of an unusual form in a usual one; None if they are no such stamps."""
    if not _may_be_date(column, ""):
        return None
    sample = _sample(column)
    for form, plain in ODD_STAMPS:
        if _share(sample, form) > MOST:
            if form.match(str(sample.iloc[0])[:8] + "000000") and not _years(sample):
                return None
            return column.astype(str).str.replace(form, plain, regex=True)
    return None


def usual_dates(column: pd.Series, name: str) -> pd.Series | None:
    """Return a column of dates without a time as text that parts day, month and year.

    A date without separators counts only where the column's name says so, or where it can be
    nothing else.
    """
    if not _may_be_date(column, name):
        return None
    sample = _sample(column)
    if not len(sample):
        return None
    if _share(sample, _PARTED_DATE) > MOST:
        return column.astype(str).str.replace(_PARTED_DATE, r"\1", regex=True)
    worded = sample.str.contains(MONTH_NAMED).mean() > MOST
    if worded and not sample.str.contains(":").any():
        return column.astype(str)
    named = bool(DATE_NAMES.search(name))
    if _share(sample, _WHOLE_DATE) > MOST and _years(sample) and (named or _few(sample)):
        return column.astype(str).str.replace(_WHOLE_DATE, r"\1-\2-\3", regex=True)
    if named and _share(sample.str.zfill(6), _SHORT_DATE) > MOST and _few(sample):
        short = column.astype(str).str.zfill(6)
        return short.str.replace(_SHORT_DATE, r"20\1-\2-\3", regex=True)
    return None


def usual_times(column: pd.Series, name: str) -> pd.Series | None:
    """Return times of day without colons, beside a date, as text with colons."""
    sample = _sample(column)
    if not len(sample) or not CLOCK_NAMES.search(name):
        return None
    if _share(sample, _DOTTED_TIME) > MOST and not pd.api.types.is_numeric_dtype(column):
        plain = column.astype(str).str.replace(".", ":", regex=False)
        return plain.str.replace("-", ":", regex=False)
    if not pd.api.types.is_numeric_dtype(column) and _share(sample, _WHOLE_TIME) <= MOST:
        return None
    numbers = pd.to_numeric(column, errors="coerce")
    if not ((numbers % 100 < 60) & (numbers >= 0) & (numbers < 240_000)).all():
        return None
    with_seconds = bool(numbers.max() >= 2400) or bool(re.search("ss", name))
    seconds = numbers if with_seconds else numbers * 100
    whole = seconds.astype("int64").astype(str).str.zfill(6)
    return whole.str.slice(0, 2) + ":" + whole.str.slice(2, 4) + ":" + whole.str.slice(4, 6)


def night_times(column: pd.Series, name: str) -> pd.Series | None:
    """Return a clock written as ``18.30`` that passes one midnight as text with colons.

    Without the midnight such numbers may as well be elapsed hours.
    """
    if not CLOCK_NAMES.search(name) or not pd.api.types.is_numeric_dtype(column):
        return None
    given = column.dropna()
    hundredths = (given * 100.0).round()
    of_a_clock = bool(given.between(0.0, 23.6).all() and (hundredths % 100 < 60).all())
    if not of_a_clock or not np.allclose(hundredths, given * 100.0, atol=1e-6):
        return None
    back = np.flatnonzero(np.diff(given) < 0)
    if len(back) != 1 or not given.iloc[back[0] + 1 :].max() < given.iloc[0]:
        return None
    if not given.iloc[back[0] + 1] < NOON <= given.iloc[back[0]]:
        return None
    colons = given.map("{:.2f}".format).str.replace(".", ":", regex=False)
    return colons.reindex(column.index, fill_value="")


def _may_be_date(column: pd.Series, name: str) -> bool:
    """Tell at once of most columns of numbers that they are no dates."""
    if not pd.api.types.is_numeric_dtype(column):
        return True
    first = column.iloc[:200].dropna()
    whole = len(first) > 0 and bool((first == first.round()).all())
    return whole and (bool(DATE_NAMES.search(name)) or bool(first.min() >= EIGHT_DIGITS))


def _sample(column: pd.Series) -> pd.Series:
    given = column.dropna()
    if len(given) > 400:
        given = pd.concat([given.iloc[:200], given.iloc[-200:]])
    return given.astype(str).str.strip()


def _share(sample: pd.Series, form: re.Pattern[str]) -> float:
    return float(sample.str.match(form).mean()) if len(sample) else 0.0


def _years(sample: pd.Series) -> bool:
    """Tell whether digits in a row begin with a year and a month."""
    months = pd.to_numeric(sample.str.slice(4, 6), errors="coerce")
    return bool(sample.str.startswith(YEARS).all() and months.between(1, 12).all())


def _few(sample: pd.Series) -> bool:
    """Tell whether the same value stands in many rows, as a date does."""
    return sample.nunique() <= max(3, len(sample) / 4)
