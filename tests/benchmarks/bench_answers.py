"""The longest time the window does not answer while it has long work to do.

Run with ``python tests/benchmarks/bench_answers.py [--where] [WORD ...]``; printed, never a
condition. ``--where`` shows what the window did in each gap; words pick scenes by their names.
"""

import subprocess
import sys
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from benchmarks.heartbeat import Gaps, Heartbeat, say
from closing import put_away
from PySide6.QtWidgets import QApplication
from user_paths import Desk, desk_in
from waiting import is_busy

from firing_review.firing.cones import ConeNumber
from firing_review.firing.sheet import TimeNote
from firing_review.firing.units import TemperatureUnit
from firing_review.io.resource_path import demo_logs
from firing_review.review import edits
from firing_review.ui.answering import Answering
from firing_review.ui.on_clipboard import leave_to_qt

LONG_ROWS = 1_000_000
MANY_FILES = 500
FIRST = "2_worn_heating_elements"
F = TemperatureUnit.FAHRENHEIT
SIZE = (1366, 768)
REST_S, LOADED_S = 0.5, 3.0
PLACES = ("shelves", "elements", "causes", "next", "book", "paper", "firing")


@dataclass(frozen=True)
class Scene:
    """Something a person does, and what they do it with."""

    name: str
    does: Callable[[Desk, Path], object]


def _open(desk: Desk, path: Path) -> None:
    desk.window.open_path(path)


def _goal(cone: str) -> Callable[[Desk, Path], object]:
    return lambda desk, _: desk.window.sitting.edit(edits.set_goal_cone(ConeNumber(cone)))


def _how_used(desk: Desk, _: Path) -> None:
    desk.window.open_log.view.use.click()


def _other_order(desk: Desk, _: Path) -> None:
    desk.window.open_log.view.unit.setCurrentIndex(1)
    desk.window.open_log.view.unit.activated.emit(1)


def _import(desk: Desk, path: Path) -> None:
    desk.window.tools.questions.__dict__["folder_to_open"] = lambda *_: path.parent / "many"
    desk.window.books.ask_import()


def _drop_many(desk: Desk, path: Path) -> None:
    desk.window.arrivals.open_paths(sorted((path.parent / "many").iterdir()))


def _picture(desk: Desk, _: Path) -> None:
    desk.window.tools.questions.__dict__["picture_to_save"] = lambda *_: desk.folder / "chart.png"
    desk.window.firing.chart.extras.save_picture()


def _save(desk: Desk, _: Path) -> None:
    folder = desk.folder / "saved"
    desk.window.tools.questions.__dict__["folder_to_save"] = lambda *_: folder
    desk.window.save_as_folder()


def _make_book(desk: Desk, _: Path) -> None:
    desk.window.tools.book.create(desk.folder / "kilns")
    desk.window.go_to_book()


SCENES = (
    Scene(
        "a demo firing, the first", lambda d, _: _open(d, demo_logs() / "2_worn_heating_elements")
    ),
    *(Scene(f"going to {key}", lambda d, _, k=key: d.window.work.go_to(k)) for key in PLACES),
    Scene("a demo firing, another", lambda d, _: _open(d, demo_logs() / "8_uneven_load")),
    Scene("a long log", _open),
    Scene("goal cone of a long log", _goal("6")),
    Scene("undo with a long log", lambda d, _: d.window.sitting.undo()),
    Scene("goal cone of a long log again", _goal("5")),
    Scene("title with a long log", lambda d, _: d.window.sitting.edit(edits.set_title("Long"))),
    Scene(
        "note with a long log",
        lambda d, _: d.window.sitting.edit(edits.add_note(TimeNote(1.0, "opened a bung"))),
    ),
    *(Scene(f"long log, to {key}", lambda d, _, k=key: d.window.work.go_to(k)) for key in PLACES),
    Scene(
        "unit of the screen, long log",
        lambda d, _: d.window.showing.choose_unit(TemperatureUnit.FAHRENHEIT),
    ),
    Scene("how a long log is read", lambda d, _: d.window.arrivals.ask_how_read()),
    Scene("a correction there", _other_order),
    Scene("used so", _how_used),
    Scene("long log in the other unit", lambda d, _: d.window.arrivals.read_in_other_unit()),
    Scene("long log to paper", lambda d, _: d.window.show_paper()),
    Scene("PDF", lambda d, _: d.window.paper.save_pdf()),
    Scene("HTML", lambda d, _: d.window.paper.save_html()),
    Scene("long log, to firing again", lambda d, _: d.window.work.go_to("firing")),
    Scene("figures of a long log copied", lambda d, _: d.window.firing.chart.extras.copy_data()),
    Scene("picture of the chart saved", _picture),
    Scene("a long log saved as a folder", _save),
    Scene("a kiln book", _make_book),
    Scene("long log into the book", lambda d, _: d.window.books.add_open()),
    Scene("goal cone in the book", _goal("7")),
    Scene("many files into the book", _import),
    Scene("many files dropped", _drop_many),
    Scene("start page", lambda d, _: d.window.go_to_start()),
    Scene("a long log out of the book", lambda d, _: d.window.books.show_firing(1)),
)


def _over(desk: Desk) -> bool:
    return not is_busy(desk.window)


def _line(gaps: Gaps, name: str) -> str:
    meanwhile = f"{gaps.meanwhile_ms:6.0f}" if gaps.meanwhile_ms else "     -"
    return f"{meanwhile} {gaps.at_end_ms:6.0f}  {name}"


def write_logs(folder: Path) -> None:
    """Write a log of very many rows, and very many small ones."""
    from benchmarks.long_log import write_long_log  # noqa: PLC0415

    write_long_log(folder / "long.csv", LONG_ROWS)
    (folder / "many").mkdir()
    for number in range(MANY_FILES):
        write_long_log(folder / "many" / f"{number}.csv", 900 + number)


def main(words: list[str], *, where: bool) -> None:
    """Do one thing after the other and print the longest gap of each."""
    application = QApplication([])
    application.setStyle("Fusion")
    with tempfile.TemporaryDirectory() as lent:
        folder = Path(lent)
        # written by another process, for what writes them loads what the program may not have
        subprocess.run([sys.executable, __file__, "--logs", lent], check=True)
        desk = desk_in(folder / "desk")
        desk.window.resize(*SIZE)
        desk.window.show()
        heart, answering = Heartbeat(where=where), Answering()
        say("longest gap [ms] while it goes on, and where its end is shown")
        answering.loaded.connect(desk.window.work.make_ahead)
        gaps = heart.during(answering.begin, lambda: answering.is_looking, LOADED_S)
        say(_line(gaps, "modules being loaded"))
        for scene in SCENES:
            if words and not any(word in scene.name for word in words):
                continue
            does = partial(scene.does, desk, folder / "long.csv")
            gaps = heart.during(does, partial(_over, desk), REST_S)
            say(_line(gaps, scene.name))
            for stack, count in heart.seen.most_common(6):
                say(f"          {count} looks: {stack}")
        answering.end()
        heart.end()
        put_away(desk.window)
        leave_to_qt()


if __name__ == "__main__" and "--logs" in sys.argv:
    write_logs(Path(sys.argv[-1]))
elif __name__ == "__main__":
    main([one for one in sys.argv[1:] if one != "--where"], where="--where" in sys.argv)
