"""From an edit to the painted window, for every kind of edit and the place where it is made.

Run with ``python tests/benchmarks/bench_edits.py``; printed, never a condition.
The firings are the demo firings with most to weigh: 1,600 to 1,800 rows, cones and an earlier one.
"""

import statistics
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from benchmarks.heartbeat import say
from closing import put_away
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from user_paths import Desk, desk_in
from waiting import until_done

from firing_review.firing.cones import ConeNumber
from firing_review.firing.kiln import Shelf
from firing_review.firing.log import FiringLog
from firing_review.firing.schedule import Schedule
from firing_review.firing.sheet import Given, TimeNote
from firing_review.firing.units import TemperatureUnit
from firing_review.io.log_csv import read_log_bytes
from firing_review.io.resource_path import demo_logs
from firing_review.review import edits
from firing_review.review.edits import Edit
from firing_review.ui.answering import Answering

TIMES, LOADED_MS = 9, 3000
SIZE = (1366, 768)
FIRINGS = ("2_worn_heating_elements", "8_uneven_load")


@dataclass(frozen=True)
class Kind:
    """A kind of edit: where in the window it is made, and the edit of a turn."""

    name: str
    place: str
    edit: Callable[[Given, int], Edit]


def _schedule(given: Given, turn: int) -> Edit:
    schedule = given.intended
    assert isinstance(schedule, Schedule)
    first = schedule.segments[0]
    changed = replace(first, target_c=first.target_c + 1.0 + turn)
    return edits.set_schedule(replace(schedule, segments=(changed, *schedule.segments[1:])))


def _cones(given: Given, turn: int) -> Edit:
    first, *rest = given.cones
    return edits.set_cones((replace(first, bend_deg=40.0 + turn), *rest))


def _kiln(given: Given, turn: int) -> Edit:
    assert given.kiln is not None
    return edits.set_kiln(replace(given.kiln, rated_volts=220.0 + turn))


def _shelves(given: Given, turn: int) -> Edit:
    assert given.kiln is not None
    shelves = given.kiln.shelves or tuple(map(Shelf, given.kiln.shelf_names))
    moved = replace(shelves[-1], height_mm=900.0 + turn)
    kiln = replace(given.kiln, shelves=(*shelves[:-1], moved))
    return edits.set_shelves(kiln, given.cones)


def _readings(given: Given, turn: int) -> Edit:
    return edits.set_readings(replace(given.readings, volts_full_load=225.0 + turn))


def _answers(given: Given, turn: int) -> Edit:
    firings = 10 + turn
    return edits.set_answers(replace(given.answers, firings_since_elements=firings))


def _log(given: Given, turn: int) -> Edit:
    units = (TemperatureUnit.FAHRENHEIT, TemperatureUnit.CELSIUS)
    log: FiringLog = given.log
    return edits.set_log(read_log_bytes(log.raw, log.source, units[turn % 2]))


KINDS = (
    Kind("title", "firing", lambda _given, turn: edits.set_title(f"Glaze {turn}")),
    Kind("goal cone", "firing", lambda _, n: edits.set_goal_cone(ConeNumber("56"[n % 2]))),
    Kind("goal cone, Causes", "causes", lambda _, n: edits.set_goal_cone(ConeNumber("56"[n % 2]))),
    Kind("schedule", "firing", _schedule),
    Kind("kiln", "firing", _kiln),
    Kind("safety", "firing", lambda _, n: edits.set_safety(() if n % 2 else None)),
    Kind("note", "firing", lambda _, n: edits.add_note(TimeNote(1.0 + n, "opened a bung"))),
    Kind("log", "firing", _log),
    Kind("cones", "shelves", _cones),
    Kind("shelves", "shelves", _shelves),
    Kind("tolerance", "shelves", lambda _, n: edits.set_tolerance(0.4 + 0.05 * n)),
    Kind("readings", "elements", _readings),
    Kind("answers", "causes", _answers),
    Kind("cones, Next firing", "next", _cones),
    Kind("cones, Paper", "paper", _cones),
)


def desk_with(firing: str, folder: Path, *, in_a_book: bool) -> Desk:
    """Return the window with a demo firing on the screen, kept in a file or in a book."""
    desk = desk_in(folder)
    desk.window.resize(*SIZE)
    desk.window.show()
    desk.window.open_path(demo_logs() / firing)
    until_done(desk.window)
    if in_a_book:
        desk.window.tools.book.create(folder / "kilns.firingbook")
        desk.window.books.add_open()
        until_done(desk.window)
    return desk


def spent_ms(desk: Desk, edit: Edit, application: QApplication) -> tuple[float, float]:
    """Return the time, and the processor time, until the window is painted again [ms]."""
    application.processEvents()
    began, began_busy = time.perf_counter(), time.process_time()
    desk.window.sitting.edit(edit)
    application.processEvents()
    application.processEvents()
    return 1000 * (time.perf_counter() - began), 1000 * (time.process_time() - began_busy)


def time_edits(desk: Desk, application: QApplication) -> float:
    """Make every kind of edit some times; print what it took, and return the longest [ms]."""
    worst = 0.0
    for kind in KINDS:
        desk.window.work.go_to(kind.place)
        took = []
        for turn in range(TIMES):
            review = desk.window.sitting.review
            assert review is not None
            edit = kind.edit(review.given, turn)
            took.append(spent_ms(desk, edit, application))
        times = [wall for wall, _ in took]
        middle, (longest, busy) = statistics.median(times), max(took)
        worst = max(worst, longest)
        say(f"{kind.name:20s} {middle:4.0f} ms, worst {longest:4.0f} (processor {busy:4.0f})")
    return worst


def main() -> None:
    """Time the edits of two firings, each by itself and in a kiln book."""
    application = QApplication([])
    application.setStyle("Fusion")
    answering = Answering()
    answering.begin()
    QTest.qWait(LOADED_MS)
    for firing in FIRINGS:
        for in_a_book in (False, True):
            with tempfile.TemporaryDirectory() as folder:
                say(f"\n{firing}{', in a book' if in_a_book else ''}")
                desk = desk_with(firing, Path(folder), in_a_book=in_a_book)
                say(f"worst of all {time_edits(desk, application):.0f} ms")
                put_away(desk.window)
    answering.end()


if __name__ == "__main__":
    main()
