"""The recovery file: nothing typed is lost, and a damaged file is said to be one."""

import json
import os

import numpy as np
import pytest

from firing_review.firing.cones import ConeKind, ConeNumber, ShelfCone
from firing_review.firing.errors import InputError
from firing_review.firing.kiln import Kiln, Section
from firing_review.firing.schedule import Schedule, Segment
from firing_review.firing.sheet import Answers, Given, Readings
from firing_review.io.log_csv import read_log
from firing_review.review.recovery import read_recovery, write_recovery

LOG = "elapsed_min,chamber_C\r\n" + "".join(f"{m},{20 + m}.5\r\n" for m in range(0, 900, 3))


@pytest.fixture
def open_firing(tmp_path):
    path = tmp_path / "last night.csv"
    path.write_bytes(LOG.encode("utf-16"))
    return Given(
        log=read_log(path),
        title="March",
        intended=Schedule((Segment(None, 1000.0, 12.5),), "Slow bisque"),
        cones=(ShelfCone("top", "", ConeNumber("06"), ConeKind.LARGE, 30.0, 9.0),),
        kiln=Kiln(name="oval", sections=(Section("top", rated_kw=3.0),)),
        goal_cone=ConeNumber("06"),
        answers=Answers(safety=()),
        readings=Readings(amps={"top": 9.5}),
        tolerance_cones=1.0,
    )


def test_everything_typed_comes_back(open_firing, tmp_path):
    write_recovery(open_firing, tmp_path / "recovery.json")
    back = read_recovery(tmp_path / "recovery.json")
    for field in ("title", "intended", "cones", "kiln", "goal_cone", "answers", "readings"):
        assert getattr(back, field) == getattr(open_firing, field)
    assert back.tolerance_cones == 1.0
    assert back.log.raw == open_firing.log.raw
    assert back.log.source == "last night.csv"
    assert np.array_equal(back.log.elapsed_h, open_firing.log.elapsed_h)


def test_a_write_that_fails_leaves_the_old_file_whole(open_firing, tmp_path, monkeypatch):
    path = tmp_path / "recovery.json"
    write_recovery(open_firing, path)
    before = path.read_bytes()

    def full(_handle):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(InputError, match="No space left"):
        write_recovery(open_firing, path)
    assert path.read_bytes() == before
    assert sorted(p.name for p in tmp_path.iterdir()) == ["last night.csv", "recovery.json"]


def test_a_file_cut_short_anywhere_is_refused_in_one_line(open_firing, tmp_path):
    path = tmp_path / "recovery.json"
    write_recovery(open_firing, path)
    whole = path.read_bytes()
    for kept in (0, 1, 20, len(whole) // 2, len(whole) - 3):
        path.write_bytes(whole[:kept])
        with pytest.raises(InputError) as caught:
            read_recovery(path)
        assert caught.value.where == str(path)
        assert "\n" not in str(caught.value)


@pytest.mark.parametrize(
    "document",
    [
        [],
        {},
        {"format": "something else", "files": {}},
        {"format": "firing-review-recovery/1", "files": []},
        {"format": "firing-review-recovery/1", "files": {"firing.toml": "***"}},
        {"format": "firing-review-recovery/1", "files": {"firing.toml": 7}},
        {"format": "firing-review-recovery/1", "files": {"firing.toml": "bG9nID0gIngiCg=="}},
        {"format": "firing-review-recovery/1", "files": {"firing.toml": "", "../x.csv": ""}},
    ],
)
def test_what_is_no_recovery_file_is_refused(document, tmp_path):
    path = tmp_path / "recovery.json"
    path.write_text(json.dumps(document))
    with pytest.raises(InputError, match="expected a recovery file"):
        read_recovery(path)
    assert [p.name for p in tmp_path.iterdir()] == ["recovery.json"]


def test_no_file_to_recover_is_no_crash(tmp_path):
    with pytest.raises(InputError, match="no such file"):
        read_recovery(tmp_path / "recovery.json")
