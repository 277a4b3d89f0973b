"""How a row of the findings list is painted, and the list's layout."""

from PySide6.QtCore import (
    QEvent,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QRect,
    QRectF,
    QSize,
    Qt,
)
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QResizeEvent
from PySide6.QtWidgets import (
    QFrame,
    QListView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from firing_review.firing.wording import tr
from firing_review.report.shown_text import kept_together
from firing_review.ui.appearance import Appearance
from firing_review.ui.findings_list.model import ROW_ROLE, FindingRow
from firing_review.ui.in_sight import bring
from firing_review.ui.layouts import fill
from firing_review.ui.marks import paint_severity
from firing_review.ui.scrolled import MayScroll, let_scroll
from firing_review.ui.wrapped import Wrapped

MARGIN, BADGE = 10, 24
_WRAP = Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop


class FindingPainter(QStyledItemDelegate):
    """Number in its mark, the sentence wrapped, a quiet line below."""

    def __init__(self, appearance: Appearance, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance

    def _parts(self, row: FindingRow, area: QRect) -> tuple[QRect, QRect]:
        """Return where the sentence and the line about it go."""
        sizes = self._appearance.sizes
        margin, badge = sizes.px(MARGIN), sizes.px(BADGE)
        left = area.left() + 2 * margin + badge
        width = max(area.right() - margin - left, 40)
        upper = _height(self._appearance, sizes.base, row.sentence, width)
        lower = _height(self._appearance, sizes.small, row.about, width)
        top = area.top() + margin
        return QRect(left, top, width, upper), QRect(left, top + upper + 4, width, lower)

    def sizeHint(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        """Return the height the wrapped sentence needs."""
        row = index.data(ROW_ROLE)
        view = self.parent()
        width = view.viewport().width() if isinstance(view, QListView) else option.rect.width()
        _, about = self._parts(row, QRect(0, 0, width, 0))
        height = about.bottom() + self._appearance.sizes.px(MARGIN)
        return QSize(width, max(height, self._appearance.sizes.target))

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        """Paint one row."""
        row, colors, sizes = index.data(ROW_ROLE), self._appearance.colors, self._appearance.sizes
        sentence, about = self._parts(row, option.rect)
        if option.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(option.rect, QColor(colors.chosen))
            edge = QRect(option.rect.topLeft(), QSize(sizes.px(4), option.rect.height()))
            painter.fillRect(edge, QColor(colors.accent))
        margin, badge = sizes.px(MARGIN), sizes.px(BADGE)
        spot = QRectF(option.rect.left() + margin, option.rect.top() + margin, badge, badge)
        painter.setFont(self._appearance.font(sizes.small, bold=True))
        paint_severity(painter, spot, row.severity, str(row.number), colors)
        painter.setPen(QColor(colors.ink))
        painter.setFont(self._appearance.font(sizes.base))
        painter.drawText(sentence, _WRAP, kept_together(row.sentence))
        painter.setPen(QColor(colors.muted))
        painter.setFont(self._appearance.font(sizes.small))
        painter.drawText(about, _WRAP, kept_together(row.about))
        painter.fillRect(
            QRect(sentence.left(), option.rect.bottom(), sentence.width(), 1), QColor(colors.panel)
        )


def _height(appearance: Appearance, pixels: int, text: str, width: int) -> int:
    metrics = QFontMetrics(appearance.font(pixels))
    return metrics.boundingRect(QRect(0, 0, width, 10_000), _WRAP, kept_together(text)).height()


class RowsView(QListView, MayScroll):
    """A list whose rows are measured again when its width changes."""

    _is_whole = False

    def show_whole(self, *, is_whole: bool) -> None:
        """Ask for the height of all rows, or scroll."""
        if is_whole is not self._is_whole:
            self._is_whole = is_whole
            let_scroll(self, scrolls=not is_whole)

    def minimumSizeHint(self) -> QSize:
        """Ask for the height of all rows, or for little."""
        usual = super().minimumSizeHint()
        if not self._is_whole or self.model() is None:
            return usual
        rows = sum(self.sizeHintForRow(row) for row in range(self.model().rowCount()))
        return QSize(usual.width(), rows + 2 * self.frameWidth())

    def updateGeometries(self) -> None:
        """Ask for the height of other rows."""
        super().updateGeometries()
        if self._is_whole:
            self.updateGeometry()

    def currentChanged(self, now: QModelIndex, before: QModelIndex) -> None:
        """Keep the row that has the keyboard in sight of the page around the list."""
        super().currentChanged(now, before)
        if self.window().focusWidget() is self:
            bring(self)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Wrap the sentences anew."""
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.scheduleDelayedItemsLayout()

    def changeEvent(self, event: QEvent) -> None:
        """Wrap the sentences anew when the font changes."""
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self.scheduleDelayedItemsLayout()


class FindingsView(QWidget):
    """Layout only: the list, or a sentence when there is nothing."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.rows = RowsView()
        self.rows.setFrameShape(QFrame.Shape.NoFrame)
        self.rows.setItemDelegate(FindingPainter(appearance, self.rows))
        self.rows.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.rows.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.rows.setAccessibleName(tr("Findings"))
        self.nothing = Wrapped()
        self.nothing.setMargin(MARGIN)
        self.nothing.setAlignment(Qt.AlignmentFlag.AlignTop)
        fill(self, self.rows, self.nothing)
