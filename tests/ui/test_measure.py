"""Degrees, hours and rate between two points, by mouse and by keys, in words."""

import numpy as np
import pytest
from PySide6.QtCore import Qt

from firing_review.firing.units import TemperatureUnit
from firing_review.report.chart_lines import chart_lines
from firing_review.ui.firing_chart.measure import measured
from firing_review.ui.firing_chart.panel import FiringChart

C, F = TemperatureUnit.CELSIUS, TemperatureUnit.FAHRENHEIT


def said(chart: FiringChart) -> str:
    return chart.view.readout.accessibleDescription()


def test_two_points_say_degrees_time_and_rate(review):
    text = measured(chart_lines(review, C), 1.0, 2.5, C)
    assert text == "From 1 h 00 min to 2 h 30 min, 1 h 30 min: 225 °C hotter, 150 °C per hour."


def test_in_fahrenheit_a_difference_is_a_difference(review):
    text = measured(chart_lines(review, F), 1.0, 2.0, F)
    assert text == "From 1 h 00 min to 2 h 00 min, 1 h 00 min: 270 °F hotter, 270 °F per hour."


def test_the_order_of_the_points_does_not_matter_and_cooling_is_colder(review):
    lines = chart_lines(review, C)
    assert measured(lines, 10.0, 9.0, C) == measured(lines, 9.0, 10.0, C)
    assert "300 °C colder, −300 °C per hour" in measured(lines, 9.0, 10.0, C)


def test_several_sections_are_told_apart(make_review):
    text = measured(chart_lines(make_review(sections=2), C), 1.0, 2.0, C)
    assert text.endswith(
        "T1 150 °C hotter, 150 °C per hour; T2 150 °C hotter, 150 °C per hour."
    )  # fmt: skip


def test_a_point_in_a_gap_has_no_reading(review):
    assert "no reading at one of the points" in measured(chart_lines(review, C), 3.2, 5.0, C)


def test_two_points_at_one_moment_have_no_rate(review):
    assert measured(chart_lines(review, C), 2.0, 2.0, C) == "Both points stand at 2 h 00 min."


def test_by_keys_alone(qtbot, chart, review):
    lanes = chart.view.lanes
    qtbot.keyClick(lanes, Qt.Key.Key_M)
    assert chart.view.tools.measure.isChecked()
    assert said(chart).startswith("Click the first point")
    chart.move_cursor(1.0)
    qtbot.keyClick(lanes, Qt.Key.Key_Return)
    chart.move_cursor(2.5)
    assert "225 °C hotter" in said(chart)
    qtbot.keyClick(lanes, Qt.Key.Key_Space)
    chart.move_cursor(7.0)
    assert said(chart) == measured(chart_lines(review, C), 1.0, 2.5, C)
    assert lanes.accessibleDescription() == said(chart)


def test_by_two_clicks_without_moving_over_anything(chart):
    chart.view.tools.measure.click()
    for hours in (1.0, 2.5):
        chart._on_click(Click(chart, hours))
    assert "225 °C hotter, 150 °C per hour" in said(chart)


def test_a_third_point_begins_anew_and_escape_ends_it(qtbot, chart):
    chart.cursor.measure(is_on=True)
    for hours in (1.0, 2.5, 4.0):
        chart.move_cursor(hours)
        chart.cursor.set_point()
    points = chart.view.lanes.temperature.foreground.points
    assert [at_h for at_h, _ in points] == [4.0, 4.0]
    qtbot.keyClick(chart.view.lanes, Qt.Key.Key_Escape)
    assert not chart.view.tools.measure.isChecked()
    assert chart.view.lanes.temperature.foreground.points == []


def test_a_click_while_measuring_picks_no_finding(chart, showing):
    chart.cursor.measure(is_on=True)
    chart._on_click(Click(chart, 7.5))
    assert showing.finding is None


def test_the_points_stand_on_the_reading(chart):
    chart.cursor.measure(is_on=True)
    chart.move_cursor(2.0)
    chart.cursor.set_point()
    (at_h, value), _ = chart.view.lanes.temperature.foreground.points
    assert (at_h, value) == (2.0, pytest.approx(320.0))
    assert np.isnan(chart.view.lanes.rate.foreground.points[0][1])


class Click:
    """A click of the left button in the middle of the temperature lane."""

    def __init__(self, chart: FiringChart, hours: float) -> None:
        view = chart.view.lanes.temperature.getViewBox()
        middle = view.viewRect().center()
        middle.setX(hours)
        self._where = view.mapViewToScene(middle)

    def scenePos(self):
        return self._where

    def button(self):
        return Qt.MouseButton.LeftButton

    def double(self):
        return False
