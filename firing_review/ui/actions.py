"""Everything the menu offers, with its key; the same actions serve the buttons."""

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMenu, QWidget

from firing_review.firing.said import N_
from firing_review.firing.wording import tr
from firing_review.ui.preferences import Brightness

KEYS = QKeySequence.StandardKey
BRIGHTNESS_WORDS = {
    Brightness.SYSTEM: N_("As the system"),
    Brightness.LIGHT: N_("Light"),
    Brightness.DARK: N_("Dark"),
}


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

    def add_brightness(self, chosen: Brightness, choose: Callable[[QAction], None]) -> None:
        """Add the choice of light, dark or system; ``choose`` gets the action with its data."""
        below = self.menu.addMenu(tr("&Brightness"))
        group = QActionGroup(below)
        for brightness, words in BRIGHTNESS_WORDS.items():
            action = below.addAction(tr(words))
            action.setCheckable(True)
            action.setChecked(brightness is chosen)
            action.setData(brightness.value)
            group.addAction(action)
        group.triggered.connect(choose)
