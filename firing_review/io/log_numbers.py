"""Columns as numbers: plain, with a unit stuck on, as or as on and off."""

import re

import numpy as np
import pandas as pd

from firing_review.firing.units import Floats
from firing_review.io.log_dates import is_stamps
from firing_review.io.log_tenths import Numbers

STUCK = r"^\s*([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+))\s*(?:°|deg\.?)?\s*([CFK%AV]?)\s*$"
STUCK_SIGNS = " \t°degCFKcfkAV%"
"""What may be stuck to a value: a unit, a degree sign, blanks."""
BLANKS = " '\u00a0\u2009\u202f\u2019"
"""What parts thousands without doubt."""
_BLANKS_INSIDE = rf"(?<=\d)[{BLANKS}](?=\d{{3}}(?:\D|$))|(?<=[+-])\s+"
"""Such signs, and blanks behind a sign."""
_THOUSANDS = re.compile(r"^\s*[+-]?\d{1,3}(,\d{3})+(\.\d+)?\D*$")
_THOUSANDS_DOTTED = re.compile(r"^\s*[+-]?\d{1,3}(\.\d{3})+,\d+\D*$")
MOST = 0.5
"""Share of the cells given that must be numbers for a column to be one of numbers."""
_ON = {"on": 1.0, "off": 0.0, "true": 1.0, "false": 0.0, "yes": 1.0, "no": 0.0}


def number_columns(frame: pd.DataFrame, leave: tuple[int, ...]) -> Numbers:
    """Return every column but those of the clock that holds numbers."""
    found = Numbers()
    for index in range(frame.shape[1]):
        if index in leave:
            continue
        if pd.api.types.is_numeric_dtype(frame[index]):
            column = frame[index].to_numpy(dtype=float)
            if np.isinf(column).any():
                column = np.where(np.isfinite(column), column, np.nan)
        elif is_stamps(frame[index]):
            continue
        else:
            numbers, unit = _in_text(frame[index])
            if numbers is None:
                continue
            column = numbers
            if unit:
                found.stuck[index] = unit
        if np.isfinite(column).any() or len(column) == 0:
            found.columns[index] = column
    return found


def _in_text(column: pd.Series) -> tuple[Floats | None, str]:
    given = column.dropna().astype(str).str.strip()
    if not len(given):
        return None, ""
    if set(given.iloc[:200].str.lower()) <= set(_ON) and set(given.str.lower()) <= set(_ON):
        switched = column.astype(str).str.strip().str.lower().map(_ON)
        return np.asarray(switched, dtype=float), ""
    if not given.iloc[:500].str.contains(r"\d").any():
        return None, ""
    letters = given.iloc[:500].str.extract(STUCK, flags=re.IGNORECASE)[1].dropna().str.upper()
    letters = letters[letters != ""]
    if (
        given.iloc[:500].str.contains(_BLANKS_INSIDE).any()
        or given.str.contains(_BLANKS_INSIDE).any()
    ):
        given = given.str.replace(_BLANKS_INSIDE, "", regex=True)
        column = column.astype(str).str.strip().str.replace(_BLANKS_INSIDE, "", regex=True)
    bare = _without_thousands(column.astype(str), given).str.rstrip(STUCK_SIGNS)
    numbers = pd.to_numeric(bare.str.replace(",", ".", regex=False), errors="coerce")
    if numbers.notna().sum() < MOST * len(given):
        return None, ""
    plain: Floats = numbers.to_numpy(dtype=np.float64)
    return plain, str(letters.mode().iloc[0]) if len(letters) else ""


def _without_thousands(column: pd.Series, given: pd.Series) -> pd.Series:
    """Return numbers without the sign that parts thousands, where the column shows it is one.

    It does if both signs stand in one number, or if points stand elsewhere in the column and
    every comma has three digits behind it.
    """
    commas = given[given.str.contains(",", regex=False)]
    if not len(commas):
        return column
    if not given.str.contains(".", regex=False).any():
        return column
    if _all_are(_THOUSANDS_DOTTED, commas):
        return column.str.replace(".", "", regex=False)
    if _all_are(_THOUSANDS, commas):
        return column.str.replace(",", "", regex=False)
    return column


def _all_are(form: re.Pattern[str], texts: pd.Series) -> bool:
    return bool(texts.iloc[:200].str.match(form).all() and texts.str.match(form).all())
