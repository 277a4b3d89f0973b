"""Many firings in one run: side by side, one table, and a bad file stops nothing."""

import csv
import gc
import io
import json
import os
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firing_review.book.book import Book
from firing_review.cli import main, one
from firing_review.cli import side_by_side as beside
from firing_review.cli.inputs import inputs_of
from firing_review.cli.progress import Progress
from firing_review.cli.row import Row
from firing_review.cli.side_by_side import side_by_side
from firing_review.cli.summary import summary_csv, summary_json, summary_text
from firing_review.firing.log import FiringLog
from firing_review.io.csv_cells import FORMULA_SIGNS, unguarded
from firing_review.io.open_any import gather
from firing_review.report.wording import Show

HOT = "elapsed_min,chamber_C\n" + "".join(
    f"{m},{20 + 2 * m if m < 500 else max(1020 - (m - 500), 30)}\n" for m in range(0, 900, 3)
)


def write_firing(folder: Path, title: str = "night", log: str = HOT) -> Path:
    folder.mkdir(parents=True)
    (folder / "log.csv").write_text(log, encoding="utf-8")
    sheet = folder / "firing.toml"
    sheet.write_text(f"title = {json.dumps(title)}\nlog = 'log.csv'\n", encoding="utf-8")
    return sheet


@pytest.fixture
def workshop(tmp_path) -> Path:
    """Five firings, the third without a log that can be read."""
    for number in range(1, 6):
        log = "elapsed_min,chamber_C\n" if number == 3 else HOT
        write_firing(tmp_path / "workshop" / f"firing {number}", f"number {number}", log)
    return tmp_path / "workshop"


def test_a_bad_file_is_named_and_all_others_are_written(workshop, tmp_path, capsys):
    results = tmp_path / "results"
    assert main([str(workshop), "--json", str(results), "--cores", "2"]) == 2
    out, err = capsys.readouterr()
    assert len(err.splitlines()) == 1
    assert "firing 3" in err
    assert "5 firings, 1 could not be reviewed." in out
    names = sorted(path.name for path in results.iterdir())
    written = [f"firing {n}.json" for n in (1, 2, 4, 5)]
    assert names == [*written, "summary.csv", "summary.json"]


def test_where_processes_may_share_nothing_one_does_the_work(workshop, tmp_path, monkeypatch):
    def closed_off(_method):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(beside.multiprocessing, "get_context", closed_off)
    results = tmp_path / "results"
    assert main([str(workshop), "--json", str(results), "--cores", "2"]) == 2
    assert (results / "firing 5.json").exists()


def test_the_table_has_a_row_for_each_firing_in_the_order_given(workshop, tmp_path):
    results = tmp_path / "results"
    main([str(workshop), "--report", str(results), "--cores", "2"])
    table = json.loads((results / "summary.json").read_text(encoding="utf-8"))
    rows = table["firings"]
    titles = [row["title"] for row in rows]
    assert titles == ["number 1", "number 2", None, "number 4", "number 5"]
    assert rows[0]["peak_c"] == pytest.approx(1020.0, abs=5.0)
    assert rows[2]["result"] is None
    assert "log.csv" in rows[2]["error"]
    text = (results / "summary.csv").read_bytes().decode("utf-8-sig")
    assert [r["title"] for r in csv.DictReader(io.StringIO(text))][3] == "number 4"


def test_two_sheets_with_the_same_name_keep_their_own_results(tmp_path):
    for place in ("a", "B", "c"):
        write_firing(tmp_path / place / ("Night" if place == "B" else "night"))
    results = tmp_path / "results"
    main([*(str(tmp_path / p) for p in ("a", "B", "c")), "--json", str(results)])
    made = {p.name for p in results.iterdir()}
    assert made == {"night.json", "Night-2.json", "night-3.json", "summary.csv", "summary.json"}


def test_a_firing_called_summary_does_not_hide_the_table(tmp_path):
    write_firing(tmp_path / "all" / "summary")
    write_firing(tmp_path / "all" / "two")
    results = tmp_path / "results"
    assert main([str(tmp_path / "all"), "--json", str(results)]) == 0
    assert json.loads((results / "summary.json").read_text(encoding="utf-8"))["firings"]
    assert (results / "summary-2.json").exists()


@pytest.fixture
def collector_that_seldom_looks():
    usual = gc.get_threshold()
    gc.set_threshold(50_000)
    yield
    gc.set_threshold(*usual)


def test_what_earlier_reviews_made_is_let_go_while_more_are_made(
    tmp_path, monkeypatch, collector_that_seldom_looks
):
    for number in range(12):
        write_firing(tmp_path / str(number))
    check, logs_alive = one.check_one, []

    def counting(*args, **named):
        row = check(*args, **named)
        logs_alive.append(sum(type(made) is FiringLog for made in gc.get_objects()))
        return row

    gc.collect()
    monkeypatch.setattr(one, "check_one", counting)
    main([str(tmp_path), "--cores", "1"])
    assert len(logs_alive) == 12
    assert max(logs_alive) - logs_alive[0] < 8


@given(st.lists(st.sampled_from(["a", "A", "a-2", "summary", "Summary-2"]), max_size=9))
def test_no_two_results_ever_have_one_name(stems):
    results = [one.result.casefold() for one in inputs_of([f"{stem}.csv" for stem in stems])]
    assert len(set(results)) == len(results)
    assert "summary" not in results


def test_a_folder_of_bare_logs_is_reviewed_log_by_log(tmp_path, capsys):
    for name in ("monday.csv", "tuesday.txt"):
        (tmp_path / name).write_text(HOT, encoding="utf-8")
    assert main([str(tmp_path)]) == 0
    assert "2 firings, 0 could not be reviewed." in capsys.readouterr().out


ROW = Row(file="log.csv", result="log", peak_c=-3.5, verdict="As meant.")


@pytest.mark.parametrize(
    "title",
    [
        "=1+1",
        "+1",
        "-1",
        "@SUM(A1)",
        "＝1+1",
        '  =HYPERLINK("http://x","y")',
        "=cmd|' /C calc'!A0",
    ],
)
def test_a_title_cannot_become_a_formula(title):
    row = next(csv.DictReader(io.StringIO(summary_csv([replace(ROW, title=title)]))))
    assert row["title"][0] == "'"
    assert unguarded(row["title"]) == title
    assert row["peak_c"] == "-3.5"


def test_a_semicolon_cannot_start_a_formula_in_a_cell_of_its_own():
    text = summary_csv([replace(ROW, title='mugs;=1+1;"x')])
    row = next(csv.DictReader(io.StringIO(text)))
    assert row["title"] == "mugs;'=1+1;\"x"


@given(st.text(max_size=20))
def test_no_cell_of_the_table_begins_as_a_formula(title):
    for row in csv.reader(io.StringIO(summary_csv([replace(ROW, title=title)]), newline="")):
        assert not any(cell.lstrip()[:1] in set(FORMULA_SIGNS) for cell in row if cell != "-3.5")


def test_the_table_as_text_says_why_a_firing_is_missing():
    rows = [ROW, Row(file="b.csv", result="", error="b.csv: an empty file.")]
    text = summary_text(rows, Show.FAHRENHEIT)
    assert "highest 26 °F" in text
    assert "not reviewed: b.csv: an empty file." in text


def test_what_is_not_known_is_null_in_the_table():
    assert json.loads(summary_json([ROW]))["firings"][0]["goal_cone"] is None


def length_or_end(word: str) -> int:
    if word == "deadly":
        os._exit(3)
    return len(word)


def ended(_word: str) -> int:
    return -1


def test_a_job_that_ends_its_process_costs_no_other_job(monkeypatch):
    monkeypatch.setenv("PYTHONPATH", str(Path(__file__).parent), prepend=os.pathsep)
    jobs = ["a", "bb", "deadly", "cccc", "ddddd", "eeeeee", "fffffff"]
    found = dict(side_by_side(jobs, length_or_end, ended, 2))
    assert found == {"deadly": -1, **{w: len(w) for w in jobs if w != "deadly"}}


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_the_bar_says_how_far_and_how_many_failed():
    stream = Terminal()
    bar = Progress(4, stream)
    for failed in (False, True):
        bar.step(failed=failed)
    assert bar.line(60.0) == (
        "[###############...............] 2 of 4, 1 not reviewed, about 1 min left"
    )


def test_there_is_no_bar_where_nobody_looks():
    stream = io.StringIO()
    bar = Progress(1, stream)
    bar.step(failed=False)
    bar.clear()
    assert stream.getvalue() == ""


@pytest.fixture
def book(tmp_path, workshop) -> Path:
    """Return a kiln book with four firings, two of them of one title."""
    with Book.create(tmp_path / "workshop.kilnbook") as made:
        for number, title in enumerate(("red", "red", "a/b", "=1+1")):
            sheet = workshop / "firing 1" / "firing.toml"
            log = sheet.parent / "log.csv"
            log.write_text(HOT + f"# {number}\n", encoding="utf-8")
            made.add(replace(gather(sheet), title=title))
    return tmp_path / "workshop.kilnbook"


def test_a_whole_book_is_reviewed_firing_by_firing(book, tmp_path, capsys):
    before = book.read_bytes()
    results = tmp_path / "results"
    assert main([str(book), "--json", str(results), "--cores", "2"]) == 0
    assert "4 firings, 0 could not be reviewed." in capsys.readouterr().out
    made = {p.stem for p in results.glob("*.json")}
    assert made == {"red", "red-2", "a-b", "-1-1", "summary"}
    table = json.loads((results / "summary.json").read_text(encoding="utf-8"))["firings"]
    assert [row["title"] for row in table] == ["red", "red", "a/b", "=1+1"]
    assert book.read_bytes() == before


def test_files_named_beside_a_book_are_refused(book, capsys):
    assert main([str(book), "--schedule", "s.csv"]) == 2
    assert "a kiln book without --schedule" in capsys.readouterr().err


def test_an_empty_book_is_said(tmp_path, capsys):
    Book.create(tmp_path / "new.kilnbook").close()
    assert main([str(tmp_path / "new.kilnbook")]) == 2
    assert "none in it" in capsys.readouterr().err
