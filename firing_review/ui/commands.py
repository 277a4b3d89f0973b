"""The commands of the window, in the order of the menu."""

from typing import Protocol

from PySide6.QtGui import QKeySequence

from firing_review.firing.said import N_
from firing_review.ui.actions import KEYS, Command
from firing_review.ui.sitting import Sitting


class Commanded(Protocol):
    """What the window can be told to do."""

    sitting: Sitting

    def ask_file(self) -> None:
        """Ask for a file and open it."""

    def ask_folder(self) -> None:
        """Ask for a folder and open it."""

    def save_as_folder(self) -> None:
        """Save everything as a firing folder."""

    def go_to_start(self) -> None:
        """Show the start page."""

    def switch_unit(self) -> None:
        """Change between °C and °F."""

    def switch_time(self) -> None:
        """Change between hours and clock."""

    def read_in_other_unit(self) -> None:
        """Read the log anew, as °F instead of °C or the other way round."""

    def ask_how_read(self) -> None:
        """Show how the log was read, to be corrected."""

    def enlarge(self) -> None:
        """Make everything larger."""

    def reduce(self) -> None:
        """Make everything smaller."""

    def close(self) -> bool:
        """Close the window."""


def commands(window: Commanded) -> list[Command | None]:
    """Return the commands; None stands for a line between them."""
    return [
        Command("open", N_("&Open a file…"), (KEYS.Open,), window.ask_file),
        Command("open_folder", N_("Open a &folder…"), ("Ctrl+Shift+O",), window.ask_folder),
        Command("save", N_("&Save as firing folder…"), (KEYS.Save,), window.save_as_folder),
        Command("start", N_("S&tart page"), ("Ctrl+H",), window.go_to_start),
        None,
        Command("undo", N_("&Undo"), (KEYS.Undo,), window.sitting.undo),
        Command("redo", N_("&Redo"), ("Ctrl+Shift+Z", "Ctrl+Y"), window.sitting.redo),
        None,
        Command("unit", N_("Switch °C and °&F"), ("Ctrl+T",), window.switch_unit),
        Command("time", N_("Switch hours and &clock"), ("Ctrl+K",), window.switch_time),
        Command("reread", N_("&Read the log in the other unit"), (), window.read_in_other_unit),
        Command("how_read", N_("&How this log was read…"), (), window.ask_how_read),
        Command("enlarge", N_("&Larger"), ("Ctrl++", "Ctrl+="), window.enlarge),
        Command("reduce", N_("S&maller"), (QKeySequence("Ctrl+-"),), window.reduce),
        None,
        Command("quit", N_("&Quit"), ("Ctrl+Q",), window.close),
    ]
