"""Cones entered by keyboard, by hand and by word; every one of them goes into the review."""

from collections.abc import Iterator

import pytest
from closing import put_away
from firings import GOOD, TO_1000, log_of
from PySide6.QtCore import QCoreApplication, QEvent, QPointF, Qt
from PySide6.QtWidgets import QLineEdit

from firing_review.firing.cones import Bend, ConeKind, ConeNumber, ShelfCone
from firing_review.firing.kiln import Kiln, Section
from firing_review.firing.sheet import Given
from firing_review.io.tables import load_tables
from firing_review.review import edits
from firing_review.review.pipeline import review_firing
from firing_review.ui.shelves_place.cone_shape import bend_from_tip, tip_of
from firing_review.ui.shelves_place.panel import ShelvesPlace, pack_of

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

    @property
    def bends(self) -> list[tuple[str, str, float]]:
        return [(c.shelf, c.cone.text, c.bend_deg) for c in self.review.given.cones]


@pytest.fixture
def bench(qapp, appearance, showing) -> Iterator[Bench]:
    place = ShelvesPlace(appearance, showing)
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
    assert bench.bends == [("top", "06", 53.0)]
    qtbot.keyClick(bench.place.view.chamber, Qt.Key.Key_5)
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
