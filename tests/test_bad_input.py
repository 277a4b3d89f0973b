"""What cannot be read ends with exit 2 and one line that says where, what and what to do."""

import subprocess
import sys
from pathlib import Path

import pytest

from firing_review.cli import main

LOG = "elapsed_min,chamber_C\n" + "".join(f"{m},{20 + m}\n" for m in range(0, 900, 3))
KILN = '[[sections]]\nname = "bottom"\n[[sections]]\nname = "top"\n'
CONES = "shelf,position,cone,kind,bend_deg\n"
PNG = b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR" + bytes(range(256)) * 4

FILES: dict[str, bytes] = {
    "log.csv": LOG.encode(),
    "kiln.toml": KILN.encode(),
    "empty.csv": b"",
    "binary.csv": bytes(range(256)) * 16,
    "picture.csv": PNG,
    "one row.csv": b"elapsed_min,chamber_C\n0,20\n",
    "no time.csv": b"chamber_C,top_C\n" + b"".join(b"%d,%d\n" % (t, t + 7) for t in (20, 95, 61)),
    "no temperature.csv": b"elapsed_min,note\n0,lit\n3,lid closed\n6,still going\n",
    "schedule.csv": b"rate_c_per_h,target_c,hold_min\n100,600,0\n60,1O00,15\n",
    "letter o.csv": f"{CONES}top,,O4,large,90\n".encode(),
    "attic.csv": f"{CONES}attic,,04,large,90\n".encode(),
    "gaol.toml": b'log = "log.csv"\ngaol_cone = "06"\n',
    "bare.toml": b'log = "log.csv"\ngoal_cone = 06\n',
    "lost.toml": b'log = "lost.csv"\n',
}

CASES = {
    "missing file": (["nothing.csv"], ["nothing.csv", "no such file"]),
    "empty file": (["empty.csv"], ["empty.csv", "an empty file"]),
    "binary file": (["binary.csv"], ["binary.csv", "a binary file"]),
    "picture": (["picture.csv"], ["picture.csv", "a picture (PNG)"]),
    "one row": (["one row.csv"], ["one row.csv", "one row at most", "whole firing"]),
    "no time": (["no time.csv"], ["no time.csv", "time"]),
    "no temperature": (["no temperature.csv"], ["no temperature.csv", "temperature"]),
    "schedule with a typing error": (
        ["log.csv", "--schedule", "schedule.csv"],
        ["schedule.csv, line 3, column 2", "'1O00'", "Write a plain number"],
    ),
    "cone written with a letter O": (
        ["log.csv", "--cones", "letter o.csv"],
        ["letter o.csv, line 2, column 3", "'O4'", "write a zero"],
    ),
    "cones on a shelf that does not exist": (
        ["log.csv", "--kiln", "kiln.toml", "--cones", "attic.csv"],
        ["attic.csv, line 2, column 1", "bottom, top", "'attic'"],
    ),
    "unknown key": (
        ["gaol.toml"],
        ["gaol.toml, line 2", "'gaol_cone'", "Did you mean goal_cone?"],
    ),
    "bare cone number": (["bare.toml"], ["bare.toml, line 2", 'Write goal_cone = "06"']),
    "sheet whose log is gone": (["lost.toml"], ["lost.csv", "no such file"]),
    "goal cone that is none": (["log.csv", "--goal-cone", "O6"], ["--goal-cone", "letter O"]),
    "folder without a sheet": (["folder"], ["folder", "firing.toml"]),
}


@pytest.fixture
def folder(tmp_path, monkeypatch) -> Path:
    for name, data in FILES.items():
        (tmp_path / name).write_bytes(data)
    (tmp_path / "folder").mkdir()
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.parametrize(("arguments", "parts"), CASES.values(), ids=CASES)
def test_bad_input_is_answered_in_one_line(folder, capsys, arguments, parts):
    assert main(arguments) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert len(err.splitlines()) == 1
    assert all(part in err for part in parts), err
    assert "Traceback" not in err


def test_the_whole_program_answers_the_same_way(folder):
    run = subprocess.run(
        [sys.executable, "-m", "firing_review", "check", "gaol.toml"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert (run.returncode, run.stdout) == (2, "")
    assert run.stderr.startswith("gaol.toml, line 2: expected a known key")
    assert len(run.stderr.splitlines()) == 1
