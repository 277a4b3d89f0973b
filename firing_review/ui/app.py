"""Start the window."""

import os
import sys
from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QLocale
from PySide6.QtWidgets import QApplication

from firing_review import __version__
from firing_review.firing.wording import Language, tr
from firing_review.io.languages import speak, system_language
from firing_review.ui.answering import Answering
from firing_review.ui.appearance import Appearance
from firing_review.ui.ask import Questions
from firing_review.ui.enter_key import EnterKey
from firing_review.ui.error_dialog import ErrorCatcher
from firing_review.ui.main_window import MainWindow
from firing_review.ui.on_clipboard import leave_to_qt
from firing_review.ui.preferences import Preferences
from firing_review.ui.qt_words import speak_with_qt
from firing_review.ui.state_folder import not_kept, state_folder


def main(arguments: Sequence[str], language: Language | None = None) -> int:
    """Open the window, on a file or folder if one is named, and return its exit code.

    ``language`` counts for this time only; else the person's choice does, or the system's.
    """
    application = QApplication([sys.argv[0]])
    application.setApplicationName("firing-review")
    application.setApplicationDisplayName(tr("Firing Review"))
    application.setApplicationVersion(__version__)
    application.setStyle("Fusion")
    catcher = ErrorCatcher()
    catcher.install()
    home = state_folder()
    system = system_language(os.environ, QLocale.system().uiLanguages())
    speak(language or Preferences(home).language or system)
    speak_with_qt()
    window = make_window(home, Questions())
    window.show()
    answering = Answering()
    answering.loaded.connect(window.work.make_ahead)
    answering.begin()
    if arguments:
        window.open_path(Path(arguments[0]))
    warning = not_kept(home)
    if warning is not None:
        window.show_error(warning)
    code = application.exec()
    answering.end()
    leave_to_qt()
    sys.excepthook = sys.__excepthook__
    return code


def make_window(home: Path, questions: Questions) -> MainWindow:
    """Return the window with its state in ``home``."""
    preferences = Preferences(home)
    appearance = Appearance(preferences)
    appearance.apply()
    window = MainWindow(home, preferences, appearance, questions)
    appearance.setParent(window)
    EnterKey(window)
    return window
