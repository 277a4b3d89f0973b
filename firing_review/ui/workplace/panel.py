"""Bar, verdict, and one of the places."""

from functools import partial

from PySide6.QtCore import Qt, QTimer, Slot
from PySide6.QtGui import QKeySequence, QResizeEvent, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from firing_review.review.review import Review
from firing_review.ui.appearance import Appearance
from firing_review.ui.paint_once import paint_once
from firing_review.ui.scrolled import Scrolled, height_at
from firing_review.ui.seen_stack import SeenStack
from firing_review.ui.tab_order import parts_of, set_tab_order
from firing_review.ui.top_bar.panel import TopBar
from firing_review.ui.verdict_bar.panel import VerdictBar
from firing_review.ui.workplace.places import Place, PlacesList, StandingList

PLACE_LEAST_PX = 340
AHEAD_EVERY_MS = 50
"""Between two places made ahead the window does what a person asks of it."""


class WindowPage(Scrolled):
    """Verdict and place; on a low window the place is whole and all of it scrolls."""

    is_low = False

    @property
    def has_whole_parts(self) -> bool:
        """Whether the place is whole."""
        return self.is_low


class Workplace(QWidget):
    """The window with a firing open.

    A place is made when it is first gone to, or ahead while nobody waits; those out of sight take
    a review in when they come into sight.
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
        self._stack = SeenStack()
        self._below_bar: list[QWidget] = []
        self._places = {place.key: place for place in places}
        self._panels: dict[str, QWidget] = {}
        self._gone_to: set[str] = set()
        self._review: Review | None = None
        self._stale: set[str] = set()
        self._appearance = appearance
        self._ahead = QTimer(self, singleShot=True)
        self._ahead.timeout.connect(self.make_ahead)
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
        self._standing = StandingList(self.list)
        body.addWidget(self._standing)
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
        self._scrolled = WindowPage(page)
        self._scrolled.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
        layout.addWidget(self._scrolled, 1)
        self._scrolled.wanted.connect(self._fit)
        self._scrolled.verticalScrollBar().valueChanged.connect(self._stand)

    def show_review(self, review: Review) -> None:
        """Show a review in the bar, the verdict and the place in sight."""
        is_other = self._review is None or self._review.given.log is not review.given.log
        self._review = review
        if is_other:
            paint_once(self)
        self.top_bar.show_review(review)
        self.verdict.show_review(review)
        self._stale = set(self._panels)
        self._show(self.list.key)
        if is_other:
            self.show_verdict()

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
        place = self._stack.seen
        return [*self.heads, *(parts_of(place) if place else [])]

    def panel(self, key: str) -> QWidget:
        """Return a place with the present review in it, made now if need be."""
        self._gone_to.add(key)
        self._make(key)
        if key in self._stale and self._review is not None:
            self._stale.discard(key)
            self._panels[key].show_review(self._review)
        return self._panels[key]

    @property
    def gone_to(self) -> frozenset[str]:
        """The keys of the places gone to so far."""
        return frozenset(self._gone_to)

    @Slot()
    def make_ahead(self) -> None:
        """Make the places nobody has gone to yet, each in a turn of its own."""
        left = [key for key in self._places if key not in self._panels]
        if left:
            self._make(left[0])
            self._ahead.start(AHEAD_EVERY_MS)

    def _make(self, key: str) -> None:
        if key not in self._panels:
            self._panels[key] = self._places[key].make(self._stack)
            self._stack.add_page(self._panels[key])
            self._stale.add(key)
            self._order_tabs()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep a useful height for the place; on a low window all of it scrolls as one page."""
        super().resizeEvent(event)
        self._scrolled.widget().layout().activate()
        self._column.activate()
        self._fit()

    @Slot()
    def _fit(self) -> None:
        """Let the place scroll below the verdict, or the verdict with all of the place."""
        room = self._scrolled.viewport().height()
        least = min(self._appearance.sizes.px(PLACE_LEAST_PX), room)
        self._stack.setMinimumHeight(least)
        width = self.width() - self._scrolled.verticalScrollBar().sizeHint().width()
        is_low = height_at(self.verdict, width) + least > room
        if is_low is not self._scrolled.is_low:
            self._scrolled.is_low = is_low
            self._scrolled.show_parts()
        self._stand()

    @Slot()
    def _stand(self) -> None:
        gone = self._scrolled.verticalScrollBar().value() - self._stack.y()
        self._standing.stand(gone, self._scrolled.viewport().height())

    def show_verdict(self) -> None:
        """Bring the verdict into view where all of the window scrolls."""
        self._scrolled.verticalScrollBar().setValue(0)

    @Slot()
    def show_place(self) -> None:
        """Bring the place into view where all of the window scrolls."""
        self._scrolled.verticalScrollBar().setValue(self._stack.y())

    @Slot(str)
    def go_to(self, key: str) -> None:
        """Show a place."""
        self.list.go_to(key)

    @Slot(str)
    def _on_chosen(self, key: str) -> None:
        if self._review is not None:
            bar = self._scrolled.verticalScrollBar()
            gone = bar.value()
            self._show(key)
            bar.setValue(min(gone, self._stack.y()))

    def _show(self, key: str) -> None:
        self._stack.show_page(self.panel(key))
        self._scrolled.show_parts()

    def _order_tabs(self) -> None:
        """Let Tab go from bar, verdict and list into the place, as the eye does."""
        places = [part for panel in self._panels.values() for part in parts_of(panel)]
        set_tab_order([*self.heads, *places])
