"""A page set on sheets of paper: as large as it can be on one, or at ease on several."""

from collections.abc import Iterator
from dataclasses import dataclass

from PySide6.QtCore import QPointF
from PySide6.QtGui import QColor, QPainter, QPen

from firing_review.firing.wording import tr
from firing_review.report.paper.html_page import light_svg
from firing_review.report.paper.page import (
    Block,
    Framed,
    Heading,
    Marks,
    Page,
    Paper,
    Picture,
    Points,
    Table,
    Words,
)
from firing_review.report.paper.svg import INK, MUTED
from firing_review.ui.printing.pieces import (
    POINT,
    FramePiece,
    LightDrawn,
    MarksPiece,
    PicturePiece,
    Piece,
    PointPiece,
    RowPiece,
    TextPiece,
    font,
    paint_text,
    text_of,
)

SIZES_PT = {Paper.A4: (595.3, 841.9), Paper.LETTER: (612.0, 792.0)}
MARGIN_PT = 38.0
TABLE_TYPE = 0.92
"""Type in tables, as a share of that of the page."""
"""Room at the edges for holes of a binder and for printers that do not reach the edge."""
SIZES = (11.0, 10.5, 10.0, 9.6)
"""Sizes of type that are tried for one sheet [points]; nothing smaller is printed."""
FOOT_PT = 22.0
TOGETHER = 5
"""A list of so many points or fewer is not broken over two sheets."""
TALL_PT = 24.0
"""Height of a row that is written in by hand."""


@dataclass(frozen=True)
class Sheets:
    """A page set in type: what stands on each sheet.

    Attributes
    ----------
    size : float
        Size of the running type [points].
    """

    page: Page
    paper: Paper
    size: float
    pieces: tuple[tuple[Piece, ...], ...]

    def paint(self, painter: QPainter, number: int) -> None:
        """Paint one sheet; the painter counts in points from the corner of the paper."""
        painter.save()
        painter.scale(1.0 / POINT, 1.0 / POINT)
        left, y = MARGIN_PT * POINT, MARGIN_PT * POINT
        for piece in self.pieces[number]:
            piece.paint(painter, left, y)
            y += piece.height
        self._paint_foot(painter, number)
        painter.restore()

    def _paint_foot(self, painter: QPainter, number: int) -> None:
        width, height = (side * POINT for side in SIZES_PT[self.paper])
        left, right = MARGIN_PT * POINT, width - MARGIN_PT * POINT
        y = height - (MARGIN_PT + FOOT_PT - 8.0) * POINT
        painter.setPen(QPen(QColor(MUTED), 5))
        painter.drawLine(QPointF(left, y), QPointF(right, y))
        words = self.page.foot
        if len(self.pieces) > 1:
            sheet = tr("sheet {number} of {count}")
            words += "  " + sheet.format(number=number + 1, count=len(self.pieces))
        foot = text_of([(words, False)], 8.0, right - left)
        paint_text(painter, foot, QPointF(left, y + 3 * POINT), MUTED)


def set_page(page: Page, paper: Paper) -> Sheets:
    """Return a page set in type on as few sheets as it takes, in full and large if that allows."""
    tight = []
    for version in _versions(page):
        tight.append(_set(version, paper, SIZES[-1]))
        if len(tight[-1].pieces) == 1:
            break
    fewest = min(len(made.pieces) for made in tight)
    chosen = next(made for made in tight if len(made.pieces) == fewest)
    for size in SIZES[:-1]:
        made = _set(chosen.page, paper, size)
        if len(made.pieces) == fewest:
            return made
    return chosen


def _versions(page: Page) -> Iterator[Page]:
    """Yield a page, then ever shorter ones."""
    version: Page | None = page
    while version is not None:
        yield version
        version = version.shorter


def _set(page: Page, paper: Paper, size: float) -> Sheets:
    pieces = tuple(_pieces(page, paper, size))
    return Sheets(page, paper, size, tuple(_broken(pieces, _room(paper))))


def _room(paper: Paper) -> float:
    return (SIZES_PT[paper][1] - 2 * MARGIN_PT - FOOT_PT) * POINT


def _broken(pieces: tuple[Piece, ...], room: float) -> Iterator[tuple[Piece, ...]]:
    """Yield the pieces of each sheet; a heading stays with what it heads."""
    sheet: list[Piece] = []
    used = 0.0
    for group in _groups(pieces):
        height = sum(piece.height for piece in group)
        if sheet and used + height > room:
            yield tuple(sheet)
            sheet, used = [], 0.0
        sheet += group
        used += height
    if sheet:
        yield tuple(sheet)


def _groups(pieces: tuple[Piece, ...]) -> Iterator[list[Piece]]:
    group: list[Piece] = []
    for piece in pieces:
        group.append(piece)
        if not piece.sticks:
            yield group
            group = []
    if group:
        yield group


def _pieces(page: Page, paper: Paper, size: float) -> Iterator[Piece]:
    """Yield the pieces of a page at a size of type."""
    width = (SIZES_PT[paper][0] - 2 * MARGIN_PT) * POINT
    yield TextPiece([(page.kind.upper(), True)], 0.82 * size, width, 0.0, color=MUTED, sticks=True)
    yield TextPiece([(page.title, True)], 1.5 * size, width, 0.0, sticks=True)
    if page.under:
        yield TextPiece([(page.under, False)], 0.95 * size, width, 10.0)
    yield RulePiece(width)
    for block in page.blocks:
        yield from _of_block(block, size, width)


class RulePiece(Piece):
    """A line across the page."""

    def __init__(self, width: float) -> None:
        self._width, self.height = width, 8 * POINT

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        """Paint the line."""
        painter.setPen(QPen(QColor(INK), 1.2 * POINT))
        painter.drawLine(QPointF(x, y + 4 * POINT), QPointF(x + self._width, y + 4 * POINT))


def _of_block(block: Block, size: float, width: float) -> Iterator[Piece]:
    em = size * POINT
    match block:
        case Heading(text):
            yield TextPiece([(text, True)], 1.08 * size, width, 0.5 * em, sticks=True)
        case Words(text, strong, quiet):
            scale = 1.25 if strong else 0.86 if quiet else 1.0
            color = MUTED if quiet else INK
            yield TextPiece([(text, False)], scale * size, width, 0.2 * em, color=color)
        case Points(points):
            for place, point in enumerate(points, start=1):
                runs = [(f"{point.bold} ", True)] if point.bold else []
                made = PointPiece(point.mark, [*runs, (point.text, False)], size, width)
                made.sticks = len(points) <= TOGETHER and place < len(points)
                yield made
        case Marks(marks):
            drawn = [
                LightDrawn(light_svg(m.light), ((f"{m.name}: ", True), (m.text, False)))
                for m in marks
            ]
            yield MarksPiece(drawn, size, width)
        case Table():
            yield from _rows(block, TABLE_TYPE * size, width)
        case Framed(title, text):
            yield FramePiece([(f"{title}. ", True), (text, False)], size, width)
        case Picture(svg, wide, high):
            yield PicturePiece(svg, (wide, high), width, 0.4 * em)


def _rows(table: Table, size: float, width: float) -> Iterator[Piece]:
    widths = [share * width for share in table.shares]
    least = TALL_PT * POINT if table.tall else 0.0
    yield RowPiece(table.head, widths, size, head=True, least=0.0 if table.rows else least)
    for row in table.rows:
        yield RowPiece(row, widths, size, least=least)
    yield TextPiece([], 0.4 * size, width, 0.0)


__all__ = ["SIZES_PT", "Sheets", "font", "set_page"]
