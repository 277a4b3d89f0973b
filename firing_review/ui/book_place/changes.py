"""Changes made at a kiln: a list of them, and a form for a new one."""

from PySide6.QtCore import QDate, Qt, Signal, Slot
from PySide6.QtWidgets import (
    QFormLayout,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from firing_review.book.nouns import Change, ChangeKind
from firing_review.firing.wording import Language, language, tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.book_place.change_words import CHANGE_WORDS, change_line
from firing_review.ui.book_place.kept_list import KeptList
from firing_review.ui.chooser import Chooser, DayChooser

DAYS = {
    Language.ENGLISH_US: "MMM d, yyyy",
    Language.ENGLISH_UK: "d MMM yyyy",
    Language.GERMAN: "d. MMM yyyy",
}
"""How a day is typed and shown."""


class ChangesPart(QWidget):
    """What was changed and when; marks in the trend come from here.

    Signals
    -------
    kept : a new change, without its kiln.
    removed : a change to take out.
    """

    kept = Signal(object)
    removed = Signal(object)

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        heading, remove = tr("Changed at this kiln"), tr("&Remove the one chosen")
        self.kept_list = KeptList(appearance, heading, remove)
        self.kind = Chooser()
        for kind, words in CHANGE_WORDS.items():
            self.kind.addItem(tr(words), kind.value)
        self.day = DayChooser(QDate.currentDate())
        self.day.setDisplayFormat(DAYS[language()])
        self.sections, self.words = QLineEdit(), QLineEdit()
        self.sections.setPlaceholderText(tr("blank: the whole kiln"))
        self.keep = QPushButton(tr("&Keep this change"))
        self._lay_out()
        self.keep.clicked.connect(self._on_keep)
        self.kept_list.removed.connect(self.removed)

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.setRowWrapPolicy(QFormLayout.RowWrapPolicy.WrapLongRows)
        for words, field in (
            (tr("&What was changed"), self.kind),
            (tr("&Day"), self.day),
            (tr("&Sections, if not all"), self.sections),
            (tr("In &your words"), self.words),
        ):
            form.addRow(words, field)
            field.setAccessibleName(words.replace("&", ""))
        buttons = QHBoxLayout()
        buttons.addWidget(self.keep)
        buttons.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 8, 0, 0)
        layout.addWidget(self.kept_list)
        layout.addLayout(form)
        layout.addLayout(buttons)

    def show_changes(self, changes: tuple[Change, ...], *, writable: bool) -> None:
        """Show the changes at one kiln, newest first."""
        newest_first = tuple(reversed(changes))
        self.kept_list.setEnabled(writable)
        self.kept_list.show_entries(newest_first, [change_line(c) for c in newest_first])
        for field in (self.kind, self.day, self.sections, self.words, self.keep):
            field.setEnabled(writable)
        self.dress()

    def dress(self) -> None:
        """Follow the present sizes."""
        target = self._appearance.sizes.target
        self.kept_list.dress()
        for field in (self.day, self.sections, self.words):
            field.setMinimumHeight(target)

    @Slot()
    def _on_keep(self) -> None:
        sections = tuple(one.strip() for one in self.sections.text().split(",") if one.strip())
        day = self.day.date().toPython()
        kind = ChangeKind(self.kind.currentData(Qt.ItemDataRole.UserRole))
        self.kept.emit(Change(kind, day, sections=sections, text=self.words.text().strip()))
        self.sections.clear()
        self.words.clear()
