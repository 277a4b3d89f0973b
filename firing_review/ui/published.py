"""The published tables, read when something is first worked out from them."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from firing_review.firing.tables import Tables


def tables() -> "Tables":
    """Return every published table the program computes with."""
    from firing_review.io.tables import load_tables

    return load_tables()
