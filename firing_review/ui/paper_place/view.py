"""The layout of the place "Paper"."""

from collections.abc import Mapping

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from firing_review.firing.said import N_
from firing_review.firing.wording import tr
from firing_review.report.paper.blank import BlankSheet
from firing_review.report.paper.page import Paper, Reader
from firing_review.report.wording import Show
from firing_review.ui.appearance import Appearance
from firing_review.ui.chooser import Chooser
from firing_review.ui.layouts import fill
from firing_review.ui.paper_place.preview import Preview
from firing_review.ui.scrolled import Scrolled
from firing_review.ui.switch import Switch
from firing_review.ui.with_side import SideSizes, WithSide
from firing_review.ui.wrapped import Wrapped

SIZES = SideSizes(side=316)
Choices = Mapping[Reader | BlankSheet, str]
BLANK: Choices = {
    BlankSheet.CONES: N_("Blank sheet: cones by shelf"),
    BlankSheet.READINGS: N_("Blank sheet: meter readings"),
}
CHOICES: Choices = {
    Reader.MAKER: N_("For the maker: what next"),
    Reader.OFFICE: N_("For the office: safe, cost, date"),
    Reader.TECHNICIAN: N_("For the technician: readings"),
    Reader.CASE: N_("Case sheet for a list or a call"),
    **BLANK,
}


class PaperView(QWidget):
    """Layout only: the sheets at the left, what they are and what to do with them at the right."""

    def __init__(
        self, appearance: Appearance, choices: Choices = CHOICES, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self.preview = Preview(appearance)
        self.choice = Chooser()
        self.choice.setAccessibleName(tr("Which page"))
        self.choice.show_whole_words()
        for words in choices.values():
            self.choice.addItem(tr(words))
        sizes = [(Paper.A4, tr("A4")), (Paper.LETTER, tr("US Letter"))]
        self.paper = Switch(tr("Paper"), sizes)
        units = [(Show.CELSIUS, "°C"), (Show.FAHRENHEIT, "°F"), (Show.BOTH, tr("both"))]
        self.units = Switch(tr("Temperatures in"), units)
        self.save_pdf = QPushButton(tr("Save as &PDF…"))
        self.save_pdf.setProperty("part", "main")
        self.save_html = QPushButton(tr("Save as &HTML…"))
        self.print = QPushButton(tr("P&rint…"))
        self.copy = QPushButton(tr("&Copy as text"))
        self.said = Wrapped(selectable=True)
        self._lay_out()
        self.dress()

    @property
    def buttons(self) -> tuple[QPushButton, ...]:
        """What can be done with the page."""
        return (self.save_pdf, self.save_html, self.print, self.copy)

    def _lay_out(self) -> None:
        sheets, inner = QWidget(), QWidget()
        self.scrolled = Scrolled(sheets)
        self.scrolled.read_with_keys(tr("Preview"))
        fill(self, WithSide(self._appearance, self.scrolled, inner, SIZES, side_first=True))
        fill(sheets, self.preview)
        side = QVBoxLayout(inner)
        for name, widget in (
            (tr("&Which page"), self.choice),
            (tr("Pap&er"), self.paper),
            (tr("&Temperatures in"), self.units),
        ):
            label = QLabel(name)
            label.setBuddy(widget)
            side.addWidget(label)
            side.addWidget(widget)
            side.addSpacing(6)
        side.addSpacing(8)
        for button in self.buttons:
            side.addWidget(button)
        side.addWidget(self.said)
        side.addStretch(1)

    def minimumSizeHint(self) -> QSize:
        """Be content with little height: the sheets scroll."""
        return QSize(super().minimumSizeHint().width(), self._appearance.sizes.px(200))

    def dress(self) -> None:
        """Follow the present sizes."""
        target = self._appearance.sizes.target
        for button in self.buttons:
            button.setMinimumHeight(target)
        self.preview.updateGeometry()
        self.preview.update()
