"""The places of the window, each made when it is first gone to, its edits brought to the sitting.

A new place is one line in ``Places.all`` and one function that makes it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal, SignalInstance
from PySide6.QtWidgets import QWidget

from firing_review.firing.wording import tr
from firing_review.ui.by_itself import ByItself
from firing_review.ui.published import tables
from firing_review.ui.tools import Tools
from firing_review.ui.workplace.places import Place

if TYPE_CHECKING:
    from firing_review.ui.paper_place.view import Choices


class Places(QObject):
    """Makes the places; what a person changes in one becomes an edit of the open review.

    Signals
    -------
    refused : an error a person can act on.
    bookMade : the place "Kiln book" was made, to be connected to the window.
    spotAsked : where in the window something is to be seen or typed.
    earlierAsked : an earlier good firing is to be chosen, to compare with.
    """

    refused = Signal(object)
    bookMade = Signal(object)
    spotAsked = Signal(object)
    earlierAsked = Signal()

    def __init__(self, tools: Tools, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._tools = tools

    def all(self) -> list[Place]:
        """Return the places in the trade's order of questions; none is made yet."""
        return [
            Place("firing", tr("Firing"), self._firing),
            Place("shelves", tr("Shelves"), self._shelves),
            Place("elements", tr("Elements"), self._elements),
            Place("causes", tr("Causes"), self._causes),
            Place("next", tr("Next firing"), self._next),
            Place("book", tr("Kiln book"), self._book),
            Place("paper", tr("Paper"), self._paper),
        ]

    def _firing(self, parent: QWidget) -> QWidget:
        from firing_review.ui.firing_place.panel import FiringPlace
        from firing_review.ui.schedule_editor.kept import KeptSchedules

        tools = self._tools
        kept = KeptSchedules(tools.home / "schedules")
        place = FiringPlace(tools, kept, parent)
        self._edits(place.scheduleEdited, "set_schedule")
        self._edits(place.kilnEdited, "set_kiln")
        self._edits(place.safetyAnswered, "set_safety")
        place.edited.connect(tools.sitting.edit)
        place.refused.connect(self.refused)
        return place

    def _shelves(self, parent: QWidget) -> QWidget:
        from firing_review.ui.shelves_place.panel import ShelvesPlace

        tools = self._tools
        place = ShelvesPlace(tools.appearance, tools.showing, tools.questions, parent)
        self._edits(place.conesEdited, "set_cones")
        self._edits(place.shelvesEdited, "set_shelves")
        self._edits(place.toleranceChosen, "set_tolerance")
        self._edits(place.bendsTaken, "set_bends")
        place.refused.connect(self.refused)
        return place

    def _elements(self, parent: QWidget) -> QWidget:
        from firing_review.ui.elements_place.panel import ElementsPlace

        tools = self._tools
        place = ElementsPlace(tools.appearance, tools.showing, tools.questions, parent)
        self._edits(place.readingsEdited, "set_readings")
        self._edits(place.earlierEdited, "set_earlier")
        place.earlierAsked.connect(self.earlierAsked)
        place.refused.connect(self.refused)
        return place

    def _causes(self, parent: QWidget) -> QWidget:
        from firing_review.ui.causes_place.panel import CausesPlace

        place = CausesPlace(self._tools.appearance, self._tools.showing, parent)
        self._edits(place.answersEdited, "set_answers")
        self._edits(place.goalChosen, "set_goal_cone")
        place.spotAsked.connect(self.spotAsked)
        return place

    def _next(self, parent: QWidget) -> QWidget:
        from firing_review.ui.next_place.panel import NextPlace

        tools = self._tools
        place = NextPlace(tools.appearance, tools.showing, tables(), tools.questions, parent)
        place.refused.connect(self.refused)
        return place

    def by_itself(self, key: str) -> ByItself:
        """Return the kiln book, or blank sheets, by itself for when no firing is open."""
        if key == "book":
            return ByItself(tr("Kiln book"), self._book())
        from firing_review.ui.paper_place.view import BLANK

        place = self._paper(choices=BLANK)
        place.show_blank()
        return ByItself(tr("Blank sheets"), place)

    def _book(self, parent: QWidget | None = None) -> QWidget:
        from firing_review.ui.book_place.panel import BookPlace

        place = BookPlace(self._tools, parent)
        self.bookMade.emit(place)
        return place

    def _paper(self, parent: QWidget | None = None, choices: Choices | None = None) -> QWidget:
        from firing_review.ui.paper_place.panel import PaperPlace
        from firing_review.ui.paper_place.view import CHOICES

        place = PaperPlace(self._tools, choices or CHOICES, parent)
        place.refused.connect(self.refused)
        return place

    def _edits(self, changed: SignalInstance, name: str) -> None:
        """Let what a signal carries become the edit of this name."""
        from firing_review.review import edits

        edit = getattr(edits, name)
        changed.connect(lambda *what: self._tools.sitting.edit(edit(*what)))
