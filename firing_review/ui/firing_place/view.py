"""The layout of the place "Firing": side by side, or one under the other on a small screen."""

from PySide6.QtCore import Slot
from PySide6.QtWidgets import QBoxLayout, QSizePolicy, QWidget

from firing_review.ui.appearance import Appearance
from firing_review.ui.layouts import fill
from firing_review.ui.scrolled import Scrolled
from firing_review.ui.seen_stack import SeenStack
from firing_review.ui.switch import Switch
from firing_review.ui.with_side import WIDEST

SIDE_PX, SIDE_MARGIN_PX = 384, 8
NARROW_PX = 980
BOTH_LEAST_PX = 680
CHART_LEAST_PX, SIDE_LEAST_PX = 600, 420


class FiringView(Scrolled):
    """Layout only: what the parts are made within, then how they stand there."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        self._appearance = appearance
        page = QWidget()
        self._box = QBoxLayout(QBoxLayout.Direction.LeftToRight, page)
        self._box.setContentsMargins(0, 0, 0, 0)
        self._box.setSpacing(0)
        super().__init__(page, parent)
        self.lanes, self.side = QWidget(page), QWidget(page)
        self.pages = SeenStack(self.side)
        self._box.addWidget(self.lanes, 1)
        self._box.addWidget(self.side)

    def put_in(
        self, chart: QWidget, segments: QWidget, tabs: Switch, pages: list[QWidget]
    ) -> None:
        """Lay out the parts, each made within ``lanes``, ``side`` or ``pages``."""
        self._chart, self._tabs = chart, tabs
        lanes = fill(self.lanes, chart, segments)
        lanes.setSpacing(0)
        lanes.setStretchFactor(chart, 1)
        side = fill(self.side, tabs, self.pages)
        side.setContentsMargins(SIDE_MARGIN_PX, 0, 0, 0)
        side.setSpacing(0)
        side.setStretchFactor(self.pages, 1)
        for page in pages:
            self.pages.add_page(page)
        tabs.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.fit()

    @property
    def has_height(self) -> bool:
        """Whether chart and segment table both have a useful height."""
        return not self.is_whole and self.height() >= self._appearance.sizes.px(BOTH_LEAST_PX)

    @property
    def is_narrow(self) -> bool:
        """Whether there is no room for both side by side."""
        return self.width() < self._appearance.sizes.px(NARROW_PX)

    @property
    def has_whole_parts(self) -> bool:
        """Whether the parts are whole: also where chart and segments have no room together."""
        return self.is_whole or self.is_narrow or self.has_to_scroll(self.lanes)

    @Slot()
    def fit(self) -> None:
        """Follow size and width: side by side with room, stacked and scrolled without."""
        px = self._appearance.sizes.px
        super().fit()
        narrow = self.is_narrow
        directions = QBoxLayout.Direction
        self._box.setDirection(directions.TopToBottom if narrow else directions.LeftToRight)
        self._chart.setMinimumHeight(px(CHART_LEAST_PX) if narrow or self.is_whole else 0)
        if narrow:
            self.side.setMinimumSize(0, px(SIDE_LEAST_PX))
            self.side.setMaximumWidth(WIDEST)
        else:
            words = self._tabs.sizeHint().width() + SIDE_MARGIN_PX
            self.side.setMinimumSize(max(px(SIDE_PX), words), 0)
            self.side.setMaximumWidth(max(px(SIDE_PX), words))
