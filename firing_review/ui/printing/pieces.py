"""What a sheet is made of: pieces of a known height that paint themselves as vectors.

All lengths are tenths of a point, so that type of 10.5 points has a whole number of pixels.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from PySide6.QtCore import QByteArray, QPointF, QRectF, Qt
from PySide6.QtGui import (
    QAbstractTextDocumentLayout,
    QColor,
    QFont,
    QPainter,
    QPalette,
    QPen,
    QTextCharFormat,
    QTextCursor,
    QTextDocument,
)
from PySide6.QtSvg import QSvgRenderer

from firing_review.report.paper.svg import INK, MUTED
from firing_review.report.shown_text import kept_together

FAMILIES = ["Helvetica", "Arial", "DejaVu Sans"]
POINT = 10.0
"""Units of a point."""

Run = tuple[str, bool]
"""Words, and whether they are bold."""


def font(size: float, *, bold: bool = False) -> QFont:
    """Return the type of the page at a size in points."""
    made = QFont(FAMILIES)
    made.setPixelSize(round(size * POINT))
    made.setBold(bold)
    made.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    made.setFeature(QFont.Tag("liga"), 0)  # a search in the PDF finds "refire" only so
    return made


@lru_cache(maxsize=16)
def drawing(svg: str) -> QSvgRenderer:
    """Return a drawing ready to be painted; the same one is set at several sizes of type."""
    return QSvgRenderer(QByteArray(svg.encode()))


def text_of(runs: Sequence[Run], size: float, width: float) -> QTextDocument:
    """Return words set to a width; they are plain text whatever stands in them."""
    document = QTextDocument()
    document.setDocumentMargin(0.0)
    document.setDefaultFont(font(size))
    cursor = QTextCursor(document)
    for words, bold in runs:
        form = QTextCharFormat()
        form.setFont(font(size, bold=bold))
        cursor.insertText(kept_together(words), form)
    document.setTextWidth(width)
    return document


def paint_text(painter: QPainter, document: QTextDocument, at: QPointF, color: str = INK) -> None:
    """Paint words where they stand."""
    context = QAbstractTextDocumentLayout.PaintContext()
    context.palette.setColor(QPalette.ColorRole.Text, QColor(color))
    painter.save()
    painter.translate(at)
    document.documentLayout().draw(painter, context)
    painter.restore()


class Piece:
    """Something with a height; ``sticks`` keeps it with what follows."""

    sticks = False
    height = 0.0

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        """Paint it with its upper left corner at a place."""


class TextPiece(Piece):
    """Words across the page, with room above them."""

    def __init__(
        self,
        runs: Sequence[Run],
        size: float,
        width: float,
        above: float,
        *,
        color: str = INK,
        sticks: bool = False,
    ) -> None:
        self._text, self._above, self._color = text_of(runs, size, width), above, color
        self.sticks = sticks
        self.height = above + self._text.size().height()

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        """Paint the words."""
        paint_text(painter, self._text, QPointF(x, y + self._above), self._color)


class PointPiece(Piece):
    """One line of a list; a box to tick and a number are drawn."""

    def __init__(self, mark: str, runs: Sequence[Run], size: float, width: float) -> None:
        self._mark, self._size = mark, size
        self._indent = 1.9 * size * POINT
        self._text = text_of(runs, size, width - self._indent)
        self.height = self._text.size().height() + 0.14 * size * POINT

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        """Paint mark and words."""
        em = self._size * POINT
        paint_text(painter, self._text, QPointF(x + self._indent, y))
        box = QRectF(x + 0.2 * em, y + 0.12 * em, 1.15 * em, 1.0 * em)
        painter.setPen(QPen(QColor(INK), 0.1 * em))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        if self._mark == "□":
            side = 0.78 * em
            painter.drawRect(QRectF(x + 0.4 * em, y + 0.24 * em, side, side))
            return
        if self._mark.isdigit():
            painter.drawRect(box)
        painter.setFont(font(self._size, bold=True))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, self._mark)


class PicturePiece(Piece):
    """A drawing across the page, kept as vectors."""

    def __init__(self, svg: str, size: tuple[float, float], width: float, above: float) -> None:
        self._renderer = drawing(svg)
        self._above, self._width = above, width
        self._drawn = width * size[1] / size[0]
        self.height = self._drawn + 2 * above

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        """Paint the drawing."""
        painter.setFont(font(9.0))
        self._renderer.render(painter, QRectF(x, y + self._above, self._width, self._drawn))


@dataclass(frozen=True)
class LightDrawn:
    """A mark of the three: its shape as SVG, its words."""

    svg: str
    runs: tuple[Run, ...]


class MarksPiece(Piece):
    """The three marks, side by side."""

    def __init__(self, marks: Sequence[LightDrawn], size: float, width: float) -> None:
        self._em = size * POINT
        self._step = width / max(len(marks), 1)
        room = self._step - 2.2 * self._em
        self._drawn = [(drawing(m.svg), text_of(m.runs, size, room)) for m in marks]
        tallest = max((text.size().height() for _, text in self._drawn), default=0.0)
        self.height = tallest + 0.9 * self._em

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        """Paint shapes and words."""
        top, side = y + 0.45 * self._em, 1.25 * self._em
        for place, (shape, text) in enumerate(self._drawn):
            left = x + place * self._step
            shape.render(painter, QRectF(left, top, side, side))
            paint_text(painter, text, QPointF(left + side + 0.4 * self._em, top))


class FramePiece(Piece):
    """Words in a thick frame."""

    def __init__(self, runs: Sequence[Run], size: float, width: float) -> None:
        self._em, self._width = size * POINT, width
        self._text = text_of(runs, size, width - 1.6 * self._em)
        self.height = self._text.size().height() + 1.7 * self._em

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        """Paint frame and words."""
        em = self._em
        painter.setPen(QPen(QColor(INK), 0.25 * em))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(QRectF(x + 1, y + 0.4 * em, self._width - 2, self.height - 0.8 * em))
        paint_text(painter, self._text, QPointF(x + 0.8 * em, y + 0.85 * em))


class RowPiece(Piece):
    """One row of a table with its lines."""

    def __init__(
        self,
        cells: Sequence[str],
        widths: Sequence[float],
        size: float,
        *,
        head: bool = False,
        least: float = 0.0,
    ) -> None:
        self._em, self._widths, self.sticks = size * POINT, widths, head
        room = 0.8 * self._em
        self._cells = [
            text_of([(cell, head)], size, max(width - room, self._em))
            for cell, width in zip(cells, widths, strict=True)
        ]
        tallest = max((cell.size().height() for cell in self._cells), default=0.0)
        self.height = max(tallest + 0.5 * self._em, least)

    def paint(self, painter: QPainter, x: float, y: float) -> None:
        """Paint the cells."""
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for cell, width in zip(self._cells, self._widths, strict=True):
            painter.setPen(QPen(QColor(MUTED), 0.07 * self._em))
            painter.drawRect(QRectF(x, y, width, self.height))
            paint_text(painter, cell, QPointF(x + 0.4 * self._em, y + 0.25 * self._em))
            x += width
