"""The keyboard alone, the names a screen reader says, and the few preferences."""

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractScrollArea,
    QComboBox,
    QLabel,
    QLineEdit,
    QScrollArea,
    QSlider,
    QWidget,
)

from firing_review.firing.units import TemperatureUnit
from firing_review.ui.look import DARK, LARGE_TARGET_PX, TARGET_PX
from firing_review.ui.preferences import Brightness, TimeShown

PRESSED = (QAbstractButton, QComboBox, QLineEdit, QSlider)


@pytest.fixture
def at_work(window, log_file):
    window.open_path(log_file)
    return window


def keys_of(window) -> list[str]:
    return [place.key for place in window.places.all()]


def is_inner(widget: QWidget) -> bool:
    """Tell whether Qt made a widget for its own use inside another."""
    above = widget.parent()
    while above is not None and not isinstance(above, QComboBox):
        above = above.parent()
    return widget.objectName().startswith("qt_") or above is not None


def takes_keys(widget: QWidget) -> bool:
    viewport = isinstance(widget.parent(), QAbstractScrollArea)
    return bool(widget.focusPolicy() & Qt.FocusPolicy.TabFocus) and not viewport


def nameless(part: QWidget) -> list[str]:
    """Return every widget that takes the keyboard and has nothing to be read out."""
    labelled = {label.buddy() for label in part.window().findChildren(QLabel) if label.buddy()}
    found = []
    for one in part.findChildren(QWidget):
        if not takes_keys(one) or is_inner(one) or one.focusProxy() is not None:
            continue
        words = one.accessibleName() or (isinstance(one, QAbstractButton) and one.text())
        if not words and one not in labelled:
            found.append(f"{type(one).__name__} in {type(one.parent()).__name__}")
    return found


def test_whatever_takes_the_keyboard_has_a_name_in_every_place(at_work):
    told = {}
    for key in keys_of(at_work):
        at_work.work.go_to(key)
        told[key] = nameless(at_work.work.panel(key))
    told["rest"] = nameless(at_work)
    assert {key: names for key, names in told.items() if names} == {}


def test_the_start_page_has_names_too(window):
    assert nameless(window.start) == []


def test_every_place_is_gone_to_by_its_number(at_work):
    for number, key in enumerate(keys_of(at_work), start=1):
        QTest.keyClick(at_work, Qt.Key(Qt.Key.Key_0 + number), Qt.KeyboardModifier.ControlModifier)
        assert at_work.work.list.key == key


def test_f6_goes_through_the_parts_of_the_window_and_back(at_work):
    def part_now() -> str:
        focused = at_work.focusWidget()
        parts = [*at_work.work.parts]
        return next(type(p).__name__ for p in parts if p is focused or p.isAncestorOf(focused))

    at_work.top_bar.view.goal.setFocus()
    seen = []
    for _ in range(4):
        at_work.next_part()
        seen.append(part_now())
    assert seen[:3] == ["VerdictBar", "PlacesList", "FiringChart"]
    at_work.part_before()
    assert part_now() == seen[2]


def test_tab_comes_through_every_place_and_out_again(at_work):
    for key in keys_of(at_work):
        at_work.work.go_to(key)
        inside = at_work.work.panel(key).findChildren(QWidget)
        stops = {w for w in inside if takes_keys(w) and w.isVisible() and w.isEnabled()}
        at_work.work.list.setFocus()
        seen = set()
        for _ in range(300):
            QTest.keyClick(at_work.focusWidget(), Qt.Key.Key_Tab)
            seen.add(at_work.focusWidget())
            if at_work.focusWidget() is at_work.work.list:
                break
        assert at_work.focusWidget() is at_work.work.list, key
        assert not stops or seen & stops, key


def test_large_targets_are_48_pixels_in_every_place(at_work):
    assert (TARGET_PX, LARGE_TARGET_PX) == (36, 48)
    at_work.tools.appearance.choose_targets(large=True)
    low = []
    for key in keys_of(at_work):
        at_work.work.go_to(key)
        QCoreApplication.processEvents()
        for one in at_work.findChildren(QWidget):
            pressed = isinstance(one, PRESSED) and not is_inner(one)
            in_table = isinstance(one.parent(), QWidget) and isinstance(
                one.parent().parent(), QAbstractItemView
            )
            inside = isinstance(one.parent(), QAbstractScrollArea)
            if pressed and one.isVisible() and not in_table and not inside and one.height() < 48:
                low.append((key, type(one).__name__, one.accessibleName(), one.height()))
    at_work.tools.appearance.choose_targets(large=False)
    assert low == []


def test_rows_that_are_typed_into_or_chosen_are_as_high_as_a_target(at_work):
    at_work.tools.appearance.choose_targets(large=True)
    for table in (
        at_work.work.panel("firing").schedule.view.table,
        at_work.work.panel("firing").kiln.view.sections,
        at_work.work.panel("shelves").view.table,
        at_work.work.panel("elements").view.table,
    ):
        assert table.verticalHeader().defaultSectionSize() == LARGE_TARGET_PX
    at_work.tools.appearance.choose_targets(large=False)


def test_preferences_are_used_the_moment_they_are_chosen_and_kept(at_work):
    at_work.show_preferences()
    dialog = at_work.dialog
    assert nameless(dialog) == []
    choose(dialog.unit, TemperatureUnit.FAHRENHEIT)
    choose(dialog.time, TimeShown.CLOCK)
    choose(dialog.brightness, Brightness.DARK)
    choose(dialog.scale, 1.3)
    dialog.large.click()
    kept = at_work.tools.preferences
    assert at_work.showing.unit is TemperatureUnit.FAHRENHEIT
    assert at_work.showing.time_shown is TimeShown.CLOCK
    assert at_work.tools.appearance.colors is DARK
    assert at_work.tools.appearance.sizes.target == round(48 * 1.3)
    assert (kept.unit, kept.brightness, kept.scale) == (
        TemperatureUnit.FAHRENHEIT,
        Brightness.DARK,
        1.3,
    )
    assert kept.large_targets
    dialog.close_button.click()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)


@pytest.mark.parametrize("large", [False, True])
def test_preferences_are_seen_whole_where_the_screen_has_room(at_work, large):
    at_work.tools.appearance.choose_targets(large=large)
    at_work.show_preferences()
    QCoreApplication.processEvents()
    bars = [area.verticalScrollBar() for area in at_work.dialog.findChildren(QScrollArea)]
    assert [bar.maximum() for bar in bars] == [0]
    at_work.dialog.close_button.click()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    at_work.tools.appearance.choose_targets(large=False)


def choose(chooser, value) -> None:
    place = chooser.findData(value)
    chooser.setCurrentIndex(place)
    chooser.activated.emit(place)


def test_the_page_of_keys_names_every_key_of_the_menu(at_work):
    at_work.show_keys()
    text = at_work.dialog.text.text()
    for action in at_work.actions.all:
        for keys in action.shortcuts():
            assert keys.toString().replace("&", "&amp;") in text
    at_work.dialog.close_button.click()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
