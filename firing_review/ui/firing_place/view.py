"""The layout of the place "Firing": side by side, or one under the other on a small screen."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QBoxLayout,
    QScrollArea,
    QSizePolicy,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from firing_review.ui.appearance import Appearance
from firing_review.ui.switch import Switch

SIDE_PX, SIDE_MARGIN_PX = 384, 8
NARROW_PX = 980
BOTH_LEAST_PX = 680
CHART_LEAST_PX, SIDE_LEAST_PX = 600, 420


class FiringView(QScrollArea):
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
        super().__init__(parent)
        self._appearance = appearance
        self._chart, self._segments, self._tabs = chart, segments, tabs
        self.setWidgetResizable(True)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.pages = QStackedWidget()
        for page in pages:
            self.pages.addWidget(page)
        self.lanes = self._make_lanes()
        self._side = self._make_side()
        page = QWidget()
        page.setObjectName("page")
        self._box = QBoxLayout(QBoxLayout.Direction.LeftToRight, page)
        self._box.setContentsMargins(0, 0, 0, 0)
        self._box.setSpacing(0)
        self._box.addWidget(self.lanes, 1)
        self._box.addWidget(self._side)
        self.setWidget(page)
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
        return self.height() >= self._appearance.sizes.px(BOTH_LEAST_PX)

    def fit(self) -> None:
        """Follow size and width: side by side with room, stacked and scrolled without."""
        px = self._appearance.sizes.px
        narrow = self.width() < px(NARROW_PX)
        directions = QBoxLayout.Direction
        self._box.setDirection(directions.TopToBottom if narrow else directions.LeftToRight)
        self._chart.setMinimumHeight(px(CHART_LEAST_PX) if narrow else 0)
        if narrow:
            self._side.setMinimumSize(0, px(SIDE_LEAST_PX))
            self._side.setMaximumWidth(100_000)
        else:
            words = self._tabs.sizeHint().width() + SIDE_MARGIN_PX
            self._side.setMinimumSize(max(px(SIDE_PX), words), 0)
            self._side.setMaximumWidth(max(px(SIDE_PX), words))
