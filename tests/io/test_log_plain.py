"""Plain logs are read without pandas, and are read as the general reader reads them."""

import subprocess
import sys
from datetime import datetime, timedelta
from unittest import mock

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firing_review.firing.errors import InputError
from firing_review.firing.log import FiringLog
from firing_review.io import log_steps, log_text
from firing_review.io.log_csv import read_log_bytes
from firing_review.io.log_layout import find_layout
from firing_review.io.log_plain import plain_rows

START = datetime.fromisoformat("2026-04-11 22:00")


def is_plain(text: str) -> bool:
    whole = log_text.log_text(text.encode())
    return plain_rows(whole, find_layout(whole.head, whole.tail, "log.csv")) is not None


def told(log: FiringLog) -> tuple[object, ...]:
    """Return all that was read, so that two readings can be compared."""
    notes = [(n.kind, n.said.text, n.count) for n in log.notes]
    channels = [(c.name, c.role, c.confidence) for c in log.channels]
    whole = (log.started_at, log.rows_dropped, log.unit_read, log.confidence)
    return (log.elapsed_h.tolist(), notes, channels, *whole)


def read_both(text: str) -> tuple[object, object]:
    """Return what the plain and the general reader make of a text: a log, or its refusal."""
    found: list[object] = []
    for reader in (log_steps.plain_rows, lambda *_: None):
        with mock.patch.object(log_steps, "plain_rows", reader):
            try:
                found.append(read_log_bytes(text.encode(), "log.csv"))
            except InputError as error:
                found.append(str(error))
    return found[0], found[1]


def assert_alike(text: str) -> None:
    plain, general = read_both(text)
    if not (isinstance(plain, FiringLog) and isinstance(general, FiringLog)):
        assert plain == general
        return
    assert told(plain) == told(general)
    for one, other in zip(plain.channels, general.channels, strict=True):
        np.testing.assert_allclose(one.values, other.values, rtol=1e-14)


NAMES = ("chamber_C", "top (°C)", "bottom_F", "set point", "output_pct", "cold end", "amps", "T1")
ODD_NAMES = ("sensor", "channel", "No", "day", "minute", "hour", "date", "time", "°C", "value")
COUNTED = {"elapsed_s": 1.0, "time (min)": 60.0, "h": 3600.0, "t": 1.0, "Clock": 60.0, "No": 30.0}
CELL = st.one_of(
    st.integers(-20, 2000).map(str),
    st.floats(-20.0, 1400.0).map(lambda x: f"{x:.1f}"),
    st.floats(0.01, 1400.0).map(repr),
    st.sampled_from(["", "+3", "7.", "1372", "0.25"]),
)
WORDS = ["NaN", "open", "-", "--.-", "Err", "inf", "eRr"]
ODD = st.sampled_from(["", *WORDS, "1e3", " 5", "0,5", "12:30", "25 C", "5-3", ".", "1.2.3"])


@st.composite
def logs(draw: st.DrawFn) -> str:
    """Return a log in a form that is plain, or nearly."""
    some = st.sampled_from((*NAMES, *NAMES, *ODD_NAMES))
    names = draw(st.lists(some, min_size=1, max_size=4, unique=True))
    parted, point = draw(st.sampled_from([",.", ";.", "\t.", ";,", "\t,"]))
    form = draw(st.sampled_from(["%Y-%m-%d %H:%M:%S", "%Y-%m-%dT%H:%M:%S", "%Y-%m-%d %H:%M"]))
    step_s = draw(st.sampled_from([0, 30, 60, 60, 60, 600]))
    count = draw(st.integers(1, 30))
    rows = [
        [
            (START + timedelta(seconds=i * step_s)).strftime(form),
            *(draw(CELL).replace(".", point) for _ in names),
        ]
        for i in range(count)
    ]
    for _ in range(draw(st.integers(0, 2))):
        row = draw(st.integers(0, count - 1))
        place = draw(st.integers(0, len(names)))
        rows[row][place] = draw(ODD)
    end = draw(st.sampled_from(["\n", "\r\n"]))
    head = draw(st.sampled_from(["time", "Date Time", "timestamp", *COUNTED]))
    if head in COUNTED:
        begin = draw(st.sampled_from([0.0, 0.0, 100.0, 46_000.25, 1_775_894_400.0]))
        for i, row in enumerate(rows):
            row[0] = f"{begin + i * step_s / COUNTED[head]:.10g}".replace(".", point)
    lines = [parted.join([head, *names]), *(parted.join(row) for row in rows)]
    return end.join(lines) + draw(st.sampled_from(["", end, end + end]))


@settings(max_examples=120, deadline=None)
@given(logs(), st.sampled_from([150, log_text.PIECE]))
def test_a_log_says_the_same_to_both_readers(text: str, piece: int) -> None:
    with mock.patch.object(log_text, "PIECE", piece):
        assert_alike(text)


def firing(columns: str = "chamber_C,set point,output_pct", minutes: int = 600) -> str:
    rows = (
        f"{START + timedelta(minutes=i):%Y-%m-%d %H:%M:%S},{20 + 2 * i},{22 + 2 * i},{i % 101}"
        for i in range(minutes)
    )
    return "\n".join(("time," + columns, *rows)) + "\n"


def counted(head: str, step: float = 1.0, columns: str = "chamber_C,set point,output_pct") -> str:
    rows = (f"{i * step:.10g},{20 + 2 * i},{22 + 2 * i},{i % 101}" for i in range(600))
    return "\n".join((f"{head},{columns}", *rows)) + "\n"


@pytest.mark.parametrize(
    "text",
    [
        counted("min"),
        counted("elapsed_s", 60.0),
        counted("Time", 1 / 60.0),
        counted("h").replace("\n1,", "\n0.9999999999999999,"),
        counted("hours", 0.016).replace(",", ";").replace(".", ","),
        "Started 2026-04-11 22:00\n" + counted("min"),
    ],
    ids=["min", "elapsed_s", "Time", "all digits", "hours with a comma", "with its begin"],
)
def test_a_firing_whose_time_counts_is_plain_and_says_the_same_to_both(text: str) -> None:
    assert is_plain(text)
    assert_alike(text)


def test_a_whole_firing_is_plain_and_says_the_same_to_both() -> None:
    assert is_plain(firing())
    assert_alike(firing())


@pytest.mark.parametrize(
    "text",
    [
        firing().replace(",26,", ",----,"),
        firing().replace(",26,", ",26.5,"),
        firing().replace(",26,", ",-2.25,"),
        firing().replace(",", ";").replace(";26;", ";26,5;"),
        firing().rstrip("\n"),
    ],
    ids=["gap", "other decimals", "below zero", "decimal comma", "no last line end"],
)
def test_gaps_and_numbers_of_any_form_are_plain_and_say_the_same_to_both(text: str) -> None:
    assert is_plain(text)
    assert_alike(text)


@pytest.mark.parametrize(
    "text",
    [
        firing().replace("2026-04-11 22:05:00", "2026-04-12 22:05:00"),
        firing().replace("2026-04-11 22:05:00", "2026-02-31 22:05:00"),
        firing().replace("2026-04-11 22:05:00", "2026-04-11 25:05:00"),
        firing().replace("2026-04-11 22:05:00", "2026-04-11 22:05"),
        firing().replace("2026", "0026"),
        firing().replace("2026-04-12 00:00:00", "2026-04-11 23:59:00"),
        firing().replace(",30,32,5\n", ",30,32\n"),
        firing("value,sensor id,output_pct"),
        counted("time", columns="sensor,value,count").replace("\n3,26,28,3\n", "\n"),
        counted("hour", columns="minute,chamber_C,output_pct"),
        counted("day", columns="time,chamber_C,output_pct"),
        "hours,clock,kiln\n0,18.00,20\n1.5,19.30,200\n5.25,23.15,800\n7,1.00,950\n9,3.00,1060\n",
        counted("x", 0.25, "chamber_C,set point,output_pct"),
        firing("chamber_C,row,") + "total,,,\n",
        "Kiln: Wren\nStarted by hand\n" + firing(),
        firing() + firing().split("\n", 1)[1],
    ],
    ids=[
        "stray",
        "no date",
        "no time",
        "no seconds",
        "no year",
        "back",
        "ragged",
        "long form",
        "counted long form",
        "parts",
        "days",
        "two clocks",
        "unnamed",
        "summary",
        "preamble",
        "told twice",
    ],
)
def test_what_is_not_quite_plain_says_the_same_to_both(text: str) -> None:
    assert_alike(text)


def test_reading_a_plain_log_does_not_load_pandas() -> None:
    code = (
        "import sys; from firing_review.io.log_csv import read_log_bytes;"
        "print(read_log_bytes(sys.stdin.buffer.read(), 'log.csv').rows, 'pandas' in sys.modules)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], input=firing(), capture_output=True, text=True, check=True
    )
    assert done.stdout.split() == ["600", "False"]
