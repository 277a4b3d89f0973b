"""Where the expected figures of an outside check come from; read as text for the register.

Each file in ``tests/published/`` has a dictionary ``SOURCES`` of short names and what they stand
for; each of its tests carries one ``@outside(...)``. ``tests/register.py`` makes the table.
"""

from collections.abc import Callable
from typing import TypeVar

Test = TypeVar("Test", bound=Callable[..., None])
PRACTICE, MEMORY = "common practice, no source", "from memory"
"""The two words for a figure that no published source stands behind."""


def outside(source: str, within: str, differs: str = "") -> Callable[[Test], Test]:
    """Mark a test as an outside check.

    Parameters
    ----------
    source : str
        A short name out of the file's ``SOURCES``, ``PRACTICE`` or ``MEMORY``.
    within : str
        The tolerance, and why it is what it is.
    differs : str, optional
        Where the program and the source do not agree.
    """
    for told in (source, within, differs):
        if not isinstance(told, str):
            raise TypeError("source, tolerance and disagreement are texts")

    def keep(test: Test) -> Test:
        return test

    return keep
