"""The place "Paper": choose a page, see it, save it, print it, copy it."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Signal, Slot
from PySide6.QtGui import QGuiApplication, QShowEvent
from PySide6.QtWidgets import QWidget

from firing_review.firing.errors import FiringReviewError
from firing_review.firing.kiln import Kiln
from firing_review.firing.wording import tr
from firing_review.io.whole_file import write_whole
from firing_review.report.paper.blank import BlankSheet, blank_page
from firing_review.report.paper.html_page import page_html
from firing_review.report.paper.make import make_page
from firing_review.report.paper.page import Page, Paper, Reader
from firing_review.report.paper.page_text import page_text
from firing_review.report.wording import Show
from firing_review.review.review import Review
from firing_review.ui.layouts import fill
from firing_review.ui.paper_place.view import CHOICES, Choices, PaperView
from firing_review.ui.printing.pdf import pdf_bytes, print_on
from firing_review.ui.printing.sheets import Sheets, set_page
from firing_review.ui.saving import file_name
from firing_review.ui.tools import Tools


class PaperPlace(QWidget):
    """A page of the open firing, or a blank sheet for its kiln.

    Signals
    -------
    refused : an error a person can act on.
    """

    refused = Signal(object)

    def __init__(
        self, tools: Tools, choices: Choices = CHOICES, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._tools, self._choices = tools, list(choices)
        self._review: Review | None = None
        self._page: Page | None = None
        self._sheets: Sheets | None = None
        self._stale = False
        self._paper, self._show = tools.preferences.paper, tools.showing.show
        self.view = PaperView(tools.appearance, choices, self)
        fill(self, self.view)
        self.view.paper.show_value(self._paper)
        self.view.units.show_value(self._show)
        self._connect()

    def _connect(self) -> None:
        view, tools = self.view, self._tools
        view.choice.currentIndexChanged.connect(self._on_chosen)
        view.paper.chosen.connect(self._on_paper)
        view.units.chosen.connect(self._on_units)
        view.save_pdf.clicked.connect(self.save_pdf)
        view.save_html.clicked.connect(self.save_html)
        view.print.clicked.connect(self.print)
        view.copy.clicked.connect(self.copy)
        tools.showing.changed.connect(self._on_showing)
        tools.appearance.changed.connect(view.dress)

    def show_review(self, review: Review) -> None:
        """Show the chosen page of a review."""
        self._review = review
        self._set()

    def show_blank(self) -> None:
        """Show a blank sheet while no firing is open."""
        self.view.units.setEnabled(False)
        self._set()

    @property
    def _kiln(self) -> Kiln | None:
        """The kiln of the firing, else the one the open book is about."""
        if self._review is not None:
            return self._review.given.kiln
        book = self._tools.book.book
        kilns = book.kilns() if book is not None else ()
        return kilns[0].kiln if len(kilns) == 1 else None

    @property
    def turned_to(self) -> Reader | BlankSheet:
        """Which page is chosen."""
        return self._choices[self.view.choice.currentIndex()]

    def turn_to(self, page: object) -> None:
        """Choose a page."""
        self.view.choice.setCurrentIndex(self._choices.index(page))

    @property
    def page(self) -> Page | None:
        """The page that is seen."""
        return self._page

    def _set(self) -> None:
        """Make the page anew and set it in type."""
        self.view.said.setText("")
        self._stale = False
        choice = self.turned_to
        if isinstance(choice, BlankSheet):
            self._page = blank_page(choice, self._kiln)
        elif self._review is not None:
            self._page = make_page(self._review, choice, self._show)
        else:
            return
        self._sheets = set_page(self._page, self._paper)
        self.view.preview.show_sheets(self._sheets)

    @Slot(int)
    def _on_chosen(self, _index: int) -> None:
        self.view.units.setEnabled(not isinstance(self.turned_to, BlankSheet))
        self._set()
        self.view.scrolled.verticalScrollBar().setValue(0)

    @Slot(object)
    def _on_paper(self, paper: Paper) -> None:
        self._paper = self._tools.preferences.paper = paper
        self._set()

    @Slot(object)
    def _on_units(self, show: Show) -> None:
        self._show = show
        self._set()

    @Slot()
    def _on_showing(self) -> None:
        """Follow the unit of the screen, unless both are shown anyway."""
        if self._show is not Show.BOTH:
            self._show = self._tools.showing.show
            self.view.units.show_value(self._show)
            self._stale = True
            self._set_if_seen()

    def _set_if_seen(self) -> None:
        """Set the page anew, now or once it comes into sight."""
        if self._stale and self.isVisible():
            self._set()

    def showEvent(self, event: QShowEvent) -> None:
        """Come up to date when it comes into sight."""
        super().showEvent(event)
        self._set_if_seen()

    @Slot()
    def save_pdf(self) -> None:
        """Ask for a name and save the page as PDF."""
        self._save(".pdf", lambda _page, sheets: pdf_bytes([sheets]))

    @Slot()
    def save_html(self) -> None:
        """Ask for a name and save the page as HTML."""
        self._save(".html", lambda page, sheets: page_html(page, sheets.paper).encode())

    def _save(self, ending: str, write: Callable[[Page, Sheets], bytes]) -> None:
        if self._page is None or self._sheets is None:
            return
        name = file_name(f"{self._page.title} - {self._page.kind}") + ending
        suggested = self._tools.folder / name
        path = self._tools.questions.page_to_save(self, suggested)
        if path is None:
            return
        target = path if path.suffix else path.with_suffix(ending)
        try:
            write_whole(target, write(self._page, self._sheets))
        except FiringReviewError as error:
            self.refused.emit(error)
            return
        self._say(tr("Saved as {name}."), target)

    def _say(self, words: str, path: Path) -> None:
        self.view.said.setText(words.format(name=path.name))
        self.view.said.setToolTip(str(path))

    @Slot()
    def print(self) -> None:
        """Ask for a printer and print the page."""
        if self._sheets is None:
            return
        printer = self._tools.questions.printer_to_use(self, self._sheets.paper)
        if printer is not None:
            print_on(printer, self._sheets)
            self.view.said.setText(tr("Sent to the printer."))

    @Slot()
    def copy(self) -> None:
        """Put the page on the clipboard as plain text."""
        if self._page is not None:
            QGuiApplication.clipboard().setText(page_text(self._page))
            self.view.said.setText(tr("Copied as text."))
