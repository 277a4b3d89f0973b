"""The title of a firing is changed where it stands."""

import pytest
from PySide6.QtCore import Qt

from firing_review.ui.top_bar.title import window_title


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
