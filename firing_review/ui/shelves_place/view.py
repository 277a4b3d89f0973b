"""The layout of the place "Shelves"."""

from collections.abc import Sequence

from PySide6.QtCore import QSize, Qt, Slot
from PySide6.QtGui import QFocusEvent, QPainter, QResizeEvent
from PySide6.QtWidgets import (
    QBoxLayout,
    QFrame,
    QGraphicsView,
    QGridLayout,
    QHeaderView,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from firing_review.firing.cones import BEND_DEG
from firing_review.firing.wording import tr
from firing_review.report.shelves import BEND_WORDS
from firing_review.ui.appearance import Appearance
from firing_review.ui.layouts import fill
from firing_review.ui.shelves_place.chamber import ChamberScene
from firing_review.ui.shelves_place.cone_icon import cone_icon, cone_icon_size
from firing_review.ui.shelves_place.within import Within
from firing_review.ui.text_table.view import TextTableView
from firing_review.ui.with_side import SideSizes, WithSide
from firing_review.ui.wrapped import Wrapped

LARGEST = 1.3
ICON_PX = 22
SIZES = SideSizes(side=392, main_high=620)
WIDTHS = (84, 56, 56, 72, 44)
"""Columns of the table: shelf, cone, bend, where, kind [px]."""


def in_one_row(parts: Sequence[QWidget], spacing: int) -> int:
    """Return the least width of parts that stand beside each other [px]."""
    return sum(part.minimumSizeHint().width() for part in parts) + spacing * (len(parts) - 1)


class ChamberView(QGraphicsView):
    """Shows the whole chamber at any size of the window; Tab goes from cone to cone."""

    def __init__(self, scene: ChamberScene, parent: QWidget | None = None) -> None:
        super().__init__(scene, parent)
        self._chamber = scene
        self._say_cone()
        scene.focusItemChanged.connect(self._say_cone)

    @Slot()
    def _say_cone(self) -> None:
        """Read out the cone that has the keyboard."""
        cone = self._chamber.held
        self.setAccessibleName(tr("The chamber from the side") if cone is None else cone.words)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Begin at the first cone, or at the last where Tab goes backwards."""
        super().focusInEvent(event)
        ends = {Qt.FocusReason.TabFocusReason: 0, Qt.FocusReason.BacktabFocusReason: -1}
        if event.reason() in ends and self._chamber.cones:
            self._chamber.hold(self._chamber.cones[ends[event.reason()]])

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Go on to the next cone, and out of the chamber after the last."""
        cones, cone = self._chamber.cones, self._chamber.held
        place = cones.index(cone) + (1 if forward else -1) if cone is not None else -1
        if self.hasFocus() and 0 <= place < len(cones):
            self._chamber.hold(cones[place])
            return True
        return super().focusNextPrevChild(forward)

    def sizeHint(self) -> QSize:
        """Ask for the least there must be, not for the size of the last drawing."""
        return self.minimumSizeHint()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fit the chamber to the room there is."""
        super().resizeEvent(event)
        self.fit()

    def fit(self) -> None:
        """Show all of the chamber, a little larger than drawn at most."""
        box, room = self.sceneRect(), self.viewport().size()
        if box.isEmpty():
            return
        share = min(room.width() / box.width(), room.height() / box.height(), LARGEST)
        self.resetTransform()
        self.scale(share, share)


class ShelvesView(QWidget):
    """Layout only: the chamber, and beside it the table of cones and the seven drawings."""

    def __init__(
        self, appearance: Appearance, scene: ChamberScene, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self.chamber = ChamberView(scene)
        self.chamber.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.chamber.setFrameShape(QFrame.Shape.NoFrame)
        self.chamber.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.chamber.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.chamber.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.chamber.setAccessibleDescription(
            tr("Tab goes from cone to cone; left and right bend it, 1 to 7 choose a drawing.")
        )
        self.hint = Wrapped()
        self.hint.setObjectName("quiet")
        self.within = Within()
        self.table = TextTableView(appearance)
        self.table.setAccessibleName(tr("Witness cones by shelf"))
        self.table.verticalHeader().hide()
        self.message = Wrapped()
        self.pack = QPushButton(tr("&Three cones on every shelf"))
        self.remove = QPushButton(tr("Remo&ve this cone"))
        self.photo = QPushButton(tr("Bends from a p&hoto…"))
        self.add_shelf = QPushButton(tr("Add a shelf"))
        self.remove_shelf = QPushButton(tr("Remove shelf"))
        self.shelf_up, self.shelf_down = QPushButton(tr("Shelf up")), QPushButton(tr("Shelf down"))
        self.drawings = {bend: QPushButton(tr(word)) for bend, word in BEND_WORDS.items()}
        self._lay_out()
        self.dress()

    def _lay_out(self) -> None:
        main, inner = QWidget(), QWidget()
        self._above = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._shelves = QGridLayout()
        self._shelves.setSpacing(8)
        self.both = WithSide(self._appearance, main, inner, SIZES, least_beside=self._least_beside)
        fill(self, self.both)
        left, side = QVBoxLayout(main), QVBoxLayout(inner)
        left.setContentsMargins(0, 0, 0, 0)
        self._above.addWidget(self.hint, 1)
        self._above.addWidget(self.within)
        left.addLayout(self._above)
        left.addWidget(self.chamber, 1)
        side.setContentsMargins(0, 0, 0, 0)
        side.addWidget(self.table, 1)
        side.addWidget(self.message)
        side.addWidget(QLabel(tr("Bend of the chosen cone")))
        grid = QGridLayout()
        grid.setSpacing(8)
        for number, button in enumerate(self.drawings.values()):
            grid.addWidget(button, number // 3, number % 3)
        side.addLayout(grid)
        grid.addWidget(self.remove, 2, 1, 1, 2)
        side.addWidget(self.pack)
        side.addWidget(self.photo)
        left.addLayout(self._shelves)
        self._lay_out_for(narrow=False)
        self.both.fitted.connect(lambda narrow: self._lay_out_for(narrow=narrow))

    def _least_beside(self) -> int:
        """Return the width that hint and choice, and all buttons, need in one row each [px]."""
        above = in_one_row((self.hint, self.within), self._above.spacing())
        below = in_one_row(self.shelf_buttons, self._shelves.spacing())
        return max(above, below, self.chamber.minimumSizeHint().width())

    def _lay_out_for(self, *, narrow: bool) -> None:
        """Put what stands over the chamber, and the buttons below it, into one row or two."""
        ways = QBoxLayout.Direction
        self._above.setDirection(ways.TopToBottom if narrow else ways.LeftToRight)
        columns = 2 if narrow else 4
        for place, button in enumerate(self.shelf_buttons):
            self._shelves.addWidget(button, place // columns, place % columns)

    def show_hint(self, *, has_cones: bool) -> None:
        """Say how to begin, or how a cone is bent."""
        if has_cones:
            text = tr("Drag the tip of a cone, or press Tab and then the arrow keys or 1 to 7.")
        else:
            text = tr(
                "No cones yet. The button “{button}” puts them there, or write them into the "
                "table; then bend each as it stood."
            ).format(button=self.pack.text().replace("&", ""))
        self.hint.setText(text)

    @property
    def shelf_buttons(self) -> tuple[QPushButton, ...]:
        """The buttons that change the shelves."""
        return (self.add_shelf, self.remove_shelf, self.shelf_up, self.shelf_down)

    def dress(self) -> None:
        """Follow the present sizes and colors."""
        px = self._appearance.sizes.px
        for bend, button in self.drawings.items():
            button.setIcon(cone_icon(BEND_DEG[bend], px(ICON_PX), self._appearance.colors, self))
            button.setIconSize(cone_icon_size(px(ICON_PX)))
        for button in (
            *self.drawings.values(),
            self.pack,
            self.photo,
            self.remove,
            *self.shelf_buttons,
        ):
            button.setMinimumHeight(self._appearance.sizes.target)
        self.within.dress(self._appearance.sizes.target)
        self.table.dress()
        header = self.table.horizontalHeader()
        if header.count() == len(WIDTHS):
            header.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
            for column, width in enumerate(WIDTHS):
                heading = header.sectionSizeHint(column)
                header.resizeSection(column, max(px(width), heading))
            header.setStretchLastSection(True)
