"""Files long enough to be gone through in pieces read the same as in one."""

import numpy as np
import pytest
from log_files import chamber, minutes, read

from firing_review.io import log_table, log_text

ROWS = 400


def stamps(form: str) -> list[str]:
    start = np.datetime64("2026-04-11T23:00:00")
    times = [start + np.timedelta64(i, "m") for i in range(ROWS)]
    return [t.item().strftime(form) for t in times]


@pytest.fixture(autouse=True)
def small_pieces(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(log_text, "PIECE", 500)
    monkeypatch.setattr(log_table, "LONG", 500)
    monkeypatch.setattr(log_table, "PIECE_ROWS", 100)


def text(times: list[str]) -> str:
    return "time,chamber_C\n" + "".join(f"{t},{20 + i}\n" for i, t in enumerate(times))


@pytest.mark.parametrize("form", ["%Y-%m-%d %H:%M:%S", "%d.%m.%Y %H:%M", "%m/%d/%Y %I:%M %p"])
def test_stamps_in_many_pieces_read_as_one_clock(form: str) -> None:
    log = read(text(stamps(form)))
    assert minutes(log) == [float(i) for i in range(ROWS)]
    assert chamber(log) == [20.0 + i for i in range(ROWS)]


def test_a_damaged_stamp_in_a_later_piece_loses_its_row_only() -> None:
    times = stamps("%Y-%m-%d %H:%M:%S")
    times[250] = "20x6-04-12"
    log = read(text(times))
    assert minutes(log) == [float(i) for i in range(ROWS) if i != 250]
    assert log.rows_dropped == 1


def test_a_short_row_in_a_later_piece_is_left_out() -> None:
    lines = text(stamps("%Y-%m-%d %H:%M:%S")).splitlines()
    lines[301] = lines[301].split(",")[0]
    log = read("\n".join(lines))
    assert log.rows == ROWS - 1
    assert log.rows_dropped == 1
    assert minutes(log)[299:301] == [299.0, 301.0]


def test_a_word_in_a_later_piece_makes_no_column_of_words() -> None:
    lines = text(stamps("%Y-%m-%d %H:%M:%S")).splitlines()
    lines[351] = lines[351].split(",")[0] + ",broken"
    read_back = chamber(read("\n".join(lines)))
    assert np.flatnonzero(np.isnan(read_back)).tolist() == [350]
