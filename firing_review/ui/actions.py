"""Everything the menu offers, with its key; the same actions serve the buttons."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMenu, QToolButton, QWidget

from firing_review.firing.said import Said
from firing_review.firing.wording import Language, tr
from firing_review.io.languages import NAMES
from firing_review.report.wording import render
from firing_review.ui.preferences import Choice

KEYS = QKeySequence.StandardKey


@dataclass(frozen=True)
class Command:
    """One thing the program can do: its words, its keys, what it does."""

    key: str
    words: str
    keys: tuple[QKeySequence | QKeySequence.StandardKey | str, ...]
    do: Callable[[], None]


@dataclass(frozen=True)
class Below:
    """A menu of its own under one line of the menu; without words its commands have keys only."""

    words: str
    commands: tuple[Command, ...]


Line = Command | Below | None
"""One line of the menu; None is a line between two groups."""
NEED_FIRING = ("save", "paper", "reread", "how_read", "title")


class Actions:
    """The actions by key, and the menu made of them."""

    def __init__(self, window: QWidget, lines: list[Line]) -> None:
        self.menu = QMenu(window)
        self._actions: dict[str, QAction] = {}
        for line in lines:
            if line is None:
                self.menu.addSeparator()
            elif isinstance(line, Command):
                self._add(window, line, self.menu)
            else:
                below = self.menu.addMenu(tr(line.words)) if line.words else None
                for command in line.commands:
                    self._add(window, command, below)

    def _add(self, window: QWidget, command: Command, menu: QMenu | None) -> None:
        action = QAction(tr(command.words), window)
        action.setShortcuts([QKeySequence(keys) for keys in command.keys])
        action.triggered.connect(command.do)
        if menu is not None:
            menu.addAction(action)
        window.addAction(action)
        self._actions[command.key] = action

    def __getitem__(self, key: str) -> QAction:
        """Return an action."""
        return self._actions[key]

    def open_from(self, *buttons: QToolButton) -> None:
        """Let each of these buttons open the menu."""
        for button in buttons:
            button.setMenu(self.menu)

    @property
    def all(self) -> list[QAction]:
        """Every action, in the order of the menu."""
        return list(self._actions.values())

    def show_edits(self, undo: Said | None, redo: Said | None, *, is_open: bool) -> None:
        """Say what can be undone and done again, and offer what needs an open firing."""
        for key, word, label in (("undo", tr("Undo"), undo), ("redo", tr("Redo"), redo)):
            self[key].setEnabled(label is not None)
            self[key].setText(word if label is None else f"{word}: {render(label)}")
        for key in NEED_FIRING:
            self[key].setEnabled(is_open)

    def add_languages(self, chosen: Language, choose: Callable[[QAction], None]) -> None:
        """Add the choice of a language; each is named in its own words."""
        self._add_choice(tr("Lan&guage"), NAMES, chosen, choose)

    def _add_choice(
        self,
        title: str,
        words: Mapping[Choice, str],
        chosen: Choice,
        choose: Callable[[QAction], None],
    ) -> None:
        below = QMenu(title, self.menu)
        self.menu.insertMenu(self["preferences"], below)
        group = QActionGroup(below)
        for one, word in words.items():
            action = below.addAction(word)
            action.setCheckable(True)
            action.setChecked(one is chosen)
            action.setData(one.value)
            group.addAction(action)
        group.triggered.connect(choose)

    def remove(self, window: QWidget) -> None:
        """Take menu and actions off the window, so that their keys are free again."""
        for action in self._actions.values():
            window.removeAction(action)
            action.deleteLater()
        self.menu.deleteLater()
