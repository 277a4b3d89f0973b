"""What the guide does: opens its demo firing, goes from step to step, and ends."""

from pathlib import Path
from typing import Protocol

from PySide6.QtCore import QObject, Slot

from firing_review.ui.guide.steps import STEPS, guided_firing
from firing_review.ui.guide.strip import GuideStrip
from firing_review.ui.preferences import Preferences
from firing_review.ui.start_page.demos import is_demo
from firing_review.ui.workplace.panel import Workplace


class Guided(Protocol):
    """The window, as far as the guide needs it."""

    work: Workplace

    def open_path(self, path: Path) -> None:
        """Open a firing."""


class Guide(QObject):
    """Leads through one demo firing; the person may go anywhere meanwhile.

    It outlives the strip, which is made anew in another language.
    """

    def __init__(self, window: Guided, preferences: Preferences, parent: QObject) -> None:
        super().__init__(parent)
        self._window, self._preferences = window, preferences
        self.strip: GuideStrip
        self._at: int | None = None
        self._awaited = False

    @property
    def offered(self) -> bool:
        """Whether the first page offers it: to those who opened nothing of their own yet."""
        preferences = self._preferences
        return not preferences.guide_over and all(map(is_demo, preferences.recent))

    def new_strip(self) -> GuideStrip:
        """Return a strip in the present language, at the present step."""
        self.strip = GuideStrip()
        self.strip.nextAsked.connect(self.go_on)
        self.strip.backAsked.connect(self.go_back)
        self.strip.leaveAsked.connect(self.leave)
        if self._at is not None:
            self.strip.show_step(self._at)
        return self.strip

    @Slot()
    def start(self) -> None:
        """Open the demo firing; the first step comes when it has arrived."""
        self._awaited = True
        self._window.open_path(guided_firing())

    def on_arrived(self, source: Path | None) -> None:
        """Begin if the guide's firing arrived; end if it was another."""
        awaited, self._awaited = self._awaited, False
        if awaited and source == guided_firing():
            self._go_to(0)
            self.strip.next.setFocus()
        elif self._at is not None:
            self._end()

    @Slot()
    def go_on(self) -> None:
        """Go to the next step; after the last the guide is done."""
        if self._at is None or self._at + 1 == len(STEPS):
            self.leave()
        else:
            self._go_to(self._at + 1)

    @Slot()
    def go_back(self) -> None:
        """Go to the step before."""
        if self._at:
            self._go_to(self._at - 1)

    @Slot()
    def leave(self) -> None:
        """End the guide; the first page does not offer it again."""
        self._preferences.guide_over = True
        self._end()
        self._window.work.list.setFocus()

    def _go_to(self, at: int) -> None:
        self._at = at
        self._window.work.go_to(STEPS[at].place)
        if at:
            self._window.work.show_place()
        else:
            self._window.work.show_verdict()
        self.strip.show_step(at)

    def _end(self) -> None:
        self._at = None
        self.strip.hide()
