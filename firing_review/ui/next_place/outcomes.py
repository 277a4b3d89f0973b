"""What every shelf would get: the goal cone as it would stand, with cone and range in words."""

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from firing_review.firing.wording import tr
from firing_review.report.shown_text import kept_together
from firing_review.ui.appearance import Appearance
from firing_review.ui.shelves_place.cone_shape import cone_path

ROW_PX, CONE_PX, NAME_PX = 72, 46, 120
WORDS = {"cold": "−", "even": "✓", "hot": "+", "": "?"}


@dataclass(frozen=True)
class ShelfRow:
    """One shelf as shown: name, bend of the goal cone [°], words, and cold, even or hot."""

    name: str
    bend_deg: float
    words: str
    word: str


class Outcomes(QWidget):
    """Painted rows, the top shelf uppermost."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self.rows: tuple[ShelfRow, ...] = ()

    def show_rows(self, rows: tuple[ShelfRow, ...]) -> None:
        """Show other outcomes."""
        self.rows = rows
        self.setMinimumHeight(max(1, len(rows)) * self._appearance.sizes.px(ROW_PX))
        spoken = (tr("{shelf}: {words}").format(shelf=r.name, words=r.words) for r in rows)
        self.setAccessibleName("; ".join(spoken))
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the rows."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for place, row in enumerate(reversed(self.rows)):
            self._paint(painter, place, row)
        painter.end()

    def _paint(self, painter: QPainter, place: int, row: ShelfRow) -> None:
        px, colors = self._appearance.sizes.px, self._appearance.colors
        top, size = place * px(ROW_PX), px(CONE_PX)
        floor = top + px(ROW_PX) - px(16)
        painter.setPen(QColor(colors.ink))
        painter.setFont(self._appearance.font(self._appearance.sizes.base, bold=True))
        name = QRectF(0, top, px(NAME_PX), px(ROW_PX))
        painter.drawText(name, Qt.AlignmentFlag.AlignVCenter, row.name)
        foot = QPointF(px(NAME_PX + 24), floor)
        painter.setPen(QPen(QColor(colors.line), 1, Qt.PenStyle.DashLine))
        painter.drawLine(foot, foot + QPointF(size, 0))
        painter.translate(foot)
        painter.setPen(QPen(QColor(colors.ink), 2))
        painter.setBrush(QColor(colors.chosen))
        painter.drawPath(cone_path(row.bend_deg, size))
        painter.translate(-foot)
        mark = {"cold": colors.cold, "hot": colors.hot, "even": colors.fine}
        painter.setPen(QColor(mark.get(row.word, colors.muted)))
        painter.setFont(self._appearance.font(self._appearance.sizes.base, bold=True))
        left = px(NAME_PX + 24) + size + px(28)
        painter.drawText(QPointF(left, floor - px(8)), WORDS[row.word])
        painter.setPen(QColor(colors.ink))
        painter.setFont(self._appearance.font(self._appearance.sizes.base))
        words = QRectF(left + px(22), top, self.width() - left - px(22), px(ROW_PX))
        wrap = Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextWordWrap
        painter.drawText(words, wrap, kept_together(row.words))
