"""A main part and a narrower one at its side, or below it where both have no room."""

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QBoxLayout, QWidget

from firing_review.ui.appearance import Appearance
from firing_review.ui.scrolled import Scrolled

WIDEST = 100_000
LEFT, TOP, RIGHT, BOTTOM = 12, 8, 8, 8


@dataclass(frozen=True)
class SideSizes:
    """Lengths at scale 1 [px].

    Attributes
    ----------
    side : int
        Width of the part at the side.
    narrow : int
        Width of both below which they stand one under the other.
    main_high : int
        Height of the main part when it stands alone in its row.
    share : float
        Share of all width the side takes where that is more.
    """

    side: int
    narrow: int = 900
    main_high: int = 0
    share: float = 0.0


class WithSide(Scrolled):
    """Side by side each part may scroll by itself; one under the other all of it scrolls.

    Signals
    -------
    fitted : whether the parts stand one under the other.
    """

    fitted = Signal(bool)

    def __init__(
        self,
        appearance: Appearance,
        main: QWidget,
        side: QWidget,
        sizes: SideSizes,
        parent: QWidget | None = None,
        *,
        side_first: bool = False,
        least_beside: Callable[[], int] | None = None,
    ) -> None:
        """Put both together.

        ``least_beside`` tells the least width of a main part that is arranged in another way
        where it stands alone [px]. It must not depend on how the part is arranged at present:
        it decides just that, and the two would turn each other over without an end.
        """
        self._appearance, self._sizes = appearance, sizes
        self._least_beside = least_beside or (lambda: main.minimumSizeHint().width())
        ways = QBoxLayout.Direction
        self._below = ways.BottomToTop if side_first else ways.TopToBottom
        page = QWidget()
        self._box = QBoxLayout(ways.LeftToRight, page)
        self._box.setContentsMargins(LEFT, TOP, RIGHT, BOTTOM)
        super().__init__(page, parent)
        self._main, self._side = main, Scrolled(side, page)
        self._box.addWidget(self._main, 1)
        self._box.addWidget(self._side)
        appearance.changed.connect(self.fit)
        self._side.wanted.connect(self.fit)

    @property
    def is_narrow(self) -> bool:
        """Whether there is no room for both side by side."""
        both = self._least_beside() + self._side_width + LEFT + RIGHT
        return self.width() < max(self._appearance.sizes.px(self._sizes.narrow), both)

    @property
    def _side_width(self) -> int:
        """The width of the part at the side, as long as no word of it is cut [px]."""
        bar = self._side.verticalScrollBar().sizeHint().width()
        least = self._side.widget().minimumSizeHint().width() + bar
        usual = self._appearance.sizes.px(self._sizes.side)
        return max(usual, least, int(self._sizes.share * self.width()))

    @property
    def has_whole_parts(self) -> bool:
        """Whether the parts are whole: also where the main one has no room in height."""
        is_low = not isinstance(self._main, Scrolled) and self.has_to_scroll(self._main)
        return self.is_whole or self.is_narrow or is_low

    @Slot()
    def fit(self) -> None:
        """Follow size and width."""
        px, narrow = self._appearance.sizes.px, self.is_narrow
        self._box.setDirection(self._below if narrow else QBoxLayout.Direction.LeftToRight)
        super().fit()
        if narrow:
            self._side.setMinimumWidth(0)
            self._side.setMaximumWidth(WIDEST)
        else:
            self._side.setFixedWidth(self._side_width)
        self._main.setMinimumHeight(px(self._sizes.main_high) if self.has_whole_parts else 0)
        self._box.activate()
        self.fitted.emit(narrow)
