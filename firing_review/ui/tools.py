"""What every part of the window may use."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from firing_review.ui.appearance import Appearance
from firing_review.ui.ask import Questions
from firing_review.ui.open_book import OpenBook
from firing_review.ui.preferences import Preferences
from firing_review.ui.published import tables
from firing_review.ui.showing import Showing
from firing_review.ui.sitting import Sitting
from firing_review.ui.start_page.demos import is_demo

if TYPE_CHECKING:
    from firing_review.firing.tables import Tables


@dataclass(frozen=True)
class Tools:
    """State folder, preferences, look, questions, what is shown, firing and book."""

    home: Path
    preferences: Preferences
    appearance: Appearance
    questions: Questions
    showing: Showing
    sitting: Sitting
    book: OpenBook

    @property
    def tables(self) -> "Tables":
        """Every published table the program computes with, read when first asked for."""
        return tables()

    @property
    def folder(self) -> Path:
        """Where the files of the open firing lie; a file dialog begins there."""
        source = self.sitting.source
        if source is None or is_demo(source):
            return self.preferences.last_folder
        return source.parent
