"""Letters that are underlined: each leads to one thing only, in every language."""

from collections import Counter
from collections.abc import Iterable
from datetime import date

import pytest
from book_firings import OVAL
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel, QMenu, QWidget

from firing_review.book.book import Book
from firing_review.book.nouns import Change, ChangeKind, Note
from firing_review.firing.wording import Language
from firing_review.ui.firing_place.panel import Beside


def letter(text: str) -> str:
    """Return the underlined letter of a text, or nothing."""
    _, sign, after = text.replace("&&", "").partition("&")
    return after[:1].casefold() if sign else ""


def doubled(texts: Iterable[str]) -> list[str]:
    """Return the texts whose letter stands in another too."""
    texts = list(texts)
    count = Counter(map(letter, texts))
    return [text for text in texts if letter(text) and count[letter(text)] > 1]


def seen(window: QWidget) -> list[str]:
    """Return the texts of everything in sight that a letter can lead to."""
    buttons = [w.text() for w in window.findChildren(QAbstractButton) if w.isVisible()]
    labels = [w for w in window.findChildren(QLabel) if w.isVisible() and w.buddy()]
    return buttons + [label.text() for label in labels]


def test_a_letter_in_two_texts_is_found():
    assert doubled(["&Open", "F&old", "Save"]) == ["&Open", "F&old"]


@pytest.mark.parametrize("language", list(Language))
def test_no_letter_of_a_menu_leads_to_two_lines(window, log_file, language):
    window.open_path(log_file)
    window.choose_language(language)
    window.work.go_to("book")
    for menu in window.findChildren(QMenu):
        assert doubled(action.text() for action in menu.actions()) == []


@pytest.mark.parametrize("language", list(Language))
def test_no_letter_in_sight_leads_to_two_places(window, log_file, language):
    window.choose_language(language)
    assert doubled(seen(window)) == []
    window.open_path(log_file)
    for key in [place.key for place in window.places.all()]:
        window.work.go_to(key)
        QApplication.processEvents()
        assert (key, doubled(seen(window))) == (key, [])
    window.work.go_to("firing")
    for beside in Beside:
        window.firing.show_beside(beside)
        assert (beside, doubled(seen(window))) == (beside, [])
    window.show_preferences()
    assert doubled(seen(window.dialog)) == []
    window.dialog.close()


@pytest.mark.parametrize("language", list(Language))
def test_no_letter_of_a_filled_kiln_book_leads_to_two_places(window, log_file, tmp_path, language):
    with Book.create(tmp_path / "Oval.kilnbook") as book:
        kiln_id = book.keep_kiln(OVAL)
        book.keep_change(Change(ChangeKind.ELEMENTS, date(2026, 3, 3), kiln_id=kiln_id))
        book.keep_note(Note("lid does not close", kiln_id=kiln_id))
        book.attach("plate.txt", b"240 V", kiln_id=kiln_id)
    window.choose_language(language)
    window.open_path(tmp_path / "Oval.kilnbook")
    window.open_path(log_file)
    window.work.go_to("book")
    notes = window.work.panel("book").view.notes
    for row in range(notes.kept_list.list.count()):
        notes.kept_list.list.setCurrentRow(row)
        QApplication.processEvents()
        assert doubled(seen(window)) == []


def test_the_menu_has_room_on_a_small_laptop(window):
    assert window.actions.menu.sizeHint().height() <= 768 - 40
