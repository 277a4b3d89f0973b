"""A log written in any layout reads back as the numbers that were written."""

from dataclasses import dataclass
from datetime import datetime, timedelta

import numpy as np
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from firing_review.io.log_csv import read_log_bytes

START = datetime(2026, 4, 27, 21, 17, 0)  # noqa: DTZ001 - a log has no zone
STAMPS = {
    "iso": "%Y-%m-%d %H:%M:%S",
    "iso_t": "%Y-%m-%dT%H:%M:%S",
    "slashed": "%Y/%m/%d %H:%M:%S",
    "day_first": "%d.%m.%Y %H:%M:%S",
    "day_first_slashed": "%d/%m/%Y %H:%M:%S",
    "month_first": "%m/%d/%Y %I:%M:%S %p",
    "two_digits": "%d/%m/%y %H:%M:%S",
    "month_named": "%d-%b-%Y %H:%M:%S",
    "time_of_day": "%H:%M:%S",
}
ELAPSED = {"elapsed_s": 1.0, "elapsed_min": 60.0, "elapsed_h": 3600.0, "time_ms": 0.001}


@dataclass(frozen=True)
class Written:
    delimiter: str
    decimal: str
    form: str
    fahrenheit: bool
    unit_row: bool
    encoding: str
    line_end: str
    preamble: bool
    quoted: bool
    set_point_first: bool
    step_s: int
    gaps: frozenset[int]
    tops: tuple[int, ...]

    def number(self, value: float, digits: int) -> str:
        return f"{value:.{digits}f}".replace(".", self.decimal)

    def time(self, seconds: int) -> str:
        if self.form in STAMPS:
            return (START + timedelta(seconds=seconds)).strftime(STAMPS[self.form])
        if self.form == "unix":
            return str(1_777_000_000 + seconds)
        return self.number(seconds / ELAPSED[self.form], 6)

    def curves(self) -> np.ndarray:
        climb = np.concatenate(([0.0], np.cumsum(np.array(self.tops, dtype=float))))
        section = np.round(20.0 + 1000.0 * climb / climb[-1], 1)
        return np.vstack((section, np.round(section * 0.97, 1), np.round(section + 2.0, 1)))

    def shown(self, value: float) -> str:
        return self.number(value * 1.8 + 32.0 if self.fahrenheit else value, 4)

    def text(self) -> bytes:
        unit = "F" if self.fahrenheit else "C"
        names = ["top", "bottom", "setpoint"]
        curves = self.curves()
        order = [2, 0, 1] if self.set_point_first else [0, 1, 2]
        label = self.form if self.form in ELAPSED else "time"
        head = [label, *(names[i] if self.unit_row else f"{names[i]} (°{unit})" for i in order)]
        rows = [head]
        if self.unit_row:
            rows.append(["", *([f"°{unit}"] * 3)])
        for row in range(curves.shape[1]):
            cells = [self.shown(curves[i, row]) for i in order]
            if row in self.gaps:
                cells[order.index(1)] = ""
            rows.append([self.time(row * self.step_s), *cells])
        mark = '"' if self.quoted else ""
        lines = [self.delimiter.join(f"{mark}{c}{mark}" for c in row) for row in rows]
        if self.preamble:
            lines = ["Recorder export", "Serial number: 4711", "", *lines]
        return (self.line_end.join(lines) + self.line_end).encode(self.encoding)


@st.composite
def layouts(draw: st.DrawFn) -> Written:
    delimiter = draw(st.sampled_from([",", ";", "\t", "|"]))
    decimals = ["."] if delimiter == "," else [".", ","]
    rows = draw(st.integers(12, 60))
    return Written(
        delimiter=delimiter,
        decimal=draw(st.sampled_from(decimals)),
        form=draw(st.sampled_from([*STAMPS, *ELAPSED, "unix"])),
        fahrenheit=draw(st.booleans()),
        unit_row=draw(st.booleans()),
        encoding=draw(st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "cp1252"])),
        line_end=draw(st.sampled_from(["\n", "\r\n", "\r"])),
        preamble=draw(st.booleans()),
        quoted=draw(st.booleans()),
        set_point_first=draw(st.booleans()),
        step_s=draw(st.sampled_from([1, 15, 60, 300, 1800])),
        gaps=frozenset(draw(st.sets(st.integers(1, rows - 2), max_size=3))),
        tops=tuple(draw(st.lists(st.integers(30, 70), min_size=rows - 1, max_size=rows - 1))),
    )


@settings(max_examples=500, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(layouts())
def test_a_log_in_any_layout_reads_back_as_written(written: Written) -> None:
    log = read_log_bytes(written.text(), "log.csv")
    top, bottom, asked = written.curves()
    expected = {"top": top, "bottom": bottom, "setpoint": asked}
    for row in written.gaps:
        expected["bottom"][row] = np.nan
    assert log.rows_dropped == 0
    assert np.allclose(log.elapsed_h * 3600.0, written.step_s * np.arange(len(top)), atol=0.01)
    found = {c.name.split(" ")[0]: c.values for c in log.channels}
    assert set(found) == set(expected)
    for name, values in expected.items():
        assert np.allclose(found[name], values, atol=0.001, equal_nan=True), name
    roles = {c.name.split(" ")[0]: c.role.value for c in log.channels}
    assert roles == {"top": "section", "bottom": "section", "setpoint": "set_point"}
    if written.form in STAMPS and written.form != "time_of_day":
        assert log.started_at == START
