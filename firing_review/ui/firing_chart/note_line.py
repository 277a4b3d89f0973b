"""One note being written or changed: its moment, its words, and what to do with it."""

from collections.abc import Callable

from PySide6.QtCore import Qt, QTimer, Signal, Slot
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QHBoxLayout, QLabel, QLineEdit, QPushButton, QWidget

from firing_review.firing.sheet import TimeNote
from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.in_sight import bring

MINUTE_H = 1 / 60
NARROW_PX = 760
LONGEST = 400
"""Letters of a note written here; one from a file is never cut."""


class NoteLine(QWidget):
    """Opens in place of the tools; Enter keeps what is written, Escape leaves it as it was.

    Signals
    -------
    kept : the note as it was (None if it is new), and as it is now.
    removed : the note to be taken away.
    shifted : the moment of the note while it is moved to and fro.
    closed : nothing is written any more.
    """

    kept = Signal(object, object)
    removed = Signal(object)
    shifted = Signal(object)
    closed = Signal()

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self._before: TimeNote | None = None
        self._at_h, self._last_h = 0.0, 0.0
        self._say_time: Callable[[float], str] = str
        self.moment = QLabel()
        self.moment.setTextFormat(Qt.TextFormat.PlainText)
        self.text = QLineEdit()
        self.text.setAccessibleName(tr("Words of the note"))
        self.text.setPlaceholderText(tr("What happened then"))
        self.sooner, self.later = QPushButton(tr("Earlier")), QPushButton(tr("Later"))
        self.keep, self.remove = QPushButton(tr("Keep")), QPushButton(tr("Remove"))
        self.cancel = QPushButton(tr("Cancel"))
        self._lay_out()
        self._connect()
        self.setVisible(False)

    def _lay_out(self) -> None:
        words, buttons = QHBoxLayout(), QHBoxLayout()
        words.addWidget(self.moment)
        words.addWidget(self.text, 1)
        buttons.setSpacing(4)
        for button in self.buttons:
            button.setProperty("part", "chart")
            buttons.addWidget(button)
        self._box = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self._box.setContentsMargins(4, 0, 4, 2)
        self._box.setSpacing(8)
        self._box.addLayout(words, 1)
        self._box.addLayout(buttons)

    def _connect(self) -> None:
        self.text.returnPressed.connect(self._on_keep)
        self.keep.clicked.connect(self._on_keep)
        self.remove.clicked.connect(self._on_remove)
        self.cancel.clicked.connect(self.close_line)
        for button, step in ((self.sooner, -MINUTE_H), (self.later, MINUTE_H)):
            button.setAutoRepeat(True)
            button.setProperty("step_h", step)
            button.clicked.connect(self._on_step)

    @property
    def buttons(self) -> tuple[QPushButton, ...]:
        """The buttons in their order."""
        return (self.keep, self.sooner, self.later, self.remove, self.cancel)

    def open_line(
        self,
        note: TimeNote | None,
        at_h: float,
        last_h: float,
        say_time: Callable[[float], str],
    ) -> None:
        """Write a new note, or change one.

        Parameters
        ----------
        at_h, last_h : float
            Moment of the note, and the latest there may be [h].
        say_time : callable
            Says a moment in words.
        """
        self._before, self._at_h, self._last_h, self._say_time = note, at_h, last_h, say_time
        words = note.text if note is not None else ""
        self.text.setMaxLength(max(LONGEST, len(words)))
        self.text.setText(words)
        self.remove.setVisible(note is not None)
        self.setVisible(True)
        self._show_moment()
        self.text.setFocus()
        QTimer.singleShot(0, self, lambda: bring(self))  # once it has been given its room

    def _show_moment(self) -> None:
        self.moment.setText(tr("Note at {time}").format(time=self._say_time(self._at_h)))
        self.text.setAccessibleDescription(self.moment.text())
        self.shifted.emit(self._at_h)

    @Slot()
    def close_line(self) -> None:
        """Leave everything as it was."""
        if self.isVisibleTo(self.parentWidget()):
            self.setVisible(False)
            self.closed.emit()

    @Slot()
    def _on_step(self) -> None:
        step = float(self.sender().property("step_h"))
        self._at_h = min(max(round(self._at_h + step, 4), 0.0), self._last_h)
        self._show_moment()

    @Slot()
    def _on_keep(self) -> None:
        """Keep what is written; a note without words is none."""
        words, before = self.text.text().strip(), self._before
        at_h = self._at_h
        self.close_line()
        if words and (before is None or (before.text, before.at_h) != (words, at_h)):
            self.kept.emit(before, TimeNote(at_h, words))

    @Slot()
    def _on_remove(self) -> None:
        before = self._before
        self.close_line()
        if before is not None:
            self.removed.emit(before)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Put the buttons below the words where both have no room side by side."""
        super().resizeEvent(event)
        narrow = self.width() < self._appearance.sizes.px(NARROW_PX)
        ways = QBoxLayout.Direction
        self._box.setDirection(ways.TopToBottom if narrow else ways.LeftToRight)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Leave with Escape."""
        if event.key() == Qt.Key.Key_Escape:
            self.close_line()
            return
        super().keyPressEvent(event)

    def dress(self) -> None:
        """Follow the present sizes."""
        target = self._appearance.sizes.target
        for widget in (*self.buttons, self.text):
            widget.setMinimumHeight(target)
