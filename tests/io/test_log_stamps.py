"""Times in the many forms that loggers, spreadsheets and people write them in."""

from datetime import datetime, timedelta

import numpy as np
import pytest
from log_files import minutes, read, said

from firing_review.firing.errors import DoubtError, InputError
from firing_review.firing.log import ChannelRole

START = datetime(2024, 3, 14, 22, 0)  # noqa: DTZ001 - a log has no zone
STEPS = [0, 200, 400, 600, 800]
WARM = [20, 110, 240, 400, 560]


def at(step: int, form: str) -> str:
    return (START + timedelta(minutes=step)).strftime(form)


def table(form: str, head: str = "time;kiln_C") -> str:
    rows = "".join(f"{at(m, form)};{t}\n" for m, t in zip(STEPS, WARM, strict=True))
    return f"{head}\n{rows}"


@pytest.mark.parametrize(
    "form",
    [
        "%Y%m%d %H:%M:%S",
        "%Y%m%d%H%M%S",
        "%Y%m%d%H%M",
        "%Y%m%dT%H%M%S",
        "%Y-%m-%d_%H-%M-%S",
        "%Y-%m-%d %H.%M.%S",
        "%Y-%m-%d, %H:%M:%S",
        "%Y-%m-%d %H:%M:%S,000",
        "%Y-%m-%dT%H:%M:%S.000Z",
        "%H:%M:%S %d/%m/%Y",
        "%H:%M %Y-%m-%d",
        "%a %b %d %H:%M:%S %Y",
        "%A, %d %B %Y %H:%M:%S",
        "%d-%b-%y %I:%M:%S %p",
        "%b %d, %Y %H:%M:%S",
    ],
)
def test_a_stamp_in_an_unusual_form_is_read(form: str) -> None:
    log = read(table(form))
    assert minutes(log) == STEPS
    assert log.started_at == START
    assert log.temperatures[0].values.tolist() == WARM


@pytest.mark.parametrize("head", ["date;time;kiln_C", "time;date;kiln_C"])
@pytest.mark.parametrize(
    ("date", "time"),
    [
        ("%Y%m%d", "%H%M%S"),
        ("%Y%m%d", "%H:%M:%S"),
        ("%y%m%d", "%H:%M"),
        ("%d-%b-%Y", "%H:%M:%S"),
        ("%d %B %Y", "%H:%M"),
        ("%d/%m/%y", "%H.%M.%S"),
        ("%m/%d/%Y", "%I:%M:%S %p"),
    ],
)
def test_a_date_beside_a_time_is_read_in_any_form_and_order(
    head: str, date: str, time: str
) -> None:
    first, second = (date, time) if head.startswith("date") else (time, date)
    log = read(table(f"{first};{second}", head))
    assert minutes(log) == STEPS
    assert log.started_at == START


def test_a_date_may_stand_on_the_first_row_only() -> None:
    text = "date,time,kiln_C\n2024-03-14,22:00,20\n,22:10,80\n,22:20,150\n,22:30,200\n"
    log = read(text)
    assert minutes(log) == [0, 10, 20, 30]
    assert log.started_at == START


@pytest.mark.parametrize(
    "text",
    [
        "year,month,day,hour,minute,kiln_C\n2024,3,14,22,0,20\n2024,3,14,23,30,90\n2024,3,15,0,45,160\n",
        "year,doy,hhmm,kiln_C\n2024,74,2200,20\n2024,74,2330,90\n2024,75,45,160\n",
        "doy,hour,minute,kiln_C\n74,22,0,20\n74,23,30,90\n75,0,45,160\n",
        "hour,minute,kiln_C\n22,0,20\n23,30,90\n0,45,160\n",
        "h,min,s,kiln_C\n22,0,0,20\n23,30,0,90\n0,45,0,160\n",
    ],
)
def test_a_time_in_several_columns_of_numbers_is_put_together(text: str) -> None:
    log = read(text)
    assert minutes(log) == [0, 90, 165]
    assert [c.name for c in log.channels] == ["kiln_C"]


@pytest.mark.parametrize(
    "times",
    [
        ("0h 0m", "1h 30m", "26h 15m"),
        ("0 days 00:00:00", "0 days 01:30:00", "1 days 02:15:00"),
        ("0.00:00:00", "0.01:30:00", "1.02:15:00"),
        ("0:00:00", "1:30:00", "26:15:00"),
        ("-0:30:00", "1:00:00", "25:45:00"),
    ],
)
def test_elapsed_time_in_words_or_past_a_day_is_read(times: tuple[str, ...]) -> None:
    text = "elapsed,kiln_C\n" + "".join(f"{t},{20 + 90 * i}\n" for i, t in enumerate(times))
    assert minutes(read(text)) == [0, 90, 1575]


@pytest.mark.parametrize(
    ("times", "expected"),
    [
        (("9am", "11am", "1pm", "3:30pm"), [0, 120, 240, 390]),
        (("9:00", "11:00", "1:00", "3:30"), [0, 120, 240, 390]),
        (("9:00", "11:00", "13:00", "18:00", "9:00"), [0, 120, 240, 540, 1440]),
        (("20:00", "8:00", "20:00"), [0, 720, 1440]),
    ],
)
def test_times_typed_by_hand_run_on_past_noon_and_midnight(
    times: tuple[str, ...], expected: list[int]
) -> None:
    text = "time,kiln_C\n" + "".join(f"{t},{20 + 250 * i}\n" for i, t in enumerate(times))
    assert minutes(read(text)) == expected


def test_a_clock_set_back_by_hours_is_no_midnight() -> None:
    times = [f"{12 + i // 6}:{i % 6}0" for i in range(12)]
    times += [f"{9 + i // 6}:{i % 6}0" for i in range(12)]
    log = read("time,kiln_C\n" + "".join(f"{t},{20 + 40 * i}\n" for i, t in enumerate(times)))
    assert minutes(log) == [10 * i for i in range(24)]
    assert "clock_mended" in said(log)


@pytest.mark.parametrize("per_second", [1, 1_000, 1_000_000, 1_000_000_000])
@pytest.mark.parametrize("name", ["ts", "timestamp", "unix_time", "reading at"])
def test_a_clock_since_1970_is_told_by_its_size(per_second: int, name: str) -> None:
    rows = (f"{(1_700_000_000 + 60 * m) * per_second},{20 + m}\n" for m in range(0, 200, 20))
    log = read(f"{name},kiln_C\n" + "".join(rows))
    assert minutes(log) == list(range(0, 200, 20))
    assert str(log.started_at) == "2023-11-14 22:13:20"


def test_a_counter_of_milliseconds_that_overflows_goes_on() -> None:
    rows = (f"{(2**32 - 1_200_000 + 60_000 * m) % 2**32},{20 + m}\n" for m in range(0, 100, 10))
    log = read("ms,kiln_C\n" + "".join(rows))
    assert minutes(log) == list(range(0, 100, 10))
    assert "clock_mended" in said(log)


def test_the_newest_row_may_come_first() -> None:
    log = read("min,kiln_C\n30,310\n20,180\n10,95\n0,20\n")
    assert minutes(log) == [0, 10, 20, 30]
    assert log.temperatures[0].values.tolist() == [20, 95, 180, 310]


def test_rows_that_share_a_stamp_are_spread_over_it() -> None:
    rows = (f"2024-03-14 08:{i // 4:02d},{20 + 5 * i}\n" for i in range(40))
    log = read("time,kiln_C\n" + "".join(rows))
    assert minutes(log) == [0.25 * i for i in range(40)]
    assert log.rows_dropped == 0
    assert "clock_mended" in said(log)


def test_a_zone_that_changes_in_the_night_makes_no_jump() -> None:
    stamps = ("01:00:00+01:00", "01:30:00+01:00", "03:00:00+02:00", "03:30:00+02:00")
    text = "time,kiln_C\n" + "".join(
        f"2024-03-31T{s},{20 + 90 * i}\n" for i, s in enumerate(stamps)
    )
    log = read(text)
    assert minutes(log) == [0, 30, 60, 90]
    assert log.started_at == datetime(2024, 3, 31, 1, 0)  # noqa: DTZ001


@pytest.mark.parametrize(
    ("above", "times"),
    [
        ("Start time: 2024-03-14 22:00:00", "0 10 20 30"),
        ("Data collected 14.03.2024 22:00", "0 10 20 30"),
        ("Date: 14.03.2024", "22:00 22:10 22:20 22:30"),
    ],
)
def test_a_date_above_the_data_tells_when_the_record_began(above: str, times: str) -> None:
    head = "elapsed_min" if times[0] == "0" else "time"
    rows = "".join(f"{t},{20 + 90 * i}\n" for i, t in enumerate(times.split()))
    log = read(f"{above}\n{head},kiln_C\n{rows}")
    assert minutes(log) == [0, 10, 20, 30]
    assert log.started_at == START


def test_a_unit_of_time_told_by_length_only_lowers_the_confidence() -> None:
    rows = "".join(f"{10 * i},{20 + i}\n" for i in range(100))
    assert read("elapsed_min,kiln_C\n" + rows).confidence > 0.8
    guessed = read("time,kiln_C\n" + rows)
    assert guessed.hours == pytest.approx(990 / 60.0)
    assert guessed.confidence < 0.8
    assert "time_unit" in said(guessed)


def test_a_column_named_for_the_kiln_is_no_time_though_it_rises() -> None:
    log = read("min,T kiln,T_amb\n0,20,19\n10,95,19\n20,180,20\n30,310,20\n40,420,21\n")
    assert minutes(log) == [0, 10, 20, 30, 40]
    assert log.first(ChannelRole.CHAMBER).values.tolist() == [20, 95, 180, 310, 420]
    assert log.first(ChannelRole.COLD_END).values.tolist() == [19, 19, 20, 20, 21]


def test_a_pause_in_the_record_is_told() -> None:
    log = read("min,kiln_C\n0,20\n10,95\n20,180\n30,250\n300,900\n310,950\n")
    note = next(n for n in log.notes if n.kind == "gap")
    assert note.said.figures == {"count": 1, "longest_min": pytest.approx(270.0)}
    assert np.diff(log.elapsed_h).max() == pytest.approx(4.5)


@pytest.mark.parametrize(
    "text", ["time,kiln_C\n", "top_C,bottom_C\n20,21\n95,80\n40,60\n310,80\n"]
)
def test_without_rows_or_without_a_time_it_is_refused(text: str) -> None:
    with pytest.raises(InputError) as error:
        read(text)
    assert not isinstance(error.value, DoubtError)
