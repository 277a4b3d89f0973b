"""Several firings in one file, one firing in two files, and what is shown before opening."""

from datetime import datetime

import numpy as np
import pytest
from log_files import chamber, minutes, read, said

from firing_review.firing.errors import InputError
from firing_review.firing.log import ChannelRole
from firing_review.io.log_csv import ReadingChoices, read_runs
from firing_review.io.log_join import join_logs
from firing_review.io.log_preview import preview_log

FIRING = (
    [20 + 100 * i for i in range(11)] + [1020 - 50 * i for i in range(1, 20)] + [60, 45, 35, 28]
)


def hourly(values: list[int], start: int = 0) -> str:
    return "".join(f"{start + i},{v}\n" for i, v in enumerate(values))


TWO = "elapsed_h,chamber_C\n" + hourly(FIRING) + hourly([25, *FIRING], 34)


def test_two_firings_in_one_file_are_parted_where_the_kiln_was_cool() -> None:
    first, second = read_runs(TWO.encode(), "log.csv")
    assert first.rows + second.rows == 69
    assert chamber(first)[:11] == FIRING[:11]
    assert chamber(second)[-34:] == FIRING
    assert second.elapsed_h[0] == 0.0


def test_the_last_firing_is_read_unless_another_is_chosen() -> None:
    last, first = read(TWO), read(TWO, run=0)
    assert chamber(last)[-1] == 28
    assert chamber(first)[0] == 20
    assert "several_runs" in said(last)
    with pytest.raises(InputError, match="from 1 to 2"):
        read(TWO, run=5)


def test_a_pause_between_two_firings_parts_them_there() -> None:
    text = "elapsed_h,chamber_C\n" + hourly(FIRING) + hourly(FIRING, 200)
    assert [log.rows for log in read_runs(text.encode(), "log.csv")] == [34, 34]


def test_a_probe_that_fails_for_a_while_does_not_part_a_firing() -> None:
    values = list(range(20, 1000, 10))
    values[60:75] = [22] * 15
    text = "elapsed_min,chamber_C\n" + hourly(values)
    assert len(read_runs(text.encode(), "log.csv")) == 1


def test_drying_overnight_belongs_to_the_firing_that_follows() -> None:
    text = "elapsed_h,chamber_C\n" + hourly([20, 60, 90, 90, 90, 60, 40, 30, *FIRING])
    assert len(read_runs(text.encode(), "log.csv")) == 1


def part(start: str, values: list[int]) -> str:
    day, hour = start.split(" ")
    rows = (f"{day} {int(hour) + i:02d}:00:00,{v}\n" for i, v in enumerate(values))
    return "time,chamber_C\n" + "".join(rows)


def test_two_files_of_one_firing_are_joined_by_their_dates() -> None:
    early, late = (
        read(part("2026-03-01 8", [20, 120, 220])),
        read(part("2026-03-01 12", [400, 500])),
    )
    for joined in (join_logs(early, late), join_logs(late, early)):
        assert minutes(joined) == [0.0, 60.0, 120.0, 240.0, 300.0]
        assert chamber(joined) == [20.0, 120.0, 220.0, 400.0, 500.0]
        assert joined.started_at == datetime(2026, 3, 1, 8)  # noqa: DTZ001
        assert early.raw.rstrip() in joined.raw
        assert late.raw in joined.raw


def test_files_without_dates_are_joined_one_behind_the_other() -> None:
    first = read("elapsed_min,chamber_C,set_C\n0,20,21\n10,40,41\n20,60,61\n")
    second = read("elapsed_min,chamber_C\n0,80\n10,100\n")
    joined = join_logs(first, second)
    assert minutes(joined) == [0.0, 10.0, 20.0, 30.0, 40.0]
    assert np.isnan(joined.channels[1].values[3:]).all()


def test_files_that_overlap_or_are_weeks_apart_are_not_joined() -> None:
    first = read(part("2026-03-01 8", [20, 120, 220]))
    with pytest.raises(InputError, match="overlap"):
        join_logs(first, read(part("2026-03-01 9", [20, 120])))
    with pytest.raises(InputError, match="days"):
        join_logs(first, read(part("2026-04-01 9", [20, 120])))


def test_a_preview_tells_rows_roles_unit_and_clock() -> None:
    seen = preview_log(b"elapsed_min;top_F;set_F\n0;70;70\n10;140,5;150\n20;260;260\n", "log.csv")
    assert seen.first_rows == (("0", "70", "70"), ("10", "140,5", "150"), ("20", "260", "260"))
    assert seen.names == ("elapsed_min", "top_F", "set_F")
    assert seen.time_columns == (0,)
    assert seen.time_form == "elapsed minutes"
    assert [r.role for r in seen.roles] == [ChannelRole.CHAMBER, ChannelRole.SET_POINT]
    assert (seen.unit.value, seen.delimiter, seen.decimal) == ("F", ";", ",")
    assert seen.confidence == 0.9
    assert seen.doubts == ()
    assert seen.runs_h == (pytest.approx(1 / 3),)


def test_a_preview_tells_a_doubt_and_a_choice_settles_it() -> None:
    raw = ("elapsed_h,chamber\n" + hourly([60 + 30 * i for i in range(31)])).encode()
    assert len(preview_log(raw, "log.csv").doubts) == 1
    assert preview_log(raw, "log.csv").confidence <= 0.3
    settled = preview_log(raw, "log.csv", ReadingChoices(unit="F"))
    assert settled.doubts == ()


def test_files_of_one_logger_share_the_key_of_their_layout() -> None:
    one = preview_log(b"elapsed_min,top_C\n0,20\n10,40\n20,180\n", "a.csv")
    two = preview_log(b"elapsed_min,top_C\n0,25\n10,45\n", "b.csv")
    other = preview_log(b"elapsed_min;top_C\n0;25\n10;45\n", "c.csv")
    assert one.layout_key == two.layout_key != other.layout_key
