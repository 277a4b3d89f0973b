"""Text that a stranger put into a file, made fit to be shown: one line, and only text."""

import re
import unicodedata

JOINERS = frozenset("\u200c\u200d")
"""Zero-width signs that belong to the spelling of some languages."""
LONGEST_NAME = 90
"""Letters of a title or a name that a page shows."""
NO_BREAK = "\u00a0"
_UNIT = re.compile(r"(?<=\d) (?=(?:°C|°F|%|min|h|s|l|L|mm|V|A|Ω|kg|kW|kWh)\b|%|°|Ω)")
WORD_JOINER = "\u2060"
_PER_HOUR = re.compile(r"(?<=°[CF])/h\b")
_MINUTES = re.compile(r"(?<=\d h) (?=\d\d min)")
_TENTHS = re.compile(r"(?<=\d) \+ (?=\d)")
"""Between a cone and the tenths on the way to the next: ``04 + 0.3``."""


def kept_together(text: str) -> str:
    """Return text in which no line can break within a figure or between it and its unit."""
    text = _UNIT.sub(NO_BREAK, _MINUTES.sub(NO_BREAK, text))
    text = _PER_HOUR.sub(f"/{WORD_JOINER}h", text)
    return _TENTHS.sub(f"{NO_BREAK}+{NO_BREAK}", text)


def shown(text: str, most: int | None = None) -> str:
    """Return text as one line without control signs and marks that turn the direction of writing.

    Parameters
    ----------
    most : int, optional
        Letters to keep; a longer text ends in an ellipsis.
    """
    if not text.isprintable():
        text = "".join(_plain(sign) for sign in text)
    line = " ".join(text.split())
    return line if most is None or len(line) <= most else line[: most - 1].rstrip() + "…"


def _plain(sign: str) -> str:
    if sign.isprintable() or sign in JOINERS:
        return sign
    kind = unicodedata.category(sign)
    if kind == "Cs":
        return "\ufffd"
    return "" if kind in {"Cf", "Cn", "Co"} else " "
