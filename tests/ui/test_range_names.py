"""Names of the ranges of ware stand where neither a line nor another name runs."""

from itertools import combinations

import numpy as np
import pytest
from PySide6.QtCore import QRectF, QSizeF
from PySide6.QtWidgets import QApplication

from firing_review.firing.wording import Language
from firing_review.io.resource_path import demo_logs
from firing_review.report.chart_lines import LineRole
from firing_review.ui.firing_chart.range_names import Around, Course

VIEW = QRectF(0, 0, 400, 200)
NAME = QSizeF(80, 16)
LAPTOP, LAPTOP_AT_200 = (1366, 768), (683, 384)
DEMOS = sorted(path.parent.name for path in demo_logs().glob("*/firing.toml"))


def course(*points):
    x, y = np.array(points, dtype=float).T
    return Course.of(x, y, VIEW)


CLIMB = course((0, 200), (200, 0))
"""From the lower left up to the middle of the upper edge."""
ON_CLIMB = QRectF(80, 80, 40, 40)


def around(*lines, dots=(), boxes=(ON_CLIMB,)):
    return Around(VIEW, lines, dots, boxes)


def test_a_line_meets_what_it_runs_through_and_nothing_else():
    assert CLIMB.meets(QRectF(90, 90, 20, 20))
    assert not CLIMB.meets(QRectF(120, 120, 80, 16))
    assert not course((0, 10), (50, 10)).meets(QRectF(60, 0, 40, 20)), "the line ends before"


def test_a_steep_line_between_two_samples_is_met_as_well():
    assert course((100.0, 200.0), (100.2, 0.0)).meets(QRectF(90, 90, 20, 16))


def test_the_name_of_a_climb_stands_right_of_its_box_in_the_middle():
    place = around(CLIMB).place(ON_CLIMB, NAME, (), climbing=True)
    assert place == QRectF(126, 92, 80, 16)


def test_a_second_name_moves_down_from_a_climb_and_up_from_a_fall():
    first = QRectF(126, 92, 80, 16)
    down = around(CLIMB).place(ON_CLIMB, NAME, (first,), climbing=True)
    up = around().place(ON_CLIMB, NAME, (first,), climbing=False)
    assert down == QRectF(126, 108, 80, 16)
    assert up == QRectF(126, 76, 80, 16)


def test_a_name_moves_down_to_where_the_room_between_two_lines_is_wide_enough():
    fall = course((200, 0), (250, 200))
    place = around(CLIMB, fall).place(ON_CLIMB, QSizeF(94, 16), (), climbing=True)
    assert place == QRectF(126, 100, 94, 16), "94 + 3 px end before 200 + (100 - 3) / 4"


def test_a_name_stands_left_where_there_is_no_room_at_the_right():
    wall = course((130, 0), (130.5, 200))
    place = around(CLIMB, wall).place(ON_CLIMB, QSizeF(60, 16), (), climbing=True)
    assert place.right() == 74


def test_a_name_without_room_is_left_out():
    walls = course((60, 0), (60.5, 200)), course((130, 0), (130.5, 200))
    assert around(CLIMB, *walls).place(ON_CLIMB, NAME, (), climbing=True) is None


def test_a_name_covers_dots_of_the_set_point_only_if_it_must():
    dots = (course((150, 0), (150.5, 200)),)
    over = around(CLIMB, dots=dots)
    place = over.place(ON_CLIMB, NAME, (), climbing=True)
    assert place == QRectF(126, 92, 80, 16)
    assert over.covers_dots(place)
    free = around(dots=dots).place(ON_CLIMB, QSizeF(60, 16), (), climbing=True)
    assert free.right() == 74


def test_a_name_is_never_nearer_to_another_box_than_to_its_own():
    other = QRectF(210, 60, 40, 120)
    boxes = (ON_CLIMB, other)
    assert around(CLIMB, boxes=boxes).place(ON_CLIMB, NAME, (), climbing=True) is None


@pytest.mark.parametrize("size", [LAPTOP, LAPTOP_AT_200])
@pytest.mark.parametrize("language", [Language.ENGLISH_US, Language.GERMAN])
def test_no_name_of_a_demo_firing_touches_a_line_or_another_name(window, language, size):
    window.choose_language(language)
    window.resize(*size)
    named = 0
    for demo in DEMOS:
        window.open_path(demo_logs() / demo / "firing.toml")
        window.firing.chart.extras.menu.ranges.setChecked(True)
        for _ in range(3):
            QApplication.processEvents()
        lane = window.firing.chart.view.lanes.temperature
        view = QRectF(lane.getViewBox().boundingRect())
        lane.range_names.take_view(lane.getViewBox())
        found = lane.range_names.places(view)
        named += len(found)
        for (one, a), (other, b) in combinations(found, 2):
            assert not a.intersects(b), (demo, one.name, other.name)
        for one, place in found:
            assert view.contains(place), (demo, one.name)
            for line, stroke in lane.drawn:
                if line.role is not LineRole.SET_POINT:
                    assert not _runs_through(stroke, lane, place), (demo, one.name, line.name)
    assert named >= 4 * len(DEMOS)


def _runs_through(stroke, lane, place) -> bool:
    """Tell whether a curve as drawn has a point, or one between two, inside a place."""
    view = lane.getViewBox()
    (low_h, high_h), (low, high) = view.viewRange()
    box = view.boundingRect()
    x = (stroke.xData - low_h) / (high_h - low_h) * box.width()
    y = box.height() - (stroke.yData - low) / (high - low) * box.height()
    steps = np.linspace(0.0, 1.0, 50)[:, None]
    x, y = (v[:-1] + steps * np.diff(v) for v in (x, y))
    inside = (x > place.left()) & (x < place.right()) & (y > place.top()) & (y < place.bottom())
    return bool(inside.any())


def test_the_highest_reading_is_said_shorter_where_its_cone_has_no_room(window):
    said = []
    for size in (LAPTOP, LAPTOP_AT_200):
        window.resize(*size)
        window.open_path(demo_logs() / "7_power_cut" / "firing.toml")
        for _ in range(3):
            QApplication.processEvents()
        peak = window.firing.chart.view.lanes.temperature._peak
        assert peak.boundingRect().width() <= peak.getViewBox().boundingRect().width()
        said.append(peak.toPlainText())
    assert said == ["1036 °C, heat work of cone 05 + 0.3 (about 1041 °C)", "1036 °C"]
