"""The clock of a log: stamps, dates, elapsed, epochs, and clocks that go wrong."""

from datetime import datetime
from io import StringIO

import numpy as np
import pandas as pd
import pytest
from log_files import chamber, minutes, read, said

from firing_review.firing.errors import DoubtError, InputError
from firing_review.firing.log import ReadingChoices
from firing_review.firing.units import TimeUnit
from firing_review.io.log_time import read_clock


def rows(*times: str, head: str = "time,chamber_C") -> str:
    return head + "\n" + "".join(f"{t},{20 + 10 * i}\n" for i, t in enumerate(times))


@pytest.mark.parametrize(
    "times",
    [
        ("2026-04-11 22:00:00", "2026-04-11 23:00:00", "2026-04-12 00:30:00"),
        ("2026/4/11 22:00", "2026/4/11 23:00", "2026/4/12 0:30"),
        ("2026-04-11T22:00:00Z", "2026-04-11T23:00:00Z", "2026-04-12T00:30:00Z"),
        (
            "2026-04-11T22:00:00.000+02:00",
            "2026-04-11T23:00:00.000+02:00",
            "2026-04-12T00:30:00.000+02:00",
        ),
        ("11.04.2026 22:00:00", "11.04.2026 23:00:00", "12.04.2026 00:30:00"),
        ("11/04/2026 22:00:00", "11/04/2026 23:00:00", "12/04/2026 00:30:00"),
        ("04/11/2026 10:00:00 PM", "04/11/2026 11:00:00 PM", "04/12/2026 12:30:00 AM"),
        ("4/11/26 10:00 PM", "4/11/26 11:00 PM", "4/12/26 12:30 AM"),
        ("11-Apr-2026 22:00:00", "11-Apr-2026 23:00:00", "12-Apr-2026 00:30:00"),
        ("Apr 11 2026 22:00", "Apr 11 2026 23:00", "Apr 12 2026 00:30"),
        ("1775944800", "1775948400", "1775953800"),
        ("1775944800000", "1775948400000", "1775953800000"),
        ("46123.9166667", "46123.9583333", "46124.0208333"),
    ],
)
def test_a_stamp_of_any_form_gives_date_and_elapsed_time(times: tuple[str, ...]) -> None:
    log = read(rows(*times))
    assert log.started_at == datetime(2026, 4, 11, 22, 0)  # noqa: DTZ001 - a log has no zone
    assert np.allclose(log.elapsed_h, [0.0, 1.0, 2.5], atol=1e-4)


@pytest.mark.parametrize(
    ("name", "times"),
    [
        ("elapsed_s", ("0", "3600", "9000")),
        ("elapsed_min", ("0", "60", "150")),
        ("Time [h]", ("0", "1", "2.5")),
        ("hours", ("0", "1", "2.5")),
        ("days", ("0", "0.0416666667", "0.1041666667")),
        ("time_ms", ("5000", "3605000", "9005000")),
        ("elapsed", ("0:00:00", "1:00:00", "2:30:00")),
        ("elapsed", ("0:00", "1:00", "2:30")),
        ("elapsed mm:ss", ("00:00", "60:00", "150:00")),
        ("time", ("22:00", "23:00", "00:30")),
        ("time", ("10:00 PM", "11:00 PM", "12:30 AM")),
    ],
)
def test_elapsed_time_is_read_in_any_unit(name: str, times: tuple[str, ...]) -> None:
    log = read(rows(*times, head=f"{name},chamber_C"))
    assert np.allclose(log.elapsed_h, [0.0, 1.0, 2.5], atol=1e-6)
    assert log.started_at is None


def test_a_unit_row_tells_the_unit_of_the_time() -> None:
    assert minutes(read("Time,chamber\nmin,C\n0,20\n5,30\n10,40\n")) == [0.0, 5.0, 10.0]


def test_date_and_time_may_stand_in_columns_of_their_own() -> None:
    text = "Date;Time;chamber_C\n31.12.2025;23:50:00;20\n31.12.2025;23:55:00;30\n"
    text += "01.01.2026;00:00:00;40\n"
    log = read(text)
    assert minutes(log) == [0.0, 5.0, 10.0]
    assert chamber(log) == [20.0, 30.0, 40.0]


def test_am_and_pm_may_stand_in_a_column_of_their_own() -> None:
    text = (
        "03/26/2026 11:59:00 AM 20.0\n03/26/2026 12:00:00 PM 30.0\n03/26/2026 01:00:00 PM 40.0\n"
    )
    assert minutes(read(text, unit="C")) == [0.0, 1.0, 61.0]


def test_the_whole_column_settles_day_and_month() -> None:
    log = read(rows("05/04/2026 23:50", "06/04/2026 00:10", "13/04/2026 00:10"))
    assert log.started_at == datetime(2026, 4, 5, 23, 50)  # noqa: DTZ001
    assert "date_order" in said(log)


def test_the_run_of_the_stamps_settles_day_and_month() -> None:
    log = read(rows("03/04/2026 23:50", "04/04/2026 00:00", "04/04/2026 00:10"))
    assert log.started_at == datetime(2026, 4, 3, 23, 50)  # noqa: DTZ001
    assert minutes(log) == [0.0, 10.0, 20.0]


def test_a_line_above_the_data_settles_day_and_month() -> None:
    text = "Started: Tue Apr 10 11:49:01 2012\n" + rows(
        "4/10/12 11:49", "4/10/12 11:59", "4/10/12 12:09"
    )
    assert read(text).started_at == datetime(2012, 4, 10, 11, 49)  # noqa: DTZ001


def test_a_year_of_two_digits_may_come_first() -> None:
    log = read(rows("26-04-11 23:50", "26-04-12 00:00", "26-04-12 00:10"))
    assert minutes(log) == [0.0, 10.0, 20.0]
    assert log.started_at == datetime(2026, 4, 11, 23, 50)  # noqa: DTZ001


def test_dates_that_could_be_two_curves_are_asked_about() -> None:
    text = rows("01/02/2026 10:00", "02/03/2026 10:00", "03/04/2026 10:00")
    with pytest.raises(DoubtError, match="day and month"):
        read(text)
    assert read(text, day_first=True).elapsed_h[1] == 29 * 24.0
    assert read(text, day_first=False).elapsed_h[1] == 32 * 24.0


def test_midnight_is_passed_as_often_as_needed() -> None:
    times = [f"{(20 + 5 * i) % 24:02d}:00" for i in range(12)]
    log = read(rows(*times))
    assert log.elapsed_h.tolist() == [5.0 * i for i in range(12)]
    assert "midnight" in said(log)


def test_a_clock_that_starts_anew_is_carried_on() -> None:
    log = read(rows("0", "10", "20", "30", "0", "10", "20", head="elapsed_min,chamber_C"))
    assert minutes(log) == [0.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0]
    assert "clock_mended" in said(log)


def test_a_clock_set_from_its_default_year_is_carried_on() -> None:
    log = read(
        rows("2000-01-01 00:00", "2000-01-01 00:10", "2026-04-11 18:00", "2026-04-11 18:10")
    )
    assert minutes(log) == [0.0, 10.0, 20.0, 30.0]
    assert "clock_mended" in said(log)


def test_an_hour_told_twice_in_autumn_is_carried_on() -> None:
    times = [f"2025-10-26 0{h}:{m:02d}" for h in (1, 2) for m in range(0, 60, 10)]
    times += [f"2025-10-26 0{h}:{m:02d}" for h in (2, 3) for m in range(0, 60, 10)]
    assert minutes(read(rows(*times))) == [10.0 * i for i in range(24)]


def test_an_hour_missing_in_spring_is_named_and_kept() -> None:
    times = [f"2026-03-29 01:{m:02d}" for m in range(0, 60, 10)]
    times += [f"2026-03-29 03:{m:02d}" for m in range(0, 60, 10)]
    log = read(rows(*times))
    assert minutes(log)[5:7] == [50.0, 120.0]
    assert "clock_jump" in said(log)


def test_a_stamp_told_twice_counts_once() -> None:
    log = read(rows("0", "10", "10", "20", head="elapsed_min,chamber_C"))
    assert minutes(log) == [0.0, 10.0, 20.0]
    assert chamber(log) == [20.0, 30.0, 50.0]
    assert log.rows_dropped == 1


@pytest.mark.parametrize("stray", ["0", "500"])
def test_a_stray_stamp_is_left_out(stray: str) -> None:
    times = [str(10 * i) for i in range(12)]
    times[6] = stray
    log = read(rows(*times, head="elapsed_min,chamber_C"))
    assert minutes(log) == [10.0 * i for i in range(12) if i != 6]
    assert chamber(log) == [20.0 + 10 * i for i in range(12) if i != 6]
    assert log.rows_dropped == 1


def test_rows_out_of_order_are_put_in_order() -> None:
    order = [3, 0, 7, 5, 1, 6, 2, 9, 4, 8]
    text = "time,chamber_C\n" + "".join(f"2026-04-11 10:{i:02d}:00,{20 + i}\n" for i in order)
    log = read(text)
    assert minutes(log) == [float(i) for i in range(10)]
    assert chamber(log) == [20.0 + i for i in range(10)]


def test_a_gap_stays_a_gap() -> None:
    log = read(rows("0", "10", "20", "200", "210", head="elapsed_min,chamber_C"))
    assert minutes(log) == [0.0, 10.0, 20.0, 200.0, 210.0]


def test_an_unnamed_unit_of_time_is_said() -> None:
    log = read(rows(*(str(60 * i) for i in range(100)), head="time,chamber_C"))
    assert minutes(log)[:2] == [0.0, 1.0]
    assert "time_unit" in said(log)


COUNTS = ["0", "30", "60", "90"]


@pytest.mark.parametrize(
    ("unit", "expected"),
    [
        (TimeUnit.MILLISECONDS, [0.0, 0.0005, 0.001, 0.0015]),
        (TimeUnit.SECONDS, [0.0, 0.5, 1.0, 1.5]),
        (TimeUnit.MINUTES, [0.0, 30.0, 60.0, 90.0]),
        (TimeUnit.HOURS, [0.0, 1800.0, 3600.0, 5400.0]),
        (TimeUnit.DAYS, [0.0, 43200.0, 86400.0, 129600.0]),
    ],
)
@pytest.mark.parametrize("head", ["time,chamber_C", "time_s,chamber_C", "elapsed_min,chamber_C"])
def test_a_unit_of_time_that_was_settled_goes_before_the_name_and_the_guess(head, unit, expected):
    log = read(rows(*COUNTS, head=head), time_unit=unit)
    assert [60.0 * hours for hours in log.elapsed_h] == pytest.approx(expected)
    assert "time_unit" not in said(log)


@pytest.mark.parametrize(
    "times",
    [
        ["2025-03-04 08:00", "2025-03-04 08:30", "2025-03-04 09:00", "2025-03-04 09:30"],
        ["8:00", "8:30", "9:00", "9:30"],
        ["1741075200", "1741077000", "1741078800", "1741080600"],
    ],
    ids=["dates", "time of day", "seconds since 1970"],
)
def test_a_settled_unit_of_time_leaves_any_other_time_as_it_is(times) -> None:
    log = read(rows(*times), time_unit=TimeUnit.SECONDS)
    assert minutes(log) == [0.0, 30.0, 60.0, 90.0]


def test_a_settled_unit_of_time_holds_for_one_row_a_probe() -> None:
    told = [f"{n},{probe},{20 + n}" for n in range(0, 600, 10) for probe in ("top", "low")]
    log = read("\n".join(["time,sensor,value_C", *told]) + "\n", time_unit=TimeUnit.SECONDS)
    assert minutes(log)[:4] == [0.0, 0.1667, 0.3333, 0.5]


def test_a_day_of_the_year_with_hhmm_is_a_clock() -> None:
    log = read("doy,hhmm,chamber_C\n101,2350,20\n101,2355,50\n102,0,80\n102,5,110\n")
    assert minutes(log) == [0.0, 5.0, 10.0, 15.0]


def test_a_day_of_the_year_alone_is_no_clock() -> None:
    with pytest.raises(InputError, match="time of each reading"):
        read("doy,chamber_C\n101,20\n101,50\n101,80\n101,110\n")


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("2026-04-11 00:00:00", "2026-04-12 00:00:00"),
        ("4/11/26 0:00", "4/12/26 0:00"),
        ("11.04.2026 00:00", "12.04.2026 00:00"),
        ("04/11/2026 12:00:00 AM", "04/12/2026 12:00:00 AM"),
    ],
)
def test_a_date_that_a_spreadsheet_wrote_as_midnight_goes_with_the_time_beside_it(first, second):
    times = (f"{first},22:00:00", f"{first},23:00:00", f"{second},00:30:00")
    log = read(rows(*times, head="Date,Time,chamber_C"))
    assert log.started_at == datetime(2026, 4, 11, 22, 0)  # noqa: DTZ001 - a log has no zone
    assert minutes(log) == [0.0, 60.0, 150.0]


def test_dates_at_midnight_that_were_read_as_times_take_the_time_beside_them_too():
    stamps = [
        f"2026-04-11 00:00:00,{i // 3600:02d}:{i // 60 % 60:02d}:00" for i in range(0, 79200, 60)
    ]
    text = rows(*stamps, head="Date,Time,chamber_C")
    frame = pd.read_csv(StringIO(text), parse_dates=["Date"])
    frame.columns = range(3)
    clock = read_clock(frame, ["Date", "Time", "chamber_C"], (), (), "log.csv", ReadingChoices())
    assert clock.hours[:3].tolist() == pytest.approx([0.0, 1 / 60, 2 / 60])


def test_hours_and_minutes_may_be_written_with_the_h_alone():
    log = read(rows("0 h", "2 h", "2 h 30", "3 h 05 min", head="after,chamber_C"))
    assert minutes(log) == [0.0, 120.0, 150.0, 185.0]


def test_a_clock_written_with_points_passes_midnight_as_a_clock():
    log = read("time;kiln\n18.00;20\n19.30;200\n23.15;800\n1.00;950\n3.15;1060\n")
    assert minutes(log) == [0.0, 90.0, 315.0, 420.0, 555.0]
    assert "midnight" in said(log)


def test_elapsed_hours_with_two_places_stay_elapsed_hours():
    log = read("time;kiln\n0.00;20\n1.30;200\n5.15;800\n13.00;950\n14.15;1060\n")
    assert minutes(log) == [0.0, 78.0, 309.0, 780.0, 849.0]


def test_words_behind_the_readings_cost_no_reading():
    log = read("0:00 20\n1:00 200\n2:30 500\n4:00 800 hold\n4:30 805 off at half past\n6:00 600\n")
    assert chamber(log) == [20.0, 200.0, 500.0, 800.0, 805.0, 600.0]
    assert log.rows_dropped == 0
    assert "remarks" in said(log)


def test_a_line_of_words_above_a_table_is_no_name_of_its_reading():
    log = read("Kiln in the shed\n0:00 20\n1:00 200\n2:30 500\n4:00 800\n")
    assert [channel.name for channel in log.channels] == ["column 2"]


@pytest.mark.parametrize(
    "times",
    [
        ("27.11. 22:00", "27.11. 23:30", "28.11. 01:00"),
        ("27/11 22:00", "27/11 23:30", "28/11 01:00"),
        ("11/27 22:00", "11/27 23:30", "11/28 01:00"),
        ("Nov 27 22:00", "Nov 27 23:30", "Nov 28 01:00"),
        ("1970-01-01 22:00", "1970-01-01 23:30", "1970-01-02 01:00"),
    ],
)
def test_a_day_without_its_year_gives_the_hours_and_no_date(times):
    log = read(rows(*times))
    assert minutes(log) == [0.0, 90.0, 180.0]
    assert log.started_at is None
