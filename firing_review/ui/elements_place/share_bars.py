"""Three bars: power, load and heat loss against an earlier good firing, with their ranges."""

from dataclasses import dataclass
from itertools import pairwise

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from firing_review.firing.results import ElementsJudged
from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance

SHOWN_TO = 2.0
"""The bars run from nothing to twice the usual."""
ROW_PX, HEAD_PX, NAME_PX, WORD_PX = 40, 26, 110, 226
USUAL = (0.94, 1.06)


@dataclass(frozen=True)
class Share:
    """One bar: its name, what it says in words, its value and range."""

    name: str
    word: str
    value: float | None
    low: float | None = None
    high: float | None = None


def shares_of(elements: ElementsJudged) -> list[Share]:
    """Return the three bars of a judgement."""
    power = elements.power_ratio
    load, loss = elements.mass_ratio, elements.loss_ratio
    return [
        Share(tr("Power"), _power_word(elements), power, elements.power_low, elements.power_high),
        Share(
            tr("Load"), _word(load, tr("lighter"), tr("heavier")), load, *_range(elements, "mass")
        ),
        Share(
            tr("Heat loss"), _word(loss, tr("less"), tr("more")), loss, *_range(elements, "loss")
        ),
    ]


def _range(elements: ElementsJudged, name: str) -> tuple[float | None, float | None]:
    """Return the 90 % range of a share, where it is known."""
    ends = [elements.figures.get(f"{name}_{side}_ratio") for side in ("low", "high")]
    low, high = (float(e) if isinstance(e, int | float) else None for e in ends)
    return low, high


def _power_word(elements: ElementsJudged) -> str:
    power, low, high = elements.power_ratio, elements.power_low, elements.power_high
    if power is None or low is None or high is None:
        return tr("cannot tell")
    return tr("about {power} % ({low}–{high} %)").format(
        power=round(100 * power), low=round(100 * low), high=round(100 * high)
    )


def _word(value: float | None, less: str, more: str) -> str:
    if value is None:
        return tr("cannot tell")
    if USUAL[0] <= value <= USUAL[1]:
        return tr("as usual")
    word = less if value < 1.0 else more
    return tr("about {share} % {word}").format(share=round(abs(100 * value - 100)), word=word)


class ShareBars(QWidget):
    """Painted bars with words beside them; a mark stands at "as usual"."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self._shares: list[Share] = []
        self.dress()

    def dress(self) -> None:
        """Follow the present sizes."""
        px = self._appearance.sizes.px
        self.setMinimumHeight(px(HEAD_PX) + 3 * px(ROW_PX))
        self.update()

    def show_elements(self, elements: ElementsJudged) -> None:
        """Show another judgement."""
        self._shares = shares_of(elements)
        self.setAccessibleName("; ".join(f"{s.name}: {s.word}" for s in self._shares))
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the scale, then the bars."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_scale(painter)
        for row, share in enumerate(self._shares):
            self._paint_row(painter, row, share)
        painter.end()

    def _reach(self) -> tuple[int, int]:
        """Return the pixels at which the bars begin and end."""
        px = self._appearance.sizes.px
        bold = self._appearance.font(self._appearance.sizes.base, bold=True)
        names = (QFontMetrics(bold).horizontalAdvance(each.name) for each in self._shares)
        left = max(px(NAME_PX), *(name + px(12) for name in names), 0)
        return left, max(self.width() - px(WORD_PX), left + px(80))

    def _paint_scale(self, painter: QPainter) -> None:
        """Say over the bars what their length means."""
        painter.setFont(self._appearance.font(self._appearance.sizes.small))
        painter.setPen(QColor(self._appearance.colors.muted))
        for words, room in self.scale_words():
            painter.drawText(room, Qt.AlignmentFlag.AlignCenter, words)

    def scale_words(self) -> list[tuple[str, QRectF]]:
        """Return the words over the bars and where they stand; the middle alone if room is short.

        The middle is where every bar has its mark.
        """
        left, right = self._reach()
        small = QFontMetrics(self._appearance.font(self._appearance.sizes.small))
        words = (tr("none"), tr("as usual"), tr("twice"))
        wide = [float(small.horizontalAdvance(one)) for one in words]
        starts = (left, (left + right - wide[1]) / 2, right - wide[2])
        high = self._appearance.sizes.px(HEAD_PX)
        rooms = [QRectF(x, 0, width, high) for x, width in zip(starts, wide, strict=True)]
        said = list(zip(words, rooms, strict=True))
        apart = small.averageCharWidth()
        parted = all(a.right() + apart < b.left() for a, b in pairwise(rooms))
        return said if parted else said[1:2]

    def _paint_row(self, painter: QPainter, row: int, share: Share) -> None:
        px, colors = self._appearance.sizes.px, self._appearance.colors
        top = px(HEAD_PX) + row * px(ROW_PX)
        left, right = self._reach()
        width = right - left
        painter.setPen(QColor(colors.ink))
        painter.setFont(self._appearance.font(self._appearance.sizes.base, bold=True))
        painter.drawText(QRectF(0, top, left, px(36)), Qt.AlignmentFlag.AlignVCenter, share.name)
        painter.setFont(self._appearance.font(self._appearance.sizes.base))
        words = QRectF(right + px(16), top, px(WORD_PX) - px(16), px(36))
        painter.drawText(words, Qt.AlignmentFlag.AlignVCenter, share.word)
        box = QRectF(left, top + px(8), width, px(20))
        painter.setPen(QPen(QColor(colors.line), 1))
        painter.drawRect(box)
        if share.value is not None:
            filled = min(share.value, SHOWN_TO) / SHOWN_TO * width
            painter.fillRect(QRectF(left, box.top(), filled, box.height()), QColor(colors.chosen))
        self._paint_range(painter, share, box)
        usual = left + width / SHOWN_TO
        painter.setPen(QPen(QColor(colors.ink), 2))
        painter.drawLine(int(usual), int(box.top()) - 4, int(usual), int(box.bottom()) + 4)

    def _paint_range(self, painter: QPainter, share: Share, box: QRectF) -> None:
        if share.low is None or share.high is None:
            return
        painter.setPen(QPen(QColor(self._appearance.colors.accent), 3))
        y = int(box.center().y())
        at = [
            int(box.left() + min(v, SHOWN_TO) / SHOWN_TO * box.width())
            for v in (share.low, share.high)
        ]
        painter.drawLine(at[0], y, at[1], y)
        for x in at:
            painter.drawLine(x, y - 6, x, y + 6)
