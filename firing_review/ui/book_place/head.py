"""The line over the list of firings: which book, which kiln, what to find, what may be done."""

from PySide6.QtCore import QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QHBoxLayout, QLineEdit, QPushButton, QToolButton, QWidget

from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.chooser import Chooser
from firing_review.ui.elided import Elided
from firing_review.ui.with_side import WIDEST

NAME_LEAST_PX, APART, FIND_PX = 60, 10, 170


class BookHead(QWidget):
    """Layout only: one row, or two where one has no room."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self.name = Elided()
        self.name.setProperty("part", "heading")
        self.kiln = Chooser()
        self.kiln.setSizeAdjustPolicy(Chooser.SizeAdjustPolicy.AdjustToContents)
        self.kiln.setAccessibleName(tr("Kiln"))
        self.find = QLineEdit()
        self.find.setPlaceholderText(tr("Find in the list"))
        self.find.setAccessibleName(tr("Find in the list"))
        self.find.setClearButtonEnabled(True)
        self.add = QPushButton(tr("Put this &firing in"))
        self.add.setProperty("part", "main")
        self.more = QToolButton()
        self.more.setText(tr("&Book"))
        self.more.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self._upper, self._lower = QHBoxLayout(), QHBoxLayout()
        self._rows = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self._rows.setContentsMargins(0, 0, 0, 0)
        for row, widgets in (
            (self._upper, (self.name, self.add)),
            (self._lower, (self.kiln, self.find, self.more)),
        ):
            row.setSpacing(APART)
            for widget in widgets:
                row.addWidget(widget)
            self._rows.addLayout(row)
        self._upper.setStretch(0, 1)
        self._lower.setStretch(1, 1)

    def _width(self, *widgets: QWidget) -> int:
        seen = [widget for widget in widgets if not widget.isHidden()]
        return sum(widget.sizeHint().width() for widget in seen) + APART * len(seen)

    def minimumSizeHint(self) -> QSize:
        """Ask for the width of the wider of two rows."""
        widest = max(self._width(self.add), self._width(self.kiln, self.more) + NAME_LEAST_PX)
        return QSize(widest, super().minimumSizeHint().height())

    def fit(self) -> None:
        """Put the rows side by side, or one under the other."""
        needed = self._width(self.add, self.kiln, self.find, self.more) + NAME_LEAST_PX
        in_two, ways = needed > self.width(), QBoxLayout.Direction
        self._rows.setDirection(ways.TopToBottom if in_two else ways.LeftToRight)
        self.find.setMaximumWidth(WIDEST if in_two else self._appearance.sizes.px(FIND_PX))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lay out for the new width."""
        super().resizeEvent(event)
        self.fit()
