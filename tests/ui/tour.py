"""Pictures of everything the window can show, in every mode, to be looked at; run when asked.

    PYTHONPATH=.:tests python tests/ui/tour.py FOLDER [MODE ...]

needs Xvfb. Leaves FOLDER/MODE/STOP.png. No test: a person looks whether anything is cut off, ugly
or not to be understood.
"""

import os
import subprocess
import sys
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from closing import put_away
from PySide6.QtCore import QEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from real_window import BOOK, write_book
from waiting import until_done

from firing_review.firing.wording import Language
from firing_review.io.languages import speak
from firing_review.io.resource_path import demo_logs
from firing_review.ui.app import make_window
from firing_review.ui.ask import Questions
from firing_review.ui.firing_place.panel import Beside
from firing_review.ui.main_window import MainWindow
from firing_review.ui.paper_place.view import CHOICES
from firing_review.ui.workplace.panel import WindowPage

SETTLES_MS = 700


@dataclass(frozen=True)
class Mode:
    """A screen and what a person prefers on it."""

    screen: str = "1366x768"
    language: str = "en_US"
    preferences: str = ""
    factor: str = "1"


DARK, TWICE, LARGE = "brightness=dark\n", "scale=2.00\n", "large_targets=yes\n"
MODES = {
    "laptop": Mode(),
    "desk": Mode("1920x1080"),
    "twice": Mode(preferences=TWICE),
    "dark": Mode(preferences=DARK),
    "german": Mode(language="de"),
    "german_dark_twice": Mode(language="de", preferences=DARK + TWICE),
    "german_desk_large": Mode("1920x1080", "de", LARGE),
    "factor_two": Mode(factor="2"),
}


def demo(number: int) -> Path:
    """Return the folder of a demo firing."""
    return next(demo_logs().glob(f"{number}_*"))


Act = Callable[[MainWindow], object]


def go(key: str) -> Act:
    """Return what goes to a place."""
    return lambda window: window.work.go_to(key)


def beside(what: Beside) -> Act:
    """Return what shows something beside the chart."""

    def show(window: MainWindow) -> None:
        window.work.go_to("firing")
        window.firing.show_beside(what)

    return show


def do(key: str) -> Act:
    """Return what triggers a command."""
    return lambda window: window.actions[key].trigger()


def page(choice: object) -> Act:
    """Return what sets a page."""

    def turn(window: MainWindow) -> None:
        window.work.go_to("paper")
        window.paper.view.choice.setCurrentIndex(list(CHOICES).index(choice))

    return turn


def book(window: MainWindow) -> None:
    """Open the book of an invented kiln and one firing of it."""
    window.open_path(Path(os.environ["FIRING_REVIEW_HOME"]) / BOOK)


def stops() -> dict[str, tuple[int | None, Act]]:
    """Return a name for each picture: which demo firing is open, and what is done."""
    nothing: Act = lambda _window: None  # noqa: E731
    every = {"firing", "shelves", "elements", "causes", "next", "book"}
    made: dict[str, tuple[int | None, Act]] = {"start": (None, nothing)}
    for number in range(1, 9):
        made |= {f"demo{number}_{key}": (number, go(key)) for key in sorted(every)}
    made |= {f"beside_{what.value}": (2, beside(what)) for what in Beside}
    made |= {f"page_{choice}": (2, page(choice)) for choice in CHOICES}
    for key in ("how_read", "preferences", "keys", "guide", "blank"):
        made[f"do_{key}"] = (2, do(key))
    return made | {"book": (1, book)}


def take_round(folder: Path) -> int:
    """Go everywhere on this screen, with a picture of each stop."""
    home = Path(os.environ["FIRING_REVIEW_HOME"])
    application = QApplication(["tour"])
    application.setStyle("Fusion")
    speak(Language(os.environ["TOUR_LANGUAGE"]))
    write_book(home / BOOK)
    window, opened = make_window(home, Questions()), None
    window.setGeometry(window.screen().geometry())
    window.show()
    for name, (number, act) in stops().items():
        if number not in (None, opened):
            open_demo(window, number)
            opened = number
        act(window)
        take(window, folder / f"{name}.png")
        page = window.work.findChild(WindowPage).verticalScrollBar()
        before_px = page.value()
        window.work.show_place()
        if page.value() > before_px:
            take(window, folder / f"{name}_below.png")
        close_what_is_over(window)
    put_away(window)
    return 0


def take(window: MainWindow, picture: Path) -> None:
    """Take a picture of the screen once nothing moves on it."""
    until_done(window)
    QTest.qWait(SETTLES_MS)
    window.screen().grabWindow(0).save(str(picture))


def open_demo(window: MainWindow, number: int) -> None:
    """Open a demo firing, and wait until it is there."""
    window.open_path(demo(number))
    until_done(window)


def close_what_is_over(window: MainWindow) -> None:
    """Close dialogs, the guide and the question how a log is read."""
    for widget in QApplication.topLevelWidgets():
        if widget is not window and widget.isVisible():
            widget.close()
    if window.sitting.review is not None and not window.work.isVisible():
        open_demo(window, 2)
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)


def main(arguments: list[str]) -> int:
    """Take the round in the modes named, or in all, each on a screen of its own."""
    folder, names = Path(arguments[0]).absolute(), arguments[1:] or list(MODES)
    if "TOUR_LANGUAGE" in os.environ:
        return take_round(folder / names[0])
    for name in names:
        mode = MODES[name]
        (folder / name).mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory() as home:
            wanted = Path(home) / "preferences.ini"
            wanted.write_text(f"[screen]\n{mode.preferences}", encoding="utf-8")
            environment = {
                **os.environ,
                "FIRING_REVIEW_HOME": home,
                "QT_QPA_PLATFORM": "xcb",
                "QT_SCALE_FACTOR": mode.factor,
                "TOUR_LANGUAGE": mode.language,
            }
            command = ["xvfb-run", "-a", "-s", f"-screen 0 {mode.screen}x24", sys.executable]
            subprocess.run([*command, __file__, str(folder), name], env=environment, check=True)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
