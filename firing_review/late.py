"""What is loaded only when it is asked for: the window, and what sets type for PDF."""

import importlib
from pathlib import Path
from typing import TYPE_CHECKING, Any

from firing_review.firing.errors import InputError
from firing_review.firing.wording import tr

if TYPE_CHECKING:
    from firing_review.report.paper.page import Page, Paper

QT = ("PySide6", "shiboken6")


def module(name: str) -> Any:  # noqa: ANN401 - any of the program's entries
    """Import a part of the program only now, so that ``check`` never loads the window.

    Raises
    ------
    InputError
        If the system lacks a library that the window and PDF are built on.
    """
    try:
        return importlib.import_module(name)
    except ImportError as error:
        if not any(part in (error.path or "") for part in QT):
            raise
        raise InputError(
            tr("window and PDF"),
            tr("the system libraries they need"),
            str(error),
            tr("Install the package that has it; text, HTML and JSON of check need none."),
        ) from error


def write_pdf(page: "Page", path: Path, paper: "Paper") -> None:
    """Write a page as PDF; a worker process finds this by its name."""
    module("firing_review.ui.printing.pdf").write_pdf(page, path, paper)
