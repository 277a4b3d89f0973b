"""What people do with a log whose reading is in doubt, wrong, pasted or in two files."""

from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent, QGuiApplication, QKeySequence
from PySide6.QtTest import QTest

from firing_review.firing.log import ChannelRole, ReadingChoices
from firing_review.firing.units import TemperatureUnit, TimeUnit
from firing_review.io.sheets import read_firing_sheet, write_firing_folder
from firing_review.ui.open_log.remembered import RememberedReadings


def climb(start: float, step: float, rows: int = 60) -> list[float]:
    return [start + step * row for row in range(rows)]


def write(path: Path, head: str, *columns: list[float], first_min: int = 0) -> Path:
    rows = [
        ",".join([str(first_min + 10 * place), *(f"{value:.1f}" for value in cells)])
        for place, cells in enumerate(zip(*columns, strict=True))
    ]
    path.write_text("\n".join([head, *rows]) + "\n", encoding="utf-8")
    return path


@pytest.fixture
def doubtful(tmp_path) -> Path:
    """Return a log that fits both units: no unit, from 70 to 660."""
    return write(tmp_path / "glass.csv", "time_min,kiln", climb(70, 10))


def choose(chooser, words: str) -> None:
    """Choose as a person does from the opened list."""
    place = chooser.findText(words)
    assert place >= 0, words
    chooser.setCurrentIndex(place)
    chooser.activated.emit(place)


def save_workbook(path: Path, rows: list[list[object]]) -> None:
    openpyxl = pytest.importorskip("openpyxl")
    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(row)
    book.save(path)


def page_is_shown(window) -> bool:
    return window.open_log.isVisible()


def log_of(window):
    return window.sitting.review.given.log


def role_of(window, name: str) -> ChannelRole:
    return next(c.role for c in log_of(window).channels if c.name == name)


@pytest.mark.parametrize("unit", ["°C", "°F"])
def test_a_log_in_doubt_about_its_unit_opens_as_the_unit_chosen(window, doubtful, unit):
    window.open_path(doubtful)
    assert page_is_shown(window)
    view = window.open_log.view
    assert "no unit, a start at 70" in view.about.text()
    assert not view.use.isEnabled()
    choose(view.unit, unit)
    assert view.use.isEnabled()
    view.use.click()
    assert window.work.isVisible()
    assert log_of(window).unit_read.value == unit[1]
    first_c = {"°C": 70.0, "°F": (70.0 - 32.0) / 1.8}[unit]
    assert log_of(window).temperatures[0].values[0] == pytest.approx(first_c)


@pytest.mark.parametrize(("unit", "top_c"), [("°C", 1422.4), ("°F", 1219.1)])
def test_a_log_that_names_the_wrong_unit_is_asked_about(window, tmp_path, unit, top_c):
    path = write(tmp_path / "cone 6.csv", "time_min,kiln (°C)", climb(70, 36.55))
    window.open_path(path)
    view = window.open_log.view
    assert "°C named, but a climb to 2226, which no kiln reaches in °C" in view.about.text()
    choose(view.unit, unit)
    view.use.click()
    assert window.sitting.review.firing.peak_c == pytest.approx(top_c, abs=5.0)
    assert "rows_far_apart" not in [one.kind.value for one in window.sitting.review.findings]


def test_canceling_leaves_what_was_open(window, log_file, doubtful):
    window.open_path(log_file)
    window.open_path(doubtful)
    window.open_log.view.cancel.click()
    assert window.work.isVisible()
    assert log_of(window).source == "night.csv"


def test_nothing_of_the_page_is_cut_off_on_a_small_window(window, doubtful):
    window.open_path(doubtful)
    window.resize(683, 500)
    assert window.width() == 683
    view = window.open_log.view
    for button in (view.use, view.cancel, view.remember):
        right = button.mapTo(window, button.rect().topRight()).x()
        assert 0 < right < 683


def test_date_and_time_are_shown_whole(window, tmp_path):
    rows = [
        f"21.09.2026 {10 + place // 6}:{place % 6}0:00;{value}"
        for place, value in enumerate(climb(70, 10))
    ]
    path = tmp_path / "day.csv"
    path.write_text("\n".join(["Date Time;kiln", *rows]) + "\n", encoding="utf-8")
    window.open_path(path)
    table = window.open_log.view.table
    assert page_is_shown(window)
    needed = table.fontMetrics().horizontalAdvance("21.09.2026 07:05:00")
    assert table.columnWidth(0) > needed


def test_canceling_without_a_firing_goes_back_to_the_start_page(window, doubtful):
    window.open_path(doubtful)
    window.open_log.view.cancel.click()
    assert window.start.isVisible()
    assert window.sitting.review is None


def test_a_wrong_role_is_corrected_in_the_firing_that_is_open(window, tmp_path):
    path = write(tmp_path / "two.csv", "time_min,top_C,shed_C", climb(20, 15), climb(20, 12))
    window.open_path(path)
    assert role_of(window, "shed_C") is ChannelRole.SECTION
    window.actions["how_read"].trigger()
    assert page_is_shown(window)
    choose(window.open_log.roles["shed_C"], "cold end")
    assert window.open_log.roles["shed_C"].currentText() == "cold end"
    window.open_log.view.use.click()
    assert role_of(window, "shed_C") is ChannelRole.COLD_END
    window.sitting.undo()
    assert role_of(window, "shed_C") is ChannelRole.SECTION


def test_without_any_temperature_it_cannot_be_used(window, tmp_path):
    window.open_path(write(tmp_path / "one.csv", "time_min,top_C", climb(20, 15)))
    window.actions["how_read"].trigger()
    choose(window.open_log.roles["top_C"], "not used")
    view = window.open_log.view
    assert not view.use.isEnabled()
    assert view.wrong.text() == "Say which column is the chamber or a section of the kiln."
    choose(window.open_log.roles["top_C"], "chamber")
    assert view.use.isEnabled()
    assert not view.wrong.isVisible()


def test_a_guess_opens_at_once_with_a_word_that_leads_to_the_page(window, tmp_path):
    path = write(tmp_path / "ab.csv", "time_min,a,b", climb(20, 14), climb(25, 13))
    window.open_path(path)
    assert window.work.isVisible()
    text = "Read as °C; the temperature of the kiln is taken from a and b."
    assert window.message.heading.text() == text
    window.message.buttons[0].click()
    assert page_is_shown(window)
    assert not window.message.isVisible()


def test_a_guess_among_many_columns_names_three_and_counts_the_rest(window, tmp_path):
    columns = [climb(20 + place, 14) for place in range(5)]
    window.open_path(write(tmp_path / "many.csv", "time_min,a,b,c,d,e", *columns))
    assert window.message.heading.text().endswith("is taken from a, b, c and 2 more.")


def test_what_is_remembered_opens_the_next_file_without_asking_until_forgotten(
    window, doubtful, tmp_path
):
    window.open_path(doubtful)
    choose(window.open_log.view.unit, "°F")
    window.open_log.view.remember.setChecked(True)
    window.open_log.view.use.click()
    alike = write(tmp_path / "next.csv", "time_min,kiln", climb(72, 10))
    window.open_path(alike)
    assert log_of(window).unit_read is TemperatureUnit.FAHRENHEIT
    assert log_of(window).notes[-1].kind == "remembered"
    window.actions["how_read"].trigger()
    view = window.open_log.view
    assert view.forget.isVisible()
    view.forget.click()
    assert not view.forget.isVisible()
    assert not view.use.isEnabled()
    view.cancel.click()
    window.open_path(alike)


def test_a_file_of_another_layout_is_not_read_as_remembered(window, doubtful, tmp_path):
    window.open_path(doubtful)
    choose(window.open_log.view.unit, "°F")
    window.open_log.view.remember.setChecked(True)
    window.open_log.view.use.click()
    other = write(tmp_path / "other.csv", "time_min,oven", climb(70, 10))
    window.open_path(other)
    assert page_is_shown(window)


def test_a_table_pasted_on_the_start_page_opens(qtbot, window):
    QGuiApplication.clipboard().setText("hours\tchamber °C\n0\t20\n2\t320\n4\t800\n7\t1220\n")
    window.start.view.open_file.setFocus()
    QTest.keySequence(window.start.view.open_file, QKeySequence(QKeySequence.StandardKey.Paste))
    qtbot.waitUntil(lambda: window.sitting.review is not None)
    assert log_of(window).source == "pasted table"
    assert log_of(window).elapsed_h.tolist() == [0.0, 2.0, 4.0, 7.0]
    assert log_of(window).temperatures[0].values.tolist() == [20.0, 320.0, 800.0, 1220.0]


def test_a_workbook_opens_and_its_bytes_are_kept(window, tmp_path):
    path = tmp_path / "night.xlsx"
    save_workbook(path, [["minutes", "chamber °C"], [0, 20], [10, 45.5], [20, 180]])
    window.open_path(path)
    assert log_of(window).raw == path.read_bytes()
    assert log_of(window).temperatures[0].values.tolist() == [20.0, 45.5, 180.0]
    window.actions["how_read"].trigger()
    assert window.open_log.view.table.item(2, 1).text() == "45.5"


def test_two_workbooks_dropped_together_are_one_firing(window, tmp_path):
    first, second = tmp_path / "a.xlsx", tmp_path / "b.xlsx"
    save_workbook(first, [["minutes", "chamber °C"], [0, 20], [10, 45], [20, 180]])
    save_workbook(second, [["minutes", "chamber °C"], [0, 300], [10, 445], [20, 580]])
    window.arrivals.open_paths([first, second])
    values = log_of(window).temperatures[0].values.tolist()
    assert values == [20.0, 45.0, 180.0, 300.0, 445.0, 580.0]


def test_an_empty_clipboard_says_what_to_do(window):
    QGuiApplication.clipboard().setText(" ")
    window.start.paste()
    assert window.message.isVisible()
    assert window.message.text.text() == "Copy the rows in the spreadsheet, then paste again."


def test_two_logs_dropped_together_are_one_firing(window, tmp_path):
    first = write(tmp_path / "a.csv", "time_min,top_C", climb(20, 15, 40))
    second = write(tmp_path / "b.csv", "time_min,top_C", climb(620, 15, 30))
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in (first, second)])
    window.dropEvent(
        QDropEvent(
            QPointF(50, 50), Qt.DropAction.CopyAction, data, Qt.MouseButton.LeftButton,
            Qt.KeyboardModifier.NoModifier,
        )
    )  # fmt: skip
    log = log_of(window)
    assert log.rows == 70
    assert log.elapsed_h[40] == pytest.approx(40 * 10 / 60)
    assert log.temperatures[0].values[[0, 39, 40, 69]].tolist() == [20.0, 605.0, 620.0, 1055.0]


def test_a_joined_log_stays_joined_when_it_is_read_anew(window, tmp_path):
    first = write(tmp_path / "a.csv", "time_min,top_C", climb(20, 15, 40))
    second = write(tmp_path / "b.csv", "time_min,top_C", climb(620, 15, 30))
    window.arrivals.open_paths([first, second])
    window.actions["how_read"].trigger()
    window.open_log.view.use.click()
    assert log_of(window).rows == 70


def test_the_order_of_day_and_month_is_asked_when_it_is_open(window, tmp_path):
    days = ["05/06/2025 22:00", "05/06/2025 23:00", "06/06/2025 06:00", "07/06/2025 06:00"]
    path = tmp_path / "days.csv"
    rows = [f"{day},{20 + 200 * place}" for place, day in enumerate(days)]
    path.write_text("\n".join(["when,top_C", *rows]) + "\n", encoding="utf-8")
    window.open_path(path)
    view = window.open_log.view
    if not page_is_shown(window):
        window.actions["how_read"].trigger()
    assert view.order.isVisible()
    choose(view.order, "day first")
    view.use.click()
    assert log_of(window).elapsed_h.tolist() == [0.0, 1.0, 8.0, 32.0]


def test_a_damaged_memory_remembers_nothing(tmp_path):
    file = tmp_path / "log_readings.json"
    for text in ("{", "[1]", '{"k": {"unit": "X"}}', '{"k": 3}', '{"k": {"roles": [1]}}'):
        file.write_text(text, encoding="utf-8")
        assert RememberedReadings(file).choices("k") is None


def test_choices_come_back_as_they_were_kept_without_the_number_of_the_firing(tmp_path):
    kept = RememberedReadings(tmp_path / "deep" / "log_readings.json")
    roles = {"a": ChannelRole.AMPS}
    kept.keep("k", ReadingChoices(TemperatureUnit.FAHRENHEIT, day_first=False, roles=roles, run=2))
    assert kept.choices("k") == ReadingChoices(
        TemperatureUnit.FAHRENHEIT, day_first=False, roles=roles
    )
    kept.forget("k")
    assert kept.choices("k") is None


def test_of_several_firings_in_a_file_one_is_chosen(window, tmp_path):
    first, second = [*climb(20, 20, 40), *climb(780, -20, 39)], climb(20, 18, 50)
    rows = [f"{10 * n},{v}" for n, v in enumerate(first)]
    rows += [f"{10 * n + 3000},{v}" for n, v in enumerate(second)]
    path = tmp_path / "two.csv"
    path.write_text("\n".join(["time_min,top_C", *rows]) + "\n", encoding="utf-8")
    window.open_path(path)
    assert log_of(window).rows == 50
    window.actions["how_read"].trigger()
    view = window.open_log.view
    assert [view.run.itemText(n) for n in range(view.run.count())] == ["1: 13.0 h", "2: 8.2 h"]
    assert view.run.currentIndex() == 1
    choose(view.run, "1: 13.0 h")
    view.use.click()
    assert log_of(window).rows == 79


def test_a_log_of_one_row_a_probe_shows_its_probes_as_columns(window, tmp_path):
    rows = [f"{10 * n},{probe},{20 + 15 * n}" for n in range(60) for probe in ("top", "low")]
    path = tmp_path / "long.csv"
    path.write_text("\n".join(["time_min,sensor,value_C", *rows]) + "\n", encoding="utf-8")
    window.open_path(path)
    window.actions["how_read"].trigger()
    assert sorted(window.open_log.roles) == ["low", "top"]
    assert window.open_log.view.table.item(2, 1).text() == "35.0"


@pytest.fixture
def untold(tmp_path) -> Path:
    """Return a log whose time says no unit: minutes that look like seconds."""
    return write(tmp_path / "untold.csv", "time,top_C", climb(20, 4, 201))


def test_a_unit_of_time_taken_wrongly_is_corrected_and_kept_when_saved(window, untold, tmp_path):
    window.open_path(untold)
    assert log_of(window).hours == pytest.approx(2000 / 3600)
    window.actions["how_read"].trigger()
    view = window.open_log.view
    assert view.time_unit.isVisible()
    assert not view.time_form.isVisible()
    assert view.time_unit.currentText() == "elapsed seconds"
    assert "x0.001" not in view.curve.getAxis("bottom").labelString()
    choose(view.time_unit, "elapsed minutes")
    assert view.time_unit.currentText() == "elapsed minutes"
    view.use.click()
    assert log_of(window).elapsed_h[[0, 6, 200]].tolist() == pytest.approx([0.0, 1.0, 2000 / 60])
    sheet = write_firing_folder(window.sitting.review.given, tmp_path / "saved")
    assert read_firing_sheet(sheet).log.hours == pytest.approx(2000 / 60)
    window.open_path(sheet)
    assert log_of(window).hours == pytest.approx(2000 / 60)
    window.actions["how_read"].trigger()
    assert view.time_unit.currentText() == "elapsed minutes"


def test_a_time_with_dates_has_no_unit_to_choose(window, tmp_path):
    rows = [f"2025-03-04 {hour:02d}:00,{20 + 40 * hour}" for hour in range(20)]
    path = tmp_path / "dated.csv"
    path.write_text("\n".join(["when,top_C", *rows]) + "\n", encoding="utf-8")
    window.open_path(path)
    window.actions["how_read"].trigger()
    view = window.open_log.view
    assert not view.time_unit.isVisible()
    assert view.time_form.isVisible()


def test_a_unit_of_time_and_signs_are_remembered_for_the_next_file(window, tmp_path):
    rows = [f"{10 * n};{20 + 4 * n},500" for n in range(201)]
    for name in ("one.csv", "next.csv"):
        (tmp_path / name).write_text("\n".join(["time;top_C", *rows]) + "\n", encoding="utf-8")
    window.open_path(tmp_path / "one.csv")
    window.actions["how_read"].trigger()
    view = window.open_log.view
    assert view.delimiter.currentText() == "semicolon (;)"
    assert view.decimal.currentText() == "comma (,)"
    choose(view.delimiter, "space")
    assert view.wrong.isVisible()
    assert view.delimiter.currentText() == "semicolon (;)"
    choose(view.delimiter, "semicolon (;)")
    choose(view.decimal, "comma (,)")
    choose(view.time_unit, "elapsed minutes")
    view.remember.setChecked(True)
    view.use.click()
    window.open_path(tmp_path / "next.csv")
    log = log_of(window)
    assert log.notes[-1].kind == "remembered"
    assert log.hours == pytest.approx(2000 / 60)
    assert log.temperatures[0].values[:2].tolist() == [20.5, 24.5]
    assert (log.choices.delimiter, log.choices.decimal) == (";", ",")


def test_another_delimiter_is_remembered_by_what_the_reader_finds_alone(window, tmp_path):
    rows = [f"{10 * n},1;{20 + 4 * n},{30 + 4 * n}" for n in range(60)]
    for name in ("one.csv", "next.csv"):
        text = "\n".join(["min,x;top_C,low_C", *rows]) + "\n"
        (tmp_path / name).write_text(text, encoding="utf-8")
    window.open_path(tmp_path / "one.csv")
    window.actions["how_read"].trigger()
    view = window.open_log.view
    assert view.delimiter.currentText() == "semicolon (;)"
    choose(view.delimiter, "comma (,)")
    assert view.decimal.currentText() == "point (.)"
    view.remember.setChecked(True)
    view.use.click()
    window.open_path(tmp_path / "next.csv")
    assert log_of(window).notes[-1].kind == "remembered"
    assert log_of(window).temperatures[0].values[:3].tolist() == [30.0, 34.0, 38.0]
    window.actions["how_read"].trigger()
    assert view.delimiter.currentText() == "comma (,)"
    view.forget.click()
    assert view.delimiter.currentText() == "semicolon (;)"


def test_a_workbook_has_no_signs_to_choose(window, tmp_path):
    path = tmp_path / "night.xlsx"
    save_workbook(path, [["minutes", "chamber °C"], [0, 20], [10, 45.5], [20, 180]])
    window.open_path(path)
    window.actions["how_read"].trigger()
    view = window.open_log.view
    assert not view.delimiter.isVisible()
    assert not view.decimal_label.isVisible()
    assert view.time_unit.isVisible()


def test_a_unit_of_time_and_signs_come_back_as_they_were_kept(tmp_path):
    kept = RememberedReadings(tmp_path / "log_readings.json")
    choices = ReadingChoices(delimiter="\t", decimal=",", time_unit=TimeUnit.HOURS)
    kept.keep("k", choices)
    assert kept.choices("k") == choices


def test_a_schedule_dropped_on_the_start_page_is_seen_in_the_firing_that_takes_it(
    window, log_file, tmp_path
):
    window.open_path(log_file)
    window.go_to_start()
    schedule = tmp_path / "schedule.csv"
    schedule.write_text("rate_c_per_h,target_c,hold_min\n150,1200,10\n", encoding="utf-8")
    window.arrivals.open_paths([schedule])
    assert window.work.isVisible()
    assert window.sitting.review.given.intended.segments[0].target_c == 1200.0


def test_a_schedule_dropped_with_no_firing_open_asks_for_the_log(window, tmp_path):
    schedule = tmp_path / "schedule.csv"
    schedule.write_text("rate_c_per_h,target_c,hold_min\n150,1200,10\n", encoding="utf-8")
    window.arrivals.open_paths([schedule])
    assert window.start.isVisible()
    assert "the log" in window.message.text.text()
