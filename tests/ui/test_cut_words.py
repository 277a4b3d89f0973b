"""Everything can be read: on a small laptop, at twice the size, in English and in German."""

from datetime import datetime

import pytest
from book_firings import OVAL, firing, log_bytes
from cut_words import cut_words
from every_place import every_place
from PySide6.QtWidgets import QApplication, QLabel, QPushButton, QVBoxLayout, QWidget

from firing_review.book.book import Book
from firing_review.firing.wording import Language
from firing_review.io.resource_path import demo_logs
from firing_review.io.tables import load_tables
from firing_review.review.pipeline import review_firing
from firing_review.ui.chooser import Chooser
from firing_review.ui.guide.steps import STEPS

LAPTOP, DESK = (1366, 768), (1920, 1080)
LAPTOP_AT_200, DESK_AT_200 = (683, 384), (960, 540)
"""What is left of a screen in the program's own pixels when the system doubles everything."""


@pytest.fixture
def filled(window, tmp_path):
    """Return the window with a demo firing and a book of one kiln open."""
    path = tmp_path / "A book with a long name.kilnbook"
    with Book.create(path) as book:
        given = firing(log_bytes(datetime.fromisoformat("2026-03-01T07:00"), 1000.0), kiln=OVAL)
        book.add(given, review_firing(given, load_tables()))
    window.open_path(path)
    window.open_path(demo_logs() / "3_dead_section" / "firing.toml")
    return window


def settle(window, size):
    window.resize(*size)
    for _ in range(3):
        QApplication.processEvents()


def all_cut(window) -> list[tuple[str, str]]:
    """Return what is cut, with where: every place, every page beside the chart, every dialog."""
    found = []

    def look(where: str, seen: QWidget | None = None) -> None:
        for _ in range(3):
            QApplication.processEvents()
        found.extend((where, words) for words in cut_words(seen or window))

    for where in every_place(window):
        look(where)
    for show in (window.show_preferences, window.show_keys):
        show()
        look(show.__name__, window.dialog)
        window.dialog.close()
    window.go_to_start()
    look("start")
    return found


def test_words_without_room_are_found(qtbot):
    window = QWidget()
    qtbot.addWidget(window)
    layout = QVBoxLayout(window)
    for widget in (QLabel("A sentence of some length"), QPushButton("A button of some length")):
        widget.setFixedWidth(40)
        layout.addWidget(widget)
    window.show()
    assert cut_words(window) == [
        "no room: A sentence of some length",
        "no room: A button of some length",
    ]


def test_a_choice_asks_for_the_room_of_its_longest_words_whenever_they_come(qtbot):
    chooser = Chooser()
    qtbot.addWidget(chooser)
    chooser.show_whole_words()
    chooser.addItem("short")
    before = chooser.minimumSizeHint().width()
    chooser.addItem("a choice in many more words than that")
    assert chooser.minimumSizeHint().width() > 2 * before


@pytest.mark.parametrize("language", [Language.ENGLISH_US, Language.GERMAN])
@pytest.mark.parametrize("size", [LAPTOP, LAPTOP_AT_200, DESK_AT_200])
def test_no_words_are_cut_and_nothing_scrolls_sideways(filled, language, size):
    filled.choose_language(language)
    settle(filled, size)
    assert all_cut(filled) == []


@pytest.mark.parametrize("size", [LAPTOP, DESK])
def test_no_words_are_cut_with_large_text_and_large_buttons(filled, size):
    filled.choose_language(Language.GERMAN)
    filled.tools.appearance.rescale(2.0)
    filled.tools.appearance.choose_targets(large=True)
    settle(filled, size)
    assert all_cut(filled) == []


@pytest.mark.parametrize("language", [Language.ENGLISH_US, Language.GERMAN])
def test_no_words_of_the_guide_are_cut(window, language):
    window.choose_language(language)
    window.guide.start()
    settle(window, LAPTOP_AT_200)
    for step in range(len(STEPS)):
        settle(window, LAPTOP_AT_200)
        assert (step, cut_words(window.guide.strip.window())) == (step, [])
        window.guide.go_on()
