"""The sheets of a page as they will come out of the printer."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPixmap
from PySide6.QtWidgets import QSizePolicy, QWidget

from firing_review.firing.wording import trn
from firing_review.report.paper.page_text import page_text
from firing_review.ui.appearance import Appearance
from firing_review.ui.printing.sheets import SIZES_PT, Sheets

EDGE_PX, BETWEEN_PX = 8, 16
MOST_WIDE_PX = 860


class Preview(QWidget):
    """White sheets one below the other; paper stays white where the screen is dark."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self._sheets: Sheets | None = None
        self._drawn: list[QPixmap] = []
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)

    def show_sheets(self, sheets: Sheets | None) -> None:
        """Show other sheets; who listens hears their text."""
        self._sheets, self._drawn = sheets, []
        count = len(sheets.pieces) if sheets is not None else 0
        words = trn("Preview, {count} sheet", "Preview, {count} sheets", count)
        self.setAccessibleName(words.format(count=count))
        self.setAccessibleDescription(page_text(sheets.page) if sheets is not None else "")
        self.updateGeometry()
        self.update()

    def _scale(self, width: int) -> float:
        """Return pixels of a point where the preview is so wide."""
        if self._sheets is None:
            return 1.0
        wide = min(width - 2 * EDGE_PX, self._appearance.sizes.px(MOST_WIDE_PX))
        return max(wide, 100) / SIZES_PT[self._sheets.paper][0]

    def _size_px(self, room: int) -> QSize:
        if self._sheets is None:
            return QSize(0, 0)
        (width, height), scale = SIZES_PT[self._sheets.paper], self._scale(room)
        return QSize(round(width * scale), round(height * scale))

    def hasHeightForWidth(self) -> bool:
        """Be as high as the sheets need at this width."""
        return True

    def heightForWidth(self, width: int) -> int:
        """Return the height of all sheets."""
        count = len(self._sheets.pieces) if self._sheets is not None else 0
        return 2 * EDGE_PX + count * (self._size_px(width).height() + BETWEEN_PX)

    def sizeHint(self) -> QSize:
        """Ask for the width at which the page is read easily."""
        width = self._appearance.sizes.px(MOST_WIDE_PX)
        return QSize(width, self.heightForWidth(width))

    def minimumSizeHint(self) -> QSize:
        """Ask for little width; the height goes with the width there is, not with the present."""
        return QSize(240, 0)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the sheets in sight."""
        if self._sheets is None:
            return
        size = self._size_px(self.width())
        if not self._drawn or self._drawn[0].size() != size * self.devicePixelRatioF():
            self._drawn = [self._draw(number) for number in range(len(self._sheets.pieces))]
        painter = QPainter(self)
        left = (self.width() - size.width()) // 2
        for number, drawn in enumerate(self._drawn):
            top = EDGE_PX + number * (size.height() + BETWEEN_PX)
            if top < event.rect().bottom() and top + size.height() > event.rect().top():
                painter.drawPixmap(left, top, drawn)
                painter.setPen(QPen(QColor(self._appearance.colors.line), 1))
                painter.drawRect(left, top, size.width() - 1, size.height() - 1)
        painter.end()

    def _draw(self, number: int) -> QPixmap:
        ratio = self.devicePixelRatioF()
        drawn = QPixmap(self._size_px(self.width()) * ratio)
        drawn.setDevicePixelRatio(ratio)
        drawn.fill(Qt.GlobalColor.white)
        painter = QPainter(drawn)
        painter.setRenderHints(
            QPainter.RenderHint.Antialiasing | QPainter.RenderHint.TextAntialiasing
        )
        scale = self._scale(self.width())
        painter.scale(scale, scale)
        if self._sheets is not None:
            self._sheets.paint(painter, number)
        painter.end()
        return drawn
