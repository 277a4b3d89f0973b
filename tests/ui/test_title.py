"""The title of a firing is changed where it stands."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFont, QFontMetrics
from PySide6.QtWidgets import QApplication

from firing_review.firing.wording import Language
from firing_review.io.resource_path import demo_logs
from firing_review.review.recovery import read_recovery
from firing_review.ui.sitting import unfinished_in
from firing_review.ui.top_bar.title import in_lines, window_title

ABOUT = "Marten · Mar 3, 2026, 9:40 PM"


@pytest.fixture
def title(window, log_file):
    window.open_path(log_file)
    return window.top_bar.view.title


def test_a_click_and_enter_give_the_firing_another_title(qtbot, window, title):
    qtbot.mouseClick(title.button, Qt.MouseButton.LeftButton)
    qtbot.keyClicks(title.entry, "March & April, cups")
    qtbot.keyClick(title.entry, Qt.Key.Key_Return)
    assert window.sitting.review.given.title == "March & April, cups"
    assert title.text() == "March & April, cups"
    assert window.windowTitle() == window_title(window.sitting.review)
    assert title.button.hasFocus()


def test_the_title_is_undone_like_any_other_edit(qtbot, window, title):
    before = window.sitting.review
    window.actions["title"].trigger()
    qtbot.keyClicks(title.entry, "Tuesday")
    qtbot.keyClick(title.entry, Qt.Key.Key_Return)
    assert window.actions["undo"].text() == "Undo: title"
    window.actions["undo"].trigger()
    assert window.sitting.review is before
    assert title.text() == "night.csv"


def test_escape_and_an_unchanged_title_are_no_edit(qtbot, window, title):
    title.begin()
    qtbot.keyClicks(title.entry, "never mind")
    qtbot.keyClick(title.entry, Qt.Key.Key_Escape)
    title.begin()
    qtbot.keyClick(title.entry, Qt.Key.Key_Return)
    assert window.sitting.undo_label is None
    assert title.currentWidget() is title.button


def test_without_a_firing_there_is_no_title_to_change(window):
    assert not window.actions["title"].isEnabled()


@pytest.fixture
def types(qapp) -> tuple[QFontMetrics, QFontMetrics]:
    usual, small = QFont(), QFont()
    usual.setPixelSize(16)
    small.setPixelSize(14)
    return QFontMetrics(usual), QFontMetrics(small)


def lines_in(room, title, types, about=ABOUT):
    """Return the lines, each with whether its type is the smaller one."""
    usual, small = types
    return [(text, type_ is small) for text, type_ in in_lines(title, about, room, usual, small)]


def test_a_short_title_stands_in_one_line_with_kiln_and_day(types):
    assert lines_in(900, "Cups", types) == [("Cups · Marten · Mar 3, 2026, 9:40 PM", False)]
    assert lines_in(900, "Cups", types, about="") == [("Cups", False)]


def test_where_there_is_no_room_kiln_and_day_go_below_the_title(types):
    room = types[0].horizontalAdvance("Cups and bowls · Marten")
    assert lines_in(room, "Cups and bowls", types, about="Marten · 3 Mar") == [
        ("Cups and bowls", False), ("Marten · 3 Mar", True),
    ]  # fmt: skip


def test_a_long_title_goes_on_in_the_second_line_and_its_end_is_shown_as_cut(types):
    room = types[1].horizontalAdvance("Cups, bowls and the jars")
    title = "Cups, bowls and the large jars of the other workshop"
    (first, _), (second, _) = lines_in(room, title, types)
    assert first == "Cups, bowls and the"
    assert second.startswith("large jars of")
    assert second.endswith("…")


def test_no_line_ends_or_begins_with_the_dot_between_title_and_kiln(types):
    room = types[1].horizontalAdvance("Cups and bowls and jars ·") + 1
    assert lines_in(room, "Cups and bowls and jars", types, about="Marten") == [
        ("Cups and bowls and jars", True), ("Marten", True),
    ]  # fmt: skip


def test_one_long_word_is_shown_as_cut(types):
    ((only, _),) = lines_in(100, "A" * 60, types, about="")
    assert only.endswith("…")


@pytest.mark.parametrize("language", [Language.ENGLISH_US, Language.GERMAN])
def test_title_kiln_and_day_of_every_demo_firing_are_whole_on_a_laptop(window, language):
    window.choose_language(language)
    window.resize(1366, 768)
    shown = []
    for path in sorted(demo_logs().glob("*/firing.toml")):
        window.open_path(path)
        QApplication.processEvents()
        button = window.top_bar.view.title.button
        shown.append(" · ".join(button.lines()))
        assert shown[-1] == button.text()
    assert len(shown) == 8


def test_larger_text_is_cut_anew(window, log_file):
    window.open_path(log_file)
    window.resize(700, 768)
    title = window.top_bar.view.title
    title.edited.emit("Cups and bowls " * 2)
    assert len(title.button.lines()) == 1
    window.tools.appearance.rescale(2.0)
    QApplication.processEvents()
    assert len(title.button.lines()) == 2


def test_a_title_that_is_being_typed_when_the_window_closes_is_kept(qtbot, window, home, title):
    qtbot.waitUntil(window.isActiveWindow)
    title.begin()
    qtbot.keyClicks(title.entry, "Tuesday")
    window.close()
    (kept,) = unfinished_in(home / "recovery")
    assert read_recovery(kept.path).title == "Tuesday"
