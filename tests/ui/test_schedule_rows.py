"""Rows as typed become a schedule, or say what is wrong."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firing_review.firing.schedule import Schedule, Segment
from firing_review.firing.units import TemperatureUnit
from firing_review.ui.schedule_editor.kept import KeptSchedules
from firing_review.ui.schedule_editor.rows import cells_of, converted, read_rows, rows_of
from firing_review.ui.text_table.blocks import block_of

C, F = TemperatureUnit.CELSIUS, TemperatureUnit.FAHRENHEIT


def test_rate_target_and_hold_become_segments():
    read = read_rows([("100", "600", "0:20"), ("full", "1220", "15")], C)
    assert read.segments == (Segment(100.0, 600.0, 20.0), Segment(None, 1220.0, 15.0))
    assert read.wrong == {}


def test_fahrenheit_rows_become_celsius_segments():
    read = read_rows([("180", "212", "")], F)
    assert read.segments is not None
    assert read.segments[0].rate_c_per_h == pytest.approx(100.0)
    assert read.segments[0].target_c == pytest.approx(100.0)


@pytest.mark.parametrize(
    ("row", "column"),
    [(("fast", "600", "0"), 0), (("100", "6oo", "0"), 1), (("100", "600", "soon"), 2)],
)
def test_a_bad_cell_is_named_with_row_and_column(row, column):
    read = read_rows([("100", "500", "0"), row], C)
    assert read.segments is None
    assert list(read.wrong) == [(1, column)]
    sentence = read.wrong[1, column]
    assert sentence.startswith("Row 2, " + ("rate", "target", "hold")[column] + ": expected ")


def test_a_target_beyond_any_kiln_is_not_taken():
    read = read_rows([("100", "12220", "0")], C)
    assert read.segments is None
    assert (0, 1) in read.wrong


def test_a_last_row_half_typed_is_no_error_and_holds_nothing_up():
    read = read_rows([("100", "500", "0"), ("150", "", "")], C)
    assert read.segments == (Segment(100.0, 500.0, 0.0),)
    assert read.unfinished == "Row 2 still needs a target."
    assert read.wrong == {}


def test_a_row_in_the_middle_without_target_is_an_error():
    read = read_rows([("100", "", ""), ("150", "900", "")], C)
    assert read.segments is None
    assert (0, 1) in read.wrong


def test_a_row_that_was_not_touched_keeps_its_exact_numbers():
    exact = Segment(83.3333333, 998.8888889, 10.0)
    read = read_rows([cells_of(exact, C)], C, (exact,))
    assert read.segments == (exact,)


@given(
    st.floats(1.0, 600.0) | st.none(), st.floats(20.0, 1300.0), st.integers(0, 600), st.booleans()
)
def test_a_segment_shown_and_read_again_is_the_same_to_a_tenth(rate, target, hold, fahrenheit):
    unit = F if fahrenheit else C
    read = read_rows([cells_of(Segment(rate, target, float(hold)), unit)], unit)
    assert read.segments is not None
    back = read.segments[0]
    assert back.target_c == pytest.approx(target, abs=0.051)
    assert back.hold_min == hold
    assert (back.rate_c_per_h is None) == (rate is None)


def test_a_row_is_converted_cell_by_cell_and_nonsense_stays():
    assert converted(("100", "10x", "0:20"), C, F) == ("180", "10x", "0:20")


def test_no_schedule_is_no_rows():
    assert rows_of(None, C) == []


@pytest.mark.parametrize(
    "text",
    ["100\t600\t20\n150\t1220\t0\n", "100;600;20\r\n150;1220;0", "100, 600, 20\n150, 1220, 0"],
)
def test_pasted_rows_come_apart_into_cells(text):
    assert block_of(text) == [["100", "600", "20"], ["150", "1220", "0"]]


def test_words_apart_by_blanks_are_cells_too():
    assert block_of("100 600 20\nfull 1220 0:15") == [
        ["100", "600", "20"],
        ["full", "1220", "0:15"],
    ]


def test_a_kept_schedule_comes_back_under_any_name(tmp_path):
    kept = KeptSchedules(tmp_path / "schedules")
    schedule = (Segment(100.0, 600.0, 20.0),)
    kept.keep("Oma's Glasur: 6/7 ümlaut?", Schedule(schedule, "Oma's Glasur: 6/7 ümlaut?"), C)
    assert kept.names() == ["Oma's Glasur: 6/7 ümlaut?"]
    assert kept.load("Oma's Glasur: 6/7 ümlaut?").segments == schedule
