"""The wheel carries resources and demo firings, and works away from the checkout."""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
LOOK = """\
from firing_review.io.resource_path import demo_logs, resource
import firing_review
print(firing_review.__file__)
print(resource("review.schema.json"))
print(sorted(demo_logs().glob("*/firing.toml"))[0])
"""


@pytest.fixture(scope="module")
def wheel(tmp_path_factory) -> Path:
    """Build the wheel with the tools that are here already, so that no network is needed."""
    out = tmp_path_factory.mktemp("wheel")
    build = [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", str(out)]
    done = subprocess.run([*build, str(ROOT)], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return next(out.glob("firing_review-*.whl"))


@pytest.fixture(scope="module")
def installed(wheel, tmp_path_factory) -> Path:
    """Install the wheel alone into a folder of its own, far from the checkout."""
    place = tmp_path_factory.mktemp("installed")
    pip = [sys.executable, "-m", "pip", "install", "--no-deps", "--no-index", "--target"]
    done = subprocess.run(
        [*pip, str(place), str(wheel)], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return place


def run(installed, *arguments):
    """Run Python with the installed copy first on its path, from a folder that is not ours."""
    return subprocess.run(
        [sys.executable, *arguments],
        cwd=installed.parent,
        env={**os.environ, "PYTHONPATH": str(installed), "PYTHONUTF8": "1"},
        capture_output=True,
        text=True,
        check=False,
    )


def test_the_wheel_holds_every_resource_and_demo_file(wheel):
    names = set(zipfile.ZipFile(wheel).namelist())
    for folder in ("resources", "demo_logs"):
        ours = [p for p in (ROOT / folder).rglob("*") if p.is_file() and p.suffix != ".pyc"]
        assert ours
        missing = [p for p in ours if f"firing_review/{p.relative_to(ROOT)}" not in names]
        assert missing == []


def test_the_installed_copy_finds_its_own_resources_and_demos(installed):
    done = run(installed, "-c", LOOK)
    assert done.returncode == 0, done.stderr
    assert len(done.stdout.splitlines()) == 3
    for line in done.stdout.splitlines():
        assert Path(line).is_relative_to(installed)
        assert Path(line).exists()


def test_the_installed_copy_reviews_a_demo_firing(installed):
    demo = run(installed, "-c", LOOK).stdout.splitlines()[2]
    done = run(installed, "-m", "firing_review", "check", demo)
    assert (done.returncode, done.stderr) == (0, "")
    assert "°C" in done.stdout
