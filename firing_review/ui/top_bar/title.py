"""What is open, and an entry in its place for another title."""

from PySide6.QtCore import QLineF, QPointF, QSize, Qt, Signal, Slot
from PySide6.QtGui import QFont, QFontMetrics, QKeySequence, QPainter, QPaintEvent, QPen, QShortcut
from PySide6.QtWidgets import QPushButton, QStackedWidget, QWidget

from firing_review.firing.wording import moment, tr
from firing_review.review.review import Review
from firing_review.ui.entry import Entry

EDGE = 2
"""Pixels of the button's frame, beside which its words begin."""
SMALL_SHARE = 14 / 16
"""Type of two lines as a share of that of one, so that both have room in the bar."""
PARTED = " · "


def about_firing(review: Review) -> str:
    """Return kiln and day of a firing, as far as they are known."""
    given, parts = review.given, []
    if given.kiln is not None and given.kiln.name:
        parts.append(given.kiln.name)
    if given.log.started_at is not None:
        parts.append(moment(given.log.started_at))
    return PARTED.join(parts)


def window_title(review: Review) -> str:
    """Return what the system shows as the title of the window."""
    title = review.given.title or review.given.log.source
    return tr("{title} – Firing Review").format(title=title)


def in_lines(
    title: str, about: str, room: int, usual: QFontMetrics, small: QFontMetrics
) -> list[tuple[str, QFontMetrics]]:
    """Return title, kiln and day in one line where they have room, else in two.

    A long title goes on in the second line; what two lines cannot hold ends in an ellipsis.

    Parameters
    ----------
    room : int
        Width of a line [px].
    usual, small : QFontMetrics
        Of the type of one line, or of a title that has a line to itself, and of all else.
    """
    whole = PARTED.join(filter(None, (title, about)))
    if usual.horizontalAdvance(whole) <= room:
        return [(whole, usual)]
    end = Qt.TextElideMode.ElideRight
    if about and usual.horizontalAdvance(title) <= room:
        return [(title, usual), (small.elidedText(about, end, room), small)]
    words = whole.split(" ")
    fitting = [n for n in range(1, len(words)) if _wide(small, words[:n]) <= room]
    count = max(fitting, default=0)
    if not count:
        return [(small.elidedText(whole, end, room), small)]
    first, rest = (" ".join(part).strip(PARTED) for part in (words[:count], words[count:]))
    return [(first, small), (small.elidedText(rest, end, room), small)]


def _wide(metrics: QFontMetrics, words: list[str]) -> int:
    return metrics.horizontalAdvance(" ".join(words))


class TitleButton(QPushButton):
    """Two lines at most; a dotted line under them says that the title can be changed."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._title, self._about = "", ""
        self.setProperty("part", "title")
        self.setCursor(Qt.CursorShape.IBeamCursor)

    def show_firing(self, title: str, about: str) -> None:
        """Show another firing; the whole is in the tool tip, read out, and there to be changed."""
        self._title, self._about = title, about
        self.setToolTip(tr("{title}\nF2 or a click changes the title.").format(title=self.text()))
        self.setAccessibleName(tr("Title: {title}").format(title=self.text()))
        self.updateGeometry()
        self.update()

    def text(self) -> str:
        """Return the whole text."""
        return PARTED.join(filter(None, (self._title, self._about)))

    def lines(self) -> list[str]:
        """Return what is shown, line by line."""
        return [text for text, _ in self._in_lines()]

    def _in_lines(self) -> list[tuple[str, QFontMetrics]]:
        room, usual = self.width() - 2 * EDGE, self.fontMetrics()
        return in_lines(self._title, self._about, room, usual, QFontMetrics(self._small()))

    def _small(self) -> QFont:
        font = QFont(self.font())
        font.setPixelSize(round(self.fontInfo().pixelSize() * SMALL_SHARE))
        return font

    def sizeHint(self) -> QSize:
        """Ask for the height of two lines."""
        lines = self.fontMetrics().height() + QFontMetrics(self._small()).height()
        return QSize(
            super().sizeHint().width(), max(super().sizeHint().height(), lines + 2 * EDGE)
        )

    def minimumSizeHint(self) -> QSize:
        """Give way to everything else."""
        return QSize(0, super().minimumSizeHint().height())

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw the words, then the dotted line."""
        super().paintEvent(event)
        lines = self._in_lines()
        top = (self.height() - sum(metrics.height() for _, metrics in lines)) / 2
        painter = QPainter(self)
        ink = self.palette().buttonText().color()
        painter.setPen(ink)
        for text, metrics in lines:
            is_small = metrics.height() < self.fontMetrics().height()
            painter.setFont(self._small() if is_small else self.font())
            painter.drawText(QPointF(EDGE, top + metrics.ascent()), text)
            top += metrics.height()
        wide = max(metrics.horizontalAdvance(text) for text, metrics in lines)
        painter.setPen(QPen(ink, 1, Qt.PenStyle.DotLine))
        painter.drawLine(QLineF(EDGE, top + 0.5, EDGE + wide, top + 0.5))


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
        given = review.given
        self.button.show_firing(given.title or given.log.source, about_firing(review))
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
