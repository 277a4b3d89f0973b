"""Pictures of the real window, driven by real keys and a real mouse; runs only when asked.

    python tests/ui/real_window.py FOLDER [NAME ...]
    python tests/ui/real_window.py FOLDER stories [SCREEN [FACTOR]]

needs Xvfb, xdotool and ImageMagick, for ``pages`` pdftoppm too. Each scene starts the program on a
screen of its own, presses what a person would press, and leaves FOLDER/NAME.png to be looked at.
``stories`` goes every path of ``tests/user_paths.py`` in a real window, on a laptop's screen if
no other is named, and leaves a picture of its end as it is, dark, and dark in German.
"""

import os
import shutil
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from firing_review.ui.main_window import MainWindow

ROOT = Path(__file__).resolve().parents[2]
DEMOS = ROOT / "demo_logs"
WORN, DEAD = DEMOS / "2_worn_heating_elements", DEMOS / "3_dead_section"
UNEVEN, BOOK = DEMOS / "8_uneven_load", Path("Heron.kilnbook")
TRY_LONGER = ("key alt+h", *["key Right"] * 21)
INTO_THE_BOOK = ("mousemove 320 180", "click 1", "key Return", "sleep 2", "key ctrl+6", "sleep 1",
                 "mousemove 300 350", "click 1")  # fmt: skip
"""Open the newest firing, come back, choose another."""
COLORS = "128"
"""As many colors as a picture needs to look the same; its file is half as long."""
STARTS_S, SETTLES_S = 5.0, 0.8
LAPTOP, DESK = "1366x768", "1920x1080"


@dataclass(frozen=True)
class Scene:
    """One picture: what is opened, on what screen, and what is pressed."""

    name: str
    opened: Path | None = None
    screen: str = LAPTOP
    presses: tuple[str, ...] = ()
    preferences: str = ""
    scale: str = "1"


DARK = "[screen]\nbrightness=dark\n"
CELSIUS = "[screen]\nunit=C\n"
SCENES = (
    Scene("start"),
    Scene("window", WORN, preferences=CELSIUS),
    Scene("dark", DEAD, preferences=DARK),
    Scene("segments", WORN, screen=DESK, presses=()),
    Scene("finding", WORN, presses=("mousemove 1150 320", "click 1", "mousemove 430 450")),
    Scene(
        "schedule",
        WORN,
        presses=("key alt+c", *["key Tab"] * 2, "key Down", "type --delay 60 12x", "key Return"),
    ),
    Scene("kiln", WORN, presses=("key alt+k",)),
    Scene("shelves", DEAD, presses=("key ctrl+2",), preferences=CELSIUS),
    Scene("elements", WORN, presses=("key ctrl+3",), preferences=CELSIUS),
    Scene("causes", DEAD, presses=("key ctrl+4",), preferences=CELSIUS),
    Scene("next_firing", UNEVEN, presses=("key ctrl+5", *TRY_LONGER), preferences=CELSIUS),
    Scene("paper", WORN, presses=("key ctrl+7",), preferences=CELSIUS),
    Scene("kiln_book", BOOK, presses=INTO_THE_BOOK, preferences=CELSIUS),
    Scene("safety", WORN, presses=("key alt+y", "key Tab", "key Tab", "key space")),
    Scene("clock_fahrenheit", WORN, presses=("key ctrl+t", "key ctrl+k")),
    Scene("keys_in_the_chart", WORN, presses=("key plus", "key Home", "key Page_Down")),
    Scene("twice_the_size", WORN, scale="2"),
    Scene("twice_on_a_desk", WORN, screen=DESK, scale="2"),
    Scene("refused", ROOT / "resources" / "pictures" / "window.png"),
)  # fmt: skip


def photograph(scene: Scene, folder: Path) -> None:
    """Start the program, press, take the picture, end the program."""
    home = Path(tempfile.mkdtemp())
    opened = home / BOOK if scene.opened is BOOK else scene.opened
    if scene.opened is BOOK:
        write_book(home / BOOK)
    (home / "preferences.ini").write_text(scene.preferences, encoding="utf-8")
    command = [
        sys.executable,
        "-m",
        "firing_review",
        *([str(opened)] if opened else []),
    ]
    environment = {
        **os.environ,
        "FIRING_REVIEW_HOME": str(home),
        "QT_QPA_PLATFORM": "xcb",
        "QT_SCALE_FACTOR": scene.scale,
    }
    program = subprocess.Popen(command, env=environment, cwd=ROOT)
    try:
        time.sleep(STARTS_S)
        press("search --onlyvisible --name Firing windowfocus")
        for what in scene.presses:
            press(what)
        time.sleep(SETTLES_S)
        picture = folder / f"{scene.name}.png"
        subprocess.run(["import", "-window", "root", picture], check=True)
        make_small(picture)
    finally:
        program.terminate()
        program.wait()
        shutil.rmtree(home, ignore_errors=True)


def make_small(picture: Path) -> None:
    """Write a picture with as many colors as it needs."""
    few = ["+dither", "-colors", COLORS, "-strip", f"PNG8:{picture}"]
    subprocess.run(["convert", picture, *few], check=True)


def press(what: str) -> None:
    """Let xdotool press keys, move the mouse or wait, at the pace of a person."""
    subprocess.run(["xdotool", *what.split()], check=False, capture_output=True)
    time.sleep(0.25)


def write_book(path: Path) -> None:
    """Write a book of an invented kiln: 26 firings, new heating elements after the sixth."""
    sys.path[:0] = [str(ROOT), str(DEMOS)]
    import make_demo_logs as demo  # noqa: PLC0415 - the paths of imports are set first

    from firing_review.book.book import Book  # noqa: PLC0415
    from firing_review.book.nouns import Change, ChangeKind  # noqa: PLC0415
    from firing_review.io.open_any import gather  # noqa: PLC0415
    from firing_review.io.tables import load_tables  # noqa: PLC0415
    from firing_review.review.pipeline import review_firing  # noqa: PLC0415

    glaze, bisque, rng = demo.STORIES[0], demo.BISQUE_04, demo.np.random.default_rng(6)
    with Book.create(path) as book, tempfile.TemporaryDirectory() as lent:
        for number in range(26):
            power = 0.97 - 0.008 * number if number < 6 else 1.04 - 0.008 * number
            begun = demo.datetime(2025, 3, 1, 7) + demo.timedelta(days=12 * number)
            story = replace(
                glaze, folder=f"{number:02d}", title=f"Glaze {number + 1}", begun=begun
            )
            if number % 5 == 4:
                story = replace(story, title=f"Bisque {number + 1}", goal="04", meant=bisque)
                story = replace(story, cones=("05", "04", "03"))
            shares = tuple(rng.normal(1.0, 0.02, 3))
            story = replace(story, faults=demo.Faults((power,) * 3, load_share=shares))
            demo.write_demo(story, Path(lent))
            given = replace(gather(Path(lent) / story.folder), earlier=())
            book.add(given, review_firing(given, load_tables()))
        (kiln,) = book.kilns()
        change = Change(ChangeKind.ELEMENTS, demo.datetime(2025, 5, 6).date(), kiln_id=kiln.id)
        book.keep_change(change)


def set_pages(folder: Path) -> None:
    """Set the pages for the technician and the office side by side."""
    with tempfile.TemporaryDirectory() as lent:
        for reader in ("technician", "office"):
            page = Path(lent) / f"{reader}.pdf"
            check = [sys.executable, "-m", "firing_review", "check", str(WORN / "firing.toml")]
            check += ["--report", str(page), "--page", reader, "--paper", "A4", "--show", "C"]
            subprocess.run(check, cwd=ROOT, check=True, capture_output=True)
            drawn = ["pdftoppm", "-r", "96", "-l", "1", "-singlefile", "-png", str(page)]
            subprocess.run([*drawn, str(page.with_suffix(""))], check=True)
        pages = [str(Path(lent) / f"{reader}.png") for reader in ("technician", "office")]
        side_by_side = ["montage", *pages, "-geometry", "+20+20", "-background", "#d9d2c8"]
        picture = folder / "pages.png"
        subprocess.run([*side_by_side, picture], check=True)
        make_small(picture)


def tell_stories(folder: Path) -> int:
    """Go every path of a user in a window on this screen, each with a home of its own."""
    sys.path[:0] = [str(ROOT), str(ROOT / "tests")]
    import hands  # noqa: PLC0415 - the paths of imports are set first
    from closing import put_away  # noqa: PLC0415
    from PySide6.QtTest import QTest  # noqa: PLC0415
    from PySide6.QtWidgets import QApplication  # noqa: PLC0415
    from user_paths import STORIES, desk_in  # noqa: PLC0415

    from firing_review.firing import wording  # noqa: PLC0415

    application = QApplication(["stories"])
    application.setStyle("Fusion")
    assert application.platformName() == "xcb"
    hands.use(hands.ScreenHands())
    for story in STORIES:
        with tempfile.TemporaryDirectory() as lent:
            desk = desk_in(Path(lent))
            desk.window.setGeometry(application.primaryScreen().geometry())
            desk.window.show()
            desk.window.activateWindow()
            assert QTest.qWaitForWindowActive(desk.window)
            story(desk)
            take_ends(desk.window, folder / story.__name__)
            put_away(desk.window)
            wording.use(wording.AS_IN_THE_CODE)
    return 0


def take_ends(window: "MainWindow", name: Path) -> None:
    """Take pictures of the end of a story: as it is, dark, and dark in another language."""
    from PySide6.QtTest import QTest  # noqa: PLC0415
    from user_paths import speak_from_the_menu  # noqa: PLC0415

    from firing_review.firing.wording import Language  # noqa: PLC0415
    from firing_review.ui.preferences import Brightness  # noqa: PLC0415

    def take(ending: str) -> None:
        QTest.qWait(round(1000 * SETTLES_S))
        picture = window.screen().grabWindow(window.winId())
        assert picture.save(f"{name}{ending}.png")

    take("")
    window.tools.appearance.choose(Brightness.DARK)
    take("_dark")
    speak_from_the_menu(window, Language.GERMAN)
    take("_german")


def on_a_screen_of_its_own(screen: str, folder: Path, name: str, **environment: str) -> None:
    """Run this script for one name on a screen that nobody sees."""
    command = ["xvfb-run", "-a", "-s", f"-screen 0 {screen}x24"]
    again = [sys.executable, __file__, str(folder), name]
    environment = {**os.environ, **environment, "ON_THIS_SCREEN": "1"}
    subprocess.run([*command, *again], env=environment, check=True)


def main(arguments: list[str]) -> int:
    """Take the pictures named, or all, each on a screen of its own."""
    folder, names = Path(arguments[0]).absolute(), arguments[1:]
    folder.mkdir(parents=True, exist_ok=True)
    if names[:1] == ["stories"]:
        if "ON_THIS_SCREEN" in os.environ:
            return tell_stories(folder)
        screen, factor = (names[1:] + [LAPTOP, "1"][len(names) - 1 :])[:2]
        shown = {"QT_QPA_PLATFORM": "xcb", "QT_SCALE_FACTOR": factor}
        on_a_screen_of_its_own(screen, folder, "stories", **shown)
        return 0
    if "pages" in names or not names:
        set_pages(folder)
    wanted = [scene for scene in SCENES if not names or scene.name in names]
    if "ON_THIS_SCREEN" in os.environ:
        photograph(wanted[0], folder)
        return 0
    for scene in wanted:
        on_a_screen_of_its_own(scene.screen, folder, scene.name)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
