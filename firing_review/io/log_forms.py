"""Forms in which dates and times are written."""

import re

DATED = re.compile(r"^\s*(\d{1,4})[-/.](\d{1,2})[-/.](\d{1,4})(?:\s*T\s*|,?\s*)(.*)$")
MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_NAMES = "(?:" + "|".join(MONTHS) + ")"
MONTH_NAMED = re.compile(rf"\d.*\b{_NAMES}|\b{_NAMES}.*\d", re.IGNORECASE)
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
    # 22:00:00 14/03/2024
    (rf"(\d{{1,2}}:\d{{2}}(?::\d{{2}})?(?:\s*[AaPp][Mm])?)[\s,]+({DATE})", r"\2 \1"),
)
ODD_STAMPS = tuple((re.compile(rf"^\s*{form}\s*$"), plain) for form, plain in _ODD)
ODD_STAMP = re.compile("|".join(rf"^\s*{form}\s*$" for form, _ in _ODD))


def is_odd_stamp(cell: str) -> bool:
    """Tell a date with its time in one of the unusual forms."""
    return bool(ODD_STAMP.match(cell))
