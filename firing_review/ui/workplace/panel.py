"""Bar, verdict, and one of the places."""

from PySide6.QtCore import Qt, Slot
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QStackedWidget, QVBoxLayout, QWidget

from firing_review.ui.appearance import Appearance
from firing_review.ui.scrolled import Scrolled
from firing_review.ui.top_bar.panel import TopBar
from firing_review.ui.verdict_bar.panel import VerdictBar
from firing_review.ui.workplace.places import Place, PlacesList

PLACE_LEAST_PX = 340


class Workplace(QWidget):
    """The window with a firing open; places are handed in and may be added to."""

    def __init__(
        self,
        appearance: Appearance,
        top_bar: TopBar,
        verdict: VerdictBar,
        places: list[Place],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.top_bar, self.verdict = top_bar, verdict
        self.list = PlacesList(appearance)
        self._stack = QStackedWidget()
        self._panels = {place.key: place.panel for place in places}
        for place in places:
            self._stack.addWidget(place.panel)
        self._appearance = appearance
        body = QHBoxLayout()
        body.setSpacing(0)
        body.addWidget(self.list)
        body.addWidget(self._stack, 1)
        page = QWidget()
        below = QVBoxLayout(page)
        below.setContentsMargins(0, 0, 0, 0)
        below.setSpacing(0)
        below.addWidget(verdict)
        below.addLayout(body, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(top_bar)
        scrolled = Scrolled(page)
        scrolled.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
        layout.addWidget(scrolled, 1)
        self.list.placeChosen.connect(self.go_to)
        self.list.show_places(places)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep a useful height for the place; on a very low window all of it scrolls."""
        super().resizeEvent(event)
        self._stack.setMinimumHeight(self._appearance.sizes.px(PLACE_LEAST_PX))

    @Slot(str)
    def go_to(self, key: str) -> None:
        """Show a place; the others give way, whatever width they would like."""
        now = self._panels[key]
        policies = QSizePolicy.Policy
        for panel in self._panels.values():
            across = policies.Preferred if panel is now else policies.Ignored
            panel.setSizePolicy(across, policies.Preferred)
        self._stack.setCurrentWidget(now)
