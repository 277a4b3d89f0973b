"""Whatever stops a write, the old file stays whole and the answer is one clear line."""

import json
import os
import sys
from pathlib import Path

import pytest
from hurt import disk_full_after, killed_at_write, told_without_rights

from firing_review.cli import main
from firing_review.firing.cones import ConeKind, ConeNumber, ShelfCone
from firing_review.firing.errors import InputError
from firing_review.firing.kiln import Kiln, Section
from firing_review.firing.log import ReadingChoices
from firing_review.firing.schedule import Schedule, Segment
from firing_review.firing.sheet import Given, Picture
from firing_review.firing.units import TemperatureUnit
from firing_review.io.log_csv import read_log
from firing_review.io.sheets import read_firing_sheet, write_firing_folder
from firing_review.io.whole_file import write_whole
from firing_review.review.recovery import read_recovery, write_recovery
from firing_review.ui.open_log.remembered import RememberedReadings
from firing_review.ui.schedule_editor.kept import KeptSchedules

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="limits and rights of POSIX")
LOG = "elapsed_min,chamber_C\n" + "".join(f"{m},{20 + m}\n" for m in range(0, 900, 3))
OLD, NEW = Schedule((Segment(100.0, 500.0, 0.0),)), Schedule((Segment(80.0, 900.0, 5.0),))
CELSIUS = TemperatureUnit.CELSIUS


@pytest.fixture
def firing(tmp_path) -> Given:
    path = tmp_path / "last night.csv"
    path.write_text(LOG)
    return Given(
        log=read_log(path),
        title="March",
        intended=OLD,
        cones=(ShelfCone("top", "", ConeNumber("06"), ConeKind.LARGE, 30.0),),
        kiln=Kiln(name="oval", sections=(Section("top"),)),
        pictures=(Picture("cones.jpg", b"\xff\xd8\xff" * 9),),
    )


class Place:
    """One thing the program writes, and what it is read back as."""

    def __init__(self, path: Path, write, read) -> None:
        self.path, self.write, self.read = path, write, read


@pytest.fixture(params=["recovery", "kept schedule", "remembered reading", "review", "report"])
def place(request, firing, tmp_path) -> Place:
    folder = tmp_path / "state"
    folder.mkdir()
    sheet = tmp_path / "last night.csv"
    kept = KeptSchedules(folder)
    recovery = folder / "recovery.json"
    remembered = RememberedReadings(folder / "readings.json")

    def check(option, name, shown):
        code = main([str(sheet), option, str(folder / name), "--show", shown])
        if code:
            raise InputError("check", "0", str(code), "")

    return {
        "recovery": lambda: Place(
            recovery,
            lambda new: write_recovery(
                Given(firing.log, intended=NEW if new else OLD, title="x" * 300), recovery
            ),
            lambda: read_recovery(recovery).intended.segments == OLD.segments,
        ),
        "kept schedule": lambda: Place(
            folder / "glaze.csv",
            lambda new: kept.keep("glaze", NEW if new else OLD, CELSIUS),
            lambda: kept.load("glaze").segments == OLD.segments,
        ),
        "remembered reading": lambda: Place(
            folder / "readings.json",
            lambda new: remembered.keep("layout", ReadingChoices(day_first=not new)),
            lambda: remembered.choices("layout").day_first is True,
        ),
        "review": lambda: Place(
            folder / "review.json",
            lambda new: check("--json", "review.json", "F" if new else "C"),
            lambda: json.loads((folder / "review.json").read_text())["format"].startswith(
                "firing"
            ),
        ),
        "report": lambda: Place(
            folder / "review.txt",
            lambda new: check("--report", "review.txt", "F" if new else "C"),
            lambda: "°C" in (folder / "review.txt").read_text(),
        ),
    }[request.param]()


def test_a_full_disk_leaves_the_old_file_whole(place, capsys):
    place.write(False)
    before = place.path.read_bytes()
    with disk_full_after(20), pytest.raises(InputError) as caught:
        place.write(True)
    said = capsys.readouterr().err or str(caught.value)
    assert "File too large" in said
    assert len(said.splitlines()) == 1
    assert place.path.read_bytes() == before
    assert place.read()
    assert [p.name for p in place.path.parent.iterdir()] == [place.path.name]


def test_an_end_in_the_middle_leaves_the_old_file_whole(place, capsys):
    place.write(False)
    before = place.path.read_bytes()
    assert killed_at_write(0, lambda: place.write(True))
    assert place.path.read_bytes() == before
    assert place.read()
    place.write(False)
    assert place.read()


def test_no_right_to_write_is_said_in_one_line(place, capfd):
    place.write(False)
    before = place.path.read_bytes()
    told = told_without_rights(lambda: place.write(True), place.path.parent)
    assert told.startswith("InputError: ")
    assert "Permission denied" in told + capfd.readouterr().err
    assert place.path.read_bytes() == before


def test_a_firing_folder_that_did_not_fit_can_be_tried_again_under_the_same_name(firing, tmp_path):
    target = tmp_path / "saved"
    with disk_full_after(100), pytest.raises(InputError, match=r"saved.*File too large.*room"):
        write_firing_folder(firing, target)
    assert not target.exists()
    target.mkdir()
    with disk_full_after(100), pytest.raises(InputError, match="File too large"):
        write_firing_folder(firing, target)
    assert list(target.iterdir()) == []
    assert read_firing_sheet(write_firing_folder(firing, target)).title == "March"


def test_a_firing_folder_cut_off_anywhere_is_whole_or_has_no_sheet(firing, tmp_path):
    number = 0
    while killed_at_write(number, lambda n=number: write_firing_folder(firing, tmp_path / str(n))):
        left = tmp_path / str(number)
        assert not (left / "firing.toml").exists()
        with pytest.raises(InputError, match="new or empty folder"):
            write_firing_folder(firing, left)
        number += 1
    assert number == 6  # log, schedule, cones, kiln, picture, sheet
    assert read_firing_sheet(tmp_path / "6" / "firing.toml").title == "March"


def test_a_firing_folder_where_nobody_may_write_is_refused_in_one_line(firing, tmp_path):
    told = told_without_rights(lambda: write_firing_folder(firing, tmp_path / "a"), tmp_path)
    assert told.startswith(f"InputError: {tmp_path / 'a'}")
    assert "Permission denied" in told
    assert "\n" not in told


def test_a_file_marked_read_only_is_not_replaced(tmp_path):
    path = tmp_path / "kept.txt"
    path.write_text("mine")
    path.chmod(0o444)
    told = told_without_rights(lambda: write_whole(path, b"yours"), tmp_path)
    assert "Permission denied" in told
    assert path.read_text() == "mine"


def test_a_link_stays_a_link_and_a_device_a_device(tmp_path):
    (tmp_path / "real.txt").write_text("old")
    (tmp_path / "link.txt").symlink_to(tmp_path / "real.txt")
    write_whole(tmp_path / "link.txt", b"new")
    assert (tmp_path / "link.txt").is_symlink()
    assert (tmp_path / "real.txt").read_text() == "new"
    write_whole(Path(os.devnull), b"gone")
    assert not Path(os.devnull).is_file()
    with pytest.raises(InputError, match="No space left"):
        write_whole(Path("/dev/full"), b"too much")


def test_rights_of_a_file_that_is_replaced_are_kept(tmp_path):
    path = tmp_path / "shared.txt"
    path.write_text("old")
    path.chmod(0o640)
    write_whole(path, b"new")
    assert path.stat().st_mode & 0o777 == 0o640


def test_a_ring_of_links_is_said_in_one_line(tmp_path):
    (tmp_path / "a").symlink_to(tmp_path / "b")
    (tmp_path / "b").symlink_to(tmp_path / "a")
    with pytest.raises(InputError, match="a place to write to"):
        write_whole(tmp_path / "a", b"x")


@pytest.mark.parametrize("name", ["x" * 300, "/".join(["y" * 200] * 25)])
def test_a_name_too_long_for_the_system_is_said_in_one_line(firing, tmp_path, name):
    for write in (write_whole, write_firing_folder):
        args = (tmp_path / name, b"x") if write is write_whole else (firing, tmp_path / name)
        with pytest.raises(InputError, match="name too long"):
            write(*args)
