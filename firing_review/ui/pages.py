"""The pages of the window, one of which is seen: start page, workplace, what comes by itself."""

from collections.abc import Callable

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QStackedWidget, QWidget

from firing_review.ui.by_itself import ByItself
from firing_review.ui.paint_once import paint_once


class Pages(QStackedWidget):
    """Start page and workplace; every other page is made when it is first shown.

    Signals
    -------
    left : a page by itself is done with.
    """

    left = Signal()

    def __init__(
        self, start: QWidget, work: QWidget, by_itself: Callable[[str], ByItself]
    ) -> None:
        super().__init__()
        self._start, self._work, self._by_itself = start, work, by_itself
        self._before = start
        self.alone: dict[str, ByItself] = {}
        for page in (start, work):
            self.addWidget(page)

    def setCurrentWidget(self, page: QWidget) -> None:
        """Show a page, painted once all of it stands."""
        paint_once(self)
        super().setCurrentWidget(page)

    @property
    def is_at_start(self) -> bool:
        """Whether the start page is seen."""
        return self.currentWidget() is self._start

    @property
    def is_at_work(self) -> bool:
        """Whether the workplace is seen."""
        return self.currentWidget() is self._work

    @property
    def alone_seen(self) -> str | None:
        """The key of the page by itself that is seen, if one is."""
        return next((k for k, p in self.alone.items() if p is self.currentWidget()), None)

    def show_start(self) -> None:
        """Show the start page."""
        self.setCurrentWidget(self._start)

    def show_work(self) -> None:
        """Show the workplace."""
        self.setCurrentWidget(self._work)

    def show_alone(self, key: str) -> None:
        """Show the kiln book, or blank sheets, by itself."""
        if key not in self.alone:
            page = self.alone[key] = self._by_itself(key)
            page.left.connect(self.left)
            self.addWidget(page)
        self.setCurrentWidget(self.alone[key])

    def interrupt(self, page: QWidget) -> None:
        """Show a page that asks something; :meth:`go_back` leads to what it came over."""
        if self.currentWidget() is not page:
            self._before = self.currentWidget()
        self.setCurrentWidget(page)

    def go_back(self) -> None:
        """Show what was seen before it was interrupted."""
        self.setCurrentWidget(self._before)
