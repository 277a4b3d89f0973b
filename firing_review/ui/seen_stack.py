"""Pages of which one is in sight."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QSizePolicy, QWidget

from firing_review.ui.layouts import fill
from firing_review.ui.paint_once import paint_once
from firing_review.ui.scrolled import MayScroll, outermost


class SeenStack(QWidget, MayScroll):
    """Pages of which one is in sight; what room there has to be only that one says."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._pages = fill(self)
        self._seen: QWidget | None = None
        self._is_whole = False

    def add_page(self, page: QWidget) -> None:
        """Take in another page; the first one is in sight."""
        self._pages.addWidget(page)
        page.setVisible(self._seen is None)
        self._seen = self._seen or page

    @property
    def seen(self) -> QWidget | None:
        """The page in sight."""
        return self._seen

    def show_page(self, page: QWidget) -> None:
        """Bring a page into sight; a keyboard that was on the other goes on to it."""
        before, self._seen = self._seen, page
        if before is page:
            return
        paint_once(self)
        focused = self.window().focusWidget()
        had_keyboard = before is not None and focused is not None and before.isAncestorOf(focused)
        if had_keyboard:
            focused.clearFocus()  # or Qt would hand it on to whatever comes next, and scroll there
        if before is not None:
            before.hide()
        page.show()
        if had_keyboard:
            (page.focusWidget() or _first(page)).setFocus()

    def hasHeightForWidth(self) -> bool:
        """Tell whether all of the page in sight is shown, with its text wrapped."""
        return self._is_whole and super().hasHeightForWidth()

    def show_whole(self, *, is_whole: bool) -> None:
        """Ask for the height of everything in the pages, or let them scroll."""
        self._is_whole, policies = is_whole, QSizePolicy.Policy
        high = policies.Preferred if is_whole else policies.Ignored
        self.setSizePolicy(policies.Expanding, high)
        for part in outermost(self):
            part.show_whole(is_whole=is_whole)


def _first(page: QWidget) -> QWidget:
    """Return what Tab would come to first in a page, or the page.

    Qt's own chain of focus is not gone along: each step would make one part the owner of the next
    in Python's eyes, and with the first that goes, half the window would be lost to Python.
    """
    for part in page.findChildren(QWidget):
        by_tab = part.focusPolicy() & Qt.FocusPolicy.TabFocus
        if by_tab and part.isVisibleTo(page) and part.isEnabledTo(page):
            return part
    return page
