"""The chamber seen from the side: sections, heating elements, probe, shelves from the floor up."""

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QBrush, QColor, QPainterPath, QPen
from PySide6.QtWidgets import QGraphicsScene, QGraphicsTextItem

from firing_review.firing.results import ShelfHeat
from firing_review.firing.wording import tr
from firing_review.report.shelves import SIGNS, shelf_names, spot_of
from firing_review.report.shown_text import kept_together
from firing_review.report.text import SHELF_WORDS
from firing_review.report.wording import Show, cone_label, offset_text
from firing_review.review.review import Review
from firing_review.ui.appearance import Appearance
from firing_review.ui.shelves_place.cone_item import LENGTH, ConeItem

WALL = 26.0
PATTERNS = {
    "hot": Qt.BrushStyle.BDiagPattern,
    "cold": Qt.BrushStyle.FDiagPattern,
    "even": Qt.BrushStyle.NoBrush,
}


@dataclass(frozen=True)
class Room:
    """Lengths of the drawing at scale 1: names, cones, words, and the height of a shelf [px]."""

    names: float
    cones: float
    words: float
    shelf: float


WIDE, NARROW = Room(112.0, 340.0, 300.0, 118.0), Room(100.0, 240.0, 190.0, 164.0)


@dataclass(frozen=True)
class Band:
    """Where one shelf is drawn: the line it stands on, and its name."""

    name: str
    top: float
    floor: float


class ChamberScene(QGraphicsScene):
    """Everything in the chamber.

    Signals
    -------
    bent : place of a cone in the review, new bend [°].
    chosen : place of a cone.
    """

    bent = Signal(int, float)
    chosen = Signal(int)

    def __init__(self, appearance: Appearance) -> None:
        super().__init__()
        self._appearance = appearance
        self.cones: list[ConeItem] = []
        self.room = WIDE

    def show_review(self, review: Review, show: Show) -> None:
        """Draw the chamber anew; the cone that had the keyboard keeps it."""
        held = None if self.held is None else self.held.place
        self.clear()
        self.cones = []
        bands = self._bands(shelf_names(review))
        self._draw_walls(bands, review)
        heats = {s.shelf: s for s in review.shelves}
        for band in bands:
            self._draw_shelf(band, heats.get(band.name), show)
        self._draw_cones(bands, review)
        self.setBackgroundBrush(QColor(self._appearance.colors.page))
        width = self._px(self.room.names + self.room.cones + WALL + 16 + self.room.words)
        bounds = self.itemsBoundingRect()
        self.setSceneRect(-4.0, bounds.top() - 4, width, bounds.height() + 8)
        if held is not None and held < len(self.cones):
            self.cones[held].setFocus()

    @property
    def held(self) -> ConeItem | None:
        """The cone that has the keyboard."""
        item = self.focusItem()
        return item if isinstance(item, ConeItem) else None

    def hold(self, cone: ConeItem) -> None:
        """Give a cone the keyboard, and choose it."""
        cone.setFocus()
        self.chosen.emit(cone.place)

    def _px(self, length: float) -> float:
        return length * self._appearance.sizes.scale

    def _bands(self, names: Sequence[str]) -> list[Band]:
        height = self._px(self.room.shelf)
        return [
            Band(name, (len(names) - 1 - place) * height, (len(names) - place) * height)
            for place, name in enumerate(names)
        ]

    def _pen(self, color: str, width: float = 2.0) -> QPen:
        return QPen(QColor(color), width)

    def _draw_walls(self, bands: list[Band], review: Review) -> None:
        colors = self._appearance.colors
        left, right = self._px(self.room.names), self._px(self.room.names + self.room.cones)
        bottom = max((b.floor for b in bands), default=self._px(self.room.shelf))
        wall = self._px(WALL)
        brick = QBrush(QColor(colors.panel))
        for box in (
            QRectF(left - wall, -wall, wall, bottom + 2 * wall),
            QRectF(right, -wall, wall, bottom + 2 * wall),
            QRectF(left, -wall, right - left, wall),
            QRectF(left, bottom, right - left, wall),
        ):
            self.addRect(box, self._pen(colors.line, 1.0), brick)
        for band in bands:
            for x in (left - wall, right):
                self._draw_element(x, band, wall)
        if review.firing is not None and bands:
            self._draw_probe(left, bands, len(review.given.log.temperatures))

    def _draw_element(self, x: float, band: Band, wall: float) -> None:
        """Draw heating elements as coils in the wall."""
        for share in (0.32, 0.68):
            y = band.top + (band.floor - band.top) * share
            path = QPainterPath(QPointF(x + 4, y))
            step = (wall - 8) / 6
            for turn in range(1, 7):
                path.lineTo(x + 4 + turn * step, y + (5 if turn % 2 else -5))
            self.addPath(path, self._pen(self._appearance.colors.accent))

    def _draw_probe(self, left: float, bands: list[Band], count: int) -> None:
        """Draw the probe: in each section if each has one, else in the middle."""
        middle = (bands[0].floor + bands[-1].top) / 2.0
        heights = [(b.top + b.floor) / 2.0 for b in bands] if count >= len(bands) > 1 else [middle]
        colors = self._appearance.colors
        for y in heights:
            self.addLine(
                left - self._px(WALL),
                y - 22,
                left + self._px(22),
                y - 22,
                self._pen(colors.ink, 3),
            )
        self._text(tr("probe"), left + self._px(40), heights[-1] - 22 - self._px(11), colors.muted)

    def _draw_shelf(self, band: Band, heat: ShelfHeat | None, show: Show) -> None:
        colors = self._appearance.colors
        left, right = self._px(self.room.names), self._px(self.room.names + self.room.cones)
        word = heat.word if heat else ""
        if word in {"hot", "cold"}:
            box = QRectF(left, band.top + 2, right - left, band.floor - band.top - 12)
            tint = QBrush(QColor(getattr(colors, word)), PATTERNS[word])
            item = self.addRect(box, QPen(Qt.PenStyle.NoPen), tint)
            item.setOpacity(0.3)
        shelf = QRectF(left + 10, band.floor - 8, right - left - 20, 8)
        self.addRect(shelf, self._pen(colors.ink, 1.0), QBrush(QColor(colors.line)))
        width = self._px(self.room.names - WALL - 4)
        name = self._text(band.name, 0.0, 0.0, colors.ink, bold=True, width=width)
        name.setY(band.floor - self._px(18) - name.boundingRect().height())
        for x in (left + 24, right - 32):
            post = QRectF(x, band.top + 4, 8, band.floor - band.top - 12)
            self.addRect(post, self._pen(colors.line, 1.0), QBrush(QColor(colors.panel)))
        if heat is not None and heat.places:
            self._draw_from_above(band, heat)
        self._draw_words(band, heat, show)

    def _draw_from_above(self, band: Band, heat: ShelfHeat) -> None:
        """Draw a small shelf seen from above with the places where cones stood."""
        colors, size = self._appearance.colors, self._px(58)
        left, top = self._px(4), band.top + self._px(10)
        self.addRect(QRectF(left, top, size, size), self._pen(colors.line, 1.0))
        for place in heat.places:
            x, y = spot_of(place.position)
            color = {"hot": colors.hot, "cold": colors.cold, "even": colors.fine}
            offset = "?" if place.offset_c is None else f"{round(place.offset_c):+d}°"
            text = offset.replace("-", "−")
            at_x, at_y = left + x * size - self._px(16), top + y * size - self._px(12)
            self._text(text, at_x, at_y, color.get(place.word, colors.muted))

    def _draw_words(self, band: Band, heat: ShelfHeat | None, show: Show) -> None:
        colors = self._appearance.colors
        x = self._px(self.room.names + self.room.cones + WALL + 16)
        if heat is None:
            self._text(tr("no cones yet"), x, band.floor - self._px(46), colors.muted)
            return
        color = {"hot": colors.hot, "cold": colors.cold, "even": colors.fine}.get(
            heat.word, colors.muted
        )
        head = f"{SIGNS[heat.word]} {tr(SHELF_WORDS[heat.word])}"
        self._text(head, x, band.top + self._px(14), color, bold=True)
        lines = []
        if heat.label:
            lines.append(tr("about cone {cone}").format(cone=cone_label(heat.label, show)))
        if heat.offset_c is not None and heat.low_c is not None and heat.high_c is not None:
            offset = offset_text(heat.offset_c, heat.low_c, heat.high_c, show)
            lines.append(tr("against its log {offset}").format(offset=offset))
        elif heat.notes:
            lines.append(tr("only a bound: no cone stopped in the middle"))
        width = self._px(self.room.words)
        self._text("\n".join(lines), x, band.top + self._px(38), colors.ink, width=width)

    def _text(
        self,
        text: str,
        x: float,
        y: float,
        color: str,
        *,
        bold: bool = False,
        width: float = -1.0,
    ) -> QGraphicsTextItem:
        sizes = self._appearance.sizes
        item = self.addText(
            kept_together(text),
            self._appearance.font(sizes.base if bold else sizes.table, bold=bold),
        )
        item.setDefaultTextColor(QColor(color))
        item.setTextWidth(width)
        item.setPos(x, y)
        return item

    def _draw_cones(self, bands: list[Band], review: Review) -> None:
        places = {b.name: b for b in bands}
        count: dict[str, int] = {}
        most = max((sum(c.shelf == n for c in review.given.cones) for n in places), default=1)
        step = self._px(min(LENGTH * 1.85, (self.room.cones - 76.0) / max(most, 1)))
        for place, cone in enumerate(review.given.cones):
            band = places.get(cone.shelf)
            if band is None:
                continue
            number = count.get(cone.shelf, 0)
            count[cone.shelf] = number + 1
            item = ConeItem(place, cone, self._appearance, step)
            item.setPos(self._px(self.room.names + 62) + number * step, band.floor - self._px(34))
            # an edit draws the chamber anew: not while Qt still holds the item that was bent
            item.bent.connect(self.bent, Qt.ConnectionType.QueuedConnection)
            item.chosen.connect(self.chosen)
            self.addItem(item)
            self.cones.append(item)
