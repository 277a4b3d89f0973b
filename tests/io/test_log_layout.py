"""Shapes of a file: delimiters, headers, encodings, and the lines that are left out."""

import pytest
from log_files import chamber, minutes, read, said

from firing_review.firing.errors import InputError
from firing_review.firing.log import ChannelRole

PLAIN = "elapsed_min,chamber_C\n0,20\n10,40.5\n20,61\n30,80\n"
VALUES, MINUTES = [20.0, 40.5, 61.0, 80.0], [0.0, 10.0, 20.0, 30.0]


@pytest.mark.parametrize(
    "raw",
    [
        PLAIN.encode("utf-8"),
        PLAIN.encode("utf-8-sig"),
        PLAIN.encode("utf-16"),
        PLAIN.encode("utf-16-le"),
        PLAIN.encode("utf-16-be"),
        PLAIN.replace("chamber_C", "chamber °C").encode("latin-1"),
        PLAIN.replace("chamber_C", "chamber °C").encode("utf-8"),
        PLAIN.replace("\n", "\r\n").encode(),
        PLAIN.replace("\n", "\r").encode(),
        PLAIN.replace(",", ";").encode(),
        PLAIN.replace(",", "\t").encode(),
        PLAIN.replace(",", "|").encode(),
        PLAIN.replace(",", ", ").encode(),
        PLAIN.replace(",", ";").replace(".", ",").encode(),
        PLAIN.replace(",", "    ").encode(),
        PLAIN.rstrip("\n").encode(),
        (PLAIN + "\n\n\n").encode(),
        PLAIN.replace("\n", "\n\n").encode(),
    ],
)
def test_every_encoding_line_end_and_delimiter_reads_the_same(raw: bytes) -> None:
    log = read(raw)
    assert chamber(log) == VALUES
    assert minutes(log) == MINUTES
    assert log.rows_dropped == 0
    assert log.raw == raw


def test_quoted_cells_may_hold_decimal_commas_and_delimiters() -> None:
    text = '"elapsed_min","chamber, front (°C)"\n"0","20,5"\n"10","40,5"\n"20","61,25"\n'
    assert chamber(read(text)) == [20.5, 40.5, 61.25]


def test_a_preamble_is_passed_over() -> None:
    text = "Serial: 123\nStarted by hand\n# Comment\n\n" + PLAIN
    assert chamber(read(text)) == VALUES


def test_a_word_on_a_line_of_its_own_and_a_closing_line_are_no_rows() -> None:
    log = read("DATA\n" + PLAIN + "End\n")
    assert chamber(log) == VALUES
    assert log.rows_dropped == 1


def test_names_and_units_may_stand_on_lines_of_their_own() -> None:
    text = "Time,CH1,CH2\n,chamber,setpoint\nmin,°C,°C\n0,20,21\n10,41,40\n20,61,60\n"
    log = read(text)
    assert [(c.name, c.role) for c in log.channels] == [
        ("CH1 chamber", ChannelRole.CHAMBER),
        ("CH2 setpoint", ChannelRole.SET_POINT),
    ]
    assert minutes(log) == [0.0, 10.0, 20.0]


def test_a_header_may_stand_below_the_data() -> None:
    log = read("0,20\n10,41\n20,61\nelapsed_min,chamber_C\n")
    assert chamber(log) == [20.0, 41.0, 61.0]
    assert minutes(log) == [0.0, 10.0, 20.0]


def test_a_file_without_header_is_read() -> None:
    log = read("2026-01-02 10:00:00,20\n2026-01-02 10:10:00,41\n2026-01-02 10:20:00,161\n")
    assert chamber(log) == [20.0, 41.0, 161.0]


def test_a_header_that_lacks_the_name_of_the_time_is_moved_to_its_columns() -> None:
    log = read("top_C,bottom_C\n0,20,19\n600,41,39\n1200,61,58\n")
    assert [c.name for c in log.channels] == ["top_C", "bottom_C"]
    assert log.channels[0].values.tolist() == [20.0, 41.0, 61.0]


def test_a_row_counter_is_no_temperature() -> None:
    log = read("No,elapsed_min,chamber_C\n1,0,20\n2,10,41\n3,20,61\n4,30,81\n")
    assert chamber(log) == [20.0, 41.0, 61.0, 81.0]
    assert minutes(log) == [0.0, 10.0, 20.0, 30.0]


def test_a_blank_first_cell_shifts_nothing() -> None:
    log = read("\tTime\tchamber\n\tmin\tC\n\t0\t20\n\t10\t41\n\t20\t61\n")
    assert chamber(log) == [20.0, 41.0, 61.0]


def test_a_row_with_a_cell_missing_is_left_out_and_counted() -> None:
    log = read("elapsed_min,top_C,bottom_C\n0,20,19\n10,41\n20,61,58\n30,81,77\n")
    assert log.channels[0].values.tolist() == [20.0, 61.0, 81.0]
    assert log.channels[1].values.tolist() == [19.0, 58.0, 77.0]
    assert log.rows_dropped == 1
    assert type(log.rows_dropped) is int, "other languages choose the plural by a plain number"


def test_a_last_line_that_was_cut_off_is_left_out() -> None:
    log = read("elapsed_min,top_C,bottom_C\n0,20,19\n10,41,40\n20,61,58\n30,8")
    assert log.rows == 3
    assert log.rows_dropped == 1


def test_cells_beyond_the_usual_ones_in_the_first_row_only_are_kept_apart() -> None:
    text = "No,Time,Celsius(°C),Serial\n1,2026-01-02 10:00:00,20,77\n"
    text += "".join(f"{i},2026-01-02 10:{i:02d}:00,{20 * i}\n" for i in range(2, 9))
    assert chamber(read(text)) == [20.0, 40.0, 60.0, 80.0, 100.0, 120.0, 140.0, 160.0]


def test_headers_and_boot_markers_in_the_middle_are_left_out() -> None:
    text = (
        "elapsed_min,chamber_C\n0,20\n10,41\n--- boot 3 ---\nelapsed_min,chamber_C\n20,61\n30,80\n"
    )
    log = read(text)
    assert chamber(log) == [20.0, 41.0, 61.0, 80.0]
    assert log.rows_dropped == 2


def test_a_summary_at_the_end_is_left_out() -> None:
    log = read(PLAIN + "\nMaximum,80\nAverage,50.4\nSamples: 4\n")
    assert chamber(log) == VALUES
    assert log.rows_dropped == 3


def test_long_form_becomes_a_column_for_each_sensor() -> None:
    text = "time,sensor,value\n"
    for minute, (top, bottom) in enumerate([(20, 19), (41, 40), (61, 58), (81, 77)]):
        stamp = f"2026-01-02 10:{minute:02d}:00"
        text += f"{stamp},top,{top}\n{stamp},bottom,{bottom}\n"
    log = read(text, unit="C")
    assert [(c.name, c.values.tolist()) for c in log.channels] == [
        ("top", [20.0, 41.0, 61.0, 81.0]),
        ("bottom", [19.0, 40.0, 58.0, 77.0]),
    ]
    assert minutes(log) == [0.0, 1.0, 2.0, 3.0]


def test_long_form_with_a_reading_missing_leaves_a_gap() -> None:
    text = "time_s,channel,temp_C\n0,1,20\n1,2,19\n10,1,41\n20,1,61\n21,2,58\n30,1,80\n31,2,79\n"
    log = read(text)
    first, second = log.channels
    assert first.values.tolist() == [20.0, 41.0, 61.0, 80.0]
    assert second.values[[0, 2, 3]].tolist() == [19.0, 58.0, 79.0]
    assert str(second.values[1]) == "nan"


def test_a_text_log_with_the_value_at_the_end_of_each_line_is_read() -> None:
    lines = [f"2026-01-02 10:{i:02d}:00 INFO kiln temp = {20 + 30 * i}.5\n" for i in range(6)]
    assert chamber(read("".join(lines))) == [20.5, 50.5, 80.5, 110.5, 140.5, 170.5]


def test_the_same_table_told_twice_is_read_once() -> None:
    rows = "".join(f"{i},{20 + 7.3 * i:.1f}\n" for i in range(30))
    log = read("elapsed_min,chamber_C\n" + rows + "elapsed_min,chamber_C\n" + rows)
    assert log.rows == 30
    assert log.rows_dropped == 31


def test_decimal_commas_in_a_comma_file_are_refused() -> None:
    text = "Time,Temp,Set\n" + "".join(f"{i},5,2{i},5,2{i},0\n" for i in range(9))
    with pytest.raises(InputError, match="decimal commas in a file parted by commas"):
        read(text)


@pytest.mark.parametrize("text", ["hello\nworld\n", "a,b\nc,d\n", "{}", "1\n2\n3\n"])
def test_what_holds_no_table_is_refused(text: str) -> None:
    with pytest.raises(InputError):
        read(text)


def test_three_hand_typed_points_are_a_log() -> None:
    log = read("time temp\n9:00 70F\n11:00 600F\n15:30 2232F\n")
    assert chamber(log) == [21.111, 315.556, 1222.222]
    assert minutes(log) == [0.0, 120.0, 390.0]
    assert "rows_dropped" not in said(log)


def test_delimiter_and_decimal_sign_can_be_chosen() -> None:
    text = "elapsed_min;chamber_C\n0;1,250\n10;1,300\n20;1,400\n"
    assert chamber(read(text, decimal=",")) == [1.25, 1.3, 1.4]
    assert chamber(read("elapsed_min;chamber_C\n0;20\n10;30\n", delimiter=";")) == [20.0, 30.0]


def test_stray_zero_bytes_do_not_make_a_file_another_encoding() -> None:
    rows = "".join(f"{i},{20 + 3 * i}\n" for i in range(60))
    raw = ("elapsed_min,chamber_C\n" + rows).encode().replace(b"10,50", b"10,5\x000")
    assert chamber(read(raw)) == [20.0 + 3 * i for i in range(60)]


def test_with_a_decimal_comma_settled_a_point_parts_thousands() -> None:
    text = "date;elapsed_min;chamber_C\n" + "".join(
        f"04.03.2025;{m};{v}\n"
        for m, v in zip("0123", ("950", "1.000", "1.050,5", "-1"), strict=True)
    )
    assert chamber(read(text, decimal=","))[:3] == [950.0, 1000.0, 1050.5]


def test_with_a_decimal_point_settled_a_comma_parts_thousands() -> None:
    text = "elapsed_min;chamber_C\n0;990\n10;1,000\n20;1,050\n30;1,100\n"
    assert chamber(read(text)) == [990.0, 1.0, 1.05, 1.1]
    assert chamber(read(text, decimal=".")) == [990.0, 1000.0, 1050.0, 1100.0]
    quoted = 'elapsed_min,chamber_C\n"0","990"\n"10","1,000"\n"20","1,050.5"\n"30","1,100"\n'
    assert chamber(read(quoted, decimal=".")) == [990.0, 1000.0, 1050.5, 1100.0]


@pytest.mark.parametrize("decimal", [".", ","])
@pytest.mark.parametrize("delimiter", [";", ",", "\t", "|", " "])
def test_a_decimal_sign_that_is_not_in_the_file_changes_nothing(delimiter, decimal) -> None:
    text = "elapsed_min,chamber_C\n0,20\n10,400\n20,610\n30,800\n".replace(",", delimiter)
    log = read(text, delimiter=delimiter, decimal=decimal)
    assert chamber(log) == [20.0, 400.0, 610.0, 800.0]
    assert minutes(log) == [0.0, 10.0, 20.0, 30.0]


def test_a_delimiter_that_was_settled_goes_before_the_guess() -> None:
    text = "elapsed_min;chamber_C\n0;20,5\n10;40,5\n20;61,5\n30;80,5\n"
    assert chamber(read(text)) == [20.5, 40.5, 61.5, 80.5]
    with pytest.raises(InputError):
        read(text, delimiter="|")
    both = "min,x;top_C,low_C\n0,1;20,30\n10,1;24,34\n20,1;28,38\n30,1;32,42\n"
    assert [c.values.tolist() for c in read(both).channels] == [[20.3, 24.34, 28.38, 32.42]]
    settled = read(both, delimiter=",")
    assert [c.name for c in settled.temperatures] == ["low_C"]
    assert settled.temperatures[0].values.tolist() == [30.0, 34.0, 38.0, 42.0]
