"""Whole paths of a user, without a screen, and once more in a real window."""

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from closing import put_away
from user_paths import STORIES, Desk, desk_in

from firing_review.firing import wording

REAL_WINDOW = Path(__file__).with_name("real_window.py")


@pytest.fixture
def desk(qtbot, tmp_path) -> Iterator[Desk]:
    made = desk_in(tmp_path)
    made.window.show()
    qtbot.waitExposed(made.window)
    yield made
    put_away(made.window)
    wording.use(wording.AS_IN_THE_CODE)


@pytest.mark.qt_log_ignore("does not support")
@pytest.mark.parametrize("story", STORIES, ids=lambda story: story.__name__)
def test_a_whole_path_without_a_screen(desk, story):
    story(desk)


@pytest.mark.skipif(
    not all(map(shutil.which, ("xvfb-run", "xdotool"))), reason="needs Xvfb and xdotool"
)
def test_the_same_paths_in_a_real_window(tmp_path):
    command = [sys.executable, str(REAL_WINDOW), str(tmp_path), "stories"]
    ran = subprocess.run(
        command, env=os.environ, check=False, capture_output=True, text=True, timeout=300
    )
    assert ran.returncode == 0, ran.stdout + ran.stderr
    pictures = {path.stem for path in tmp_path.glob("*.png")}
    assert pictures >= {story.__name__ for story in STORIES}
