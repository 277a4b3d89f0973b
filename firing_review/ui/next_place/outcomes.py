"""What every shelf would get: the goal cone as it would stand, with cone and range in words."""

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRect, Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QWidget

from firing_review.firing.wording import tr
from firing_review.report.shown_text import kept_together
from firing_review.ui.appearance import Appearance
from firing_review.ui.shelves_place.cone_shape import cone_path

ROW_PX, CONE_PX, NAME_PX, APART_PX = 72, 46, 120, 16
MARK_PX, CONE_ROOM_PX = 22, 98
WRAP = Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextWordWrap
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
        spoken = (tr("{shelf}: {words}").format(shelf=r.name, words=r.words) for r in rows)
        self.setAccessibleName("; ".join(spoken))
        self.fit()

    def fit(self) -> None:
        """Be as high as the rows are at this width."""
        self.setMinimumHeight(sum(self._height(row) for row in self.rows))
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Wrap the words anew."""
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.fit()

    def _name_width(self) -> int:
        """Return the width of the names, which wrap where they are very long."""
        px = self._appearance.sizes.px
        metrics = QFontMetrics(self._appearance.font(self._appearance.sizes.base, bold=True))
        widest = max((metrics.horizontalAdvance(row.name) for row in self.rows), default=0)
        return min(max(px(NAME_PX), widest + px(APART_PX)), self.width() // 3)

    def _parts(self, top: int, height: int) -> tuple[QRect, QRect]:
        """Return where the name and the words of a row stand."""
        px, left = self._appearance.sizes.px, self._name_width()
        words = left + px(CONE_ROOM_PX + MARK_PX)
        return QRect(0, top, left, height), QRect(words, top, self.width() - words, height)

    def _height(self, row: ShelfRow) -> int:
        """Return the height of a row, with its name and words wrapped."""
        sizes = self._appearance.sizes
        name, words = self._parts(0, 10_000)
        needed = max(
            QFontMetrics(self._appearance.font(sizes.base, bold=bold))
            .boundingRect(room, WRAP, text)
            .height()
            for room, text, bold in ((name, row.name, True), (words, _words(row), False))
        )
        return max(sizes.px(ROW_PX), needed + sizes.px(APART_PX))

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the rows."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        top = 0
        for row in reversed(self.rows):
            height = self._height(row)
            self._paint(painter, row, top, height)
            top += height
        painter.end()

    def _paint(self, painter: QPainter, row: ShelfRow, top: int, height: int) -> None:
        px, colors, base = (
            self._appearance.sizes.px, self._appearance.colors, self._appearance.sizes.base,
        )  # fmt: skip
        name, words = self._parts(top, height)
        painter.setPen(QColor(colors.ink))
        painter.setFont(self._appearance.font(base, bold=True))
        painter.drawText(name, WRAP, row.name)
        mark = {"cold": colors.cold, "hot": colors.hot, "even": colors.fine}
        painter.setPen(QColor(mark.get(row.word, colors.muted)))
        sign = QRect(words.left() - px(MARK_PX), top, px(MARK_PX), height)
        painter.drawText(sign, Qt.AlignmentFlag.AlignVCenter, WORDS[row.word])
        painter.setPen(QColor(colors.ink))
        painter.setFont(self._appearance.font(base))
        painter.drawText(words, WRAP, _words(row))
        foot = QPointF(name.right() + px(24), top + (height + px(CONE_PX)) / 2)
        self._paint_cone(painter, row.bend_deg, foot)

    def _paint_cone(self, painter: QPainter, bend_deg: float, foot: QPointF) -> None:
        colors, size = self._appearance.colors, self._appearance.sizes.px(CONE_PX)
        painter.setPen(QPen(QColor(colors.line), 1, Qt.PenStyle.DashLine))
        painter.drawLine(foot, foot + QPointF(size, 0))
        painter.translate(foot)
        painter.setPen(QPen(QColor(colors.ink), 2))
        painter.setBrush(QColor(colors.chosen))
        painter.drawPath(cone_path(bend_deg, size))
        painter.translate(-foot)


def _words(row: ShelfRow) -> str:
    return kept_together(row.words)
