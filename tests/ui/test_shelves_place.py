"""Cones entered by keyboard, by hand and by word; every one of them goes into the review."""

from collections.abc import Iterator
from itertools import pairwise

import pytest
from closing import put_away
from firings import GOOD, TO_1000, log_of
from PySide6.QtCore import QBuffer, QCoreApplication, QEvent, QIODevice, QPointF, Qt
from PySide6.QtGui import QFontMetricsF, QImage
from PySide6.QtWidgets import QApplication, QLineEdit

from firing_review.firing.cones import Bend, ConeKind, ConeNumber, ShelfCone
from firing_review.firing.errors import InputError
from firing_review.firing.kiln import Kiln, Section
from firing_review.firing.sheet import Given, Picture
from firing_review.io.log_csv import read_log_bytes
from firing_review.io.resource_path import demo_logs
from firing_review.io.sheets import read_firing_sheet, write_firing_folder
from firing_review.io.tables import load_tables
from firing_review.report.shelves import spot_of
from firing_review.review import edits
from firing_review.review.pipeline import review_firing
from firing_review.ui.shelves_place.cone_shape import bend_from_tip, tip_of
from firing_review.ui.shelves_place.panel import ShelvesPlace, pack_of
from firing_review.ui.shelves_place.photo_bends import (
    PHOTO_ERROR_DEG,
    PhotoBends,
    bend_off_picture,
)

KILN = Kiln(name="Wren", sections=(Section("bottom"), Section("middle"), Section("top")))


def cone(shelf: str, number: str, bend: float) -> ShelfCone:
    return ShelfCone(shelf, "", ConeNumber(number), ConeKind.SELF_SUPPORTING, bend)


class Bench:
    """A place with a review behind it: what is edited comes back, as in the window."""

    def __init__(self, place: ShelvesPlace) -> None:
        self.place, self.tables, self.edits = place, load_tables(), 0
        given = Given(log_of(GOOD), "t", TO_1000, (), KILN, ConeNumber("06"))
        self.review = review_firing(given, self.tables)
        place.conesEdited.connect(self.take)
        place.show_review(self.review)

    def take(self, cones: object) -> None:
        self.edits += 1
        self.review = edits.set_cones(cones)(self.review, self.tables)
        self.place.show_review(self.review)

    def take_shelves(self, kiln: Kiln, cones: object) -> None:
        self.review = edits.set_shelves(kiln, cones)(self.review, self.tables)
        self.place.show_review(self.review)

    def take_bends(self, cones: object, pictures: object) -> None:
        self.review = edits.set_bends(cones, pictures)(self.review, self.tables)
        self.place.show_review(self.review)

    @property
    def bends(self) -> list[tuple[str, str, float]]:
        return [(c.shelf, c.cone.text, c.bend_deg) for c in self.review.given.cones]


@pytest.fixture
def bench(qapp, appearance, showing, answers) -> Iterator[Bench]:
    place = ShelvesPlace(appearance, showing, answers.questions())
    place.resize(1200, 600)
    place.show()
    yield Bench(place)
    put_away(place)


def type_row(qtbot, place: ShelvesPlace, row: int, cells: list[str]) -> None:
    for column, text in enumerate(cells):
        table = place.view.table
        table.setCurrentIndex(place.model.index(row, column))
        qtbot.keyClicks(table, text[0])
        line = next(e for e in table.findChildren(QLineEdit) if e.isVisible())
        qtbot.keyClicks(line, text[1:])
        qtbot.keyClick(line, Qt.Key.Key_Return)
        # the delegate's editor goes when Qt comes to it; the next cell brings its own
        QCoreApplication.processEvents()
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)


def test_a_pack_for_three_shelves_is_entered_by_keyboard_alone(qtbot, bench: Bench) -> None:
    keys = 0
    rows = "1 07 flat, 1 06 85, 1 05 0, 2 07 flat, 2 06 45, 2 05 0, 3 07 90, 3 06 15, 3 05 0"
    for row, cells in enumerate(line.split() for line in rows.split(", ")):
        type_row(qtbot, bench.place, row, cells)
        keys += sum(len(c) + 1 for c in cells)
    assert bench.bends[0] == ("bottom", "07", 110.0)
    assert bench.bends[4] == ("middle", "06", 45.0)
    assert bench.bends[6] == ("top", "07", 90.0)
    assert len(bench.review.shelves) == 3
    # under a minute at three keys a second
    assert keys < 3 * 60


def test_three_cones_for_every_shelf_come_with_one_press(qtbot, bench: Bench) -> None:
    qtbot.mouseClick(bench.place.view.pack, Qt.MouseButton.LeftButton)
    assert [c[1] for c in bench.bends] == ["07", "06", "05"] * 3
    assert len(bench.place.scene.cones) == 9


def test_how_near_the_goal_a_shelf_must_be_is_chosen_and_undone(window) -> None:
    window.open_path(demo_logs() / "2_worn_heating_elements")
    window.work.go_to("shelves")
    choice = window.work.panel("shelves").view.within.choice
    assert choice.currentText() == "± 0.5 cone"
    choice.setCurrentIndex(choice.findData(1.0))
    choice.activated.emit(choice.currentIndex())
    assert window.sitting.review.given.tolerance_cones == 1.0
    window.sitting.undo()
    assert choice.currentText() == "± 0.5 cone"


def test_a_tolerance_from_a_sheet_that_is_no_usual_one_is_shown_as_it_is(bench: Bench) -> None:
    bench.review = edits.set_tolerance(0.7)(bench.review, bench.tables)
    bench.place.show_review(bench.review)
    assert bench.place.view.within.choice.currentText() == "± 0.7 cone"


def test_a_drawing_bends_the_chosen_cone(qtbot, bench: Bench) -> None:
    bench.take((cone("top", "06", 0.0), cone("top", "05", 0.0)))
    bench.place.view.table.setCurrentIndex(bench.place.model.index(1, 0))
    button = bench.place.view.drawings[Bend.THREE_QUARTERS]
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert bench.bends == [("top", "06", 0.0), ("top", "05", 68.0)]


def test_the_arrow_keys_bend_a_cone_and_it_keeps_the_keyboard(qtbot, bench: Bench) -> None:
    bench.take((cone("top", "06", 40.0),))
    bench.place.scene.cones[0].setFocus()
    bench.place.view.chamber.setFocus()
    for _ in range(3):
        qtbot.keyClick(bench.place.view.chamber, Qt.Key.Key_Right)
    qtbot.keyClick(bench.place.view.chamber, Qt.Key.Key_PageDown)
    QCoreApplication.processEvents()
    assert bench.bends == [("top", "06", 53.0)]
    qtbot.keyClick(bench.place.view.chamber, Qt.Key.Key_5)
    QCoreApplication.processEvents()
    assert bench.bends == [("top", "06", 90.0)]


def test_a_shelf_that_does_not_exist_is_marked_and_nothing_is_lost(qtbot, bench: Bench) -> None:
    bench.take((cone("top", "06", 40.0),))
    type_row(qtbot, bench.place, 1, ["attic", "06", "40"])
    assert bench.bends == [("top", "06", 40.0)]
    assert "bottom, middle, top" in bench.place.view.message.text()
    assert bench.place.model.rows[1][:3] == ("attic", "06", "40")


def test_undo_elsewhere_shows_in_the_table(bench: Bench) -> None:
    bench.take((cone("top", "06", 40.0),))
    bench.take(())
    assert bench.place.model.rows == []


@pytest.mark.parametrize("bend", [0.0, 20.0, 45.0, 68.0, 90.0])
def test_a_tip_dragged_to_where_a_cone_is_drawn_gives_its_bend(bend: float) -> None:
    assert bend_from_tip(QPointF(0, 0), tip_of(bend, 50.0)) == pytest.approx(bend, abs=3.0)


def test_an_end_point_is_drawn_with_its_tip_level_with_its_foot() -> None:
    assert tip_of(90.0, 50.0).y() == pytest.approx(0.0, abs=1.5)


@pytest.mark.parametrize(
    ("goal", "pack"),
    [("6", ["5", "6", "7"]), ("022", ["022", "022", "021"]), ("01", ["02", "01", "1"])],
)
def test_a_pack_is_one_cooler_the_goal_and_one_hotter(goal: str, pack: list[str]) -> None:
    assert pack_of(ConeNumber(goal)) == pack


def test_a_shelf_is_added_moved_and_removed_with_its_cones(qtbot, bench: Bench) -> None:
    bench.place.shelvesEdited.connect(bench.take_shelves)
    bench.take((cone("top", "06", 40.0), cone("bottom", "06", 50.0)))
    bench.place.view.add_shelf.click()
    assert bench.review.given.kiln.shelf_names == ("bottom", "middle", "top", "shelf 4")
    bench.place.view.table.setCurrentIndex(bench.place.model.index(0, 0))
    bench.place.view.shelf_down.click()
    assert bench.review.given.kiln.shelf_names == ("bottom", "top", "middle", "shelf 4")
    bench.place.view.table.setCurrentIndex(bench.place.model.index(0, 0))
    bench.place.view.remove_shelf.click()
    assert bench.review.given.kiln.shelf_names == ("bottom", "middle", "shelf 4")
    assert bench.bends == [("bottom", "06", 50.0)]


def picture() -> Picture:
    image = QImage(200, 100, QImage.Format.Format_RGB32)
    image.fill(0xFFFFFF)
    store = QBuffer()
    store.open(QIODevice.OpenModeFlag.WriteOnly)
    image.save(store, "PNG")
    return Picture("cones.png", bytes(store.data()))


def test_bends_are_taken_off_a_photo_and_the_photo_is_kept(qapp, appearance, bench: Bench) -> None:
    bench.place.bendsTaken.connect(bench.take_bends)
    bench.take((cone("top", "06", 0.0), cone("top", "05", 0.0)))
    window = PhotoBends(appearance, picture(), bench.place)
    window.taken.connect(bench.place._on_bends)
    # a level shelf line, one cone at its end point, one leaning 8 degrees as it was set
    for x, y in ((0, 90), (190, 90), (20, 90), (60, 90), (100, 90), (104.22, 60)):
        window.mark(QPointF(x, y))
    assert window.bends == pytest.approx([90.0, 0.0], abs=1.0)
    window.mark(QPointF(150, 90))
    window.back.click()
    assert len(window.points) == 6
    window.use.click()
    assert [c[2] for c in bench.bends] == pytest.approx([90.0, 0.0], abs=1.0)
    assert bench.review.given.cones[0].reading_error_deg == PHOTO_ERROR_DEG
    assert [p.name for p in bench.review.given.pictures] == ["cones.png"]
    put_away(window)


def test_a_picture_is_marked_with_the_keys_alone(qapp, qtbot, appearance, bench: Bench) -> None:
    window = PhotoBends(appearance, picture(), bench.place)
    window.show()
    start, keys = window.view.at, Qt.KeyboardModifier
    for key in (Qt.Key.Key_Left, Qt.Key.Key_Down):
        qtbot.keyClick(window.view, key)
    qtbot.keyClick(window.view, Qt.Key.Key_Right, keys.ShiftModifier)
    qtbot.keyClick(window.view, Qt.Key.Key_Return)
    width = window.scene.sceneRect().width()
    (mark,) = window.points
    assert mark.x() - start.x() == pytest.approx(-width / 50 + width / 500)
    assert mark.y() - start.y() == pytest.approx(width / 50)
    for _ in range(60):
        qtbot.keyClick(window.view, Qt.Key.Key_Left)
    assert window.view.at.x() == window.scene.sceneRect().left()
    put_away(window)


def test_a_file_that_is_no_picture_is_refused(qapp, appearance, bench: Bench) -> None:
    with pytest.raises(InputError, match="JPEG or PNG"):
        PhotoBends(appearance, Picture("notes.txt", b"no picture"), bench.place)


def test_a_tilted_picture_gives_the_same_bend() -> None:
    level = bend_off_picture((QPointF(0, 0), QPointF(10, 0)), QPointF(0, 0), QPointF(5, -5))
    tilted = bend_off_picture((QPointF(0, 0), QPointF(7, 7)), QPointF(0, 0), QPointF(7, 0))
    assert level == pytest.approx(tilted, abs=0.5)
    # a tip 45 degrees from the vertical: (45 - 8) * 90 / 82
    assert level == pytest.approx(40.6, abs=0.1)


def test_a_picture_is_written_with_the_firing_and_reads_back(tmp_path) -> None:
    raw = b"elapsed_min,chamber_C\n" + b"".join(b"%d,%d\n" % (m, 20 + m) for m in range(300))
    log = read_log_bytes(raw, "log.csv")
    given = Given(log, "t", pictures=(picture(),))
    sheet = write_firing_folder(given, tmp_path / "firing")
    assert read_firing_sheet(sheet).pictures == given.pictures


@pytest.mark.parametrize(
    ("position", "spot"),
    [("front left", (0.2, 0.85)), ("centre", (0.5, 0.5)), ("back", (0.5, 0.2))],
)
def test_a_position_has_its_place_on_the_shelf_from_above(position, spot) -> None:
    assert spot_of(position) == spot


def test_without_cones_the_place_says_how_to_begin_and_offers_no_bend(qtbot, bench: Bench) -> None:
    view = bench.place.view
    assert "Three cones on every shelf" in view.hint.text()
    assert not view.drawings[Bend.HALF].isEnabled()
    qtbot.mouseClick(view.pack, Qt.MouseButton.LeftButton)
    assert "Drag the tip" in view.hint.text()
    view.table.setCurrentIndex(bench.place.model.index(0, 0))
    assert view.drawings[Bend.HALF].isEnabled()


def test_each_of_the_seven_buttons_draws_its_cone(window, log_file):
    window.open_path(log_file)
    window.work.go_to("shelves")
    buttons = window.shelves.view.drawings.values()
    drawn = [button.icon().pixmap(button.iconSize()).toImage() for button in buttons]
    assert len(drawn) == 7
    assert not any(image.isNull() for image in drawn)
    assert all(one != other for one, other in pairwise(drawn))


@pytest.mark.parametrize(("size", "words"), [((1366, 768), "05 · 100°"), ((683, 384), "05")])
def test_bends_are_written_under_the_cones_where_they_have_room(window, size, words):
    window.resize(*size)
    window.open_path(demo_logs() / "7_power_cut")
    window.work.go_to("shelves")
    QApplication.processEvents()
    cones = [item for item in window.shelves.scene.cones if item.cone.shelf == "top"]
    assert words in [item.label for item in cones]
    for item, after in pairwise(cones):
        width = QFontMetricsF(item._font()).horizontalAdvance(item.label)
        assert item.scenePos().x() + width < after.scenePos().x()
