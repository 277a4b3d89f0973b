"""What is connected ends with what it belongs to."""

import importlib
import inspect
import pkgutil

from PySide6.QtCore import QCoreApplication, QEvent, QObject

import firing_review.ui
from firing_review.firing.wording import Language
from firing_review.io.resource_path import demo_logs


def classes_of_the_window() -> set[type]:
    """Return every class of the window that Qt knows."""
    found = set()
    for module in pkgutil.walk_packages(firing_review.ui.__path__, "firing_review.ui."):
        for _, one in inspect.getmembers(importlib.import_module(module.name), inspect.isclass):
            if issubclass(one, QObject) and one.__module__.startswith("firing_review."):
                found.add(one)
    return found


def test_no_slot_stands_in_for_a_slot_of_its_base():
    """Qt does not end a connection to such a slot with its object, only Python does, later."""
    found = [
        f"{one.__name__}.{name} over {base.__name__}"
        for one in classes_of_the_window()
        for name in vars(one)
        for base in one.__mro__[1:]
        if base.__module__.startswith("firing_review.") and hasattr(vars(base).get(name), "_slots")
    ]
    assert found == []
    assert len(classes_of_the_window()) > 100


def test_what_was_shown_in_another_language_is_told_nothing_any_more(window):
    window.open_path(demo_logs() / "3_dead_section")
    for place in ("next", "shelves"):
        window.work.go_to(place)
    kept_by_python = [window.firing.view, window.work.panel("shelves").view.both]
    window.choose_language(Language.GERMAN)
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    window.tools.appearance.rescale(1.3)
    QCoreApplication.processEvents()
    assert len(kept_by_python) == 2
