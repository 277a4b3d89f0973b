"""A page as PDF: type stays type and lines stay lines."""

import os
import sys
from collections.abc import Iterable
from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QMarginsF
from PySide6.QtGui import QGuiApplication, QPageLayout, QPageSize, QPainter, QPdfWriter
from PySide6.QtPrintSupport import QPrinter

from firing_review.io.whole_file import write_whole
from firing_review.report.paper.page import Page, Paper
from firing_review.ui.printing.sheets import Sheets, set_page

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
    paint_all(writer, found)
    buffer.close()
    return bytes(data.data())


def paint_all(device: QPdfWriter | QPrinter, pages: Iterable[Sheets]) -> None:
    """Paint every sheet of every page, each on its own size of paper, from edge to edge."""
    painter = QPainter()
    for page in pages:
        for number in range(len(page.pieces)):
            device.setPageLayout(_layout(page.paper))
            if painter.isActive():
                device.newPage()
            else:
                painter.begin(device)
            painter.save()
            scale = device.resolution() / POINTS_AN_INCH
            painter.scale(scale, scale)
            page.paint(painter, number)
            painter.restore()
    painter.end()


def _layout(paper: Paper) -> QPageLayout:
    edge = QMarginsF(0.0, 0.0, 0.0, 0.0)
    portrait = QPageLayout.Orientation.Portrait
    layout = QPageLayout(QPageSize(PAGE_SIZES[paper]), portrait, edge)
    layout.setMode(QPageLayout.Mode.FullPageMode)
    return layout
