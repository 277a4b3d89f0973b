"""Starting, and what nobody foresaw."""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtGui import QGuiApplication

from firing_review import __main__ as program
from firing_review import __version__
from firing_review.cli.options import check_parser
from firing_review.ui.error_dialog import ErrorCatcher


def test_the_manual_names_every_option_and_no_other():
    page = (Path(__file__).resolve().parents[2] / "README.md").read_text(encoding="utf-8")
    manual = page[page.index("## Manual") : page.index("## Files")]
    synopsis = manual[manual.index("### Synopsis") : manual.index("### What it does")]
    options = manual[manual.index("### Options of check") : manual.index("### Exit status")]
    known = {word for action in check_parser()._actions for word in action.option_strings}
    assert set(re.findall(r"`(--?[a-z][a-z-]*)", options)) - {"--version"} == known
    assert known - {"-h"} <= set(re.findall(r"(--?[a-z][a-z-]*)", synopsis))


def test_version_and_help_are_said_without_a_window(capsys):
    assert program.main(["--version"]) == 0
    assert capsys.readouterr().out == f"Firing Review {__version__}\n"
    assert program.main(["--help"]) == 0
    assert "firing-review check FILE" in capsys.readouterr().out


@pytest.mark.parametrize("words", [["--windwo"], ["one.csv", "two.csv"]])
def test_what_cannot_be_meant_is_refused_in_one_line(capsys, words):
    assert program.main(words) == 2
    said = capsys.readouterr().err
    assert said.count("\n") == 1
    assert "Traceback" not in said


def test_check_never_loads_qt(log_file):
    code = (
        "import sys; from firing_review.__main__ import main; "
        f"main(['check', {str(log_file)!r}]); "
        "sys.exit(any(name.startswith(('PySide6', 'pyqtgraph')) for name in sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=False)
    assert done.returncode == 0, done.stderr


def test_an_error_nobody_foresaw_is_shown_once_and_can_be_copied(qtbot, capsys):
    catcher = ErrorCatcher()
    for _ in range(3):
        error = RuntimeError("a bolt came loose")
        catcher.hook(type(error), error, error.__traceback__)
    dialog = catcher.dialog
    assert dialog is not None
    assert dialog.isVisible()
    dialog.copy.click()
    copied = QGuiApplication.clipboard().text()
    assert copied.startswith(f"Firing Review {__version__}, Python ")
    assert "RuntimeError: a bolt came loose" in copied
    assert capsys.readouterr().err.count("RuntimeError: a bolt came loose") == 3
    dialog.go_on.click()
    assert catcher.dialog is None


def test_the_program_ends_well_with_its_figures_still_on_the_clipboard(tmp_path):
    code = """
import sys
from PySide6.QtCore import QByteArray, QTimer
from firing_review.ui import app, on_clipboard
make = app.make_window
def make_then_copy_and_close(home, questions):
    window = make(home, questions)
    QTimer.singleShot(0, lambda: on_clipboard.put_text(QByteArray(b"hours")))
    QTimer.singleShot(0, window.close)
    return window
app.make_window = make_then_copy_and_close
sys.exit(app.main([]))
"""
    places = dict.fromkeys(("HOME", "XDG_STATE_HOME", "LOCALAPPDATA", "APPDATA"), str(tmp_path))
    done = subprocess.run(
        [sys.executable, "-c", code],
        env={**os.environ, **places, "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
