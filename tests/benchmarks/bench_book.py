"""A book of 2,000 firings of 1,500 rows: its size, opening and listing it, and one kiln's trend.

Run with ``python -m pytest tests/benchmarks/bench_book.py -s``; printed, never a condition.
"""

import gzip
import json
import lzma
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

import numpy as np
import pytest
from book_histories import ADDED, heat_curve

from firing_review.book.book import Book
from firing_review.book.nouns import Change, ChangeKind, FiringKept
from firing_review.book.summary import summarize
from firing_review.firing.kiln import Kiln
from firing_review.firing.units import TemperatureUnit
from firing_review.io import sheets
from firing_review.io.open_any import gather
from firing_review.io.resource_path import demo_logs
from firing_review.io.tables import load_tables
from firing_review.review.pipeline import review_firing

FIRINGS, ROWS, KILNS = 2000, 1500, 4
SAMPLED = 10
"""Every tenth log is packed alone, to compare with."""
pytestmark = pytest.mark.timeout(1800)
BEGUN = datetime.fromisoformat("2006-01-01T06:00")
PACKED_OF_EACH = {"gzip -9": lambda raw: gzip.compress(raw, 9), "xz -9": lzma.compress}
LOOK = """
import json, sys, time
from pathlib import Path
from firing_review.book.book import Book
began = time.perf_counter()
book = Book.open(Path(sys.argv[1]))
firings = book.list_firings()
kilns = book.kilns()
listed = time.perf_counter()
trends = book.trends(kilns[0].id)
trended = time.perf_counter()
life = book.life(kilns[0].id)
print(json.dumps({"firings": len(firings), "open_and_list_s": listed - began,
    "points": len(trends.series[0].points), "trend_s": trended - listed,
    "life_s": time.perf_counter() - trended}))
"""


def log_of(rng: np.random.Generator, begun: datetime) -> bytes:
    """Return a log of a minute's rows with noise of its own, as a logger writes it."""
    minutes = np.arange(ROWS)
    asked = np.interp(minutes, [0, 60, 600, 640, ROWS], [20.0, 120.0, 1222.0, 1222.0, 60.0])
    reading = asked + rng.normal(0.0, 0.8, ROWS).cumsum() * 0.05 + rng.normal(0.0, 0.6, ROWS)
    output = np.clip(rng.normal(asked / 13.0, 6.0), 0.0, 100.0) * (minutes < 640)
    rows = [
        f"{begun + timedelta(minutes=int(m))},{r:.1f},{a:.0f},{o:.0f}"
        for m, r, a, o in zip(minutes, reading, asked, output, strict=True)
    ]
    return ("time,chamber_C,set_point,output\r\n" + "\r\n".join(rows) + "\r\n").encode()


def fill(path: Path, packed_bytes: dict[str, int]) -> None:
    """Put the firings into a new book, with the figures of a real review varied."""
    given = replace(gather(demo_logs() / "1_good_glaze_firing"), earlier=())
    summary = summarize(review_firing(given, load_tables()))
    rng = np.random.default_rng(1)
    with Book.create(path) as book:
        kilns = [book.keep_kiln(Kiln(name=f"kiln {n}")) for n in range(KILNS)]
        book.keep_change(Change(ChangeKind.ELEMENTS, BEGUN.date(), kilns[0]))
        for number in range(FIRINGS):
            begun = BEGUN + timedelta(days=number)
            raw = log_of(rng, begun)
            for name, pack in PACKED_OF_EACH.items() if number % SAMPLED == 0 else ():
                packed_bytes[name] = packed_bytes.get(name, 0) + SAMPLED * len(pack(raw))
            power = float(np.exp(-0.0003 * number + rng.normal(0.0, 0.02)))
            mine = replace(
                summary,
                title=f"firing {number}",
                started_at=begun,
                power_over_heat=heat_curve(power),
                heating_h=10.0 + float(rng.normal()),
            )
            log = replace(given.log, raw=raw, source=f"log {number}.csv", started_at=begun)
            kept = FiringKept(0, kilns[number % KILNS], mine, None, ADDED, ADDED)
            book.add_kept(replace(given, log=log, title=mine.title), kept)


@pytest.fixture(scope="module")
def packed_bytes() -> dict[str, int]:
    return {}


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory, packed_bytes: dict[str, int]) -> Path:
    path = tmp_path_factory.mktemp("book") / "workshop.kilnbook"
    with pytest.MonkeyPatch.context() as patch:  # that a log says its unit is not measured here
        patch.setattr(sheets, "_unit_found", lambda *_: TemperatureUnit.CELSIUS)
        fill(path, packed_bytes)
    return path


def look(book: Path) -> dict[str, float]:
    """Open, list and follow one kiln in a process of its own; return what it took [s]."""
    done = subprocess.run([sys.executable, "-c", LOOK, str(book)], capture_output=True, check=True)
    return json.loads(done.stdout)


def test_a_book_of_twenty_years(
    book: Path, packed_bytes: dict[str, int], benchmark: Callable[..., object]
) -> None:
    size = book.stat().st_size
    print(f"book {size / 1e6:.1f} MB")  # noqa: T201
    for name, packed in packed_bytes.items():
        print(f"times its logs packed with {name}, each alone: {size / packed:.3f}")  # noqa: T201
    for _ in range(3):
        print(look(book))  # noqa: T201
    benchmark.pedantic(look, args=(book,), rounds=1)
