"""Notes as tags under the time axis, each with a pin at its moment."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QFontMetricsF,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from firing_review.firing.sheet import TimeNote
from firing_review.firing.wording import tr
from firing_review.report import wording
from firing_review.report.shown_text import shown
from firing_review.ui.appearance import Appearance

PIN, LEAST_TAG, WORDS_LEFT = 5, 44, 12
DRAG_PX = 6
"""A mouse moved less than this meant a click."""
BEYOND_PX = 130
"""A tag may reach so far into the edge where the names of the lines stand."""


class NoteStrip(QWidget):
    """The tags; a click or Enter opens one, dragging moves it, Delete removes it.

    Signals
    -------
    opened : the note to be changed.
    moved : the note, and the hour it was moved to.
    removed : the note to be taken away.
    """

    opened = Signal(object)
    moved = Signal(object, float)
    removed = Signal(object)

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self._notes: tuple[TimeNote, ...] = ()
        self._chosen = 0
        self._view = (0.0, 1.0, 0.0, 1.0)
        self._pressed: tuple[TimeNote, float] | None = None
        self._dragged_px: float | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(tr("Notes along the firing"))
        self.setVisible(False)

    def show_notes(self, notes: tuple[TimeNote, ...]) -> None:
        """Show other notes; without any there is no strip."""
        self._notes = notes
        self._chosen = min(self._chosen, max(len(notes) - 1, 0))
        self.setVisible(bool(notes))
        self._say()
        self.update()

    def show_view(self, low_h: float, high_h: float, left: float, right: float) -> None:
        """Follow the chart: hours at the left and right pixel of its plot."""
        self._view = (low_h, high_h, left, right)
        self.update()

    def sizeHint(self) -> QSize:
        """Ask for one row."""
        return QSize(100, self._appearance.sizes.target)

    def minimumSizeHint(self) -> QSize:
        """Keep the height of a target."""
        return QSize(0, self.sizeHint().height())

    # where a note lies

    def _pixel(self, hours: float) -> float:
        low, high, left, right = self._view
        return left + (hours - low) / ((high - low) or 1.0) * (right - left)

    def hours_at(self, pixel: float) -> float:
        """Return the moment at a pixel of the strip."""
        low, high, left, right = self._view
        return low + (pixel - left) / ((right - left) or 1.0) * (high - low)

    def box_of(self, place: int) -> QRectF:
        """Return the tag of a note, from its pin up to the next one; empty out of view."""
        low, high, _, right = self._view
        note = self._notes[place]
        if not low <= note.at_h <= high:
            return QRectF()
        start = self._pixel(note.at_h)
        following = self._notes[place + 1].at_h if place + 1 < len(self._notes) else None
        end = right + BEYOND_PX if following is None else self._pixel(following)
        px = self._appearance.sizes.px
        words = self._metrics().horizontalAdvance(shown(note.text)) + px(WORDS_LEFT) + 4
        width = max(min(words, end - start), float(px(LEAST_TAG)))
        return QRectF(start - px(PIN), 0, width + px(PIN), self.height())

    def note_at(self, x: float) -> TimeNote | None:
        """Return the note at a pixel; where tags lie over each other, the one with its pin there.

        The later tag is drawn over the earlier, so it also comes first here.
        """
        for place in reversed(range(len(self._notes))):
            box = self.box_of(place)
            if box.left() - DRAG_PX <= x <= box.right():
                return self._notes[place]
        return None

    def _metrics(self) -> QFontMetricsF:
        return QFontMetricsF(self._appearance.font(self._appearance.sizes.small))

    # drawing

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw the notes on the screen."""
        self.paint_on(QPainter(self))

    def paint_on(self, painter: QPainter) -> None:
        """Draw the pins and the words."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(self._appearance.font(self._appearance.sizes.small))
        for place, note in enumerate(self._notes):
            box = self.box_of(place)
            if self._pressed is not None and note == self._pressed[0] and self._dragged_px:
                box.moveLeft(self._dragged_px - self._appearance.sizes.px(PIN))
            if not box.isEmpty():
                self._paint_tag(painter, place, box)

    def _paint_tag(self, painter: QPainter, place: int, box: QRectF) -> None:
        colors, px = self._appearance.colors, self._appearance.sizes.px
        painter.fillRect(box, QColor(colors.page))
        if self.hasFocus() and place == self._chosen:
            painter.setPen(QPen(QColor(colors.accent), 2))
            painter.drawRect(box.adjusted(1, 1, -1, -1))
        x, middle = box.left() + px(PIN), box.center().y()
        painter.setPen(QPen(QColor(colors.ink), 2))
        painter.drawLine(QPointF(x, 0), QPointF(x, middle))
        painter.setBrush(QColor(colors.accent))
        painter.drawEllipse(QPointF(x, middle), px(PIN), px(PIN))
        room = box.adjusted(px(PIN + WORDS_LEFT) - 2, 0, -2, 0)
        text = self._metrics().elidedText(
            shown(self._notes[place].text), Qt.TextElideMode.ElideRight, room.width()
        )
        painter.setPen(QColor(colors.ink))
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, text)

    # mouse

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of the note under the mouse."""
        note = self.note_at(event.position().x())
        if note is not None and event.button() is Qt.MouseButton.LeftButton:
            self._pressed = (note, event.position().x())
            self._chosen = self._notes.index(note)
            self._say()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Carry the note along."""
        if self._pressed is None:
            return
        x = event.position().x()
        if self._dragged_px is not None or abs(x - self._pressed[1]) >= DRAG_PX:
            self._dragged_px = x
            self.update()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Put the note down where it is, or open it if it was not carried."""
        if self._pressed is None:
            return
        (note, _), carried = self._pressed, self._dragged_px is not None
        self._pressed = self._dragged_px = None
        if carried:
            self.moved.emit(note, self.hours_at(event.position().x()))
        else:
            self.opened.emit(note)
        self.update()

    # keys

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Go from note to note, open or remove one."""
        key = event.key()
        if key in (Qt.Key.Key_Left, Qt.Key.Key_Right) and self._notes:
            step = 1 if key == Qt.Key.Key_Right else -1
            self._chosen = min(max(self._chosen + step, 0), len(self._notes) - 1)
            self._say()
            self.update()
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space) and self._notes:
            self.opened.emit(self._notes[self._chosen])
        elif key in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace) and self._notes:
            self.removed.emit(self._notes[self._chosen])
        else:
            super().keyPressEvent(event)

    def _say(self) -> None:
        """Tell the screen reader the note that is chosen."""
        text = ""
        if self._notes:
            note = self._notes[self._chosen]
            text = tr("{number} of {count}, {time}: {text}").format(
                number=self._chosen + 1,
                count=len(self._notes),
                time=wording.hours(note.at_h),
                text=shown(note.text),
            )
        self.setAccessibleDescription(text)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Frame the chosen note."""
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Take the frame away."""
        super().focusOutEvent(event)
        self.update()
