"""Schedules as typed, pasted and saved by spreadsheets."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firing_review.firing.errors import InputError
from firing_review.firing.schedule import ClockCurve, Schedule, Segment
from firing_review.firing.units import TemperatureUnit
from firing_review.io.schedule_file import (
    exact_schedule_text,
    parse_schedule_text,
    read_schedule,
    schedule_text,
    write_schedule,
)

CELSIUS, FAHRENHEIT = TemperatureUnit.CELSIUS, TemperatureUnit.FAHRENHEIT
HEADER = "rate_c_per_h,target_c,hold_min\n"


def refusal(text, **unit):
    with pytest.raises(InputError) as caught:
        parse_schedule_text(text, "plan.csv", **unit)
    return caught.value


def test_a_schedule_in_celsius_is_read_row_by_row():
    read = parse_schedule_text(HEADER + "100,600,0\n60,1000,15\n", "plan.csv")
    assert read == Schedule((Segment(100.0, 600.0, 0.0), Segment(60.0, 1000.0, 15.0)))


def test_fahrenheit_rates_convert_without_the_offset_and_targets_with_it():
    read = parse_schedule_text("rate_f_per_h,target_f,hold_min\n180,1832,10\n", "plan.csv")
    assert read.segments[0].rate_c_per_h == pytest.approx(100.0)
    assert read.segments[0].target_c == pytest.approx(1000.0)


def test_full_is_as_fast_as_the_kiln_can_and_the_sign_of_a_rate_is_ignored():
    read = parse_schedule_text(HEADER + "Full,1000,0\n-80,600,0\n", "plan.csv")
    assert [s.rate_c_per_h for s in read.segments] == [None, 80.0]


@pytest.mark.parametrize(
    ("written", "minutes"), [("30", 30.0), ("1:30", 90.0), ("0:05:30", 5.5), ("", 0.0)]
)
def test_a_hold_is_minutes_or_hours_and_minutes(written, minutes):
    read = parse_schedule_text(HEADER + f"100,600,{written}\n", "plan.csv")
    assert read.segments[0].hold_min == minutes


def test_blank_lines_and_comment_lines_are_passed_over():
    read = parse_schedule_text(f"# slow bisque\n\n{HEADER}\n100,600,0\n,,\n# end\n", "plan.csv")
    assert read == Schedule((Segment(100.0, 600.0, 0.0),))


def test_a_semicolon_file_may_have_decimal_commas():
    read = parse_schedule_text("rate_c_per_h;target_c;hold_min\n62,5;600;7,5\n", "plan.csv")
    assert read == Schedule((Segment(62.5, 600.0, 7.5),))


def test_rows_pasted_from_a_spreadsheet_need_no_header_when_the_unit_is_known():
    read = parse_schedule_text("180\t1832\t0:10\r\nfull\t2012\t\r\n", "pasted rows", FAHRENHEIT)
    assert [s.hold_min for s in read.segments] == [10.0, 0.0]
    assert read.segments[1].target_c == pytest.approx(1100.0)


def test_rows_without_header_and_without_unit_are_not_guessed():
    error = refusal("100\t600\t0\n")
    assert (error.line, error.expected) == (1, "a header line with the units")


def test_a_curve_tied_to_the_clock_is_read_whatever_the_case_of_its_unit():
    read = parse_schedule_text("time_min,Temperature_C\n0,20\n30,800\n90,950\n", "curve.csv")
    assert read == ClockCurve((0.0, 0.5, 1.5), (20.0, 800.0, 950.0))


def test_a_clock_that_runs_backwards_is_refused_at_its_row():
    error = refusal("time_min,temperature_f\n0,70\n20,500\n10,900\n")
    assert (error.line, error.column) == (4, 1)


def test_a_typing_error_is_named_with_line_and_column():
    error = refusal(HEADER + "100,600,0\n60,1O00,15\n")
    assert str(error) == (
        "plan.csv, line 3, column 2: expected a temperature in °C (target_c), found '1O00'. "
        "Write a plain number, for instance 1000."
    )


@pytest.mark.parametrize(
    ("row", "column", "part_of_remedy"),
    [
        ("0,600,0", 1, "never arrives"),
        (",600,0", 1, "plain number"),
        ("100,2232,0", 2, "target_f"),
        ("100,9999,0", 2, "beyond any kiln"),
        ("100,600,1:75", 3, "0:30"),
        ("100,600,-5", 3, "0:30"),
        ("100,5,600,0", 4, "decimals with a point"),
    ],
)
def test_what_cannot_be_meant_is_refused_at_its_cell(row, column, part_of_remedy):
    error = refusal(HEADER + row + "\n")
    assert (error.line, error.column) == (2, column)
    assert part_of_remedy in error.remedy


def test_a_comma_that_may_mean_thousands_is_not_guessed():
    error = refusal("rate_c_per_h;target_c\n100;1,000\n")
    assert "without the comma" in error.remedy


def test_an_unknown_column_is_answered_with_the_nearest_known_one():
    assert refusal("rate_c_per_h,taget_c\n100,600\n").remedy == "Did you mean target_c?"


def test_a_column_without_its_unit_asks_for_the_unit():
    assert refusal("rate,target,hold\n1,2,3\n").remedy == "Write rate_c_per_h or rate_f_per_h."


def test_a_stuck_unit_that_contradicts_the_column_is_refused():
    assert refusal(HEADER + "100,1832 °F,0\n").column == 2


def test_a_header_alone_is_no_schedule():
    assert refusal(HEADER).expected == "at least one row below the header"


def test_a_schedule_keeps_the_name_the_person_gave_it(tmp_path):
    path = tmp_path / "plan.csv"
    write_schedule(path, Schedule((Segment(100.0, 600.0, 0.0),), "Slow bisque"), CELSIUS)
    assert read_schedule(path).name == "Slow bisque"
    path.write_text(HEADER + "100,600,0\n")
    assert read_schedule(path).name == "plan"


def test_a_utf16_file_from_a_spreadsheet_is_read(tmp_path):
    path = tmp_path / "plan.csv"
    path.write_bytes("rate_c_per_h\ttarget_c\n100\t600\n".encode("utf-16"))
    assert read_schedule(path).segments == (Segment(100.0, 600.0, 0.0),)


def test_a_schedule_written_in_fahrenheit_has_no_dust_from_conversion():
    read = parse_schedule_text("rate_f_per_h,target_f,hold_min\n108,1974,0\n", "plan.csv")
    assert schedule_text(read, FAHRENHEIT) == "rate_f_per_h,target_f,hold_min\n108,1974,0\n"


rates = st.none() | st.floats(0.1, 2000.0)
segments = st.builds(Segment, rates, st.floats(20.0, 1400.0), st.floats(0.0, 3000.0))


@given(st.lists(segments, min_size=1, max_size=8))
def test_any_schedule_written_exactly_reads_back_the_same(steps):
    schedule = Schedule(tuple(steps), "mine")
    assert parse_schedule_text(exact_schedule_text(schedule), "plan.csv") == schedule


@given(st.lists(st.integers(70, 2500), min_size=1, max_size=8))
def test_whole_degrees_fahrenheit_read_back_the_same_from_either_unit(targets):
    text = "rate_f_per_h,target_f,hold_min\n" + "".join(f"100,{t},5\n" for t in targets)
    read = parse_schedule_text(text, "plan.csv")
    for unit in TemperatureUnit:
        assert parse_schedule_text(schedule_text(read, unit), "plan.csv") == read


@given(st.lists(st.integers(0, 6000), min_size=2, max_size=8, unique=True))
def test_a_clock_curve_reads_back_the_same(minutes):
    rows = "".join(f"{m},{500 + i}\n" for i, m in enumerate(sorted(minutes)))
    read = parse_schedule_text("time_min,temperature_c\n" + rows, "curve.csv")
    assert parse_schedule_text(exact_schedule_text(read), "curve.csv") == read
