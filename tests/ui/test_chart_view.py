"""Pan and zoom by wheel, fingers, buttons and keys; one menu; what others may ask for."""

from dataclasses import replace

import numpy as np
import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QContextMenuEvent, QNativeGestureEvent, QPointingDevice, QWheelEvent
from PySide6.QtWidgets import QApplication, QMenu

from firing_review.report.curves import Curve
from firing_review.report.thin import with_holes
from firing_review.ui.firing_chart.foreground import long_gaps
from firing_review.ui.firing_chart.panel import FiringChart


def wheel(chart: FiringChart, turned: QPoint, held=Qt.KeyboardModifier.NoModifier) -> None:
    lanes = chart.view.lanes
    view = lanes.temperature.getViewBox()
    where = QPointF(lanes.mapFromScene(view.sceneBoundingRect().center()))
    no_button, phase = Qt.MouseButton.NoButton, Qt.ScrollPhase.NoScrollPhase
    lanes.wheelEvent(QWheelEvent(where, where, QPoint(), turned, no_button, held, phase, False))


def span(chart: FiringChart) -> float:
    low, high = chart.time.range_h
    return high - low


def test_the_wheel_shows_fewer_hours_about_the_mouse_and_back(chart):
    whole, middle = span(chart), sum(chart.time.range_h) / 2
    wheel(chart, QPoint(0, 120))
    assert span(chart) == pytest.approx(0.8 * whole)
    assert sum(chart.time.range_h) / 2 == pytest.approx(middle, abs=0.05)
    wheel(chart, QPoint(0, -120))
    assert span(chart) == pytest.approx(whole)


def test_shift_and_a_wheel_turned_sideways_move_on(chart):
    chart.time.show(4.0, 6.0)
    wheel(chart, QPoint(0, -120), Qt.KeyboardModifier.ShiftModifier)
    low, high = chart.time.range_h
    assert low > 4.0
    assert high - low == pytest.approx(2.0)
    wheel(chart, QPoint(120, 0))
    assert chart.time.range_h == pytest.approx((4.0, 6.0))


def test_shift_and_arrows_move_the_view_and_stop_at_the_end_of_the_record(qtbot, chart):
    chart.time.show(4.0, 6.0)
    qtbot.keyClick(chart.view.lanes, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    assert chart.time.range_h == pytest.approx((4.2, 6.2))
    assert chart.cursor.at_h is None
    for _ in range(60):
        chart.time.pan(1.0)
    low, high = chart.time.range_h
    assert high - low == pytest.approx(2.0)
    assert high == pytest.approx(12.24)


def test_home_shows_the_whole_firing_and_so_does_its_button(qtbot, chart):
    whole = chart.time.range_h
    chart.time.show(4.0, 6.0)
    qtbot.keyClick(chart.view.lanes, Qt.Key.Key_Home)
    assert chart.time.range_h == pytest.approx(whole)
    chart.view.tools.nearer.click()
    assert span(chart) == pytest.approx(0.7 * (whole[1] - whole[0]))
    chart.view.tools.wider.click()
    chart.view.tools.whole.click()
    assert chart.time.range_h == pytest.approx(whole)


def test_every_button_is_large_enough_for_a_thumb_and_has_a_name(chart):
    for button in chart.view.tools.buttons:
        assert button.height() >= 36
        assert button.width() >= 36
        assert button.accessibleName()


def test_the_right_button_opens_the_charts_own_menu_and_no_other(chart, monkeypatch):
    lanes, opened = chart.view.lanes, []
    for lane in lanes.all:
        assert not lane.getViewBox().menuEnabled()
        assert lane.getContextMenus(None) == []
    monkeypatch.setattr(QMenu, "popup", lambda menu, where: opened.append((menu, where)))
    at = QPoint(300, 200)
    lanes.contextMenuEvent(QContextMenuEvent(QContextMenuEvent.Reason.Mouse, at, at))
    assert opened == [(chart.extras.menu.menu, at)]
    assert chart.extras.menu.menu.actions()[0].text() == "Pin a &note here…"


def test_others_may_show_a_moment_or_a_finding(chart, showing):
    chart.time.show(0.0, 1.0)
    chart.show_time(7.0)
    low, high = chart.time.range_h
    assert low <= 7.0 <= high
    assert chart.cursor.at_h == 7.0
    chart.time.show(0.0, 1.0)
    chart.show_finding(2)
    assert showing.finding == 2
    low, high = chart.time.range_h
    assert low < 3.25 < high


def test_a_finding_that_is_not_there_changes_nothing(chart, showing):
    chart.show_finding(99)
    assert showing.finding is None


def test_a_long_gap_is_told_in_words(chart):
    gaps = chart.view.lanes.temperature.foreground.gaps
    assert [gap.text for gap in gaps] == ["no reading, 30 min"]
    assert (gaps[0].start_h, gaps[0].end_h) == pytest.approx((3.0, 3.5))


def test_a_gap_that_another_section_bridges_is_none(chart):
    readings = [line for line in chart._lines.temperature if line.name == "reading"]
    bridged = replace(readings[0].curve, y=np.nan_to_num(readings[0].y, nan=470.0))
    whole = replace(readings[0], curve=bridged)
    assert long_gaps(readings) != []
    assert long_gaps([*readings, whole]) == []


def test_thinning_is_said_on_the_chart_only_while_something_is_left_out(chart, review):
    assert "thinned" not in chart.view.tools.notes.text()
    log = review.given.log
    hours = np.linspace(0.0, 12.0, 60_000)
    channels = tuple(
        replace(one, values=np.interp(hours, log.elapsed_h, one.values)) for one in log.channels
    )
    long = replace(log, elapsed_h=hours, channels=channels)
    chart.show_review(replace(review, given=replace(review.given, log=long), firing=None))
    words = "Drawn thinned: each column shows lowest and highest."
    assert chart.view.tools.notes.text().startswith(words)
    chart.time.show(5.0, 5.2)
    assert words not in chart.view.tools.notes.text()


def test_while_the_view_moves_edges_are_rough_and_smooth_once_it_stands(qtbot, chart):
    _, curve = chart.view.lanes.temperature.drawn[-1]
    chart.time.show(4.0, 6.0)
    assert not curve.opts["antialias"]
    qtbot.waitUntil(lambda: curve.opts["antialias"])


def test_a_large_chart_asks_for_no_more_room_than_a_small_one(qtbot, chart):
    before = chart.sizeHint()
    chart.resize(1500, 1200)
    qtbot.wait(1)
    assert chart.sizeHint() == before


def test_words_over_the_chart_take_lines_only_while_measuring(qtbot, chart, make_review):
    chart.show_review(make_review(sections=3))
    chart.resize(600, 600)
    qtbot.wait(1)
    one_line = chart.view.readout.height()
    chart.cursor.measure(is_on=True)
    for hours in (1.0, 5.0):
        chart.move_cursor(hours)
        chart.cursor.set_point()
    assert chart.view.readout.height() > one_line
    assert not chart.view.readout.hasHeightForWidth()
    chart.cursor.measure(is_on=False)
    assert chart.view.readout.height() == one_line


def test_lines_of_a_larger_type_are_thicker_and_marks_stand_further_apart(chart, appearance):
    lane = chart.view.lanes.temperature
    thin, many = lane.drawn[-1][1].opts["pen"].widthF(), lane.getAxis("left").places(0, 1200, 300)
    appearance.rescale(2.0)
    assert lane.drawn[-1][1].opts["pen"].widthF() == 2 * thin
    assert len(lane.getAxis("left").places(0, 1200, 300)) < len(many)


def test_values_at_the_cursor_are_never_cut_at_the_edge(qtbot, chart, make_review):
    chart.show_review(make_review(sections=6))
    chart.resize(520, 600)
    qtbot.wait(1)
    one_line = chart.view.readout.height()
    chart.move_cursor(2.0)
    readout = chart.view.readout
    assert readout.height() > one_line
    assert readout.wordWrap()
    assert readout.heightForWidth(readout.width()) <= readout.height()


def test_between_rows_written_by_the_hour_the_line_is_drawn_and_no_gap_is_told():
    hours = np.arange(0.0, 10.0)
    assert Curve(*with_holes(hours, 20.0 + 100.0 * hours)).long_gaps_h == ()
    broken = np.delete(hours, [3, 4, 5, 6])
    assert Curve(*with_holes(broken, 20.0 + 100.0 * broken)).long_gaps_h == ((2.0, 7.0),)


def test_two_fingers_on_a_touch_pad_show_fewer_hours_and_more(chart):
    def pinch(grown: float) -> float:
        viewport = chart.view.lanes.viewport()
        at, touched = QPointF(viewport.rect().center()), QPointingDevice.primaryPointingDevice()
        kind = Qt.NativeGestureType.ZoomNativeGesture
        event = QNativeGestureEvent(kind, touched, 2, at, at, at, grown, QPointF())
        QApplication.sendEvent(viewport, event)
        return span(chart)

    whole = span(chart)
    fewer = pinch(0.25)
    assert fewer == pytest.approx(whole / 1.25, rel=0.02)
    assert pinch(-0.1) == pytest.approx(fewer / 0.9, rel=0.02)
