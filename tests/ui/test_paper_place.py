"""The place Paper: what is chosen is seen, and what is seen is saved, printed and copied."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from book_firings import OVAL
from closing import put_away
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtPrintSupport import QPrinter

from firing_review.book.book import Book
from firing_review.firing.errors import InputError
from firing_review.firing.units import TemperatureUnit
from firing_review.io.open_any import gather
from firing_review.io.resource_path import demo_logs
from firing_review.io.tables import load_tables
from firing_review.report.paper.blank import BlankSheet
from firing_review.report.paper.page import Paper, Reader
from firing_review.report.paper.page_text import page_text
from firing_review.report.wording import Show
from firing_review.review.pipeline import review_firing
from firing_review.ui.open_book import OpenBook
from firing_review.ui.paper_place.panel import PaperPlace
from firing_review.ui.paper_place.view import CHOICES
from firing_review.ui.printing.pdf import layout_of
from firing_review.ui.sitting import Sitting
from firing_review.ui.tools import Tools


@pytest.fixture(scope="module")
def dead():
    return review_firing(gather(next(demo_logs().glob("3_*"))), load_tables())


class Saving:
    """Answers the questions of the place."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.suggested, self.answer = folder, Path(), ""
        self.printer: QPrinter | None = None

    def page_to_save(self, _parent, suggested: Path) -> Path | None:
        self.suggested = suggested
        return self.folder / self.answer if self.answer else None

    def printer_to_use(self, _parent, _paper: Paper) -> QPrinter | None:
        return self.printer


@pytest.fixture
def saving(tmp_path) -> Saving:
    return Saving(tmp_path)


@pytest.fixture
def place(
    qapp, home, preferences, appearance, showing, answers, saving, dead
) -> Iterator[PaperPlace]:
    questions = replace(
        answers.questions(),
        page_to_save=saving.page_to_save,
        printer_to_use=saving.printer_to_use,
    )
    sitting = Sitting(home / "recovery")
    book = OpenBook(sitting, preferences)
    tools = Tools(home, preferences, appearance, questions, showing, sitting, book)
    made = PaperPlace(tools)
    made.resize(1100, 500)
    made.show()
    made.show_review(dead)
    yield made
    put_away(made)


def choose(place: PaperPlace, choice: Reader | BlankSheet) -> None:
    place.view.choice.setCurrentIndex(list(CHOICES).index(choice))


def test_every_page_can_be_chosen_and_is_seen(place):
    titles = set()
    for choice in CHOICES:
        choose(place, choice)
        titles.add(place.page.kind)
        assert place.page.title in place.view.preview.accessibleDescription()
        assert not place.view.preview.grab().isNull()
    assert len(titles) == len(CHOICES)


def test_the_preview_is_as_high_as_its_sheets(place):
    height = place.view.preview.height()
    choose(place, BlankSheet.CONES)
    assert place.view.preview.heightForWidth(800) < height


@pytest.mark.parametrize(("ending", "begins"), [(".pdf", b"%PDF"), (".html", b"<!DOCTYPE")])
def test_a_page_is_saved_under_the_name_that_was_given(place, saving, ending, begins):
    choose(place, Reader.OFFICE)
    saving.answer = f"for the head{ending}"
    (place.save_pdf if ending == ".pdf" else place.save_html)()
    assert (saving.folder / saving.answer).read_bytes().startswith(begins)
    assert saving.suggested.suffix == ending
    assert "for the head" in place.view.said.text()


def test_a_name_without_an_ending_gets_one(place, saving):
    saving.answer = "page"
    place.save_pdf()
    assert (saving.folder / "page.pdf").exists()


def test_who_thinks_better_of_it_saves_nothing(place, saving):
    place.save_pdf()
    assert list(saving.folder.glob("*.pdf")) == []
    assert place.view.said.text() == ""


def test_a_page_that_cannot_be_saved_is_said(place, saving, qtbot):
    (saving.folder / "file").write_text("")
    saving.answer = "file/page.pdf"
    with qtbot.waitSignal(place.refused) as refused:
        place.save_pdf()
    assert isinstance(refused.args[0], InputError)


def test_the_page_goes_to_the_clipboard_as_text(place):
    choose(place, Reader.CASE)
    place.copy()
    assert QGuiApplication.clipboard().text() == page_text(place.page)


@pytest.mark.parametrize("held", list(Paper))
def test_a_page_is_printed_and_fits_the_paper_the_printer_holds(place, saving, held):
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(saving.folder / "printed.pdf"))
    printer.setPageLayout(layout_of(held))
    saving.printer = printer
    place.view.paper.button(Paper.A4).click()
    place.print()
    assert (saving.folder / "printed.pdf").read_bytes().startswith(b"%PDF")
    assert "printer" in place.view.said.text()


def test_paper_that_was_chosen_is_remembered(place, preferences):
    place.view.paper.button(Paper.LETTER).click()
    assert preferences.paper is Paper.LETTER
    place.view.paper.button(Paper.A4).click()
    assert preferences.paper is Paper.A4


def test_the_page_follows_the_unit_of_the_screen_unless_both_are_shown(place, showing):
    showing.choose_unit(TemperatureUnit.FAHRENHEIT)
    assert "°C" not in page_text(place.page)
    place.view.units.button(Show.BOTH).click()
    showing.choose_unit(TemperatureUnit.CELSIUS)
    assert "°C / " in page_text(place.page)


def test_the_menu_leads_to_the_paper(window, log_file):
    window.show_paper()
    assert window.start.isVisible()
    window.open_path(log_file)
    window.actions["paper"].trigger()
    assert window.work.list.key == "paper"
    assert window.paper.page is not None


def test_blank_sheets_are_had_before_a_firing_is_open(qtbot, window, kiln_book):
    window.open_path(kiln_book)
    window.go_to_start()
    qtbot.mouseClick(window.start.view.blank, Qt.MouseButton.LeftButton)
    page = window.pages.alone["blank"]
    view = page.place.view
    assert [view.choice.itemText(n) for n in range(view.choice.count())] == [
        "Blank sheet: cones by shelf",
        "Blank sheet: meter readings",
    ]
    assert page.place.page.title == "Kiln Oval"
    view.copy.click()
    assert "WITNESS CONES" in QGuiApplication.clipboard().text()
    qtbot.mouseClick(page.back, Qt.MouseButton.LeftButton)
    assert window.pages.currentWidget() is window.start


def test_with_a_firing_open_the_menu_leads_to_the_blank_sheets_for_its_kiln(window, dead):
    window.sitting.open_review(dead, None)
    window.actions["blank"].trigger()
    assert window.work.list.key == "paper"
    assert window.paper.turned_to is BlankSheet.CONES
    assert window.paper.page.title == "Kiln Wren"


@pytest.fixture
def kiln_book(tmp_path) -> Path:
    """Return a book of one kiln without firings."""
    with Book.create(tmp_path / "Oval.kilnbook") as book:
        book.keep_kiln(OVAL)
    return tmp_path / "Oval.kilnbook"


def test_out_of_sight_the_page_waits_with_another_unit_until_it_is_seen(place, showing):
    place.view.units.button(Show.CELSIUS).click()
    place.hide()
    before = place.page
    showing.choose_unit(TemperatureUnit.FAHRENHEIT)
    assert place.page is before
    place.show()
    assert place.page is not before
    assert "°F" in page_text(place.page)
