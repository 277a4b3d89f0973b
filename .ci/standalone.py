"""Freeze the program into one folder, add what a person needs beside it, and pack it."""

import os
import platform
import shutil
import subprocess
import sys
from pathlib import Path

import PyInstaller.__main__

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))
from firing_review import __version__  # noqa: E402 - of this checkout, not of an installed copy
from firing_review.ui.state_folder import BESIDE_PROGRAM  # noqa: E402

BUILD, DIST = ROOT / "build", ROOT / "dist"
WINDOW_LIVES_S = 20
"""A window that is open after so long has opened [s]."""
READ_ME = """\
Firing Review {version}

Unpack this folder anywhere, a memory stick will do, and start the program firing-review in it
(on Windows also "Firing Review", which opens no text window). Nothing is installed.

Preferences, kept schedules and what is not yet saved lie in the folder {beside} here.
Delete that folder, and they are kept in your own user folder instead.

In a text window: firing-review check "last night.csv"      and: firing-review --help
"""


def freeze() -> Path:
    """Build the folder and return it."""
    spec = str(ROOT / ".ci" / "standalone.spec")
    quiet = ["--noconfirm", "--clean", "--log-level", "WARN"]
    PyInstaller.__main__.run([spec, *quiet, "--distpath", str(DIST), "--workpath", str(BUILD)])
    return DIST / "firing-review"


def add_read_me(folder: Path) -> None:
    """Put a page of text and the folder for the program's state beside the program."""
    text = READ_ME.format(version=__version__, beside=BESIDE_PROGRAM)
    (folder / "READ ME.txt").write_text(text, encoding="utf-8")
    home = folder / BESIDE_PROGRAM
    home.mkdir()
    (home / "about this folder.txt").write_text(
        "The program keeps its state here because this folder is here.\n", encoding="utf-8"
    )


def try_it(folder: Path) -> None:
    """Start what was built: a review of a demo firing, then the window without a screen."""
    program = str(folder / "firing-review")
    demo = next((folder / "_internal" / "firing_review" / "demo_logs").glob("2_*/firing.toml"))
    subprocess.run([program, "check", str(demo)], check=True, stdout=subprocess.DEVNULL)
    place = {"QT_QPA_PLATFORM": "offscreen", "FIRING_REVIEW_HOME": str(BUILD / "home")}
    window = subprocess.Popen([program, str(demo)], env={**os.environ, **place})
    try:
        code = window.wait(WINDOW_LIVES_S)
    except subprocess.TimeoutExpired:
        window.kill()
        window.wait()
        return
    raise SystemExit(f"The window ended by itself with exit code {code}.")


def pack(folder: Path) -> str:
    """Pack the folder as one archive that keeps what may be run runnable."""
    kind = "zip" if sys.platform == "win32" else "gztar"
    system = f"{platform.system().lower()}-{platform.machine().lower()}"
    name = DIST / f"firing-review-{__version__}-{system}"
    return shutil.make_archive(str(name), kind, folder.parent, folder.name)


if __name__ == "__main__":
    made = freeze()
    try_it(made)
    add_read_me(made)
    print(made)  # noqa: T201 - a script says where its work is
    print(pack(made))  # noqa: T201
