"""Text that a stranger put into a file, made fit to be shown: one line, and only text."""

import re
import unicodedata

JOINERS = frozenset("\u200c\u200d")
"""Zero-width signs that belong to the spelling of some languages."""
LONGEST_NAME = 90
"""Letters of a title or a name that a page shows."""
_UNIT = re.compile(r"(?<=\d) (?=(?:°C|°F|%|min|h|s|l|mm|V|A|Ω|kW|kWh)\b|%|°|Ω)")


def kept_together(text: str) -> str:
    """Return text in which no line can break between a number and its unit."""
    return _UNIT.sub("\u00a0", text)


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
