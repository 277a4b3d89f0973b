"""Pages and blank sheets from the command line."""

import subprocess
import sys
from pathlib import Path

import pytest

from firing_review.__main__ import main
from firing_review.cli import main as check
from firing_review.io.resource_path import demo_logs

DEMO = str(next(demo_logs().glob("2_*")) / "firing.toml")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["--report", "a.html"], "What next"),
        (["--report", "b.html", "--page", "office"], "What it costs, and by when"),
        (["--report", "c.txt", "--page", "case"], "CASE SHEET"),
        (["--report", "d.txt", "--page", "technician", "--show", "F"], "2120 °F"),
        (["--report", "e.txt"], "What was found"),
        (["--report", "f.html", "--paper", "Letter"], "size: letter"),
    ],
)
def test_a_page_is_written_for_its_reader(tmp_path, monkeypatch, capsys, arguments, words):
    monkeypatch.chdir(tmp_path)
    assert check([DEMO, *arguments]) == 0
    assert words in Path(arguments[1]).read_text(encoding="utf-8")


def test_a_page_for_somebody_without_a_file_to_write_it_to_is_refused(capsys):
    with pytest.raises(SystemExit, match="2"):
        check([DEMO, "--page", "office"])
    assert "--report" in capsys.readouterr().err.splitlines()[-1]


def test_a_name_without_a_known_ending_is_refused(tmp_path, capsys):
    assert check([DEMO, "--report", str(tmp_path / "page.docx")]) == 2
    assert "a name ending in .pdf, .html or .txt" in capsys.readouterr().err


def test_a_pdf_is_written_and_loads_what_sets_type_only_then(tmp_path):
    code = (
        "import sys; from firing_review.__main__ import main\n"
        f"main(['check', {DEMO!r}, '--report', {str(tmp_path / 'a.html')!r}])\n"
        "assert 'PySide6' not in sys.modules\n"
        f"main(['check', {DEMO!r}, '--report', {str(tmp_path / 'a.pdf')!r}])\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=False)
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "a.pdf").read_bytes().startswith(b"%PDF")


def test_the_whole_program_writes_a_folder_of_pdf_side_by_side(tmp_path):
    sheets = [str(path / "firing.toml") for path in sorted(demo_logs().glob("[1-4]_*"))]
    command = [sys.executable, "-m", "firing_review", "check", *sheets, "--cores", "2"]
    done = subprocess.run(
        [*command, "--report", "pages", "--as", "pdf"],
        cwd=tmp_path, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (0, "")
    assert len(list((tmp_path / "pages").glob("*.pdf"))) == 4


def test_the_name_of_a_file_for_several_firings_is_refused(tmp_path, capsys):
    assert check([DEMO, DEMO, "--report", str(tmp_path / "all.pdf")]) == 2
    assert "a folder, because several firings are named" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("sheet", ["cones", "readings"])
def test_a_blank_sheet_is_written_with_the_names_of_the_kiln(tmp_path, sheet):
    target = tmp_path / "blank.html"
    kiln = str(Path(DEMO).parent / "kiln.toml")
    assert main(["blank", sheet, str(target), "--kiln", kiln]) == 0
    text = target.read_text(encoding="utf-8")
    assert "Kiln Heron" in text
    assert "middle" in text


def test_a_kiln_sheet_that_is_missing_is_said_in_one_line(tmp_path, capsys):
    assert main(["blank", "cones", str(tmp_path / "x.pdf"), "--kiln", "no.toml"]) == 2
    assert len(capsys.readouterr().err.splitlines()) == 1
