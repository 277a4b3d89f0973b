"""What presses keys and the mouse in the stories: Qt's own events, or those of an X server."""

import os
import subprocess
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Protocol

import file_to_drag
from file_to_drag import SIDE
from PySide6.QtCore import (
    QCoreApplication,
    QDeadlineTimer,
    QEvent,
    QMimeData,
    QObject,
    QPoint,
    QPointF,
    Qt,
    QUrl,
)
from PySide6.QtGui import QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

COMES_WITHIN_MS = 5_000
"""An event that a screen has not brought after this long is lost."""
DRAGGED = {QEvent.Type.DragMove, QEvent.Type.Drop}
"""What Qt makes itself of what the other program says: never from outside by its own account."""
X_NAMES = {Qt.Key.Key_Return: "Return", Qt.Key.Key_Down: "Down", Qt.Key.Key_Home: "Home",
           Qt.Key.Key_N: "n"}  # fmt: skip


class Hands(Protocol):
    """A mouse and a keyboard."""

    def click(self, widget: QWidget, place: QPoint) -> None:
        """Press and let go the left button at a place of a widget."""

    def write(self, widget: QWidget, text: str) -> None:
        """Type text into what has the focus, which must be this widget or below it."""

    def press(self, widget: QWidget, key: Qt.Key) -> None:
        """Press one key."""

    def drop(self, window: QWidget, paths: Sequence[Path]) -> None:
        """Drag files from elsewhere and let them fall on a window."""


class QtHands:
    """Events made by Qt inside the program: they need no screen."""

    def click(self, widget: QWidget, place: QPoint) -> None:
        """Press and let go the left button at a place of a widget."""
        QTest.mouseClick(widget, Qt.MouseButton.LeftButton, pos=place)

    def write(self, widget: QWidget, text: str) -> None:
        """Type text, a key at a time."""
        QTest.keyClicks(widget, text)

    def press(self, widget: QWidget, key: Qt.Key) -> None:
        """Press one key."""
        QTest.keyClick(widget, key)

    def drop(self, window: QWidget, paths: Sequence[Path]) -> None:
        """Hand over what a drop brings; nothing is dragged."""
        data = QMimeData()
        data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
        copy, none = Qt.DropAction.CopyAction, Qt.KeyboardModifier.NoModifier
        at, left = QPointF(50, 50), Qt.MouseButton.LeftButton
        window.dropEvent(QDropEvent(at, copy, data, left, none))


class ScreenHands:
    """The mouse and the keys of an X server, moved by xdotool: what is covered gets nothing."""

    def click(self, widget: QWidget, place: QPoint) -> None:
        """Move the mouse there, press and let go the left button."""
        there = widget.mapToGlobal(place)
        under = QApplication.widgetAt(there)
        assert under is not None, (widget, there)
        assert under is widget or widget.isAncestorOf(under), (widget, under)
        spot = there * widget.window().windowHandle().devicePixelRatio()
        move = ["mousemove", str(spot.x()), str(spot.y())]
        self._wait_for(
            QEvent.Type.MouseButtonRelease, 1, lambda: _xdotool(*move, "click", "1"), widget
        )

    def write(self, widget: QWidget, text: str) -> None:
        """Type text, a key at a time."""
        assert _has_focus(widget), (widget, QApplication.focusWidget())
        typed = lambda: _xdotool("type", "--delay", "15", text)  # noqa: E731
        self._wait_for(QEvent.Type.KeyRelease, len(text), typed, widget)

    def press(self, widget: QWidget, key: Qt.Key) -> None:
        """Press one key."""
        assert _has_focus(widget), (widget, QApplication.focusWidget())
        self._wait_for(QEvent.Type.KeyRelease, 1, lambda: _xdotool("key", X_NAMES[key]), widget)

    def drop(self, window: QWidget, paths: Sequence[Path]) -> None:
        """Drag the files out of a window of another program."""
        ratio = window.windowHandle().devicePixelRatio()
        start = window.screen().geometry().bottomRight() * ratio - QPoint(SIDE, SIDE)
        middle = window.mapToGlobal(window.rect().center()) * ratio
        place = (str(start.x()), str(start.y()))
        command = [sys.executable, file_to_drag.__file__, *place, *map(str, paths)]
        plain = {**os.environ, "QT_SCALE_FACTOR": "1"}
        with subprocess.Popen(command, env=plain, stdout=subprocess.PIPE, text=True) as other:
            try:
                assert other.stdout is not None
                assert other.stdout.readline() == "there\n"
                step = QPoint(5, 5)
                way = [start + 3 * step, start + step, middle, middle + step, middle + 2 * step]
                self._wait_for(QEvent.Type.DragMove, 2, lambda: _drag(way), window)
                self._wait_for(QEvent.Type.Drop, 1, lambda: _xdotool("mouseup", "1"), window)
            finally:
                other.terminate()

    def _wait_for(
        self, kind: QEvent.Type, number: int, act: Callable[[], None], widget: QWidget
    ) -> None:
        seen = Seen(kind)
        application = QCoreApplication.instance()
        assert application is not None
        application.installEventFilter(seen)
        try:
            act()
            until = QDeadlineTimer(COMES_WITHIN_MS)
            while seen.number < number and not until.hasExpired():
                QTest.qWait(5)
        finally:
            application.removeEventFilter(seen)
        assert seen.number >= number, (widget, kind.name, seen.number, number)
        QCoreApplication.processEvents()


class Seen(QObject):
    """Counts the events of a kind that a screen brings to a window."""

    def __init__(self, kind: QEvent.Type) -> None:
        super().__init__()
        self.kind = kind
        self.number = 0

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Count what comes from outside, once: where it enters a window."""
        if event.type() is self.kind and watched.isWindowType():
            self.number += event.spontaneous() or self.kind in DRAGGED
        return False


def _has_focus(widget: QWidget) -> bool:
    focus = QApplication.activePopupWidget() or QApplication.focusWidget()
    return focus is not None and (focus is widget or widget.isAncestorOf(focus)
                                  or focus.isAncestorOf(widget))  # fmt: skip


def _drag(way: Sequence[QPoint]) -> None:
    """Take hold where the way begins and move to its end, at the pace of a person."""
    for number, place in enumerate(way):
        _xdotool("mousemove", str(place.x()), str(place.y()))
        QTest.qWait(100)
        if number == 0:
            _xdotool("mousedown", "1")


def _xdotool(*what: str) -> None:
    subprocess.run(["xdotool", *what], check=True, capture_output=True)


_used: list[Hands] = [QtHands()]


def hands() -> Hands:
    """Return what the stories use."""
    return _used[-1]


def use(other: Hands) -> None:
    """Let the stories use other hands from now on."""
    _used[:] = [other]
