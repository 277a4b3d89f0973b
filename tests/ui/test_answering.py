"""What keeps the window quick to answer, and leaves Python as it was."""

import gc
import sys
import weakref

import pytest

from firing_review.firing.wording import Language
from firing_review.ui import answering
from firing_review.ui.answering import Answering
from firing_review.ui.firing_place.panel import FiringPlace
from firing_review.ui.paper_place.panel import PaperPlace


@pytest.fixture
def begun(qapp, monkeypatch):
    monkeypatch.setattr(answering, "LOADS_AFTER_MS", 0)
    monkeypatch.setattr(answering, "LOOKS_EVERY_MS", 5)
    before = gc.get_threshold()
    gc.set_threshold(700, 10, 10)  # Python's own; a command that ran here before asks for others
    made = Answering()
    made.begin()
    yield made
    made.end()
    made.deleteLater()
    gc.set_threshold(*before)


def test_what_a_firing_needs_is_loaded_and_never_looked_through_again(qtbot, begun):
    qtbot.waitUntil(lambda: gc.get_freeze_count() > 10_000, timeout=20_000)
    assert set(answering.NEEDED) <= set(sys.modules)


def test_lost_objects_are_found_in_the_thread_of_the_window(qtbot, begun):
    class Lost(list):
        pass

    qtbot.waitUntil(lambda: begun.is_looking, timeout=20_000)  # what is lost before is frozen
    gc.disable()  # a window of another test that ended meanwhile may have enabled it
    rings = [Lost() for _ in range(2000)]
    for ring in rings:
        ring.append(ring)
    last = weakref.ref(ring)
    del ring, rings
    qtbot.waitUntil(lambda: last() is None, timeout=20_000)


def test_at_its_end_everything_is_left_to_python_again(qapp):
    before = (gc.isenabled(), gc.get_freeze_count(), sys.getswitchinterval())
    made = Answering()
    made.begin()
    assert not gc.isenabled()
    made.end()
    assert (gc.isenabled(), gc.get_freeze_count(), sys.getswitchinterval()) == before


def test_places_made_ahead_are_the_ones_gone_to_and_show_the_review_like_any(
    qtbot, window, log_file
):
    window.work.make_ahead()
    qtbot.waitUntil(lambda: window.findChild(PaperPlace) is not None)
    assert window.work.gone_to == set()
    made_ahead = window.findChild(FiringPlace)
    window.open_path(log_file)
    assert window.firing is made_ahead
    assert window.firing.isVisible()
    window.work.go_to("paper")
    assert window.paper.isVisible()
    assert not window.firing.isVisible()
    assert window.paper.page is not None
    assert window.work.gone_to == {"firing", "paper"}


def test_what_is_half_typed_is_carried_to_another_language_from_places_gone_to_alone(
    qtbot, window, log_file
):
    window.work.make_ahead()
    qtbot.waitUntil(lambda: window.findChild(PaperPlace) is not None)
    window.open_path(log_file)
    window.choose_language(Language.GERMAN)
    assert window.work.gone_to == {"firing"}
