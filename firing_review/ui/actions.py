"""Everything the menu offers, with its key; the same actions serve the buttons."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMenu, QWidget

from firing_review.firing.wording import Language, tr
from firing_review.io.languages import NAMES
from firing_review.ui.preferences import Choice

KEYS = QKeySequence.StandardKey


@dataclass(frozen=True)
class Command:
    """One thing the program can do: its words, its keys, what it does."""

    key: str
    words: str
    keys: tuple[QKeySequence | QKeySequence.StandardKey | str, ...]
    do: Callable[[], None]


class Actions:
    """The actions by key, and the menu made of them."""

    def __init__(self, window: QWidget, commands: list[Command | None]) -> None:
        self.menu = QMenu(window)
        self._actions: dict[str, QAction] = {}
        for command in commands:
            if command is None:
                self.menu.addSeparator()
            else:
                self._add(window, command)

    def _add(self, window: QWidget, command: Command) -> None:
        action = QAction(tr(command.words), window)
        action.setShortcuts([QKeySequence(keys) for keys in command.keys])
        action.triggered.connect(command.do)
        self.menu.addAction(action)
        window.addAction(action)
        self._actions[command.key] = action

    def __getitem__(self, key: str) -> QAction:
        """Return an action."""
        return self._actions[key]

    @property
    def all(self) -> list[QAction]:
        """Every action, in the order of the menu."""
        return list(self._actions.values())

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
        below = self.menu.addMenu(title)
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
