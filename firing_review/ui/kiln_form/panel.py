"""The kiln form: every entry that makes sense goes into the review at once."""

from pathlib import Path

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QWidget

from firing_review.firing.errors import InputError
from firing_review.firing.kiln import Kiln
from firing_review.firing.wording import tr
from firing_review.io.sheets import read_kiln
from firing_review.review.review import Review
from firing_review.ui.appearance import Appearance
from firing_review.ui.ask import Questions
from firing_review.ui.home import home_folder
from firing_review.ui.kiln_form.values import (
    SUPPLY_WORDS,
    THERMOCOUPLE_LETTERS,
    KilnRead,
    KilnTyped,
    read_kiln_typed,
    typed_of,
)
from firing_review.ui.kiln_form.view import KilnView
from firing_review.ui.layouts import fill
from firing_review.ui.scrolled import Scrolled
from firing_review.ui.text_table.model import TextTableModel


class KilnForm(QWidget):
    """The name plate and the sections.

    Signals
    -------
    edited : the kiln as it now stands, or None when nothing is known.
    refused : an error a person can act on.
    """

    edited = Signal(object)
    refused = Signal(object)

    def __init__(
        self, appearance: Appearance, questions: Questions, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._questions = questions
        self._kiln: Kiln | None = None
        self._folder = home_folder()
        self.view = KilnView(appearance)
        self.model = TextTableModel((tr("Name"), "kW", tr("Ω cold")), self)
        self.view.sections.setModel(self.model)
        fill(self, Scrolled(self.view, self))
        self._appearance = appearance
        self._connect()
        self._take(None)

    def _connect(self) -> None:
        view = self.view
        for entry in view.entries.values():
            entry.editingFinished.connect(self._on_edited)
        view.supply.activated.connect(self._on_edited)
        view.thermocouple.activated.connect(self._on_edited)
        self.model.edited.connect(self._on_edited)
        view.sections.pasted.connect(self._on_pasted)
        view.sections.refused.connect(self.refused)
        view.remove.clicked.connect(self._on_remove)
        view.from_file.clicked.connect(self._on_from_file)
        self.model.rowsInserted.connect(self._fit)
        self.model.rowsRemoved.connect(self._fit)
        self.model.modelReset.connect(self._fit)
        self._appearance.changed.connect(self._fit)

    def show_review(self, review: Review, folder: Path) -> None:
        """Show the review's kiln, unless it is the one just typed here."""
        self._folder = folder
        if review.given.kiln != self._kiln:
            self._take(review.given.kiln)

    def _take(self, kiln: Kiln | None) -> None:
        self._kiln = kiln
        typed = typed_of(kiln)
        for key, entry in self.view.entries.items():
            entry.take(typed.texts[key])
        self.view.supply.setCurrentIndex(list(SUPPLY_WORDS).index(typed.supply))
        self.view.thermocouple.setCurrentIndex(THERMOCOUPLE_LETTERS.index(typed.thermocouple))
        self.model.set_rows(list(typed.sections))
        self._say(read_kiln_typed(typed, kiln))
        self._fit()

    def _typed(self) -> KilnTyped:
        return KilnTyped(
            {key: entry.text() for key, entry in self.view.entries.items()},
            list(SUPPLY_WORDS)[self.view.supply.currentIndex()],
            THERMOCOUPLE_LETTERS[self.view.thermocouple.currentIndex()],
            self.model.rows,
        )

    @Slot()
    def _on_edited(self) -> None:
        typed = self._typed()
        if typed == _shown(typed_of(self._kiln)):
            return
        read = read_kiln_typed(typed, self._kiln)
        self._say(read)
        for key, entry in self.view.entries.items():
            if key not in read.wrong:
                entry.setModified(False)
        if read.kiln != self._kiln:
            self._kiln = read.kiln
            self.edited.emit(read.kiln)

    def _say(self, read: KilnRead) -> None:
        for key, entry in self.view.entries.items():
            entry.mark(read.wrong.get(key, ""))
        self.model.set_wrong(read.wrong_cells)
        sentences = [*read.wrong.values(), *read.wrong_cells.values()]
        self.view.message.setText(sentences[0] if sentences else "")
        self.view.message.setVisible(bool(sentences))

    @Slot(str)
    def _on_pasted(self, text: str) -> None:
        self.model.paste(self.view.sections.currentIndex(), text, whole_rows=True)

    @Slot()
    def _on_remove(self) -> None:
        self.model.remove_row(self.view.sections.currentIndex().row())

    @Slot()
    def _on_from_file(self) -> None:
        path = self._questions.file_to_open(self, tr("Take the kiln from a sheet"), self._folder)
        if path is None:
            return
        try:
            kiln = read_kiln(path)
        except InputError as error:
            self.refused.emit(error)
            return
        self._take(kiln)
        self.edited.emit(kiln)

    @Slot()
    def _fit(self) -> None:
        self.view.sections.dress()
        self.view.fit_sections(self.model.rowCount())


def _shown(typed: KilnTyped) -> KilnTyped:
    """Return the form with its rows as the table gives them back."""
    return KilnTyped(typed.texts, typed.supply, typed.thermocouple, list(typed.sections))
