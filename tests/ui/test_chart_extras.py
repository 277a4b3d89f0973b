"""Ranges of ware, earlier firings laid over this one, and copies."""

from dataclasses import replace

import numpy as np
import pytest
from PySide6.QtGui import QColor, QGuiApplication, QImage
from PySide6.QtSvg import QSvgRenderer

from firing_review.analysis.ware_ranges import passages
from firing_review.firing.log import Channel, ChannelRole, FiringLog
from firing_review.firing.sheet import Given
from firing_review.firing.units import TemperatureUnit
from firing_review.report.chart_lines import LineRole
from firing_review.ui.appearance import DARK
from firing_review.ui.ask import Questions
from firing_review.ui.background import Background
from firing_review.ui.firing_chart.data_text import table_text
from firing_review.ui.firing_chart.earlier import EarlierFirings, LaidOver, earlier_name
from firing_review.ui.firing_chart.panel import FiringChart
from firing_review.ui.preferences import Brightness

C, F = TemperatureUnit.CELSIUS, TemperatureUnit.FAHRENHEIT


def slower_log() -> FiringLog:
    """Return an earlier firing: from 0.5 h up at 100 °C/h to 1000 °C, then down at 200 °C/h."""
    hours = np.arange(0, 16.0, 1 / 30)
    up, top_h = 20.0 + 100.0 * (hours - 0.5), 10.3
    curve = np.where(hours <= top_h, up, 1000.0 - 200.0 * (hours - top_h))
    return FiringLog(
        "good one.csv", hours, (Channel("T", ChannelRole.CHAMBER, np.maximum(curve, 20.0)),)
    )


@pytest.fixture
def compared(review):
    earlier = (Given(slower_log()), Given(slower_log(), title="The long one"))
    return replace(review, given=replace(review.given, earlier=earlier))


@pytest.fixture
def chart(qtbot, appearance, showing, compared, tmp_path) -> FiringChart:
    asked = []

    def picture_to_save(_parent, suggested):
        asked.append(suggested)
        return tmp_path / chart_file[0] if chart_file else None

    chart_file: list[str] = []
    panel = FiringChart(appearance, showing, Questions(picture_to_save=picture_to_save))
    panel.errand.connect(Background(panel).run)
    panel.file_names, panel.names_asked = chart_file, asked
    qtbot.addWidget(panel)
    panel.resize(900, 600)
    panel.show_review(compared)
    panel.show()
    qtbot.waitExposed(panel)
    return panel


def earlier_lines(review, laid, at_c=600.0, unit=C):
    return EarlierFirings().lines(review, laid, at_c, unit)


def test_at_the_top_both_peaks_lie_on_each_other(compared):
    line = earlier_lines(compared, LaidOver.TOP)[0]
    assert line.x_h[np.nanargmax(line.y)] == pytest.approx(7.87, abs=0.05)


def test_at_a_temperature_both_climb_through_it_at_one_moment(compared):
    line = earlier_lines(compared, LaidOver.TEMPERATURE, 600.0)[0]
    climb = line.x_h <= line.x_h[np.nanargmax(line.y)]
    crossed = np.interp(600.0, line.y[climb], line.x_h[climb])
    assert crossed == pytest.approx((600.0 - 20.0) / 150.0, abs=0.02)


def test_at_the_start_both_begin_to_climb_together(compared):
    line = earlier_lines(compared, LaidOver.START)[0]
    assert line.x_h[0] == pytest.approx(-0.5, abs=0.15)


def test_a_firing_that_never_came_so_hot_is_not_laid_over(compared):
    assert earlier_lines(compared, LaidOver.TEMPERATURE, 1100.0) == ()


def test_earlier_firings_are_named_and_each_has_its_own_dash(compared):
    lines = earlier_lines(compared, LaidOver.TOP)
    assert [(line.name, line.place, line.role) for line in lines] == [
        ("good one", 0, LineRole.EARLIER), ("The long one", 1, LineRole.EARLIER),
    ]  # fmt: skip


def test_an_earlier_firing_with_a_clock_is_named_by_its_day():
    from datetime import datetime  # noqa: PLC0415

    started = datetime(2026, 3, 3, 21, 40)  # noqa: DTZ001 - a logger knows no zone
    given = Given(replace(slower_log(), started_at=started), title="x")
    assert earlier_name(given) == "Mar 3, 2026"


def test_in_fahrenheit_earlier_firings_are_too(compared):
    line = earlier_lines(compared, LaidOver.TOP, unit=F)[0]
    assert np.nanmax(line.y) == pytest.approx(1832.0, abs=2.0)


def test_the_menu_lays_earlier_firings_over_and_takes_them_away(chart):
    menu = chart.extras.menu
    menu.menu.aboutToShow.emit()
    actions = {action.data(): action for action in menu.menu.actions() if action.data()}
    actions["top"].trigger()
    roles = [line.role for line in chart._lines.temperature]
    assert roles.count(LineRole.EARLIER) == 2
    actions["not"].trigger()
    assert LineRole.EARLIER not in [line.role for line in chart._lines.temperature]


def test_a_firing_that_is_not_laid_over_is_named(chart):
    chart.move_cursor(7.2)
    chart.extras.lay_over(LaidOver.TEMPERATURE)
    assert chart.view.readout.accessibleDescription() == (
        "Not laid over, 1100 °C was not reached on the climb: good one, The long one."
    )


def test_the_menu_names_the_temperature_under_the_cursor(chart):
    chart.move_cursor(2.0)
    chart.extras.menu.menu.aboutToShow.emit()
    words = [action.text() for action in chart.extras.menu.menu.actions()]
    assert "Lay earlier firings over 320 °C on the way &up" in words


def test_without_earlier_firings_there_is_nothing_to_lay_over(chart, review):
    chart.show_review(review)
    chart.extras.menu.menu.aboutToShow.emit()
    laid = [one for one in chart.extras.menu.menu.actions() if one.data()]
    assert not any(action.isEnabled() for action in laid)


def test_ranges_of_ware_are_passed_when_the_reading_was_in_them(review):
    found = {(one.range.name, one.climbing): one for one in passages(review.firing)}
    water = found["chemical water", True]
    assert water.start_h == pytest.approx((350 - 20) / 150, abs=0.02)
    assert water.end_h == pytest.approx((650 - 20) / 150, abs=0.02)
    quartz = found["quartz", False]
    assert quartz.start_h == pytest.approx(7.867 + (1200 - 603) / 300, abs=0.02)
    assert quartz.end_h == pytest.approx(7.867 + (1200 - 543) / 300, abs=0.02)


def test_a_range_that_was_never_left_ends_with_the_record(review):
    firing, log = review.firing, review.given.log
    kept = log.elapsed_h <= 10.0
    short = replace(
        firing, log=replace(log, elapsed_h=log.elapsed_h[kept]), reading_c=firing.reading_c[kept]
    )
    found = {(one.range.name, one.climbing): one for one in passages(short)}
    assert ("cristobalite", False) not in found
    assert found["glaze stiffens", False].end_h == pytest.approx(10.0, abs=0.02)


def test_ranges_are_off_until_they_are_switched_on(chart, showing):
    backdrop = chart.view.lanes.temperature.backdrop
    assert backdrop.boxes == []
    chart.extras.menu.ranges.setChecked(True)
    drying = backdrop.boxes[0]
    assert (drying.name, drying.low, drying.high) == ("drying", 20.0, 120.0)
    showing.choose_unit(F)
    assert backdrop.boxes[0].high == 248.0
    chart.extras.menu.ranges.setChecked(False)
    assert backdrop.boxes == []


def test_the_figures_in_view_have_units_and_a_gap_is_an_empty_cell(review):
    rows = table_text(review, C, 2.95, 3.05).splitlines()
    assert rows[0] == "time, h\tT1, °C\trate, °C per hour"
    cells = [row.split("\t") for row in rows[1:]]
    assert cells[0][:2] == ["2.95", "462.5"]
    assert cells[-1][:2] == ["3.05", ""]
    assert len(cells) == 7


def test_the_figures_are_in_the_unit_of_the_screen(review):
    rows = table_text(review, F, 2.0, 2.0).splitlines()
    assert rows[0] == "time, h\tT1, °F\trate, °F per hour"
    assert rows[1] == "2.0\t608.0\t270.0"


def test_a_log_that_is_looked_at_as_means_has_a_rate_in_every_row(review):
    firing, log = review.firing, review.given.log
    coarse = replace(log, elapsed_h=log.elapsed_h[::5])
    means = replace(firing, log=coarse, rate_c_per_h=firing.rate_c_per_h[::5])
    rows = table_text(replace(review, firing=means), C, 1.0, 1.2).splitlines()[1:]
    assert [row.split("\t")[2] for row in rows] == ["150.0"] * 13


def test_a_columns_name_is_one_cell_and_no_formula(review):
    log = review.given.log
    channel = replace(log.channels[0], name="=1+1\tx")
    given = replace(review.given, log=replace(log, channels=(channel,)))
    head = table_text(replace(review, given=given), C, 2.0, 2.0).splitlines()[0]
    assert head.split("\t")[1] == "'=1+1 x, °C"


def test_copied_figures_are_on_the_clipboard_and_counted(chart):
    chart.time.show(2.0, 2.5)
    chart.extras.menu.copy_data.trigger()
    rows = QGuiApplication.clipboard().text().splitlines()
    assert len(rows) == 1 + 31
    assert chart.view.readout.text() == "31 rows are on the clipboard."


def test_the_copied_picture_is_twice_as_fine_as_the_screen(chart):
    chart.extras.menu.copy_picture.trigger()
    image = QGuiApplication.clipboard().image()
    assert image.width() == 2 * (chart.view.lanes.width() + 24)
    assert inked(image) > 2000


def test_a_picture_is_light_as_paper_while_the_window_is_dark(chart, appearance):
    chart.extras.menu.copy_picture.trigger()
    light = QGuiApplication.clipboard().image()
    appearance.choose(Brightness.DARK)
    chart.extras.menu.copy_picture.trigger()
    assert QGuiApplication.clipboard().image() == light
    assert chart.view.lanes.backgroundBrush().color() == QColor(DARK.page)


def test_a_picture_is_saved_under_the_name_that_was_given(chart, tmp_path):
    chart.file_names.append("curve.png")
    chart.extras.menu.save_picture.trigger()
    assert chart.names_asked == ["Tuesday glaze.png"]
    assert inked(QImage(str(tmp_path / "curve.png"))) > 2000


def test_a_drawing_for_print_has_the_curve_and_its_words_in_it(chart, tmp_path):
    chart.file_names.append("curve.svg")
    chart.extras.menu.save_picture.trigger()
    path = tmp_path / "curve.svg"
    renderer = QSvgRenderer(str(path))
    assert renderer.isValid()
    text = path.read_text(encoding="utf-8")
    assert "Tuesday glaze" in text
    assert "Temperature, °C" in text


def test_a_picture_that_cannot_be_written_is_told_and_nothing_else_happens(chart, qtbot, tmp_path):
    (tmp_path / "taken").write_text("a file where a folder should be")
    chart.file_names.append("taken/curve.png")
    with qtbot.waitSignal(chart.refused) as told:
        chart.extras.menu.save_picture.trigger()
    assert "taken" in str(told.args[0])


def inked(image: QImage) -> int:
    """Return how many points are much darker than paper."""
    image = image.convertToFormat(QImage.Format.Format_Grayscale8)
    bits = np.frombuffer(image.constBits(), dtype=np.uint8)
    return int((bits < 110).sum())
