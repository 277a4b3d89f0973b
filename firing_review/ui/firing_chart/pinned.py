"""Notes pinned to the time axis: written, changed, moved and removed, each as an edit."""

from PySide6.QtCore import QObject, Signal, Slot

from firing_review.firing.sheet import TimeNote
from firing_review.review import edits
from firing_review.review.review import Review
from firing_review.ui.firing_chart.readout import moment_text
from firing_review.ui.firing_chart.view import ChartView
from firing_review.ui.showing import Showing


class PinnedNotes(QObject):
    """Brings strip and line of the notes together.

    Signals
    -------
    edited : an edit of the review.
    """

    edited = Signal(object)

    def __init__(self, view: ChartView, showing: Showing, parent: QObject) -> None:
        super().__init__(parent)
        self._view, self._showing = view, showing
        self._review: Review | None = None
        self._written_h: float | None = None
        line, strip = view.note_line, view.note_strip
        line.kept.connect(self._on_kept)
        line.removed.connect(self._on_removed)
        line.shifted.connect(self._on_shifted)
        line.closed.connect(self._on_closed)
        strip.opened.connect(self.change)
        strip.moved.connect(self._on_moved)
        strip.removed.connect(self._on_removed)

    def take(self, review: Review) -> None:
        """Show the notes of a review; a note being written for another log is dropped."""
        if self._review is not None and self._review.given.log is not review.given.log:
            self._view.note_line.close_line()
        self._review = review
        self._view.note_strip.show_notes(review.given.notes)
        self._show_pins()

    def write(self, at_h: float) -> None:
        """Open a new note at a moment."""
        self._open(None, round(at_h, 4))

    @Slot(object)
    def change(self, note: TimeNote) -> None:
        """Open a note that is there."""
        self._open(note, note.at_h)

    def _open(self, note: TimeNote | None, at_h: float) -> None:
        if self._review is not None:
            last_h = self._review.given.log.hours
            self._view.tools.setVisible(False)
            self._view.note_line.open_line(note, at_h, last_h, self._say_moment)

    def _say_moment(self, at_h: float) -> str:
        if self._review is None:
            return ""
        return moment_text(self._review, at_h, self._showing.time_shown)

    def _show_pins(self) -> None:
        pins = [note.at_h for note in self._review.given.notes] if self._review else []
        if self._written_h is not None:
            pins.append(self._written_h)
        for lane in self._view.lanes.all:
            lane.foreground.show_pins(pins)

    @Slot(object)
    def _on_shifted(self, at_h: float) -> None:
        self._written_h = at_h
        self._show_pins()

    @Slot()
    def _on_closed(self) -> None:
        self._written_h = None
        self._show_pins()
        self._view.tools.setVisible(True)
        self._view.lanes.setFocus()

    @Slot(object, object)
    def _on_kept(self, before: TimeNote | None, after: TimeNote) -> None:
        self.edited.emit(
            edits.add_note(after) if before is None else edits.change_note(before, after)
        )

    @Slot(object)
    def _on_removed(self, note: TimeNote) -> None:
        self.edited.emit(edits.remove_note(note))

    @Slot(object, float)
    def _on_moved(self, note: TimeNote, at_h: float) -> None:
        if self._review is not None:
            inside = min(max(round(at_h, 4), 0.0), self._review.given.log.hours)
            self.edited.emit(edits.change_note(note, TimeNote(inside, note.text)))
