"""Cells of a CSV file that no spreadsheet takes for a formula, and that read back the same.

Text of a stranger may begin with a sign that makes a spreadsheet compute it, or hide such a sign
behind one that another spreadsheet parts cells at. A quote ``'`` is put before it; reading takes
one quote away at the same places.
"""

import re

FORMULA_SIGNS = "=+-@＝＋－＠"
_PARTS = r";,\t\r\n\"|"
_START = rf"(?:^|(?<=[{_PARTS}]))"
_DANGER = re.compile(rf"{_START}(?=\s*['{re.escape(FORMULA_SIGNS)}\t\r\n])")
_QUOTE = re.compile(rf"{_START}'")


def guarded(text: str) -> str:
    """Return a text as a cell that is no formula; :func:`unguarded` gives the text back."""
    return _DANGER.sub("'", text)


def unguarded(cell: str) -> str:
    """Return the text of a cell that :func:`guarded` made; most cells are their own text."""
    return _QUOTE.sub("", cell)
