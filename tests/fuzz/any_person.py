"""Somebody who presses, types, drags and turns whatever is in sight, in any order.

By hand, outside the usual checks:

    QT_QPA_PLATFORM=offscreen PYTHONPATH=.:tests python tests/fuzz/any_person.py SEED STEPS

Prints each step before it is taken, and what went wrong; ends with 1 if anything did. With
``freed_memory.c`` before it, what is used after its end is found too.
"""

import random
import sys
import tempfile
import traceback
from pathlib import Path

from closing import put_away
from PySide6.QtCore import QPoint, QPointF, Qt, QTimer, qInstallMessageHandler
from PySide6.QtGui import QAction, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QFileDialog, QMenu, QWidget

from firing_review.io.resource_path import demo_logs
from firing_review.ui.app import make_window
from firing_review.ui.ask import Questions
from firing_review.ui.main_window import MainWindow
from firing_review.ui.on_clipboard import leave_to_qt

KEYS = [getattr(Qt.Key, f"Key_{name}") for name in (
    "Tab", "Backtab", "Left", "Right", "Up", "Down", "Return", "Space", "Escape", "Delete",
    "Backspace", "Home", "End", "PageUp", "PageDown", "F2",
)]  # fmt: skip
HELD = [*[Qt.KeyboardModifier.NoModifier] * 6, Qt.KeyboardModifier.ShiftModifier,
        Qt.KeyboardModifier.ControlModifier]  # fmt: skip
TYPED = ("12", "05", "1220", "1,5", "9.7.", "abc", "-40", "1e9", "°", "middle", "08:15", "10:00")
SIDEWAYS, UP = (640, 1920), (360, 1080)
TURNS = (120, -120, 360)
MENU_MS = 250
HARMLESS = "This plugin does not support"


class Person:
    """Takes steps in a window; what it does follows from the seed alone, but for the clock."""

    def __init__(self, window: MainWindow, drawn: random.Random) -> None:
        self._window, self._drawn = window, drawn
        self._files = sorted(p for p in demo_logs().rglob("*") if p.suffix in {".csv", ".toml"})
        self._ways = [self.click] * 8 + [self.key] * 4 + [
            self.type, self.type, self.drag, self.drag, self.turn, self.command, self.command,
            self.resize, self.open,
        ]  # fmt: skip

    def step(self) -> None:
        """Do something, and let the window have a turn or not."""
        self._drawn.choice(self._ways)()
        if self._drawn.random() < 0.6:
            QTest.qWait(self._drawn.choice((0, 1, 5, 30)))

    def _some(self) -> QWidget:
        top = QApplication.activePopupWidget() or QApplication.activeModalWidget() or self._window
        parts = [top, *top.findChildren(QWidget)]
        seen = [one for one in parts if one.isEnabled() and not one.visibleRegion().isEmpty()]
        return self._drawn.choice(seen or [top])

    def _at(self, part: QWidget) -> QPoint:
        box = part.visibleRegion().boundingRect()
        x = self._drawn.randint(box.left(), max(box.left(), box.right()))
        return QPoint(x, self._drawn.randint(box.top(), max(box.top(), box.bottom())))

    def _focused(self) -> QWidget:
        return QApplication.focusWidget() or self._window

    def click(self) -> None:
        """Press something in sight."""
        part = self._some()
        tell("click", part)
        pressed = QTest.mouseDClick if self._drawn.random() < 0.1 else QTest.mouseClick
        pressed(part, Qt.MouseButton.LeftButton, pos=self._at(part))

    def drag(self) -> None:
        """Pull something, now and then with Escape on the way."""
        part = self._some()
        tell("drag", part)
        start, end = self._at(part), self._at(part)
        QTest.mousePress(part, Qt.MouseButton.LeftButton, pos=start)
        QTest.mouseMove(part, end)
        if self._drawn.random() < 0.3:
            QTest.keyClick(part, Qt.Key.Key_Escape)
        QTest.mouseRelease(part, Qt.MouseButton.LeftButton, pos=end)

    def key(self) -> None:
        """Press a key, perhaps several times."""
        key, held = self._drawn.choice(KEYS), self._drawn.choice(HELD)
        tell("key", self._focused(), key.name, held.name)
        for _ in range(self._drawn.choice((1, 1, 3))):
            QTest.keyClick(self._focused(), key, held)

    def type(self) -> None:
        """Type something."""
        text = self._drawn.choice(TYPED)
        tell("type", self._focused(), text)
        QTest.keyClicks(self._focused(), text)

    def turn(self) -> None:
        """Turn the wheel over something."""
        part = self._some()
        tell("turn", part)
        at, by = QPointF(self._at(part)), QPoint(0, self._drawn.choice(TURNS))
        none, phase = Qt.MouseButton.NoButton, Qt.ScrollPhase.NoScrollPhase
        held = self._drawn.choice(HELD)
        event = QWheelEvent(at, part.mapToGlobal(at), QPoint(), by, none, held, phase, False)
        QApplication.sendEvent(part, event)

    def command(self) -> None:
        """Choose a command, but for the one that ends the program."""
        ends = self._window.actions["quit"]
        commands = [
            a for a in self._window.findChildren(QAction) if a.isEnabled() and not a.menu()
        ]
        own = [a for a in commands if a.parent() is self._window and a is not ends]
        action = self._drawn.choice(own)
        tell("command", self._window, action.text())
        action.trigger()

    def resize(self) -> None:
        """Give the window another size."""
        size = self._drawn.randint(*SIDEWAYS), self._drawn.randint(*UP)
        tell("resize", self._window, *map(str, size))
        self._window.resize(*size)

    def open(self) -> None:
        """Open another firing."""
        path = self._drawn.choice(self._files)
        tell("open", self._window, str(path.relative_to(demo_logs())))
        self._window.open_path(path)


def tell(what: str, part: QWidget, *more: str) -> None:
    """Print a step before it is taken."""
    print(what, type(part).__name__, part.accessibleName(), *more, flush=True)  # noqa: T201


def answer_at_once(drawn: random.Random, home: Path) -> None:
    """Answer every question the system would ask, and close every menu that waits."""
    files = sorted(demo_logs().rglob("*.csv"))

    def to_open(*_asked: object) -> tuple[str, str]:
        return str(drawn.choice(files)) if drawn.random() < 0.8 else "", ""

    def to_save(_parent: object, _title: str, suggested: str, *_more: object, **_: object):
        return str(home / Path(suggested).name), ""

    QFileDialog.getOpenFileName, QFileDialog.getSaveFileName = to_open, to_save
    QFileDialog.getExistingDirectory = lambda *_asked: str(drawn.choice(files).parent)
    QDialog.exec = lambda *_dialog: 0
    QMenu.exec = lambda *_menu: None


def close_menu() -> None:
    """Close a menu that a button opened: its own loop would wait for ever."""
    menu = QApplication.activePopupWidget()
    if isinstance(menu, QMenu):
        menu.close()


def main(seed: int, steps: int) -> int:
    """Take so many steps; return 1 if anything went wrong."""
    wrong: list[str] = []
    drawn, app = random.Random(seed), QApplication([])  # noqa: S311 - nothing secret
    sys.excepthook = lambda *fault: wrong.append("".join(traceback.format_exception(*fault)))
    qInstallMessageHandler(lambda _k, _c, text: HARMLESS in text or wrong.append(text))
    with tempfile.TemporaryDirectory() as folder:
        answer_at_once(drawn, Path(folder))
        window = make_window(Path(folder), Questions(printer_to_use=lambda *_asked: None))
        window.show()
        closing = QTimer(window, interval=MENU_MS)
        closing.timeout.connect(close_menu)
        closing.start()
        person = Person(window, drawn)
        person.open()
        for _ in range(steps):
            if window.isVisible():
                person.step()
        put_away(window)
        leave_to_qt()
        app.processEvents()
    print(*wrong, f"{len(wrong)} faults", sep="\n")  # noqa: T201
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]), int(sys.argv[2])))
