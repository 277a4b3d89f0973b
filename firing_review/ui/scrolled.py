"""What scrolls when there is not room for all of it, or is as high as all of it."""

from collections.abc import Iterator

from PySide6.QtCore import QCoreApplication, QEvent, QObject, QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QAbstractScrollArea, QScrollArea, QSizePolicy, QWidget

TURNS = 4
"""How often the room of an area may change what is in it, and that the room, in one go: more often
than parts that are laid out one after the other need, and far from the end of Python's stack."""


class MayScroll:
    """A part that scrolls by itself, or is shown whole where all around it scrolls.

    A page has one way to scroll: what stands within something that scrolls is shown whole.
    """

    def show_whole(self, *, is_whole: bool) -> None:
        """Ask for the height of everything in it, or scroll."""
        raise NotImplementedError

    @property
    def spare_px(self) -> int:
        """By how much it would be lower if it scrolled; 0 while it does [px]."""
        return 0


def let_scroll(rows: QAbstractScrollArea, *, scrolls: bool) -> None:
    """Let rows scroll, or not; they ask for another height then."""
    bars = Qt.ScrollBarPolicy
    rows.setVerticalScrollBarPolicy(bars.ScrollBarAsNeeded if scrolls else bars.ScrollBarAlwaysOff)
    rows.updateGeometry()


def is_in_scrolling(widget: QWidget) -> bool:
    """Tell whether something around a widget can be scrolled up or down."""
    around = widget.parentWidget()
    while around is not None and not around.isWindow():
        if isinstance(around, Scrolled) and around.verticalScrollBar().maximum() > 0:
            return True
        around = around.parentWidget()
    return False


def outermost(around: QWidget) -> Iterator[MayScroll]:
    """Go through the parts in a widget that may scroll, but not through those within them."""
    for part in around.findChildren(QWidget, options=Qt.FindChildOption.FindDirectChildrenOnly):
        if isinstance(part, MayScroll):
            yield part
        else:
            yield from outermost(part)


def height_at(widget: QWidget, width: int) -> int:
    """Return the height a widget would like at a width [px]."""
    if widget.hasHeightForWidth():
        return widget.heightForWidth(width)
    return widget.sizeHint().expandedTo(widget.minimumSizeHint()).height()


class Scrolled(QScrollArea, MayScroll):
    """A scroll area for one page; it never scrolls sideways.

    Signals
    -------
    wanted : something in it wants another size.
    """

    wanted = Signal()

    def __init__(self, page: QWidget, parent: QWidget | None = None) -> None:
        self._is_whole: bool | None = None
        self._were_whole: bool | None = None
        self._turns = 0
        self._sized = QSize()
        super().__init__(parent)
        page.setObjectName("page")
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setWidget(page)

    def read_with_keys(self, name: str) -> None:
        """Let Tab stop here, with a ring, so that the arrow keys scroll what is only read."""
        self.setObjectName("keys")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(name)

    @property
    def is_whole(self) -> bool:
        """Whether it is as high as everything in it."""
        return bool(self._is_whole)

    def show_whole(self, *, is_whole: bool) -> None:
        """Ask for the height of everything in it, or scroll."""
        if is_whole is self._is_whole:
            return
        self._is_whole, policies = is_whole, QSizePolicy.Policy
        let_scroll(self, scrolls=not is_whole)
        high = policies.Preferred if is_whole else policies.Ignored
        self.setSizePolicy(self.sizePolicy().horizontalPolicy(), high)
        self.fit()

    @property
    def has_whole_parts(self) -> bool:
        """Whether the parts within it are whole: it is so itself, or has to scroll for them."""
        return self.is_whole or self.has_to_scroll(self.widget())

    def has_to_scroll(self, page: QWidget) -> bool:
        """Tell whether a page has no room in height, even if the parts in it scroll."""
        over = height_at(page, page.width()) - self.viewport().height()
        return over > 0 and over > sum(part.spare_px for part in outermost(page))

    def show_parts(self) -> None:
        """Let the parts within it be whole, or scroll."""
        self._were_whole = self.has_whole_parts
        for part in outermost(self.widget()):
            part.show_whole(is_whole=self._were_whole)

    def fit(self) -> None:
        """Follow the room there is."""
        if self.has_whole_parts is not self._were_whole:
            self.show_parts()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Measure again, and lay out for the new size."""
        super().resizeEvent(event)
        if self._is_whole:
            self.updateGeometry()
        if self.size() != self._sized and not self._turns:
            self._sized = self.size()
            if self.verticalScrollBarPolicy() == Qt.ScrollBarPolicy.ScrollBarAlwaysOn:
                let_scroll(self, scrolls=not self._is_whole)
        self.fit()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Measure again when something in it wants another size."""
        if event.type() == QEvent.Type.LayoutRequest:
            if self._is_whole:
                self.updateGeometry()
            self.fit()
            self.wanted.emit()
        self._turns += 1
        if self._turns == TURNS:
            self._keep_bar()
        try:
            return super().eventFilter(watched, event)
        finally:
            self._turns -= 1

    def _keep_bar(self) -> None:
        """Keep the bar until this area has another size.

        With the bar there is room without it, and without it there is none: Qt would take it away
        and bring it back without an end, each time within the last.
        """
        policies = Qt.ScrollBarPolicy
        if self.verticalScrollBarPolicy() == policies.ScrollBarAsNeeded:
            self.setVerticalScrollBarPolicy(policies.ScrollBarAlwaysOn)
            asked = QEvent(QEvent.Type.LayoutRequest)
            QCoreApplication.postEvent(self.widget(), asked)

    def hasHeightForWidth(self) -> bool:
        """Tell whether all of it is shown, with its text wrapped."""
        return self.is_whole

    def heightForWidth(self, width: int) -> int:
        """Return the height of everything in it."""
        return height_at(self.widget(), width)

    def minimumSizeHint(self) -> QSize:
        """Ask for all of its height, or for little."""
        if not self._is_whole:
            return super().minimumSizeHint()
        return QSize(self.widget().minimumSizeHint().width(), self.heightForWidth(self.width()))
