"""Every question that stops the program until it is answered, as functions tests replace."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QFileDialog, QWidget

from firing_review.firing.wording import tr
from firing_review.report.paper.page import Paper

if TYPE_CHECKING:
    from PySide6.QtPrintSupport import QPrinter


def file_to_open(parent: QWidget, title: str, folder: Path) -> Path | None:
    """Ask for a file; None if the person thought better of it."""
    kinds = ";;".join(
        (
            tr("Logs, schedules and sheets") + " (*.csv *.txt *.tsv *.log *.dat *.xlsx *.toml)",
            tr("Kiln books") + " (*.kilnbook)",
            tr("All files") + " (*)",
        )
    )
    name, _ = QFileDialog.getOpenFileName(parent, title, str(folder), kinds)
    return Path(name) if name else None


def folder_to_open(parent: QWidget, folder: Path) -> Path | None:
    """Ask for a firing folder; None if the person thought better of it."""
    name = QFileDialog.getExistingDirectory(parent, tr("Open a firing folder"), str(folder))
    return Path(name) if name else None


def folder_to_save(parent: QWidget, suggested: Path) -> Path | None:
    """Ask for the name of a new firing folder; None if the person thought better of it."""
    title = tr("Save as firing folder: name of the new folder")
    options = QFileDialog.Option.DontConfirmOverwrite
    name, _ = QFileDialog.getSaveFileName(parent, title, str(suggested), options=options)
    return Path(name) if name else None


def file_to_save(parent: QWidget, suggested: str) -> Path | None:
    """Ask for the name of a new schedule file; None if the person thought better of it."""
    title = tr("Save this schedule")
    name, _ = QFileDialog.getSaveFileName(parent, title, suggested, tr("Schedules (*.csv)"))
    return Path(name) if name else None


def book_to_open(parent: QWidget, folder: Path) -> Path | None:
    """Ask for a kiln book; None if the person thought better of it."""
    kinds = tr("Kiln books") + " (*.kilnbook)"
    name, _ = QFileDialog.getOpenFileName(parent, tr("Open a kiln book"), str(folder), kinds)
    return Path(name) if name else None


def book_to_make(parent: QWidget, suggested: Path) -> Path | None:
    """Ask for the name of a new kiln book; None if the person thought better of it."""
    options = QFileDialog.Option.DontConfirmOverwrite
    kinds = tr("Kiln books") + " (*.kilnbook)"
    title = tr("New kiln book: its name")
    name, _ = QFileDialog.getSaveFileName(parent, title, str(suggested), kinds, options=options)
    return Path(name) if name else None


def picture_to_save(parent: QWidget, suggested: str) -> Path | None:
    """Ask for the name of a picture; None if the person thought better of it."""
    kinds = ";;".join((tr("Pictures") + " (*.png)", tr("Drawings for print") + " (*.svg)"))
    name, kind = QFileDialog.getSaveFileName(parent, tr("Save the picture"), suggested, kinds)
    if not name:
        return None
    path = Path(name)
    return path if path.suffix else path.with_suffix(".svg" if ".svg" in kind else ".png")


def page_to_save(parent: QWidget, suggested: Path) -> Path | None:
    """Ask for the name of a page; None if the person thought better of it."""
    kinds = f"{suggested.suffix[1:].upper()} (*{suggested.suffix})"
    name, _ = QFileDialog.getSaveFileName(parent, tr("Save this page"), str(suggested), kinds)
    return Path(name) if name else None


def any_file_to_open(parent: QWidget, title: str, folder: Path) -> Path | None:
    """Ask for a file of any kind; None if the person thought better of it."""
    name, _ = QFileDialog.getOpenFileName(parent, title, str(folder))
    return Path(name) if name else None


def any_file_to_save(parent: QWidget, suggested: Path) -> Path | None:
    """Ask where to write a file of any kind; None if the person thought better of it."""
    name, _ = QFileDialog.getSaveFileName(parent, tr("Save this file"), str(suggested))
    return Path(name) if name else None


def printer_to_use(parent: QWidget, paper: Paper) -> "QPrinter | None":
    """Ask for a printer; None if the person thought better of it."""
    from PySide6.QtPrintSupport import QPrintDialog, QPrinter

    from firing_review.ui.printing.pdf import layout_of

    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setPageLayout(layout_of(paper))
    dialog = QPrintDialog(printer, parent)
    accepted = dialog.exec() == QPrintDialog.DialogCode.Accepted
    return printer if accepted else None


@dataclass(frozen=True)
class Questions:
    """The questions as the program asks them."""

    file_to_open: Callable[[QWidget, str, Path], Path | None] = file_to_open
    folder_to_open: Callable[[QWidget, Path], Path | None] = folder_to_open
    folder_to_save: Callable[[QWidget, Path], Path | None] = folder_to_save
    file_to_save: Callable[[QWidget, str], Path | None] = file_to_save
    book_to_open: Callable[[QWidget, Path], Path | None] = book_to_open
    book_to_make: Callable[[QWidget, Path], Path | None] = book_to_make
    picture_to_save: Callable[[QWidget, str], Path | None] = picture_to_save
    page_to_save: Callable[[QWidget, Path], Path | None] = page_to_save
    any_file_to_open: Callable[[QWidget, str, Path], Path | None] = any_file_to_open
    any_file_to_save: Callable[[QWidget, Path], Path | None] = any_file_to_save
    printer_to_use: "Callable[[QWidget, Paper], QPrinter | None]" = printer_to_use
