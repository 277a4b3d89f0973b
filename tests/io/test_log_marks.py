"""What stands in place of a reading: words, numbers, and values a probe cannot have leapt to."""

import numpy as np
import pytest
from log_files import read, said

from firing_review.firing.log import FiringLog

CLIMB = [20.0 + 12.0 * i for i in range(100)]


def text(values: list[object], name: str = "kiln_C", step_min: float = 2.0) -> str:
    rows = "".join(f"{step_min * i:g},{v}\n" for i, v in enumerate(values))
    return f"elapsed_min,{name}\n{rows}"


def gaps(log: FiringLog, channel: int = 0) -> list[int]:
    return np.flatnonzero(np.isnan(log.channels[channel].values)).tolist()


WORDS = "---- **** #VALUE! ? NC o/c --.- OVERLOAD BURNOUT Inf 1.#QNAN +++++ Hi under mumble"


@pytest.mark.parametrize("word", [*WORDS.split(), "OPEN TC", "Sensor error", "out of range"])
def test_a_word_in_one_channel_is_a_gap_there_and_keeps_the_row(word: str) -> None:
    rows = "".join(f"{10 * i},{t},{t - 5 if i != 3 else word}\n" for i, t in enumerate(CLIMB[:9]))
    log = read("min,top_C,bottom_C\n" + rows)
    assert log.rows == 9
    assert gaps(log, 0) == []
    assert gaps(log, 1) == [3]


def test_a_channel_of_words_only_leaves_the_others_alone() -> None:
    rows = "".join(f"{10 * i},{t},OL,{t - 5}\n" for i, t in enumerate(CLIMB[:9]))
    log = read("min,top_C,mid_C,bottom_C\n" + rows)
    assert [c.name for c in log.temperatures] == ["top_C", "bottom_C"]
    assert log.rows_dropped == 0


MARKS = [0, -1, 85, 1370, 1372, 2500, 2501.6, 2800, 9999, 10000, 32767, 3276.7, -127, -200, -270]


@pytest.mark.parametrize("mark", MARKS)
@pytest.mark.parametrize(
    "places",
    [list(range(60, 72)), [60, 75, 76, 90], list(range(70, 100))],
    ids=["a stretch", "now and then", "to the end"],
)
def test_a_number_no_kiln_reads_there_is_a_gap_wherever_it_stands(
    mark: float, places: list[int]
) -> None:
    values = [mark if i in places else v for i, v in enumerate(CLIMB)]
    log = read(text(values))
    assert gaps(log) == places
    note = next(n for n in log.notes if n.kind == "open_probe")
    assert note.count == len(places)
    assert note.said.figures["samples"] == len(places)


@pytest.mark.parametrize("mark", ["0", "32", "2498", "2501.6", "9999"])
def test_marks_in_a_log_in_fahrenheit_are_known_too(mark: str) -> None:
    values = [mark if 60 <= i < 72 else f"{v * 1.8 + 32:.1f}" for i, v in enumerate(CLIMB)]
    assert gaps(read(text(values, "kiln_F"))) == list(range(60, 72))


@pytest.mark.parametrize(("mark", "unit"), [("1372", "C"), ("0", "C"), ("2501.6", "F")])
def test_an_unplugged_channel_is_all_gaps_beside_a_good_one(mark: str, unit: str) -> None:
    rows = "".join(f"{2 * i},{v},{mark}\n" for i, v in enumerate(CLIMB))
    log = read(f"elapsed_min,top_{unit},bottom_{unit}\n{rows}")
    assert np.isfinite(log.channels[0].values).all()
    assert np.isnan(log.channels[1].values).all()


@pytest.mark.parametrize(
    "values",
    [
        [20, 180, 340, 500, 640, 760, 870, 960, 1040, 1100, 1100, 1100, 1100, 940, 800] * 2,
        [20 + 2 * i for i in range(50)] + [300] * 11,
        [20.0] * 20 + [300.0] * 20,
    ],
)
def test_at_an_hour_between_samples_nothing_is_a_leap(values: list[object]) -> None:
    log = read(text(values, step_min=60.0))
    assert gaps(log) == []


def test_a_pause_in_the_record_makes_no_leap() -> None:
    times = [*range(20), *(300 + i for i in range(40))]
    values = [20.0] * 20 + [700.0 + i for i in range(40)]
    rows = "".join(f"{t},{v}\n" for t, v in zip(times, values, strict=True))
    log = read("elapsed_min,kiln_C\n" + rows)
    assert gaps(log) == []
    assert "open_probe" not in said(log)


def test_a_kiln_that_goes_to_cone_14_is_believed() -> None:
    values = [20.0 + 14.0 * i for i in range(99)] + [1400.0] * 10
    assert gaps(read(text(values, step_min=10.0))) == []


def test_a_set_point_may_be_zero_before_the_start() -> None:
    rows = "".join(f"{10 * i},{v},{0 if i < 3 else v + 5}\n" for i, v in enumerate(CLIMB))
    log = read("elapsed_min,kiln_C,setpoint_C\n" + rows)
    assert log.channels[1].values[:4].tolist() == [0, 0, 0, CLIMB[3] + 5]


def test_an_open_input_that_is_not_used_is_told_once() -> None:
    rows = "".join(f"{2 * i},{v},10000,10000\n" for i, v in enumerate(CLIMB))
    log = read("elapsed_min,kiln_C,TC7_C,TC8_C\n" + rows)
    note = next(n for n in log.notes if n.kind == "open_probe_elsewhere")
    assert note.said.figures == {"names": "TC7_C, TC8_C", "samples": 200}
