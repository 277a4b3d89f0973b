"""What a person does with the window from beginning to end, one function a story.

Every story takes a desk with the window on it and uses mouse and keys where a person would. The
same functions are run without a screen by the tests and in a real window by ``real_window.py``.
"""

import shutil
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from hands import hands
from PySide6.QtCore import QCoreApplication, QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QGuiApplication, QImage
from PySide6.QtWidgets import (
    QAbstractItemView,
    QApplication,
    QComboBox,
    QLineEdit,
    QScrollArea,
    QTableView,
    QWidget,
)
from waiting import until_all_done

from firing_review.firing.units import TemperatureUnit
from firing_review.firing.wording import Language
from firing_review.io.resource_path import demo_logs
from firing_review.report.paper.page import Reader
from firing_review.ui.app import make_window
from firing_review.ui.ask import Questions
from firing_review.ui.firing_place.panel import Beside
from firing_review.ui.main_window import MainWindow
from firing_review.ui.paper_place.view import CHOICES

FAR_FROM_ROOM_C = 700.0
STILL_LOOKS = 10
"""What stands in parts that scroll is laid out in as many turns, before a person can press."""


@dataclass(frozen=True)
class Desk:
    """The window, and a folder with what a person has at hand and keeps."""

    window: MainWindow
    folder: Path


def desk_in(folder: Path) -> Desk:
    """Return a desk whose window keeps its state, and what it saves, in ``folder``."""
    home = folder / "home"
    home.mkdir(parents=True)

    def page_to_save(_parent: QWidget, suggested: Path) -> Path:
        return folder / f"kept{suggested.suffix}"

    def file_to_open(_parent: QWidget, _title: str, _folder: Path) -> Path:
        image = QImage(200, 100, QImage.Format.Format_RGB32)
        image.fill(Qt.GlobalColor.lightGray)
        image.save(str(folder / "cones.png"))
        return folder / "cones.png"

    questions = Questions(file_to_open=file_to_open, page_to_save=page_to_save)
    return Desk(make_window(home, questions), folder)


# what hands do


def drop(window: MainWindow, *paths: Path) -> None:
    """Drop files on the window."""
    hands().drop(window, paths)
    settle()


def click(widget: QWidget) -> None:
    """Click in the middle of something that can be seen and clicked."""
    assert widget.isVisible()
    assert widget.isEnabled()
    click_at(widget, widget.rect().center())


def click_at(widget: QWidget, place: QPoint) -> None:
    """Scroll until a place of a widget is in sight and stays where it is, and click there."""
    there, looks = None, 0
    while looks < STILL_LOOKS:
        above = widget.parentWidget()
        while above is not None:
            if isinstance(above, QScrollArea):
                seen = widget.mapTo(above.widget(), place)
                above.ensureVisible(seen.x(), seen.y())
            above = above.parentWidget()
        QCoreApplication.processEvents()
        before, there = there, widget.mapToGlobal(place)
        looks = looks + 1 if there == before else 0
    hands().click(widget, place)
    until_all_done()
    QCoreApplication.processEvents()


def type_into(entry: QLineEdit, text: str) -> None:
    """Write over what stands in an entry, and leave it with Enter."""
    click(entry)
    entry.selectAll()
    hands().write(entry, text)
    hands().press(entry, Qt.Key.Key_Return)
    QCoreApplication.processEvents()


def type_rows(table: QTableView, rows: str) -> None:
    """Type cells separated by blanks, rows by commas, a key at a time."""
    for row, cells in enumerate(rows.split(",")):
        for column, text in enumerate(cells.split()):
            type_cell(table, row, column, text)


def type_cell(table: QTableView, row: int, column: int, text: str) -> None:
    """Type into a cell and leave it with Enter."""
    click_item(table, row, column)
    hands().write(table, text[:1])
    editor = next(e for e in table.findChildren(QLineEdit) if e.isVisible())
    hands().write(editor, text[1:])
    hands().press(editor, Qt.Key.Key_Return)
    settle()


def click_item(items: QAbstractItemView, row: int, column: int = 0) -> None:
    """Bring a cell or a row of a list in sight and click in its middle."""
    cell = items.model().index(row, column)
    items.scrollTo(cell)
    click_at(items.viewport(), items.visualRect(cell).center())
    settle()


def choose(chooser: QComboBox, words: str) -> None:
    """Open the list, go to what begins with these words, take it with Enter."""
    place = chooser.findText(words, Qt.MatchFlag.MatchStartsWith)
    assert place >= 0, words
    click(chooser)
    view = chooser.view()
    hands().press(view, Qt.Key.Key_Home)
    for _row in range(place):
        hands().press(view, Qt.Key.Key_Down)
    hands().press(view, Qt.Key.Key_Return)
    settle()
    assert chooser.currentIndex() == place, (chooser.currentText(), words)


def settle() -> None:
    """Let the window finish what it is at, deletions included."""
    QCoreApplication.processEvents()
    until_all_done()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)


def speak_from_the_menu(window: MainWindow, language: Language) -> None:
    """Choose a language from the menu."""
    belows = [a.menu() for a in window.actions.menu.actions() if a.menu() is not None]
    choices = [a for below in belows for a in below.actions()]
    next(a for a in choices if a.data() == language.value).trigger()
    QApplication.processEvents()
    settle()


def go_to(window: MainWindow, key: str) -> None:
    """Click a place in the list at the left."""
    places = window.work.list
    row = [place.key for place in window.places.all()].index(key)
    click_item(places, row)
    assert places.key == key


# what lies on the desk


def demo_file(desk: Desk, demo: str, name: str) -> Path:
    """Return a copy of a demo firing's file, under a name of the desk's own."""
    (source,) = demo_logs().glob(f"{demo}_*")
    return Path(shutil.copy(source / name, desk.folder / name))


def climb_log(desk: Desk, top: float, name: str = "night.csv", per_h: float = 150.0) -> Path:
    """Return a log headed °C: straight up to ``top``, then natural cooling, a row a minute."""
    hours = np.arange(0, 14, 1 / 60)
    top_h = (top - 20.0) / per_h
    down = 20.0 + (top - 20.0) * np.exp(-(hours - top_h) / 4.0)
    values = np.where(hours <= top_h, 20.0 + per_h * hours, down)
    rows = [f"{minute},{value:.1f}" for minute, value in enumerate(values)]
    path = desk.folder / name
    path.write_text("\n".join(["time_min,chamber_C", *rows]) + "\n", encoding="utf-8")
    return path


# the stories


def an_underfired_load_from_the_drop_to_a_page_on_paper(desk: Desk) -> None:
    """Log and schedule are dropped, the goal chosen, cones typed, a page saved as PDF."""
    window = desk.window
    drop(window, demo_file(desk, "2", "schedule.csv"), demo_file(desk, "2", "log.csv"))
    choose(window.top_bar.view.goal, "cone 6,")
    window.firing.show_beside(Beside.SAFETY)
    click(window.firing.safety.view.none)
    go_to(window, "shelves")
    type_rows(window.shelves.view.table, "middle 5 80,middle 6 15,middle 7 0")
    said = window.verdict.view.sentence.text()
    assert "middle stayed cooler than meant: about cone 4.9" in said, said
    assert "Heating ended at 1160 °C" in said, said
    go_to(window, "paper")
    page = window.paper
    choose(page.view.choice, "For the maker")
    click(page.view.save_pdf)
    kept = desk.folder / "kept.pdf"
    assert kept.read_bytes().startswith(b"%PDF")
    assert kept.name in page.view.said.text()


def a_technician_types_plate_and_meter_readings_and_copies_the_page(desk: Desk) -> None:
    """Kiln form and readings by keys; the page on the clipboard holds the sums of both."""
    window = desk.window
    drop(window, climb_log(desk, 1100.0))
    window.firing.show_beside(Beside.KILN)
    form = window.firing.kiln.view
    for key, text in (("name", "Marten"), ("rated_kw", "7,2"), ("rated_volts", "240")):
        type_into(form.entries[key], text)
    type_rows(form.sections, "bottom 3.6 16,top 3.6 16")
    go_to(window, "elements")
    view = window.elements.view
    type_into(view.at_rest, "240")
    type_into(view.at_load, "228")
    for row, ohms in enumerate(("20", "16")):
        type_cell(view.table, row, 1, ohms)
    sums = view.sums.text().splitlines()
    assert any(line.startswith("bottom: about ") for line in sums), sums
    go_to(window, "paper")
    choose(window.paper.view.choice, "For the technician")
    click(window.paper.view.copy)
    text = QGuiApplication.clipboard().text()
    assert window.paper.page.kind
    # 20 Ω where 16 Ω is listed is a quarter more; 228 V of 240 V is 5 % less
    for word in ("Marten", "7.2", "240", "228", "20.00", "16.00", "+25 %"):
        assert word in text, (word, text)


def cone_06_was_fired_where_6_was_meant(desk: Desk) -> None:
    """The schedule that was typed ends at 06; the goal is 6; the verdict says which is which."""
    window = desk.window
    drop(window, climb_log(desk, 998.0, per_h=60.0))
    window.firing.show_beside(Beside.SCHEDULE)
    type_rows(window.firing.schedule.view.table, "60 998 0")
    choose(window.top_bar.view.goal, "cone 6,")
    said = window.verdict.view.sentence.text()
    assert said.startswith(
        "The goal is cone 6 (about 1222 °C), but the schedule makes cone 06 (about 998 °C)"
    ), said


def a_power_cut_is_found_and_a_note_pinned_to_it(desk: Desk) -> None:
    """The finding is clicked in the list; a note is written at the cursor by keys."""
    window = desk.window
    drop(window, demo_file(desk, "7", "log.csv"), demo_file(desk, "7", "schedule.csv"))
    kinds = [finding.kind.value for finding in window.sitting.review.findings]
    row = next(n for n, kind in enumerate(kinds) if "power" in kind)
    click_item(window.firing.findings.view.rows, row)
    assert window.showing.finding == row
    chart = window.firing.chart
    chart.move_cursor(window.sitting.review.findings[row].start_h)
    chart.view.lanes.setFocus()
    hands().press(chart.view.lanes, Qt.Key.Key_N)
    type_into(chart.view.note_line.text, "lights out in the street")
    (note,) = window.sitting.review.given.notes
    assert note.text == "lights out in the street"
    assert chart.view.note_strip.isVisible()
    window.sitting.keep_now()
    assert window.top_bar.view.kept.text() == "kept"


def a_log_read_in_the_wrong_unit_is_put_right(desk: Desk) -> None:
    """A log headed °C that is °F: corrected on the page, and back with undo."""
    window = desk.window
    drop(window, climb_log(desk, 1400.0, name="headed wrong.csv"))
    window.actions["how_read"].trigger()
    settle()
    page = window.open_log
    assert page.isVisible()
    choose(page.view.unit, "°F")
    click(page.view.use)
    assert window.work.isVisible()
    assert peak_c(window) == (1400.0 - 32.0) / 1.8
    assert window.sitting.review.given.log.unit_read is TemperatureUnit.FAHRENHEIT
    click(window.top_bar.view.undo)
    assert peak_c(window) == 1400.0
    click(window.top_bar.view.redo)
    assert peak_c(window) < FAR_FROM_ROOM_C + 100.0


def peak_c(window: MainWindow) -> float:
    """Return the highest reading, to a tenth."""
    return float(round(np.nanmax(window.sitting.review.given.log.temperatures[0].values), 1))


def every_kind_of_edit_is_undone_to_the_very_beginning_and_done_again(desk: Desk) -> None:
    """Eleven edits of eleven kinds, each with its name on the way back."""
    window = desk.window
    drop(window, climb_log(desk, 1100.0))
    reviews = [window.sitting.review]
    for name, edit in EVERY_EDIT.items():
        edit(window)
        until_all_done()
        assert window.actions["undo"].text() == f"Undo: {name}"
        reviews.append(window.sitting.review)
    for name, before in zip(reversed(EVERY_EDIT), reversed(reviews[:-1]), strict=True):
        assert window.actions["undo"].text() == f"Undo: {name}"
        click(window.top_bar.view.undo)
        assert window.sitting.review is before, name
    assert not window.actions["undo"].isEnabled()
    for name, after in zip(EVERY_EDIT, reviews[1:], strict=True):
        assert window.actions["redo"].text() == f"Redo: {name}"
        click(window.top_bar.view.redo)
        assert window.sitting.review is after
    assert not window.actions["redo"].isEnabled()


def _schedule(window: MainWindow) -> None:
    window.firing.show_beside(Beside.SCHEDULE)
    type_rows(window.firing.schedule.view.table, "150 1120")


def _kiln(window: MainWindow) -> None:
    window.firing.show_beside(Beside.KILN)
    type_into(window.firing.kiln.view.entries["name"], "Marten")


def _shelves(window: MainWindow) -> None:
    go_to(window, "shelves")
    click(window.shelves.view.add_shelf)


def _cones(window: MainWindow) -> None:
    click(window.shelves.view.pack)


def _picture(window: MainWindow) -> None:
    """Mark the shelf, then foot and tip of a cone at its end point."""
    window.shelves.view.table.setCurrentIndex(window.shelves.model.index(0, 0))
    click(window.shelves.view.photo)
    photo = window.shelves.photo
    assert photo.isVisible()
    for x, y in ((0, 90), (190, 90), (20, 90), (60, 90)):
        place = photo.view.mapFromScene(QPointF(x, y))
        hands().click(photo.view.viewport(), place)
    click(photo.use)
    assert window.sitting.review.given.cones[0].bend_deg > 85.0
    assert [one.name for one in window.sitting.review.given.pictures] == ["cones.png"]


def _title(window: MainWindow) -> None:
    title = window.top_bar.view.title
    click(title.button)
    type_into(title.entry, "Tuesday")


def _answers(window: MainWindow) -> None:
    click(window.verdict.view.answer)
    click(window.firing.safety.view.none)


def _readings(window: MainWindow) -> None:
    go_to(window, "elements")
    type_into(window.elements.view.at_rest, "238")


def _note(window: MainWindow) -> None:
    go_to(window, "firing")
    chart = window.firing.chart
    chart.move_cursor(4.5)
    chart.view.lanes.setFocus()
    hands().press(chart.view.lanes, Qt.Key.Key_N)
    type_into(chart.view.note_line.text, "smell of wax")


EVERY_EDIT: dict[str, Callable[[MainWindow], None]] = {
    "schedule": _schedule,
    "kiln": _kiln,
    "goal cone": lambda window: choose(window.top_bar.view.goal, "cone 06,"),
    "title": _title,
    "shelves": _shelves,
    "witness cones": _cones,
    "bends from a picture": _picture,
    "answers": _answers,
    "meter readings": _readings,
    "note added": _note,
    "how the log is read": lambda window: window.actions["reread"].trigger(),
}


def another_language_in_the_middle_of_the_work(desk: Desk) -> None:
    """Half the work in English, half in German; undo goes through both."""
    window = desk.window
    drop(window, climb_log(desk, 1100.0))
    first = window.sitting.review
    _schedule(window)
    english = window.verdict.view.sentence.text()
    speak_from_the_menu(window, Language.GERMAN)
    german = window.verdict.view.sentence.text()
    assert german not in ("", english)
    _kiln(window)
    assert window.top_bar.view.title.text() == "night.csv · Marten"
    go_to(window, "paper")
    window.paper.view.choice.setFocus()
    window.paper.view.choice.setCurrentIndex(list(CHOICES).index(Reader.TECHNICIAN))
    click(window.paper.view.copy)
    text = QGuiApplication.clipboard().text()
    assert "Marten" in text, text
    speak_from_the_menu(window, Language.ENGLISH_US)
    assert window.work.list.key == "paper"
    assert window.actions["undo"].text() == "Undo: kiln", window.actions["undo"].text()
    click(window.top_bar.view.undo)
    assert window.verdict.view.sentence.text() == english
    click(window.top_bar.view.undo)
    assert window.sitting.review is first


STORIES: tuple[Callable[[Desk], None], ...] = (
    an_underfired_load_from_the_drop_to_a_page_on_paper,
    a_technician_types_plate_and_meter_readings_and_copies_the_page,
    cone_06_was_fired_where_6_was_meant,
    a_power_cut_is_found_and_a_note_pinned_to_it,
    a_log_read_in_the_wrong_unit_is_put_right,
    every_kind_of_edit_is_undone_to_the_very_beginning_and_done_again,
    another_language_in_the_middle_of_the_work,
)
