"""The places of the window, in the trade's order of questions."""

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QSize, Qt, Signal, Slot
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QWidget

from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance

WIDTH, ROW, BESIDE_WORD, ABOVE = 124, 44, 48, 8


@dataclass(frozen=True)
class Place:
    """One place: its word in the list, and how the panel that stands there is made.

    It is made within what it is to stand in, for Qt gives whatever is put into another, and all in
    it, its style anew. A panel has ``show_review(review)``.
    """

    key: str
    word: str
    make: Callable[[QWidget], QWidget]


class PlacesList(QListWidget):
    """Words at the left; the arrow keys go from one to the next.

    Signals
    -------
    placeChosen : key of the place.
    widthChanged : it is as wide as its words, and a scroll bar where it needs one.
    """

    placeChosen = Signal(str)
    widthChanged = Signal()

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self.setObjectName("places")
        self.setAccessibleName(tr("Places"))
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.currentItemChanged.connect(self._on_current)
        appearance.changed.connect(self.fit)

    def show_places(self, places: list[Place]) -> None:
        """List the places."""
        self.clear()
        for number, place in enumerate(places, start=1):
            item = QListWidgetItem(place.word, self)
            item.setToolTip(tr("{place}: Ctrl+{number}").format(place=place.word, number=number))
            item.setData(Qt.ItemDataRole.UserRole, place.key)
        self.fit()
        self.setCurrentRow(0)

    @property
    def key(self) -> str:
        """The key of the place that is chosen."""
        return str(self.currentItem().data(Qt.ItemDataRole.UserRole))

    def go_to(self, key: str) -> None:
        """Choose a place."""
        keys = [self.item(row).data(Qt.ItemDataRole.UserRole) for row in range(self.count())]
        self.setCurrentRow(keys.index(key))

    @Slot()
    def fit(self) -> None:
        """Follow the present sizes."""
        px = self._appearance.sizes.px
        words = [self.item(row).text() for row in range(self.count())]
        widest = max(map(self.fontMetrics().horizontalAdvance, words), default=0)
        width = max(px(WIDTH), widest + px(BESIDE_WORD))
        room = (self.viewport().height() - ABOVE) // max(self.count(), 1)
        high = max(min(px(ROW), room), self._appearance.sizes.target)
        for row in range(self.count()):
            self.item(row).setSizeHint(QSize(width - 8, high))
        width += self.verticalScrollBar().sizeHint().width() if high > room else 0
        if width != self.maximumWidth():
            self.setFixedWidth(width)
            self.widthChanged.emit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Let the words stand closer on a low window, so that all are in sight."""
        super().resizeEvent(event)
        if event.size().height() != event.oldSize().height():
            self.fit()

    @Slot(QListWidgetItem, QListWidgetItem)
    def _on_current(self, now: QListWidgetItem | None, _before: QListWidgetItem | None) -> None:
        if now is not None:
            self.placeChosen.emit(now.data(Qt.ItemDataRole.UserRole))


class StandingList(QWidget):
    """The list of places, which stays in sight while the place beside it scrolls."""

    def __init__(self, places: PlacesList, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._list, self._gone, self._room = places, 0, 0
        places.setParent(self)
        places.widthChanged.connect(self.fit)
        self.fit()

    @Slot()
    def fit(self) -> None:
        """Follow the width of the list."""
        self.setFixedWidth(self._list.maximumWidth())
        self._stand()

    def stand(self, gone: int, room: int) -> None:
        """Put the list below what has gone out of sight above, in the room there is [px]."""
        self._gone, self._room = gone, room
        self._stand()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Stand in the new height."""
        super().resizeEvent(event)
        self._stand()

    def _stand(self) -> None:
        high = min(self._room, self.height())
        top = min(max(self._gone, 0), self.height() - high)
        self._list.setGeometry(0, top, self.width(), high)
