"""The commands of the window, in the order of the menu."""

from typing import Protocol

from PySide6.QtGui import QKeySequence

from firing_review.firing.said import N_
from firing_review.ui.actions import KEYS, Below, Command, Line
from firing_review.ui.arrivals import Arrivals
from firing_review.ui.guide.guide import Guide
from firing_review.ui.tools import Tools


class Commanded(Protocol):
    """What the window can be told to do."""

    tools: Tools
    arrivals: Arrivals
    guide: Guide

    def save_as_folder(self) -> None:
        """Save everything as a firing folder."""

    def show_paper(self) -> None:
        """Show what can be printed or handed on."""

    def go_to_blank_sheets(self) -> None:
        """Show the sheets to write on by hand."""

    def edit_title(self) -> None:
        """Let the person write another title."""

    def go_to_start(self) -> None:
        """Show the start page."""

    def go_to_book(self) -> None:
        """Show the kiln book."""

    def show_preferences(self) -> None:
        """Show the few choices a person makes once."""

    def show_keys(self) -> None:
        """Show what each key does."""

    def next_part(self) -> None:
        """Put the keyboard on the next part of the window."""

    def part_before(self) -> None:
        """Put the keyboard on the part before this one."""

    def close(self) -> bool:
        """Close the window."""


def commands(window: Commanded) -> list[Line]:
    """Return the lines of the menu; it is short enough for a laptop's screen."""
    arrivals, tools = window.arrivals, window.tools
    return [
        Command("open", N_("&Open a file…"), (KEYS.Open,), arrivals.ask_file),
        Command("open_folder", N_("Open a &folder…"), ("Ctrl+Shift+O",), arrivals.ask_folder),
        Command("save", N_("&Save as firing folder…"), (KEYS.Save,), window.save_as_folder),
        Command("paper", N_("&Print or hand on…"), (KEYS.Print,), window.show_paper),
        Command("blank", N_("Blan&k sheets to print…"), (), window.go_to_blank_sheets),
        Command("book", N_("Kiln &book"), ("Ctrl+B",), window.go_to_book),
        Command("start", N_("S&tart page"), ("Ctrl+H",), window.go_to_start),
        None,
        Command("undo", N_("Undo"), (KEYS.Undo,), tools.sitting.undo),
        Command("redo", N_("Redo"), ("Ctrl+Shift+Z", "Ctrl+Y"), tools.sitting.redo),
        Command("title", N_("Title of the fi&ring…"), ("F2",), window.edit_title),
        None,
        *_below(window),
        None,
        Command("preferences", N_("Pr&eferences…"), ("Ctrl+,",), window.show_preferences),
        Command("guide", N_("A gu&ide in five steps"), (), window.guide.start),
        Command("keys", N_("Ke&ys…"), ("F1",), window.show_keys),
        Command("quit", N_("&Quit"), ("Ctrl+Q",), window.close),
    ]


def _below(window: Commanded) -> list[Line]:
    """Return the menus under a line of the menu, and what has a key but no line."""
    arrivals, showing, look = window.arrivals, window.tools.showing, window.tools.appearance
    log = (
        Command("how_read", N_("&How this log was read…"), (), arrivals.ask_how_read),
        Command("reread", N_("&Read the log in the other unit"), (), arrivals.read_in_other_unit),
    )
    shown = (
        Command("unit", N_("Switch °C and °&F"), ("Ctrl+T",), showing.switch_unit),
        Command("time", N_("Switch hours and &clock"), ("Ctrl+K",), showing.switch_time),
        Command("enlarge", N_("&Larger"), ("Ctrl++", "Ctrl+="), look.enlarge),
        Command("reduce", N_("S&maller"), (QKeySequence("Ctrl+-"),), look.reduce),
    )
    keys = (
        Command("next_part", N_("Next part of the window"), ("F6",), window.next_part),
        Command("part_before", N_("Part before"), ("Shift+F6",), window.part_before),
    )
    return [Below(N_("The &log"), log), Below(N_("&View"), shown), Below("", keys)]
