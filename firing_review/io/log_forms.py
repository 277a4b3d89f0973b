"""Forms in which dates and times are written."""

import re
from collections.abc import Sequence

DATED = re.compile(r"^\s*(\d{1,4})[-/.](\d{1,2})[-/.](\d{1,4})(?:\s*T\s*|,?\s*)(.*)$")
MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_NAMES = "(?:" + "|".join(MONTHS) + ")"
MONTH_NAMED = re.compile(rf"\d.*\b{_NAMES}|\b{_NAMES}.*\d", re.IGNORECASE)
DATE_NAMES = re.compile(
    r"date|datum|fecha|\bdata\b|\bday\b|tag\b|jour|yymmdd|yyyymmdd", re.IGNORECASE
)
CLOCK_NAMES = re.compile(r"time|zeit|uhr|hora|heure|clock|hhmm", re.IGNORECASE)
EIGHT_DIGITS = 1e7
"""From here on a whole number may be a date: 20240314."""
_PARTS = {
    "year": r"year|yr|yyyy|jahr",
    "month": r"month|mon|monat",
    "day": r"day|dd|tag",
    "doy": r"doy|jday|julian( day)?|day[ _]?of[ _]?(the[ _]?)?year|jd",
    "hour": r"hours?|hr|hrs|hh|h|stunde",
    "minute": r"minutes?|mins?|minute",
    "second": r"seconds?|secs?|ss|s|sekunde",
    "hhmm": r"hhmm|time[ _]?hhmm|hour[ _]?minute|hr[ _]?min",
}
DATE = r"\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}"
_ODD = (
    # 20240314T220000, 20240314 2200, 202403142200
    (r"(\d{4})(\d{2})(\d{2})[T_ -]?(\d{2})(\d{2})(\d{2})", r"\1-\2-\3 \4:\5:\6"),
    (r"(\d{4})(\d{2})(\d{2})[T_ -]?(\d{2})(\d{2})", r"\1-\2-\3 \4:\5:00"),
    (r"(\d{4})(\d{2})(\d{2})[T_ -](\d{1,2}:\d{2}.*)", r"\1-\2-\3 \4"),
    # 2024-03-14_22-00-00, 14.03.2024 22.00
    (rf"({DATE})[T_ -](\d{{1,2}})[-.](\d{{2}})[-.](\d{{2}})", r"\1 \2:\3:\4"),
    (rf"({DATE})[T_ -](\d{{1,2}})[-.](\d{{2}})", r"\1 \2:\3:00"),
    (rf"({DATE})_(\d{{1,2}}:\d{{2}}.*)", r"\1 \2"),
    # 14.3. 22:00, 14/03 22:00, in the leap year that stands for none
    (r"(\d{1,2})([./])(\d{1,2})\.?,?\s+(\d{1,2}:\d{2}(?::\d{2})?)", r"\1\2\3\g<2>1972 \4"),
    # 22:00:00 14/03/2024
    (rf"(\d{{1,2}}:\d{{2}}(?::\d{{2}})?(?:\s*[AaPp][Mm])?)[\s,]+({DATE})", r"\2 \1"),
)
ODD_STAMPS = tuple((re.compile(rf"^\s*{form}\s*$"), plain) for form, plain in _ODD)
ODD_STAMP = re.compile("|".join(rf"^\s*{form}\s*$" for form, _ in _ODD))


def is_odd_stamp(cell: str) -> bool:
    """Tell a date with its time in one of the unusual forms."""
    return bool(ODD_STAMP.match(cell))


def parts_named(names: Sequence[str]) -> dict[str, int]:
    """Return which column is named as which part of a time: year, hour, second."""
    found: dict[str, int] = {}
    for column, name in enumerate(names):
        plain = name.lower().strip().strip("[]()")
        for part, words in _PARTS.items():
            if part not in found and re.fullmatch(words, plain):
                found[part] = column
    return found
