"""The program opens no connection and runs nothing that came in a file."""

import ast
import os
import subprocess
import sys
from pathlib import Path

import pytest

from firing_review.io.resource_path import demo_logs

ROOT = Path(__file__).resolve().parent.parent
SOURCES = sorted((ROOT / "firing_review").rglob("*.py"))
NETWORK = {
    "aiohttp", "ftplib", "http", "httpx", "imaplib", "poplib", "requests", "smtplib", "socket",
    "socketserver", "ssl", "telnetlib", "urllib.request", "urllib3", "webbrowser", "xmlrpc",
    "PySide6.QtNetwork", "PySide6.QtWebSockets", "PySide6.QtWebEngineCore",
}  # fmt: skip
UNSAFE = {"code", "dill", "joblib", "marshal", "pickle", "runpy", "shelve", "yaml"}
CALLS = {"__import__", "compile", "eval", "exec", "system", "popen", "read_pickle"}
HARMLESS = {"re.compile", "QLocale.system"}
"""The same names where they mean something else."""

TO_ITSELF = ROOT / "firing_review" / "ui" / "side_process.py"
"""Packs what goes over a pipe to a process that the program itself started, and back: nothing
that came in a file or from anybody else is ever unpacked there."""

LOOKOUT = """\
import socket, sys

def watch(event, arguments):
    if event == "socket.__new__" and arguments[1] == getattr(socket, "AF_UNIX", None):
        return  # the screen of this computer
    if event.startswith(("socket.", "urllib.", "http.", "ftplib.", "smtplib.", "webbrowser.")):
        raise SystemExit(f"opened a connection: {event} {arguments}")
    if event in ("os.system", "pickle.find_class", "marshal.loads"):
        if event == "marshal.loads" or "multiprocessing" in sys._getframe(1).f_globals["__name__"]:
            return  # Python's own compiled files; its own way to its helpers
        raise SystemExit(f"ran what it should not: {event} {arguments}")

sys.addaudithook(watch)
"""
REVIEW = """\
from firing_review.__main__ import main
raise SystemExit(main(["check", *sys.argv[1:]]))
"""
WINDOW = """\
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
from firing_review.__main__ import main
asked = QApplication.exec
def shortly():
    QTimer.singleShot(1500, QApplication.quit)
    return asked()
QApplication.exec = staticmethod(shortly)
code = main(sys.argv[1:])
assert "PySide6.QtNetwork" not in sys.modules
raise SystemExit(code)
"""


def faults(text: str) -> list[str]:
    """Return what of a source text could reach a network or run what came in a file."""
    found = []
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Import):
            found += [a.name for a in node.names if _is_banned(a.name)]
        elif isinstance(node, ast.ImportFrom):
            named = [node.module or "", *(f"{node.module}.{a.name}" for a in node.names)]
            found += [name for name in named if _is_banned(name)][:1]
        elif isinstance(node, ast.Call):
            found += _call(node)
    return found


def _is_banned(name: str) -> bool:
    parts = name.split(".")
    begun = {".".join(parts[: n + 1]) for n in range(len(parts))}
    return bool(begun & (NETWORK | UNSAFE))


def _call(node: ast.Call) -> list[str]:
    name = getattr(node.func, "id", None) or getattr(node.func, "attr", "")
    owner = getattr(getattr(node.func, "value", None), "id", "")
    if any(k.arg == "allow_pickle" and getattr(k.value, "value", 1) for k in node.keywords):
        return [f"{name}(allow_pickle)"]
    if name in CALLS and f"{owner}.{name}" not in HARMLESS and not _is_qt_exec(node, name):
        return [name]
    return []


def _is_qt_exec(node: ast.Call, name: str) -> bool:
    """Tell Qt's ``application.exec()`` from Python's ``exec(text)``."""
    return name == "exec" and isinstance(node.func, ast.Attribute)


@pytest.mark.parametrize("path", SOURCES, ids=lambda p: str(p.relative_to(ROOT)))
def test_no_part_of_the_program_can_reach_a_network_or_run_a_file(path):
    allowed = ["pickle"] if path == TO_ITSELF else []
    assert faults(path.read_text(encoding="utf-8")) == allowed


def test_what_talks_to_the_own_process_opens_no_file():
    text = TO_ITSELF.read_text(encoding="utf-8")
    names = {n.id for n in ast.walk(ast.parse(text)) if isinstance(n, ast.Name)}
    attributes = {n.attr for n in ast.walk(ast.parse(text)) if isinstance(n, ast.Attribute)}
    assert not {"open", "Path"} & names
    assert not {"open", "read_bytes", "read_text", "loads"} & attributes


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("import socket", ["socket"]),
        ("import urllib.request", ["urllib.request"]),
        ("from urllib import request", ["urllib.request"]),
        ("from http.client import HTTPConnection", ["http.client"]),
        ("from PySide6.QtNetwork import QTcpSocket", ["PySide6.QtNetwork"]),
        ("import pickle", ["pickle"]),
        ("eval('1')", ["eval"]),
        ("exec('1')", ["exec"]),
        ("compile('1', '', 'eval')", ["compile"]),
        ("np.load('x.npy', allow_pickle=True)", ["load(allow_pickle)"]),
        ("import yaml", ["yaml"]),
        ("os.system('x')", ["system"]),
        ("pd.read_pickle('x')", ["read_pickle"]),
        ("from urllib.parse import quote\nre.compile('x')\napplication.exec()", []),
        ("QLocale.system()", []),
        ("np.load('x.npy', allow_pickle=False)", []),
    ],
)
def test_what_is_looked_for_is_found(text, found):
    assert faults(text) == found


def watched(script: str, *arguments: str, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run a script with every socket, shell and pickle made to end it."""
    return subprocess.run(
        [sys.executable, "-c", LOOKOUT + script, *arguments],
        env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONUTF8": "1", **environment},
        capture_output=True,
        text=True,
        check=False,
    )


def demo() -> str:
    return str(next(demo_logs().glob("2_*/firing.toml")))


def test_a_review_opens_no_connection():
    done = watched(REVIEW, demo())
    assert (done.returncode, done.stderr) == (0, "")


def test_a_window_opens_no_connection(tmp_path):
    home = {"QT_QPA_PLATFORM": "offscreen", "FIRING_REVIEW_HOME": str(tmp_path)}
    done = watched(WINDOW, demo(), **home)
    assert (done.returncode, done.stdout) == (0, "")
    assert "connection" not in done.stderr


@pytest.mark.parametrize(
    "planted",
    [
        "import socket; socket.socket()",
        "import urllib.request; urllib.request.urlopen('http://localhost:1')",
        "import os; os.system('true')",
        "import pickle; pickle.loads(b'cos\\nsystem\\n.')",
    ],
)
def test_the_lookout_ends_a_program_that_tries(planted):
    done = watched(planted)
    assert done.returncode == 1
    assert "opened a connection" in done.stderr or "ran what it should not" in done.stderr
