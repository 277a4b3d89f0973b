"""The chart shows what was logged, gaps as gaps, and the same values by mouse and by key."""

from dataclasses import replace
from datetime import datetime

import numpy as np
import pytest
from PySide6.QtCore import Qt

from firing_review.firing.cones import CONE_SCALE
from firing_review.firing.results import ChannelHeatWork
from firing_review.firing.units import TemperatureUnit
from firing_review.report.chart_lines import Line, LineRole, chart_lines, value_at
from firing_review.report.curves import Curve
from firing_review.ui.firing_chart.finding_strip import rows_for
from firing_review.ui.firing_chart.panel import FiringChart
from firing_review.ui.firing_chart.readout import readout_at
from firing_review.ui.preferences import Brightness, TimeShown

C, F = TemperatureUnit.CELSIUS, TemperatureUnit.FAHRENHEIT
STARTED = datetime(2026, 3, 3, 21, 40)  # noqa: DTZ001 - a logger knows no zone


def drawn(chart: FiringChart, role: LineRole) -> list[np.ndarray]:
    lane = chart.view.lanes.temperature
    return [curve.getData()[1] for line, curve in lane.drawn if line.role is role]


def test_lines_are_named_and_in_the_unit_of_the_screen(make_review):
    lines = chart_lines(make_review(sections=3), F)
    names = [(line.role.value, line.name) for line in lines.temperature]
    assert names == [
        ("schedule", "schedule"), ("reading", "T1"), ("reading", "T2"), ("reading", "T3"),
    ]  # fmt: skip
    assert value_at(lines.temperature[1], 1.0) == pytest.approx(170.0 * 9 / 5 + 32)
    assert [line.place for line in lines.temperature[1:]] == [0, 1, 2]


@pytest.mark.parametrize(
    ("above_c", "over_c"), [(-300.0, 1200.0), (60.0, 1260.0), (700.0, 1200.0)]
)
def test_words_at_the_peak_stand_over_the_reading_and_over_what_else_they_would_cross(
    review, above_c, over_c
):
    firing = review.firing
    plan_c = np.full_like(firing.plan_c, firing.peak_c + above_c)
    told = replace(review, firing=replace(firing, plan_c=plan_c))
    assert chart_lines(told, C).top == pytest.approx((firing.peak_h, over_c), abs=1.5)


def test_words_at_a_peak_beside_a_gap_stand_at_its_height(review):
    at_h = np.flatnonzero(review.given.log.elapsed_h >= review.firing.peak_h)[:1]
    (reading,) = review.given.log.temperatures
    values = reading.values.copy()
    values[at_h] = np.nan
    log = replace(review.given.log, channels=(replace(reading, values=values),))
    told = replace(review, given=replace(review.given, log=log))
    assert chart_lines(told, C).top == pytest.approx((review.firing.peak_h, 1200.0), abs=1.5)


def test_the_asked_rate_stands_only_where_a_segment_was_fired(review):
    asked = next(line for line in chart_lines(review, C).rate if line.role is LineRole.ASKED_RATE)
    assert asked.x_h[:2].tolist() == [0.0, 7.87]
    assert asked.y[:2].tolist() == [150.0, 150.0]


def test_a_value_between_samples_is_on_the_line_and_none_in_a_gap(review):
    reading = chart_lines(review, C).temperature[-1]
    assert value_at(reading, 2.0) == pytest.approx(320.0)
    assert np.isnan(value_at(reading, 3.25))
    assert np.isnan(value_at(reading, 99.0))


def test_the_first_value_behind_a_gap_is_read():
    curve = Curve(np.array([0.0, 1.0, 2.0]), np.array([20.0, np.nan, 500.0]))
    assert value_at(Line(LineRole.READING, "reading", curve), 2.0) == 500.0
    assert np.isnan(value_at(Line(LineRole.READING, "reading", curve), 1.9))


def test_a_gap_in_the_record_is_a_gap_in_the_chart(chart):
    (y,) = drawn(chart, LineRole.READING)
    hours = np.arange(0, 12.0 + 1e-9, 1 / 60)
    assert np.isnan(y[(hours > 3.01) & (hours < 3.49)]).all()
    assert np.isfinite(y[hours < 2.99]).all()
    curve = next(c for line, c in chart.view.lanes.temperature.drawn if line.name == "reading")
    assert curve.opts["connect"] == "finite"


def test_there_is_no_output_lane_unless_output_was_logged(chart):
    assert chart.view.lanes.rate.isVisible()
    assert not chart.view.lanes.output.isVisible()


def test_fahrenheit_is_drawn_at_once(chart, showing):
    before = np.nanmax(drawn(chart, LineRole.READING)[0])
    showing.choose_unit(F)
    after = np.nanmax(drawn(chart, LineRole.READING)[0])
    assert after == pytest.approx(before * 9 / 5 + 32)


def test_the_lanes_share_their_hours(chart):
    chart.view.lanes.temperature.getViewBox().setXRange(2.0, 4.0, padding=0)
    assert chart.view.lanes.rate.getViewBox().viewRange()[0] == pytest.approx([2.0, 4.0], abs=0.01)


def test_names_carry_their_value_where_the_cursor_stands(chart):
    chart.move_cursor(2.0)
    names = [name for name, *_ in chart.view.lanes.temperature.names._names]
    assert "reading 320" in names
    chart.move_cursor(None)
    names = [name for name, *_ in chart.view.lanes.temperature.names._names]
    assert "reading" in names


def press(qtbot, chart: FiringChart, *keys: Qt.Key) -> None:
    for key in keys:
        qtbot.keyClick(chart.view.lanes, key)


def test_arrow_keys_read_the_same_values_as_the_mouse(qtbot, chart, review):
    press(qtbot, chart, Qt.Key.Key_End, Qt.Key.Key_PageUp, Qt.Key.Key_Right)
    by_key = chart.cursor.at_h
    assert by_key is not None
    spoken = chart.view.lanes.accessibleDescription()
    expected = readout_at(review, chart._lines, by_key, "C", TimeShown.ELAPSED)
    assert spoken == expected.plain
    view = chart.view.lanes.temperature.getViewBox()
    where = view.mapViewToScene(view.viewRect().center())
    chart._on_mouse_moved(where)
    assert chart.view.readout.accessibleDescription() != spoken


def test_the_readout_says_time_temperature_and_rate(review):
    lines = chart_lines(review, C)
    plain = readout_at(review, lines, 2.0, "C", TimeShown.ELAPSED).plain
    assert plain == "2 h 00 min, reading 320 °C, 150 °C per hour, schedule 320 °C"


def test_the_cone_so_far_has_its_temperature(review):
    ranks = np.full(review.given.log.rows, float(CONE_SCALE.index("06")))
    work = replace(review.heat_work[0], rank_so_far=ranks)
    shown = readout_at(
        replace(review, heat_work=(work,)), chart_lines(review, F), 2.0, "F", TimeShown.ELAPSED
    ).shown
    assert shown[-1] == ("", "cone 06 (about 1828 °F) so far")


def test_the_readout_gives_the_clock_where_there_is_one(make_review):
    review = make_review(started=STARTED)
    lines = chart_lines(review, C)
    shown = readout_at(review, lines, 2.5, "C", TimeShown.CLOCK).shown
    assert shown[0] == ("", "Wed 12:10 AM (2 h 30 min)")


def test_the_readout_says_gap_in_a_gap(review):
    shown = readout_at(review, chart_lines(review, C), 3.25, "C", TimeShown.ELAPSED).shown
    assert ("reading", "gap") in shown


def test_plus_minus_and_zero_zoom_and_fit(qtbot, chart):
    whole = chart.time.range_h
    press(qtbot, chart, Qt.Key.Key_Plus, Qt.Key.Key_Plus)
    near = chart.time.range_h
    assert near[1] - near[0] == pytest.approx((whole[1] - whole[0]) * 0.49, rel=0.01)
    press(qtbot, chart, Qt.Key.Key_0)
    assert chart.time.range_h == pytest.approx(whole)


def test_a_cursor_that_walks_out_takes_the_view_along(qtbot, chart):
    press(qtbot, chart, Qt.Key.Key_Plus, Qt.Key.Key_Plus, Qt.Key.Key_End)
    before = chart.time.range_h
    press(qtbot, chart, Qt.Key.Key_Right, Qt.Key.Key_Right)
    assert chart.time.range_h[1] > before[1]
    assert chart.cursor.at_h <= chart.time.range_h[1] + 1e-6


def test_escape_takes_the_cursor_away(qtbot, chart):
    press(qtbot, chart, Qt.Key.Key_End, Qt.Key.Key_Escape)
    assert chart.cursor.at_h is None


def test_a_click_picks_the_shortest_finding_there_and_empty_ground_none(chart, showing):
    chart.pick_at(7.5)
    assert showing.finding == 0
    chart.pick_at(5.5)
    assert showing.finding == 1
    chart.pick_at(11.0)
    assert showing.finding is None


def test_enter_picks_the_finding_under_the_cursor(qtbot, chart, showing):
    chart.move_cursor(3.2)
    press(qtbot, chart, Qt.Key.Key_Return)
    assert showing.finding == 2


def test_a_finding_out_of_sight_is_brought_into_view(chart, showing):
    chart.view.lanes.temperature.getViewBox().setXRange(0.0, 1.0, padding=0)
    showing.select_finding(0)
    low, high = chart.time.range_h
    assert low < 7.0 < high


def test_the_chosen_finding_is_the_one_that_is_framed(chart, showing):
    showing.select_finding(2)
    chosen = [s for s in chart.view.lanes.temperature.backdrop.shades if s.chosen]
    assert [(s.start_h, s.end_h) for s in chosen] == [(3.0, 3.5)]
    assert len(chart.view.lanes.temperature.backdrop.shades) == 3


def test_bars_that_would_touch_lie_in_rows():
    assert rows_for([(0, 50), (40, 90), (60, 100)], 24, 3) == [0, 1, 0]


def test_when_rows_run_out_at_least_every_number_can_be_seen():
    assert rows_for([(0, 90), (0, 90), (30, 90)], 24, 2) == [0, 1, 1]
    assert rows_for([(0, 90), (30, 90), (30, 60)], 24, 2) == [0, 1, 0]


def test_a_click_on_a_bar_picks_its_finding(qtbot, chart, showing):
    middle = chart.view.strip.box_of(1).center().toPoint()
    qtbot.mouseClick(chart.view.strip, Qt.MouseButton.LeftButton, pos=middle)
    assert showing.finding == 1


def test_a_log_without_a_firing_is_drawn_all_the_same(chart, review):
    chart.show_review(replace(review, firing=None, findings=()))
    assert len(drawn(chart, LineRole.READING)) == 1
    assert not chart.view.lanes.rate.isVisible()


def test_dark_changes_the_pens_of_what_is_drawn(chart, appearance):
    appearance.choose(Brightness.DARK)
    _, curve = chart.view.lanes.temperature.drawn[-1]
    assert curve.opts["pen"].color().name().upper() == appearance.colors.ink


def test_drawing_again_and_again_adds_no_items(chart, review):
    scene = chart.view.lanes.scene()
    before = len(scene.items())
    for _ in range(5):
        chart.show_review(review)
    assert len(scene.items()) == before


def test_a_dense_log_is_drawn_in_full_beside_what_was_worked_out_over_short_whiles(make_review):
    whole = make_review()
    few = whole.given.log.elapsed_h[::20]
    thin = replace(whole.given.log, elapsed_h=few, channels=())
    rank = np.where(few > 7.0, 26.0, np.nan)
    review = replace(
        whole,
        firing=replace(whole.firing, log=thin, rate_c_per_h=whole.firing.rate_c_per_h[::20]),
        heat_work=(ChannelHeatWork("reading", 26.0, "4", None, rank_so_far=rank),),
    )
    lines = chart_lines(review, C)
    reading = next(line for line in lines.temperature if line.role is LineRole.READING)
    rate = next(line for line in lines.rate if line.role is LineRole.RATE)
    assert (len(reading.x_h) > 10 * len(few), list(rate.x_h)) == (True, list(few))
    assert (
        "cone 4 (about 1162 °C) so far"
        in readout_at(review, lines, 7.5, "C", TimeShown.ELAPSED).plain
    )
