"""Computers that lack a home, a language or room, and names that are long or foreign."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtCore import QLocale
from PySide6.QtWidgets import QApplication
from waiting import until_done

from firing_review.cli import main
from firing_review.io.resource_path import demo_logs
from firing_review.ui import home, state_folder
from firing_review.ui.app import make_window
from firing_review.ui.ask import Questions
from firing_review.ui.preferences import Preferences
from firing_review.ui.sitting import unfinished_in

DEMO = next(demo_logs().glob("2_*"))
ROOT = Path(__file__).resolve().parents[2]


def program(*arguments, out=subprocess.PIPE, start=("-m", "firing_review"), **environment):
    kept = {"PATH": os.environ["PATH"], "PYTHONPATH": str(ROOT), "QT_QPA_PLATFORM": "offscreen"}
    return subprocess.run(
        [sys.executable, *start, *map(str, arguments)],
        env={**kept, **environment},
        stdout=out,
        stderr=subprocess.PIPE,
        encoding="utf-8",
        errors="replace",
        check=False,
    )


@pytest.fixture
def no_home(monkeypatch):
    monkeypatch.delenv("FIRING_REVIEW_HOME", raising=False)

    def nowhere():
        raise RuntimeError("Could not determine home directory.")

    monkeypatch.setattr(Path, "home", nowhere)


def test_a_check_needs_no_home_and_no_language():
    done = program("check", DEMO / "firing.toml", HOME="/nowhere/at/all", LC_ALL="C")
    assert (done.returncode, done.stderr) == (0, "")
    assert "81 %" in done.stdout


@pytest.mark.parametrize(
    "arguments", [(), ("check", DEMO / "firing.toml", "--report", "page.pdf")]
)
def test_a_system_library_that_is_missing_is_named_in_one_line(arguments, tmp_path):
    bare = tmp_path / "PySide6"
    bare.mkdir()
    (bare / "__init__.py").touch()
    reason = "libany.so.0: cannot open shared object file"
    (bare / "QtCore.py").write_text(
        f"raise ImportError({reason!r}, name='QtCore', path='/usr/lib/PySide6/QtCore.abi3.so')"
    )
    done = program(*arguments, PYTHONPATH=os.pathsep.join([str(tmp_path), str(ROOT)]))
    assert done.returncode == 2
    assert len(done.stderr.splitlines()) == 1
    assert reason in done.stderr


def test_without_a_home_dialogs_begin_where_the_program_was_started(no_home, tmp_path):
    assert home.home_folder() == Path.cwd()
    assert Preferences(tmp_path).last_folder == Path.cwd()


@pytest.mark.parametrize("named", ["file", "/proc/nothing", "/dev/null/below", "x" * 300])
def test_where_nothing_can_be_kept_the_window_opens_and_says_so(
    named, qtbot, tmp_path, monkeypatch
):
    (tmp_path / "file").write_text("no folder")
    unusable = named if named.startswith("/") else str(tmp_path / named)
    monkeypatch.setenv("FIRING_REVIEW_HOME", unusable)
    monkeypatch.setenv("XDG_DATA_HOME", unusable)
    monkeypatch.setattr(state_folder.tempfile, "tempdir", str(tmp_path))
    folder = state_folder.state_folder()
    assert folder.parent == tmp_path
    assert folder.is_dir()
    told = state_folder.not_kept(folder)
    assert told is not None
    assert told.where == unusable
    assert str(folder) in told.remedy
    Preferences(folder).scale = 1.5
    assert Preferences(folder).scale == 1.5


def test_a_named_place_that_fails_falls_back_on_the_users_own(monkeypatch, tmp_path):
    monkeypatch.setenv("FIRING_REVIEW_HOME", "/dev/null/below")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    assert state_folder.state_folder() == tmp_path / "firing-review"
    assert state_folder.not_kept(tmp_path / "firing-review") is not None


def test_a_stand_alone_program_keeps_its_state_beside_itself(monkeypatch, tmp_path):
    monkeypatch.delenv("FIRING_REVIEW_HOME")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "own"))
    monkeypatch.setattr(sys, "executable", str(tmp_path / "firing-review"))
    monkeypatch.setattr(sys, "frozen", True, raising=False)
    assert state_folder.state_folder() == tmp_path / "own" / "firing-review"
    (tmp_path / "firing-review-home").mkdir()
    folder = state_folder.state_folder()
    assert folder == tmp_path / "firing-review-home"
    assert state_folder.not_kept(folder) is None


@pytest.mark.parametrize("stamp", [0.0, 4e9, 1e11, -1e9])
def test_a_recovery_file_of_any_date_is_offered(stamp, tmp_path):
    for name in ("glaze~1.json", "bisque~2.json"):
        (tmp_path / name).write_text("{}")
    os.utime(tmp_path / "glaze~1.json", (stamp, stamp))
    assert {one.title for one in unfinished_in(tmp_path)} == {"glaze", "bisque"}


def window_text(home, path):
    """Return the verdict as a window shows it, on preferences that have a fraction in them."""
    Preferences(home).scale = 1.15
    window = make_window(home, Questions())
    try:
        window.open_path(path)
        until_done(window)
        window.show()
        QApplication.processEvents()
        return window.verdict.view.sentence.text()
    finally:
        window.close()
        window.deleteLater()


@pytest.fixture
def _locale_again():
    before = QLocale()
    yield
    QLocale.setDefault(before)


@pytest.mark.usefixtures("_locale_again", "qapp")
def test_another_country_changes_neither_the_verdict_nor_what_is_kept(tmp_path):
    usual = window_text(tmp_path, DEMO)
    assert "81" in usual
    for name in ("de_DE", "ar_EG"):
        QLocale.setDefault(QLocale(name))
        assert window_text(tmp_path / name, DEMO) == usual
        assert Preferences(tmp_path / name).scale == 1.15


def named_locale(folder: Path, name: str) -> str | None:
    """Return the path for LOCPATH of a locale of the C library made here, if it can be made."""
    made = shutil.which("localedef") and subprocess.run(
        ["localedef", "-i", name, "-f", "UTF-8", str(folder / f"{name}.UTF-8")],
        capture_output=True,
        check=False,
    )
    return str(folder) if (folder / f"{name}.UTF-8").is_dir() and made else None


AS_QT_DOES = """\
import locale, sys
locale.setlocale(locale.LC_ALL, "")  # Qt does so as a window opens
assert locale.localeconv()["decimal_point"] == ","
from firing_review.__main__ import main
raise SystemExit(main(["check", sys.argv[1]]))
"""


def test_a_c_library_with_decimal_commas_and_a_dotless_i_changes_nothing(tmp_path):
    place = named_locale(tmp_path, "tr_TR")
    if place is None:
        pytest.skip("the source of this locale is not on this computer")
    spoken = {"LC_ALL": "tr_TR.UTF-8", "LOCPATH": place, "LANGUAGE": "en"}
    done = program(DEMO / "firing.toml", start=("-c", AS_QT_DOES), **spoken)
    assert (done.returncode, done.stderr) == (0, "")
    assert "about 81 % of its usual power (77 % to 85 %)" in done.stdout
    assert "Heating ended at 1160 °C while the kiln still climbed 78 °C per hour" in done.stdout


@pytest.mark.parametrize("name", ["Große Öfen & mehr", "窯 焼成", 'a\'b "c" $d', "i\u0307 İ ı"])
def test_a_folder_with_spaces_and_foreign_signs_is_read_and_written(name, tmp_path, capsys):
    folder = tmp_path / name
    shutil.copytree(DEMO, folder)
    out = folder / "Prüfung 1.json"
    assert main([str(folder), "--json", str(out)]) == 0
    assert capsys.readouterr().err == ""
    assert out.stat().st_size > 1000


def test_a_very_deep_folder_is_read(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(tmp_path)
    for _ in range(30):
        deep = "d" * 100
        Path(deep).mkdir()
        os.chdir(deep)
    shutil.copytree(DEMO, "firing")
    assert len(str(Path.cwd())) > 3000
    assert main(["firing"]) == 0
    assert capsys.readouterr().err == ""


@pytest.mark.parametrize("name", ["x" * 300, "/".join(["y" * 200] * 25)])
def test_a_name_no_system_takes_is_said_in_one_line(name, capsys):
    for arguments in ([name], [str(DEMO), "--schedule", name], [str(DEMO), "--json", name]):
        assert main(arguments) == 2
        assert len(capsys.readouterr().err.splitlines()) == 1


def test_a_sheet_that_names_an_impossible_file_is_refused_in_one_line(tmp_path, capsys):
    (tmp_path / "firing.toml").write_text('log = "a\\u0000b.csv"\n')
    assert main([str(tmp_path)]) == 2
    assert len(capsys.readouterr().err.splitlines()) == 1


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no full device here")
def test_a_review_that_cannot_be_printed_is_said_in_one_line():
    with Path("/dev/full").open("w") as full:
        done = program("check", DEMO / "firing.toml", out=full)
    assert done.returncode == 2
    assert done.stderr == (
        "firing-review: the review cannot be printed: No space left on device\n"
    )


@pytest.mark.skipif(sys.platform == "win32", reason="pipes of POSIX")
def test_a_reader_who_has_seen_enough_ends_the_review_quietly():
    reader, writer = os.pipe()
    os.close(reader)
    with os.fdopen(writer, "w") as closed:
        done = program("check", DEMO / "firing.toml", out=closed)
    assert (done.returncode, done.stderr) == (0, "")
