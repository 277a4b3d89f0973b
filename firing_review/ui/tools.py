"""What every part of the window may use."""

from dataclasses import dataclass
from pathlib import Path

from firing_review.ui.appearance import Appearance
from firing_review.ui.ask import Questions
from firing_review.ui.open_book import OpenBook
from firing_review.ui.preferences import Preferences
from firing_review.ui.showing import Showing
from firing_review.ui.sitting import Sitting


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
    def folder(self) -> Path:
        """Where the files of the open firing lie; a file dialog begins there."""
        source = self.sitting.source
        return source.parent if source is not None else self.preferences.last_folder
