"""Bar, verdict, and one of the places."""

from collections.abc import Mapping
from functools import partial

from PySide6.QtCore import Qt, Slot
from PySide6.QtGui import QKeySequence, QResizeEvent, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QStackedWidget, QVBoxLayout, QWidget

from firing_review.review.review import Review
from firing_review.ui.appearance import Appearance
from firing_review.ui.scrolled import Scrolled
from firing_review.ui.tab_order import parts_of, set_tab_order
from firing_review.ui.top_bar.panel import TopBar
from firing_review.ui.verdict_bar.panel import VerdictBar
from firing_review.ui.workplace.places import Place, PlacesList

PLACE_LEAST_PX = 340


class Workplace(QWidget):
    """The window with a firing open.

    A place is made when it is first gone to; those out of sight take a review in when they come
    into sight again.
    """

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
        self._stack.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Ignored)
        self._below_bar: list[QWidget] = []
        self._places = {place.key: place for place in places}
        self._panels: dict[str, QWidget] = {}
        self._review: Review | None = None
        self._stale: set[str] = set()
        self._appearance = appearance
        self._lay_out()
        self.list.placeChosen.connect(self._on_chosen)
        self.list.show_places(places)
        for number, place in enumerate(places[:9], start=1):
            keys = QShortcut(QKeySequence(f"Ctrl+{number}"), self)
            keys.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            keys.activated.connect(partial(self.go_to, place.key))
            keys.activated.connect(self.show_place)

    def _lay_out(self) -> None:
        body = QHBoxLayout()
        body.setSpacing(0)
        body.addWidget(self.list)
        body.addWidget(self._stack, 1)
        page = QWidget()
        below = QVBoxLayout(page)
        below.setContentsMargins(0, 0, 0, 0)
        below.setSpacing(0)
        below.addWidget(self.verdict)
        below.addLayout(body, 1)
        layout = self._column = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.top_bar)
        self._scrolled = Scrolled(page)
        self._scrolled.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
        layout.addWidget(self._scrolled, 1)

    def show_review(self, review: Review) -> None:
        """Show a review in the bar, the verdict and the place in sight."""
        self._review = review
        self.top_bar.show_review(review)
        self.verdict.show_review(review)
        self._stale = set(self._panels)
        self._show(self.list.key)

    def put_below_bar(self, strip: QWidget) -> None:
        """Put a strip between the bar and the verdict."""
        self._below_bar.append(strip)
        self._column.insertWidget(1, strip)

    @property
    def heads(self) -> list[QWidget]:
        """Bar, what is put below it, verdict and list: what stands around every place."""
        return [self.top_bar, *self._below_bar, self.verdict, self.list]

    @property
    def parts(self) -> list[QWidget]:
        """What stands around the place in sight, then its parts, as the eye goes."""
        place = self._stack.currentWidget()
        return [*self.heads, *(parts_of(place) if place else [])]

    def panel(self, key: str) -> QWidget:
        """Return a place with the present review in it, made now if need be."""
        if key not in self._panels:
            made = self._panels[key] = self._places[key].make()
            self._stack.addWidget(made)
            self._stale.add(key)
            self._give_way()
            self._order_tabs()
        if key in self._stale and self._review is not None:
            self._stale.discard(key)
            self._panels[key].show_review(self._review)
        return self._panels[key]

    @property
    def made(self) -> Mapping[str, QWidget]:
        """The places gone to so far."""
        return self._panels

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep a useful height for the place; on a very low window all of it scrolls.

        Scrolled to its end such a window shows the whole place and nothing else.
        """
        super().resizeEvent(event)
        self._scrolled.widget().layout().activate()
        self._column.activate()
        least = self._appearance.sizes.px(PLACE_LEAST_PX)
        self._stack.setMinimumHeight(min(least, self._scrolled.viewport().height()))

    @Slot()
    def show_place(self) -> None:
        """Bring the place into view where all of the window scrolls."""
        bar = self._scrolled.verticalScrollBar()
        bar.setValue(bar.maximum())

    @Slot(str)
    def go_to(self, key: str) -> None:
        """Show a place."""
        self.list.go_to(key)

    @Slot(str)
    def _on_chosen(self, key: str) -> None:
        if self._review is not None:
            self._show(key)

    def _show(self, key: str) -> None:
        self._stack.setCurrentWidget(self.panel(key))
        self._give_way()

    def _order_tabs(self) -> None:
        """Let Tab go from bar, verdict and list into the place, as the eye does."""
        places = [part for panel in self._panels.values() for part in parts_of(panel)]
        set_tab_order([*self.heads, *places])

    def _give_way(self) -> None:
        """Let the places out of sight give way, whatever width they would like."""
        policies = QSizePolicy.Policy
        for panel in self._panels.values():
            seen = panel is self._stack.currentWidget()
            panel.setSizePolicy(
                policies.Preferred if seen else policies.Ignored, policies.Preferred
            )
