"""The demo firings: complete, small, readable, and each shows what its story tells."""

import importlib.util
import sys
from functools import cache
from pathlib import Path

import pytest

from firing_review.io.open_any import gather
from firing_review.io.resource_path import demo_logs
from firing_review.io.sheets import read_firing_sheet
from firing_review.io.tables import load_tables
from firing_review.review.pipeline import review_firing
from firing_review.review.review import Review

FOLDERS = sorted(p.parent.name for p in demo_logs().glob("*/firing.toml"))
FILES = {
    "firing.toml",
    "log.csv",
    "schedule.csv",
    "cones.csv",
    "kiln.toml",
    "earlier.csv",
    "story.txt",
}
EXPECTED = {
    "1_good_glaze_firing": set(),
    "2_worn_heating_elements": {"behind_schedule", "slow_climb", "short_of_target"},
    "3_dead_section": {"zone_gap"},
    "4_low_supply": {"behind_schedule", "slow_climb"},
    "5_probe_reads_high": set(),
    "6_mistyped_hold": {"long_hold"},
    "7_power_cut": {"power_gap"},
    "8_uneven_load": {"zone_gap"},
}


def folder(name: str) -> Path:
    return demo_logs() / name


@cache
def review_of(name: str) -> Review:
    return review_firing(read_firing_sheet(folder(name) / "firing.toml"), load_tables())


def test_there_are_eight() -> None:
    assert set(FOLDERS) == set(EXPECTED)


@pytest.mark.parametrize("name", FOLDERS)
def test_each_has_all_its_files_and_says_that_it_is_invented(name: str) -> None:
    assert {p.name for p in folder(name).iterdir()} == FILES
    lines = (folder(name) / "story.txt").read_text(encoding="utf-8").splitlines()
    assert len(lines) == 2
    assert "invented" in lines[0]
    assert "do not exist" in (folder(name) / "kiln.toml").read_text(encoding="utf-8")


def test_all_together_are_small() -> None:
    total = sum(p.stat().st_size for p in demo_logs().rglob("*") if p.is_file())
    assert total < 3_000_000


@pytest.mark.parametrize("name", FOLDERS)
def test_each_shows_what_its_story_tells(name: str) -> None:
    found = {f.kind.value for f in review_of(name).findings}
    assert found >= EXPECTED[name]
    if not EXPECTED[name]:
        assert not {f.kind for f in review_of(name).findings if f.severity == "fault"}


def test_the_good_firing_brought_the_goal_cone_down() -> None:
    words = {s.shelf: s.word for s in review_of("1_good_glaze_firing").shelves}
    assert words == {"bottom": "even", "middle": "even", "top": "even"}


def test_the_probe_that_reads_high_leaves_every_shelf_cold() -> None:
    shelves = review_of("5_probe_reads_high").shelves
    assert all(s.offset_c is not None and s.offset_c < -15.0 for s in shelves)


def test_the_dead_section_leaves_its_shelf_cold() -> None:
    words = {s.shelf: s.word for s in review_of("3_dead_section").shelves}
    assert words["bottom"] == "cold"


def test_every_file_is_written_in_another_way() -> None:
    heads = {(folder(n) / "log.csv").read_bytes()[:60] for n in FOLDERS}
    assert len(heads) == len(FOLDERS)


@pytest.mark.parametrize("name", FOLDERS)
def test_a_folder_alone_is_enough_to_read_a_firing(name: str) -> None:
    given = gather(folder(name))
    assert given.log.rows > 1000
    assert given.log.raw == (folder(name) / "log.csv").read_bytes()
    assert given.intended is not None
    assert len(given.cones) >= 9
    assert given.kiln is not None
    assert len(given.kiln.sections) == 3
    assert len(given.earlier) == 1


def test_written_anew_a_folder_is_the_same_to_the_byte(tmp_path: Path) -> None:
    spec = importlib.util.spec_from_file_location("maker", demo_logs() / "make_demo_logs.py")
    maker = importlib.util.module_from_spec(spec)
    sys.modules["maker"] = maker
    spec.loader.exec_module(maker)
    story = next(s for s in maker.STORIES if s.folder == "7_power_cut")
    maker.write_demo(story, tmp_path)
    for name in FILES:
        new = (tmp_path / "7_power_cut" / name).read_bytes()
        assert new == (folder("7_power_cut") / name).read_bytes(), name


def test_the_folder_says_that_everything_in_it_is_invented() -> None:
    told = (demo_logs() / "README.txt").read_text(encoding="utf-8")
    assert "do not exist" in told
    assert all(name in told for name in FOLDERS)
