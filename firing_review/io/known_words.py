"""The nearest known word to a mistyped one."""

import difflib
from collections.abc import Iterable

from firing_review.firing.wording import tr

SHORTEST_PART = 3
"""Letters from which a part of a known word counts as that word."""


def nearest(word: str, known: Iterable[str]) -> str | None:
    """Return the known word that looks most like ``word``, if any comes close."""
    by_plain = {plain(name): name for name in known}
    close = difflib.get_close_matches(plain(word), by_plain, n=1, cutoff=0.55)
    if not close and len(plain(word)) >= SHORTEST_PART:
        close = [name for name in by_plain if plain(word) in name]
    return by_plain[close[0]] if close else None


def plain(word: str) -> str:
    """Return a word as it compares: lower case, one underscore for blanks and hyphens."""
    return "_".join(word.strip().lower().replace("-", " ").replace("_", " ").split())


def did_you_mean(word: str, known: Iterable[str], otherwise: str) -> str:
    """Return the remedy for an unknown word."""
    near = nearest(word, known)
    return tr("Did you mean {near}?").format(near=near) if near else otherwise
