"""A computer whose clock or time zone is set anew while the program runs."""

import ast
import os
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from book_firings import firing, full_firing, log_bytes

import firing_review
from firing_review.book.book import Book
from firing_review.cli.progress import Progress
from firing_review.io.log_csv import read_log_bytes
from firing_review.io.tables import load_tables
from firing_review.report.review_json import review_json
from firing_review.review.edits import set_title
from firing_review.review.pipeline import review_firing
from firing_review.review.recovery import read_recovery
from firing_review.ui.sitting import Sitting, unfinished_in

DAY_S = 86_400.0


class Wall:
    """The clock on the wall, which anybody may set."""

    def __init__(self) -> None:
        self.now_s = 1.77e9

    def now(self, zone):
        return datetime.fromtimestamp(self.now_s, zone)


@pytest.fixture
def wall(monkeypatch) -> Wall:
    """Return a clock that stands still until it is set."""
    clock = Wall()

    class Stamps(datetime):
        @classmethod
        def now(cls, zone=None):
            return clock.now(zone)

    for module in ("book.book", "book.records"):
        monkeypatch.setattr(f"firing_review.{module}.datetime", Stamps)
    monkeypatch.setattr(time, "time", lambda: clock.now_s)
    return clock


@pytest.fixture
def zone(monkeypatch):
    """Return a function that takes the computer to another time zone."""
    if not hasattr(time, "tzset"):
        pytest.skip("here a program cannot change its own time zone")

    def go_to(name: str) -> None:
        monkeypatch.setenv("TZ", name)
        time.tzset()

    yield go_to
    monkeypatch.undo()
    time.tzset()


@pytest.mark.parametrize("set_by_s", [0.0, -DAY_S, DAY_S], ids=["still", "back", "on"])
def test_an_edit_in_the_book_is_newer_than_the_one_before_wherever_the_clock_is_set(
    tmp_path, wall, set_by_s
):
    with Book.create(tmp_path / "workshop") as book:
        added = book.add(full_firing())
        listed = book.firing(added.firing_id)
        review = review_firing(book.given(added.firing_id), load_tables())
        wall.now_s += set_by_s
        book.keep(added.firing_id, full_firing(title="April"))
        edited = book.firing(added.firing_id)
        assert edited.changed_at > listed.changed_at
        assert edited.added_at == listed.added_at
        assert not book.keep_figures(listed, review)
        assert book.keep_figures(edited, review)


def test_firings_of_a_book_stay_in_the_order_of_their_logs_when_the_clock_is_set(tmp_path, wall):
    with Book.create(tmp_path / "workshop") as book:
        early = datetime.fromisoformat("2026-02-01T07:00")
        for days in (1, 0, 2):
            book.add(firing(log_bytes(begun=early + timedelta(days=days))))
            wall.now_s -= DAY_S
        assert [f.when.day for f in book.list_firings()] == [1, 2, 3]


def test_the_right_to_write_a_book_does_not_grow_old(tmp_path):
    with Book.create(tmp_path / "workshop") as book:
        for path in tmp_path.iterdir():
            os.utime(path, (0.0, 0.0))
        with Book.open(book.path) as other:
            assert other.read_only is not None
        book.add(firing())
    with Book.open(book.path) as alone:
        assert alone.read_only is None


@pytest.mark.parametrize("stamp_s", [0.0, 4e9], ids=["long past", "still to come"])
def test_the_newest_edit_is_kept_whatever_the_stamp_of_the_recovery_file(qtbot, tmp_path, stamp_s):
    sitting = Sitting(tmp_path)
    sitting.open_review(review_firing(firing(), load_tables()), None)
    for title in ("first", "second"):
        sitting.edit(set_title(title))
        sitting.keep_now()
        (kept,) = unfinished_in(tmp_path)
        assert read_recovery(kept.path).title == title
        os.utime(kept.path, (stamp_s, stamp_s))
    sitting.finish()


def test_how_far_a_run_is_does_not_hang_on_the_clock(wall):
    bar = Progress(4)
    wall.now_s -= DAY_S
    bar.step(failed=False)
    wall.now_s += 2.0 * DAY_S
    bar.step(failed=False)
    assert bar.line(60.0).endswith("2 of 4, about 1 min left")


def test_another_time_zone_changes_nothing_of_a_review(zone):
    began_s = int(datetime(2026, 3, 28, 22, 0, tzinfo=UTC).timestamp())
    rows = [f"{began_s + 300 * n},{20 + 5 * min(n, 200 - n)}" for n in range(200)]
    logs = [
        log_bytes(begun=datetime.fromisoformat("2026-03-29T00:30")),
        ("unix_time,chamber_C\n" + "\n".join(rows) + "\n").encode(),
    ]
    said = []
    for name in ("Pacific/Auckland", "America/Los_Angeles", "Europe/Berlin"):
        zone(name)
        logged = [read_log_bytes(raw, "log.csv") for raw in logs]
        reviews = [review_firing(firing(raw), load_tables()) for raw in logs]
        said.append((
            [log.started_at for log in logged],
            [list(log.elapsed_h) for log in logged],
            [review_json(review) for review in reviews],
        ))  # fmt: skip
    assert said[0] == said[1] == said[2]


def test_no_span_of_time_is_measured_by_the_clock():
    clocks = {("time", "time"), ("time", "time_ns"), ("datetime", "utcnow"), ("datetime", "today")}
    found = []
    for path in Path(firing_review.__file__).parent.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
                named = (node.value.id, node.attr)
                found += [f"{path.name}:{node.lineno}"] if named in clocks else []
    assert found == []
