"""The window lays itself out at any size, scale, place and language, in any order."""

import random

import pytest
from PySide6.QtCore import QCoreApplication

from firing_review.firing.wording import Language
from firing_review.io.resource_path import demo_logs
from firing_review.ui.scrolled import TURNS, Scrolled

SCALES = (0.8, 0.9, 1.0, 1.1, 1.3, 1.5, 1.75, 2.0)
WITHOUT_CONES = demo_logs() / "6_mistyped_hold" / "log.csv"
STEPS = 40
PARTS_WITHIN_PARTS = 3
"""Each may need its own turns within those of the one around it."""


@pytest.fixture
def deepest(monkeypatch) -> list[int]:
    """Return how deep one layout went within another, for every one there was."""
    depth, found, measured = [0], [], Scrolled.eventFilter

    def watch(area, watched, event):
        depth[0] += 1
        found.append(depth[0])
        try:
            return measured(area, watched, event)
        finally:
            depth[0] -= 1

    monkeypatch.setattr(Scrolled, "eventFilter", watch)
    return found


@pytest.mark.parametrize("seed", range(3))
def test_the_window_lays_itself_out_whatever_is_asked_of_it(window, deepest, seed):
    drawn = random.Random(seed)  # noqa: S311 - nothing secret
    places = [place.key for place in window.places.all()]
    window.open_path(demo_logs() / "3_dead_section" if seed % 2 else WITHOUT_CONES)
    for _ in range(STEPS):
        step = drawn.random()
        if step < 0.6:
            window.resize(drawn.randint(640, 1600), drawn.randint(360, 1000))
        elif step < 0.7:
            window.tools.appearance.rescale(drawn.choice(SCALES))
        elif step < 0.97:
            window.work.go_to(drawn.choice(places))
        else:
            window.choose_language(drawn.choice(list(Language)))
        QCoreApplication.processEvents()
    assert max(deepest) <= TURNS * PARTS_WITHIN_PARTS
