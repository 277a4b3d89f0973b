"""What is open, and an entry in its place for another title."""

from PySide6.QtCore import QLineF, QSize, Qt, Signal, Slot
from PySide6.QtGui import QKeySequence, QPainter, QPaintEvent, QPen, QResizeEvent, QShortcut
from PySide6.QtWidgets import QPushButton, QStackedWidget, QWidget

from firing_review.firing.wording import moment, tr
from firing_review.review.review import Review
from firing_review.ui.entry import Entry

EDGE = 2
"""Pixels of the button's frame, beside which its words begin."""


def what_is_open(review: Review) -> str:
    """Return title, kiln and day of a firing as one line."""
    given = review.given
    parts = [given.title or given.log.source]
    if given.kiln is not None and given.kiln.name:
        parts.append(given.kiln.name)
    if given.log.started_at is not None:
        parts.append(moment(given.log.started_at))
    return " · ".join(parts)


def window_title(review: Review) -> str:
    """Return what the system shows as the title of the window."""
    title = review.given.title or review.given.log.source
    return tr("{title} – Firing Review").format(title=title)


class TitleButton(QPushButton):
    """One line cut to the room there is; a dotted line under it says that it can be changed."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._words = ""
        self.setProperty("part", "title")
        self.setCursor(Qt.CursorShape.IBeamCursor)

    def show_text(self, text: str) -> None:
        """Show another text; the whole of it is in the tool tip and read out."""
        self._words = text
        self.setToolTip(tr("{title}\nF2 or a click changes the title.").format(title=text))
        self.setAccessibleName(tr("Title: {title}").format(title=text))
        self._cut()

    def text(self) -> str:
        """Return the whole text."""
        return self._words

    def minimumSizeHint(self) -> QSize:
        """Give way to everything else."""
        return QSize(0, super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Cut the text to the new width."""
        super().resizeEvent(event)
        self._cut()

    def _cut(self) -> None:
        side, room = Qt.TextElideMode.ElideRight, self.width() - 2 * EDGE
        shown = self.fontMetrics().elidedText(self._words, side, room)
        super().setText(shown.replace("&", "&&"))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw the words, then the dotted line."""
        super().paintEvent(event)
        metrics = self.fontMetrics()
        wide = min(metrics.horizontalAdvance(self._words), self.width() - 2 * EDGE)
        y = self.height() / 2 + metrics.height() / 2 + 1
        painter = QPainter(self)
        painter.setPen(QPen(self.palette().buttonText().color(), 1, Qt.PenStyle.DotLine))
        painter.drawLine(QLineF(EDGE, y, EDGE + wide, y))


class Title(QStackedWidget):
    """The line, or the entry.

    Signals
    -------
    edited : the title as it was typed.
    """

    edited = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._title = ""
        self.button, self.entry = TitleButton(), Entry()
        self.entry.setAccessibleName(tr("Title of the firing"))
        for widget in (self.button, self.entry):
            self.addWidget(widget)
        self.button.clicked.connect(self.begin)
        self.entry.editingFinished.connect(self._on_done)
        leave = QShortcut(QKeySequence(Qt.Key.Key_Escape), self.entry)
        leave.setContext(Qt.ShortcutContext.WidgetShortcut)
        leave.activated.connect(self._on_left)

    def show_review(self, review: Review) -> None:
        """Show what is open."""
        self._title = review.given.title
        self.button.show_text(what_is_open(review))
        self.entry.setPlaceholderText(review.given.log.source)

    def text(self) -> str:
        """Return what is shown."""
        return self.button.text()

    @Slot()
    def begin(self) -> None:
        """Put the entry in place of the line, with the keyboard in it."""
        self.entry.take(self._title)
        self.setCurrentWidget(self.entry)
        self.entry.setFocus()
        self.entry.selectAll()

    @Slot()
    def _on_done(self) -> None:
        if self.currentWidget() is self.entry:
            typed = self.entry.text().strip()
            self._close()
            if typed != self._title:
                self.edited.emit(typed)

    @Slot()
    def _on_left(self) -> None:
        self.entry.take(self._title)
        self._close()

    def _close(self) -> None:
        had_keyboard = self.entry.hasFocus()
        self.setCurrentWidget(self.button)
        if had_keyboard:
            self.button.setFocus()
