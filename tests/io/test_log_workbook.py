"""Logs in a spreadsheet workbook."""

import contextlib
import datetime as dt
import zipfile
from io import BytesIO

import pytest

from firing_review.firing.errors import InputError
from firing_review.io import log_workbook
from firing_review.io.log_csv import read_log_bytes
from firing_review.io.log_preview import preview_log
from firing_review.io.log_workbook import as_text, unpacked


def workbook(*sheets: list[list[object]]) -> bytes:
    openpyxl = pytest.importorskip("openpyxl")
    book = openpyxl.Workbook()
    book.remove(book.active)
    for rows in sheets:
        sheet = book.create_sheet()
        for row in rows:
            sheet.append(row)
    kept = BytesIO()
    book.save(kept)
    return kept.getvalue()


ROWS = [["minutes", "chamber °C"], [0, 20], [10, 45.5], [20, None], [30, 180]]


def test_the_longest_sheet_becomes_text_with_blank_cells_left_blank():
    raw = workbook([["notes"], ["a good firing"]], ROWS)
    expected = "minutes\tchamber °C\n0\t20\n10\t45.5\n20\t\n30\t180\n"
    assert as_text(raw, "a.xlsx").decode() == expected


def test_dates_times_of_day_and_lengths_of_time_are_written_out():
    started = dt.datetime.fromisoformat("2025-03-04 05:06:07")
    length = dt.timedelta(hours=26, minutes=3)
    rows = [[started, dt.time(23, 59), length, "a\tb"], [1, 2, 3, 4]]
    first = as_text(workbook(rows), "a.xlsx").decode().splitlines()[0]
    assert first == "2025-03-04 05:06:07\t23:59:00\t26:03:00\ta b"


def test_a_workbook_with_a_date_and_a_time_in_two_columns_is_read_by_both():
    day = dt.date.fromisoformat("2025-03-04")
    rows = [["Date", "Time", "chamber °C"]]
    rows += [[day, dt.time(18 + hour, 15), 20 + 200 * hour] for hour in range(5)]
    log = read_log_bytes(workbook(rows), "a.xlsx")
    assert log.started_at == dt.datetime.fromisoformat("2025-03-04 18:15:00")
    assert log.elapsed_h.tolist() == pytest.approx([0.0, 1.0, 2.0, 3.0, 4.0])


def test_the_log_keeps_the_workbook_byte_for_byte():
    raw = workbook(ROWS)
    log = read_log_bytes(raw, "a.xlsx")
    assert log.raw == raw
    assert log.elapsed_h.tolist() == pytest.approx([0.0, 1 / 6, 2 / 6, 0.5])
    assert preview_log(raw, "a.xlsx").first_rows[1] == ("10", "45.5")


def test_without_a_reader_of_workbooks_the_way_to_one_is_named(monkeypatch):
    raw = workbook(ROWS)
    unpacked.cache_clear()
    monkeypatch.setattr(log_workbook, "find_spec", lambda _name: None)
    with pytest.raises(InputError, match="-m pip install openpyxl"):
        as_text(raw, "a.xlsx")
    unpacked.cache_clear()


def test_a_zipped_file_that_is_no_workbook_is_refused_as_before():
    kept = BytesIO()
    with zipfile.ZipFile(kept, "w") as packed:
        packed.writestr("log.csv", "0,20\n")
    assert as_text(kept.getvalue(), "a.zip") == kept.getvalue()
    with pytest.raises(InputError, match="a zipped file"):
        read_log_bytes(kept.getvalue(), "a.zip")


@pytest.mark.parametrize("place", range(0, 4000, 250))
def test_a_damaged_workbook_is_a_log_or_one_line(place):
    raw = bytearray(workbook(ROWS))
    place %= len(raw)
    raw[place : place + 40] = b"\x55" * len(raw[place : place + 40])
    with contextlib.suppress(InputError):
        assert read_log_bytes(bytes(raw), "a.xlsx").rows <= 4


def test_an_empty_workbook_is_refused():
    with pytest.raises(InputError, match="an empty workbook"):
        as_text(workbook([]), "a.xlsx")
