"""The place "Elements": the judgement, and readings that go into it as they are typed."""

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QWidget

from firing_review.firing.results import ElementsJudged
from firing_review.firing.sheet import Readings
from firing_review.firing.wording import as_typed, tr
from firing_review.report.wording import render, render_all, temperature
from firing_review.review.review import Review
from firing_review.ui.appearance import Appearance
from firing_review.ui.ask import Questions
from firing_review.ui.elements_place.reading_rows import (
    ReadingsRead,
    headings,
    read_readings_typed,
    rows_of,
)
from firing_review.ui.elements_place.view import ElementsView
from firing_review.ui.in_sight import bring
from firing_review.ui.layouts import fill
from firing_review.ui.saving import save_schedule
from firing_review.ui.showing import Showing
from firing_review.ui.spot import Spot
from firing_review.ui.text_table.model import TextTableModel

HOTTEST_CONE_C = 1370.0
"""End point of cone 14; a ceiling beyond it is no limit for a potter [°C]."""


class ElementsPlace(QWidget):
    """Bars, chart, words and readings.

    Signals
    -------
    readingsEdited : the meter readings as they now stand.
    earlierAsked : an earlier good firing is to be chosen, to compare with.
    earlierEdited : the earlier firings as they now stand.
    refused : an error a person can act on.
    """

    readingsEdited = Signal(object)
    earlierAsked = Signal()
    earlierEdited = Signal(object)
    refused = Signal(object)

    def __init__(
        self,
        appearance: Appearance,
        showing: Showing,
        questions: Questions,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._showing, self._questions = showing, questions
        self._review: Review | None = None
        self._readings: Readings | None = None
        self.view = ElementsView(appearance, self)
        self.model = TextTableModel(headings(), self)
        self.view.table.setModel(self.model)
        fill(self, self.view)
        self.model.edited.connect(self._on_typed)
        self.view.table.pasted.connect(self._on_pasted)
        self.view.table.refused.connect(self.refused)
        self.view.save_test.clicked.connect(self._on_save_test)
        self.view.compare.clicked.connect(self.earlierAsked)
        self.view.alone.clicked.connect(lambda: self.earlierEdited.emit(()))
        self.view.at_rest.editingFinished.connect(self._on_typed)
        self.view.at_load.editingFinished.connect(self._on_typed)
        appearance.changed.connect(self._on_look)
        showing.changed.connect(self._on_look)

    def show_review(self, review: Review) -> None:
        """Show the review's elements, and its readings unless they were just typed here."""
        self._review = review
        if review.given.readings != self._readings:
            self._take(review)
        self._draw()

    def show_spot(self, spot: Spot) -> None:
        """Choose the readings of a section, with the keyboard on them."""
        name = spot.name.casefold()
        rows = [n for n, cells in enumerate(self.model.rows) if cells[0].casefold() == name]
        self.view.table.setCurrentIndex(self.model.index(rows[0] if rows else 0, 1))
        self.view.table.setFocus()
        bring(self.view.table)

    def _take(self, review: Review) -> None:
        readings = self._readings = review.given.readings
        self.model.set_rows(rows_of(readings, review.given.kiln))
        volts = (readings.volts_no_load, readings.volts_full_load)
        for entry, value in zip(self.view.volts, volts, strict=True):
            entry.take("" if value is None else as_typed(f"{value:g}"))
        self._say(ReadingsRead(readings, {}))

    def _draw(self) -> None:
        if self._review is None:
            return
        elements = self._review.elements
        self.view.bars.show_elements(elements)
        for chart in self.view.charts:
            chart.show_curves(elements, self._showing.unit)
        compared = bool(self._review.given.earlier)
        self.view.compare.setText(
            tr("&Compare with another…") if compared else tr("&Compare with an earlier firing…")
        )
        self.view.alone.setVisible(compared)
        self.view.save_test.setVisible(elements.test_climb is not None)
        self.view.words.setText("\n\n".join(self._words(elements)))
        self.view.sums.setText("\n".join(self._sums(elements)))

    def _words(self, elements: ElementsJudged) -> list[str]:
        show = self._showing.show
        words = [render_all(elements.basis, show)]
        if elements.ceiling_c is not None and elements.ceiling_c < HOTTEST_CONE_C:
            text = tr("At full output this load would climb to about {ceiling} at most.")
            words.append(text.format(ceiling=temperature(elements.ceiling_c, show)))
        elif elements.ceiling_c is not None:
            words.append(tr("At full output the kiln would still climb past every cone."))
        return [w for w in words if w]

    def _sums(self, elements: ElementsJudged) -> list[str]:
        lines = []
        for section in elements.per_section:
            if section.power_ratio is not None and not section.by_curve:
                text = tr("{section}: about {power} % of its power")
                lines.append(
                    text.format(section=section.section, power=round(100 * section.power_ratio))
                )
            lines += [f"{section.section}: {render(n, self._showing.show)}" for n in section.notes]
        return lines

    @Slot()
    def _on_save_test(self) -> None:
        climb = self._review.elements.test_climb if self._review is not None else None
        if climb is not None:
            error = save_schedule(
                self, self._questions, climb, tr("test climb.csv"), self._showing.unit
            )
            if error is not None:
                self.refused.emit(error)

    @Slot()
    def _on_look(self) -> None:
        self.view.dress()
        self._draw()

    @Slot()
    def _on_typed(self) -> None:
        read = read_readings_typed(
            self.model.rows, self.view.at_rest.text(), self.view.at_load.text()
        )
        self._say(read)
        if read.readings is not None and read.readings != self._readings:
            self._readings = read.readings
            self.readingsEdited.emit(read.readings)

    def _say(self, read: ReadingsRead) -> None:
        """Mark what cannot be used, and say the first of it."""
        self.model.set_wrong(read.wrong)
        for entry, sentence in zip(self.view.volts, read.wrong_volts, strict=True):
            entry.mark(sentence)
            if not sentence:
                entry.setModified(False)
        self.view.message.setText(read.message)
        self.view.message.setVisible(bool(read.message))

    @Slot(str)
    def _on_pasted(self, text: str) -> None:
        self.model.paste(self.view.table.currentIndex(), text)
