"""What is loaded only when it is asked for: the window, and what sets type for PDF."""

import importlib
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from firing_review.report.paper.page import Page, Paper


def module(name: str) -> Any:  # noqa: ANN401 - any of the program's entries
    """Import a part of the program only now, so that ``check`` never loads the window."""
    return importlib.import_module(name)


def write_pdf(page: "Page", path: Path, paper: "Paper") -> None:
    """Write a page as PDF; a worker process finds this by its name."""
    module("firing_review.ui.printing.pdf").write_pdf(page, path, paper)
