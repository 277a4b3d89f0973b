"""The layout of the place "Firing": side by side, or one under the other on a small screen."""

from PySide6.QtCore import Slot
from PySide6.QtWidgets import QBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from firing_review.ui.appearance import Appearance
from firing_review.ui.scrolled import Scrolled
from firing_review.ui.seen_stack import SeenStack
from firing_review.ui.switch import Switch
from firing_review.ui.with_side import WIDEST

SIDE_PX, SIDE_MARGIN_PX = 384, 8
NARROW_PX = 980
BOTH_LEAST_PX = 680
CHART_LEAST_PX, SIDE_LEAST_PX = 600, 420


class FiringView(Scrolled):
    """Layout only."""

    def __init__(
        self,
        appearance: Appearance,
        chart: QWidget,
        segments: QWidget,
        tabs: Switch,
        pages: list[QWidget],
        parent: QWidget | None = None,
    ) -> None:
        self._appearance = appearance
        self._chart, self._segments, self._tabs = chart, segments, tabs
        self.pages = SeenStack()
        for page in pages:
            self.pages.add_page(page)
        self.lanes = self._make_lanes()
        self._side = self._make_side()
        page = QWidget()
        self._box = QBoxLayout(QBoxLayout.Direction.LeftToRight, page)
        self._box.setContentsMargins(0, 0, 0, 0)
        self._box.setSpacing(0)
        self._box.addWidget(self.lanes, 1)
        self._box.addWidget(self._side)
        super().__init__(page, parent)
        self.fit()

    def _make_lanes(self) -> QWidget:
        lanes = QWidget()
        layout = QVBoxLayout(lanes)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self._chart, 1)
        layout.addWidget(self._segments)
        return lanes

    def _make_side(self) -> QWidget:
        side = QWidget()
        layout = QVBoxLayout(side)
        layout.setContentsMargins(SIDE_MARGIN_PX, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self._tabs)
        layout.addWidget(self.pages, 1)
        self._tabs.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        return side

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
            self._side.setMinimumSize(0, px(SIDE_LEAST_PX))
            self._side.setMaximumWidth(WIDEST)
        else:
            words = self._tabs.sizeHint().width() + SIDE_MARGIN_PX
            self._side.setMinimumSize(max(px(SIDE_PX), words), 0)
            self._side.setMaximumWidth(max(px(SIDE_PX), words))
