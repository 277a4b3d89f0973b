"""The guide in five steps: a person's way through it, and out of it."""

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from firing_review.firing import wording
from firing_review.firing.wording import AS_IN_THE_CODE, Language
from firing_review.io.resource_path import demo_logs
from firing_review.ui.preferences import Preferences


@pytest.fixture(autouse=True)
def _english_after_each():
    yield
    wording.use(AS_IN_THE_CODE)


def strip_of(window):
    return window.guide.strip


def press(button) -> None:
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)


def told(window) -> tuple[str, str, str]:
    strip = strip_of(window)
    return strip.count.text(), window.work.list.key, strip.next.text()


def test_the_guide_leads_through_the_places_of_a_demo_firing(window):
    assert window.start.view.guide.isVisible()
    press(window.start.view.guide)
    assert window.pages.currentWidget() is window.work
    assert window.sitting.source == demo_logs() / "3_dead_section"
    seen, texts = [], []
    for _ in range(5):
        assert strip_of(window).isVisible()
        seen.append(told(window))
        texts.append(strip_of(window).text.text())
        press(strip_of(window).next)
    assert seen == [
        ("Step 1 of 5", "firing", "Next"),
        ("Step 2 of 5", "firing", "Next"),
        ("Step 3 of 5", "shelves", "Next"),
        ("Step 4 of 5", "causes", "Next"),
        ("Step 5 of 5", "next", "Done"),
    ]
    assert len(set(texts)) == 5
    assert not strip_of(window).isVisible()
    assert window.work.list.key == "next"


def test_a_step_can_be_seen_once_more(window):
    window.resize(683, 384)
    window.guide.start()
    strip = strip_of(window)
    assert not strip.back.isVisible()
    for _ in range(2):
        press(strip.next)
    strip.back.setFocus()
    QTest.keyClick(strip.back, Qt.Key.Key_Space)
    assert told(window) == ("Step 2 of 5", "firing", "Next")
    QTest.keyClick(strip.back, Qt.Key.Key_Space)
    assert told(window) == ("Step 1 of 5", "firing", "Next")
    assert not strip.back.isVisible()
    assert strip.next.hasFocus()
    assert not window.verdict.visibleRegion().isEmpty()


def test_what_the_steps_promise_is_there_to_see(window):
    window.guide.start()
    review = window.sitting.review
    assert len(review.findings) >= 2
    assert {shelf.shelf.lower() for shelf in review.shelves} == {"top", "middle", "bottom"}
    assert review.causes
    assert window.work.panel("causes").questions.in_order


def test_once_left_it_is_in_the_menu_only(window, home):
    press(window.start.view.guide)
    press(strip_of(window).leave)
    assert not strip_of(window).isVisible()
    assert window.work.list.hasFocus()
    window.go_to_start()
    assert not window.start.view.guide.isVisible()
    assert Preferences(home).guide_over
    window.actions["guide"].trigger()
    assert told(window) == ("Step 1 of 5", "firing", "Next")


def test_it_is_offered_until_something_of_ones_own_was_opened(window, log_file):
    window.open_path(demo_logs() / "1_good_glaze_firing")
    window.go_to_start()
    assert window.start.view.guide.isVisible()
    window.open_path(log_file)
    window.go_to_start()
    assert not window.start.view.guide.isVisible()


def test_nothing_is_blocked_and_going_on_works_from_any_place(window):
    window.guide.start()
    window.work.go_to("paper")
    assert strip_of(window).isVisible()
    window.showing.select_finding(0)
    press(strip_of(window).next)
    press(strip_of(window).next)
    assert told(window) == ("Step 3 of 5", "shelves", "Next")


def test_another_firing_ends_the_guide(window, log_file):
    window.guide.start()
    window.open_path(log_file)
    assert not strip_of(window).isVisible()
    window.open_path(demo_logs() / "3_dead_section")
    assert not strip_of(window).isVisible()


def test_a_demo_firing_that_is_gone_is_said_and_starts_no_guide_later(
    window, monkeypatch, tmp_path, log_file
):
    gone = tmp_path / "gone"
    monkeypatch.setattr("firing_review.ui.guide.guide.guided_firing", lambda: gone)
    window.guide.start()
    assert window.message.isVisible()
    window.open_path(log_file)
    assert not strip_of(window).isVisible()


def test_the_keyboard_alone_goes_through_it(window):
    window.guide.start()
    strip = strip_of(window)
    assert window.focusWidget() is strip.next
    for _ in range(2):
        QTest.keyClick(window.focusWidget(), Qt.Key.Key_Space)
    assert told(window)[0] == "Step 3 of 5"
    QTest.keyClick(window.focusWidget(), Qt.Key.Key_Tab)
    assert window.focusWidget() is strip.leave
    QTest.keyClick(window.focusWidget(), Qt.Key.Key_Space)
    assert not strip.isVisible()


def test_f6_comes_by_the_guide_only_while_it_is_there(window):
    def stops() -> list[bool]:
        found = []
        for _ in range(len(window.work.parts) + 1):
            window.next_part()
            found.append(strip_of(window).isAncestorOf(window.focusWidget()))
        return found

    window.guide.start()
    assert any(stops())
    window.guide.leave()
    assert not any(stops())


def test_the_step_is_read_out(window):
    window.guide.start()
    strip = strip_of(window)
    assert strip.accessibleName() == "Guide. Step 1 of 5"
    assert strip.next.accessibleDescription() == f"Step 1 of 5. {strip.text.text()}"


def test_another_language_keeps_the_step(window):
    window.guide.start()
    window.guide.go_on()
    window.guide.go_on()
    english = strip_of(window).text.text()
    window.choose_language(Language.GERMAN)
    QApplication.processEvents()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    strip = strip_of(window)
    assert strip.isVisible()
    assert told(window) == ("Schritt 3 von 5", "shelves", "Weiter")
    assert strip.text.text() != english
    press(strip.next)
    assert told(window) == ("Schritt 4 von 5", "causes", "Weiter")


@pytest.mark.parametrize("height_px", [384, 768])
def test_the_list_of_places_keeps_its_words_whole_beside_its_scroll_bar(window, height_px):
    window.resize(683, height_px)
    window.guide.start()
    QApplication.processEvents()
    places = window.work.list
    assert places.verticalScrollBar().isVisible() == (height_px == 384)
    assert places.viewport().width() >= places.item(0).sizeHint().width()
    assert places.parentWidget().width() == places.width()
