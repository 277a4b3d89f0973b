"""Another language in the window: at once, and nothing is lost."""

import pytest
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QApplication

from firing_review.firing.wording import Language
from firing_review.io.resource_path import demo_logs
from firing_review.report.paper.page import Reader
from firing_review.ui.firing_place.panel import Beside


@pytest.fixture
def opened(window):
    window.open_path(demo_logs() / "3_dead_section" / "firing.toml")
    return window


def places_of(window) -> list[str]:
    places = window.work.list
    return [places.item(row).text() for row in range(places.count())]


def switch(window, language: Language) -> None:
    """Choose a language from the menu, as a person does."""
    below = next(
        a.menu()
        for a in window.actions.menu.actions()
        if "guage" in a.text() or "Spra" in a.text()
    )
    next(a for a in below.actions() if a.data() == language.value).trigger()
    QApplication.processEvents()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)


def test_a_switch_to_german_and_back_keeps_firing_place_and_undo(opened):
    opened.top_bar.goalChosen.emit(None)
    opened.work.go_to("shelves")
    english = opened.verdict.view.sentence.text()
    undo = opened.sitting.undo_label
    switch(opened, Language.GERMAN)
    assert places_of(opened)[:2] == ["Brand", "Platten"]
    assert opened.work.list.key == "shelves"
    assert opened.verdict.view.sentence.text() not in ("", english)
    assert opened.sitting.undo_label == undo
    opened.actions["undo"].trigger()
    assert opened.sitting.undo_label is None
    opened.actions["redo"].trigger()
    switch(opened, Language.ENGLISH_US)
    assert places_of(opened)[:2] == ["Firing", "Shelves"]
    assert opened.verdict.view.sentence.text() == english


def test_the_keyboard_is_not_lost_in_another_language(opened):
    opened.choose_language(Language.GERMAN)
    assert opened.focusWidget() is opened.work.list


def test_the_page_that_lay_open_lies_open_in_the_other_language(opened):
    opened.firing.show_beside(Beside.KILN)
    opened.work.go_to("paper")
    opened.paper.turn_to(Reader.TECHNICIAN)
    switch(opened, Language.GERMAN)
    assert opened.paper.turned_to is Reader.TECHNICIAN
    assert opened.paper.page.kind == "Für den Fachbetrieb"
    assert opened.firing.turned_to is Beside.KILN


def test_what_is_half_typed_is_still_there_in_the_other_language(opened):
    schedule = opened.firing.schedule.model
    schedule.put(len(schedule.rows), 0, [["80"]])
    opened.firing.kiln.view.entries["volume_l"].setText("many")
    opened.firing.kiln.view.entries["volume_l"].setModified(True)
    switch(opened, Language.GERMAN)
    assert opened.firing.schedule.model.rows[-1] == ("80", "", "")
    assert opened.firing.kiln.view.entries["volume_l"].text() == "many"


def test_the_start_page_stays_the_start_page(window):
    switch(window, Language.GERMAN)
    assert window.start.isVisible() or window.pages.currentWidget() is window.start
    assert window.sitting.review is None


def test_the_language_chosen_is_the_language_next_time(window):
    switch(window, Language.ENGLISH_UK)
    assert window.tools.preferences.language is Language.ENGLISH_UK


def test_the_preferences_offer_the_language_and_come_back_in_it(opened):
    opened.show_preferences()
    chooser = opened.dialog.language
    assert chooser.currentText() == "English (US)"
    place = chooser.findText("Deutsch")
    chooser.setCurrentIndex(place)
    chooser.activated.emit(place)
    assert places_of(opened)[:2] == ["Brand", "Platten"]
    assert opened.dialog.isVisible()
    assert opened.dialog.windowTitle() == "Einstellungen"
    assert opened.dialog.language.currentText() == "Deutsch"
    opened.dialog.close()


def test_what_qt_says_by_itself_is_in_the_language_too(opened):
    switch(opened, Language.GERMAN)
    native = QKeySequence.SequenceFormat.NativeText
    assert opened.actions["open"].shortcuts()[0].toString(native) == "Strg+O"
    opened.show_keys()
    assert "Strg+O" in opened.dialog.text.text()
    assert "Ctrl" not in opened.dialog.text.text()
    opened.dialog.close()
    switch(opened, Language.ENGLISH_US)
    assert opened.actions["open"].shortcuts()[0].toString(native) == "Ctrl+O"


def test_keys_work_once_after_a_switch(opened):
    switch(opened, Language.GERMAN)
    shortcuts = [
        key.toString()
        for a in opened.findChildren(type(opened.actions["undo"]))
        for key in a.shortcuts()
    ]
    assert len(shortcuts) == len(set(shortcuts))


def test_the_tables_of_pages_shown_in_turn_are_not_mixed_up(opened):
    rates = [row[0] for row in opened.firing.schedule.model.rows]
    for beside in (Beside.SCHEDULE, Beside.KILN, Beside.FINDINGS):
        opened.firing.show_beside(beside)
    review = opened.sitting.review
    switch(opened, Language.GERMAN)
    assert [row[0] for row in opened.firing.schedule.model.rows] == rates
    assert opened.sitting.review is review
    assert opened.sitting.undo_label is None


def test_what_was_undone_out_of_sight_does_not_come_back(opened):
    opened.firing.schedule.model.put(0, 0, [["80"]])
    opened.work.go_to("paper")
    opened.sitting.undo()
    given = opened.sitting.review.given
    switch(opened, Language.GERMAN)
    assert opened.sitting.review.given is given
    assert opened.sitting.redo_label is not None
