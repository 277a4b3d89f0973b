"""Text logs: a line of words for every reading."""

import pytest
from log_files import minutes, read

KILN = [20.0, 95.5, 180.0, 310.5, 450.0]


def lines(form: str) -> str:
    return "".join(form.format(m=10 * i, t=t, low=t - 5) + "\n" for i, t in enumerate(KILN))


@pytest.mark.parametrize(
    "form",
    [
        "2024-03-01 08:{m:02d}:00 INFO kiln temp = {t}",
        "2024-03-01 08:{m:02d}:00,123 INFO controller: temperature = {t}",
        "[2024-03-01 08:{m:02d}:00] INFO - temp: {t} C",
        "2024-03-01T08:{m:02d}:00Z temperature {t} °C",
        "08:{m:02d} kiln={t}",
    ],
)
def test_the_value_that_each_line_tells_is_read(form: str) -> None:
    log = read(lines(form))
    assert log.temperatures[0].values.tolist() == KILN
    assert minutes(log) == [0, 10, 20, 30, 40]


def test_several_values_in_a_line_are_several_channels() -> None:
    log = read(lines("2024-03-01 08:{m:02d}:00 top={t} bottom={low} setpoint=500"))
    assert [(c.name, c.role.value) for c in log.channels] == [
        ("top", "section"),
        ("bottom", "section"),
        ("setpoint", "set_point"),
    ]
    assert log.channels[1].values.tolist() == [t - 5 for t in KILN]


def test_values_told_one_after_the_other_at_one_moment_are_one_row() -> None:
    form = "2024-03-01 08:{m:02d}:00 top: {t} F\n2024-03-01 08:{m:02d}:00 bottom: {low} F"
    log = read(lines(form))
    assert log.rows == 5
    assert log.channels[0].values.tolist() == pytest.approx([(t - 32) / 1.8 for t in KILN])


def test_lines_that_tell_no_value_are_left_out() -> None:
    text = lines("2024-03-01 08:{m:02d}:00 INFO kiln temp = {t}")
    log = read(text + "2024-03-01 09:00:00 INFO firing complete\n")
    assert log.rows == 5
    assert log.rows_dropped == 1
