"""A page as PDF: type stays type and lines stay lines."""

import os
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QMarginsF
from PySide6.QtGui import QGuiApplication, QPageLayout, QPageSize, QPainter, QPdfWriter

from firing_review.io.whole_file import write_whole
from firing_review.report.paper.page import Page, Paper
from firing_review.ui.printing.sheets import SIZES_PT, Sheets, set_page

if TYPE_CHECKING:
    from PySide6.QtPrintSupport import QPrinter

DOTS_AN_INCH = 1200
POINTS_AN_INCH = 72.0
PAGE_SIZES = {Paper.A4: QPageSize.PageSizeId.A4, Paper.LETTER: QPageSize.PageSizeId.Letter}


_OWN: list[QGuiApplication] = []
"""The application that was made here, kept because type is set with it until the end."""


def write_pdf(page: Page, path: Path, paper: Paper) -> None:
    """Write a page as PDF; works without a window, and on Linux without a screen."""
    _need_application()
    write_whole(path, pdf_bytes([set_page(page, paper)]))


def _need_application() -> None:
    if QGuiApplication.instance() is not None:
        return
    if sys.platform.startswith("linux"):
        os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    _OWN.append(QGuiApplication([sys.argv[0]]))


def pdf_bytes(pages: Iterable[Sheets]) -> bytes:
    """Return pages set in type as one PDF document."""
    found = list(pages)
    data = QByteArray()
    buffer = QBuffer(data)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QPdfWriter(buffer)
    writer.setResolution(DOTS_AN_INCH)
    writer.setCreator("Firing Review")
    writer.setTitle(f"{found[0].page.kind}: {found[0].page.title}")
    writer.setPageLayout(layout_of(found[0].paper))
    _paint_all(writer, found)
    buffer.close()
    return bytes(data.data())


def print_on(printer: "QPrinter", sheets: Sheets) -> None:
    """Print a page; if the printer holds other paper the page is made to fit it."""
    printer.setFullPage(True)
    _paint_all(printer, [sheets])


def _paint_all(device: "QPdfWriter | QPrinter", pages: Iterable[Sheets]) -> None:
    """Paint every sheet of every page, from edge to edge of the paper."""
    painter = QPainter(device)
    started = False
    for page in pages:
        for number in range(len(page.pieces)):
            if started:
                device.newPage()
            started = True
            painter.save()
            scale = _scale(device, page.paper)
            painter.scale(scale, scale)
            page.paint(painter, number)
            painter.restore()
    painter.end()


def _scale(device: "QPdfWriter | QPrinter", paper: Paper) -> float:
    """Return dots a point; less where the device has smaller paper than the page is set for."""
    has = device.pageLayout().fullRectPoints()
    wanted = SIZES_PT[paper]
    fit = min(has.width() / wanted[0], has.height() / wanted[1], 1.0)
    near = 0.99  # sizes in whole points differ from the paper's by a fraction of a point
    return device.resolution() / POINTS_AN_INCH * (fit if fit < near else 1.0)


def layout_of(paper: Paper) -> QPageLayout:
    """Return a size of paper, upright and used from edge to edge."""
    edge = QMarginsF(0.0, 0.0, 0.0, 0.0)
    portrait = QPageLayout.Orientation.Portrait
    layout = QPageLayout(QPageSize(PAGE_SIZES[paper]), portrait, edge)
    layout.setMode(QPageLayout.Mode.FullPageMode)
    return layout
