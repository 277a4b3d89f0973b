"""``firing-review check``: reviews without a window, one or a thousand."""

from firing_review.cli.check import main

__all__ = ["main"]
