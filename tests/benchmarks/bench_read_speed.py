"""Whole-process time and peak memory of a check, beside a bare read of the same file.

Run with ``python -m pytest tests/benchmarks/bench_read_speed.py -s``; printed, never a condition.
"""

import resource
from collections.abc import Callable
from pathlib import Path

import pytest
from benchmarks.long_log import long_log, write_long_log
from benchmarks.processes import BARE, check, python, side_by_side, spent

DEMO = Path(__file__).parents[2] / "demo_logs" / "1_good_glaze_firing"
ROWS = (1_000, 100_000, 1_000_000)
PAIRS = 5
FOUR_GB = 4 << 30


@pytest.fixture(scope="module")
def logs(tmp_path_factory: pytest.TempPathFactory) -> dict[int, Path]:
    folder = tmp_path_factory.mktemp("long")
    paths = {rows: folder / f"log_{rows}.csv" for rows in ROWS}
    for rows, path in paths.items():
        write_long_log(path, rows)
    return paths


@pytest.mark.parametrize("rows", ROWS)
def test_a_log_beside_a_bare_read(
    logs: dict[int, Path], rows: int, benchmark: Callable[..., object]
) -> None:
    bare = python("-c", BARE, str(logs[rows]))
    side_by_side(bare, check(logs[rows]), PAIRS)
    benchmark.pedantic(spent, args=(check(logs[rows]),), rounds=1)


FORMS: dict[str, tuple[str, dict[str, str]]] = {
    "%Y-%m-%d %H:%M:%S": ("parse_dates=['time'], ", {"sep": ";", "decimal": ","}),
    "%d.%m.%Y %H:%M:%S": (
        "parse_dates=['time'], date_format='%d.%m.%Y %H:%M:%S', ",
        {"sep": ";", "decimal": ","},
    ),
    "%m/%d/%Y %H:%M:%S": ("parse_dates=['time'], date_format='%m/%d/%Y %H:%M:%S', ", {}),
    "elapsed_s": ("", {}),
}
"""How the time stands in a log, how a bare read is told of it, and how its cells are parted."""


@pytest.mark.parametrize("form", FORMS)
def test_a_million_rows_of_another_form_beside_a_bare_read(
    tmp_path: Path, form: str, benchmark: Callable[..., object]
) -> None:
    (told, parted), frame = FORMS[form], long_log(ROWS[-1])
    if form == "elapsed_s":
        frame = frame.assign(time=range(len(frame))).rename(columns={"time": form})
    else:
        frame["time"] = frame["time"].dt.strftime(form)
    path = tmp_path / "log.csv"
    frame.to_csv(path, index=False, **parted)
    read = f"import sys, pandas as pd; pd.read_csv(sys.argv[1], {told}**{parted})"
    side_by_side(python("-c", read, str(path)), check(path), PAIRS)
    benchmark.pedantic(spent, args=(check(path),), rounds=1)


def test_a_small_firing_beside_loading_pandas(benchmark: Callable[..., object]) -> None:
    side_by_side(python("-c", "import pandas"), check(DEMO), PAIRS)
    benchmark.pedantic(spent, args=(check(DEMO),), rounds=1)


def test_a_million_rows_fit_into_four_gigabytes_of_addresses(
    logs: dict[int, Path], benchmark: Callable[..., object]
) -> None:
    def limited() -> None:
        resource.setrlimit(resource.RLIMIT_AS, (FOUR_GB, FOUR_GB))

    benchmark.pedantic(spent, args=(check(logs[ROWS[-1]]), limited), rounds=1)
