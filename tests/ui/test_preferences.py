"""What the program remembers comes back with its type."""

import subprocess
import sys
from pathlib import Path

from PySide6.QtCore import QByteArray

from firing_review.firing.units import TemperatureUnit
from firing_review.io.resource_path import demo_logs
from firing_review.ui.home import home_folder
from firing_review.ui.preferences import Brightness, Preferences, TimeShown
from firing_review.ui.state_folder import state_folder

READ_BACK = """
import sys
from pathlib import Path
from firing_review.ui.preferences import Preferences
p = Preferences(Path(sys.argv[1]))
print(p.unit.value, p.time_shown.value, p.brightness.value, p.scale, len(p.recent), p.recent[0])
"""


def test_choices_come_back_in_another_process_with_their_types(home, tmp_path):
    opened = tmp_path / "one, with a comma.csv"
    opened.touch()
    kept = Preferences(home)
    kept.unit = TemperatureUnit.FAHRENHEIT
    kept.time_shown = TimeShown.CLOCK
    kept.brightness = Brightness.DARK
    kept.scale = 1.5
    kept.remember(opened)
    told = subprocess.run(
        [sys.executable, "-c", READ_BACK, str(home)], capture_output=True, text=True, check=True
    )
    assert told.stdout.strip() == f"F clock dark 1.5 1 {opened}"


def test_a_damaged_file_means_defaults(home):
    (home / "preferences.ini").write_text(
        "[screen]\nunit=K\nscale=huge\n[files]\nrecent=[1\n", encoding="utf-8"
    )
    read = Preferences(home)
    assert (read.unit, read.scale, read.recent) == (TemperatureUnit.CELSIUS, 1.0, ())


def test_recent_files_are_newest_first_once_each_and_only_those_that_exist(home, tmp_path):
    paths = [tmp_path / f"{n}.csv" for n in range(3)]
    for path in paths:
        path.touch()
    kept = Preferences(home)
    for path in (*paths, paths[0]):
        kept.remember(path)
    paths[1].unlink()
    assert kept.recent == (paths[0], paths[2])


def test_the_window_place_comes_back(home):
    Preferences(home).geometry = QByteArray(b"\x00\x01geometry")
    assert bytes(Preferences(home).geometry.data()) == b"\x00\x01geometry"


def test_no_unit_was_chosen_until_one_was(home):
    kept = Preferences(home)
    assert not kept.unit_is_chosen
    kept.unit = TemperatureUnit.CELSIUS
    assert kept.unit_is_chosen


def test_the_state_folder_is_the_one_named(monkeypatch, tmp_path):
    monkeypatch.setenv("FIRING_REVIEW_HOME", str(tmp_path / "state"))
    assert state_folder() == Path(tmp_path / "state")
    assert (tmp_path / "state").is_dir()


def test_a_file_dialog_never_begins_among_the_demo_firings(home, tmp_path):
    own = tmp_path / "logs" / "night.csv"
    own.parent.mkdir()
    own.touch()
    preferences = Preferences(home)
    preferences.remember(demo_logs() / "4_low_supply")
    assert preferences.last_folder == home_folder()
    preferences.remember(own)
    preferences.remember(demo_logs() / "4_low_supply")
    assert preferences.last_folder == own.parent
