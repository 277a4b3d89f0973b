"""Notes on a kiln, and files kept with it, such as a photo of its wiring or of paper notes."""

from collections.abc import Sequence

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from firing_review.book.nouns import Attachment, Note
from firing_review.firing.wording import day, tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.book_place.kept_list import KeptList

Entry = Note | Attachment


class NotesPart(QWidget):
    """What is written down about a kiln and what lies with it.

    Signals
    -------
    kept : the words of a new note.
    attachAsked : a file is to be put with the kiln.
    saveAsked : a file kept with it is to be written out again.
    removed : a note or a file to take out.
    """

    kept = Signal(str)
    attachAsked = Signal()
    saveAsked = Signal(object)
    removed = Signal(object)

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        heading = tr("Notes and files of this kiln")
        self.kept_list = KeptList(appearance, heading, tr("Take the chosen one &out"))
        self.words = QLineEdit()
        self.words.setAccessibleName(tr("A note on this kiln"))
        self.words.setPlaceholderText(tr("a note on this kiln"))
        self.keep = QPushButton(tr("Keep this &note"))
        self.attach = QPushButton(tr("Add a fi&le…"))
        self.save = QPushButton(tr("Sa&ve the chosen file…"))
        self._lay_out()
        self.words.returnPressed.connect(self._on_keep)
        self.keep.clicked.connect(self._on_keep)
        self.attach.clicked.connect(self.attachAsked)
        self.save.clicked.connect(self._on_save)
        self.kept_list.removed.connect(self.removed)
        self.kept_list.chosen.connect(self._on_chosen)

    def _lay_out(self) -> None:
        buttons = QHBoxLayout()
        for button in (self.keep, self.attach):
            buttons.addWidget(button)
        buttons.addStretch(1)
        saving = QHBoxLayout()
        saving.addWidget(self.save)
        saving.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 8, 0, 0)
        layout.addWidget(self.kept_list)
        layout.addLayout(saving)
        layout.addWidget(self.words)
        layout.addLayout(buttons)

    def show_entries(self, entries: Sequence[Entry], *, writable: bool) -> None:
        """Show notes and files, newest first."""
        self.kept_list.setEnabled(writable or any(isinstance(e, Attachment) for e in entries))
        self.kept_list.show_entries(entries, [_line(entry) for entry in entries])
        self.kept_list.remove.setVisible(writable and bool(entries))
        for widget in (self.words, self.keep, self.attach):
            widget.setEnabled(writable)
        self.dress()

    def dress(self) -> None:
        """Follow the present sizes."""
        self.kept_list.dress()
        self.words.setMinimumHeight(self._appearance.sizes.target)

    @Slot()
    def _on_keep(self) -> None:
        words = self.words.text().strip()
        if words:
            self.words.clear()
            self.kept.emit(words)

    @Slot()
    def _on_save(self) -> None:
        entry = self.kept_list.current
        if isinstance(entry, Attachment):
            self.saveAsked.emit(entry)

    @Slot(object)
    def _on_chosen(self, entry: Entry | None) -> None:
        self.save.setVisible(isinstance(entry, Attachment))


def _line(entry: Entry) -> str:
    if isinstance(entry, Attachment):
        return tr("{day}  file: {name}").format(day=day(entry.added_at.date()), name=entry.name)
    written = day(entry.written_at.date()) if entry.written_at else tr("day not known")
    return f"{written}  {entry.text}"
