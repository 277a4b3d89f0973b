"""The place "Shelves": every cone that is set goes into the review at once."""

from dataclasses import replace
from functools import partial
from pathlib import Path

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QWidget

from firing_review.firing.cones import BEND_DEG, CONE_SCALE, Bend, ConeKind, ConeNumber, ShelfCone
from firing_review.firing.errors import InputError
from firing_review.firing.sheet import Picture
from firing_review.firing.wording import tr
from firing_review.report.shelves import shelf_names
from firing_review.review.review import Review
from firing_review.ui.appearance import Appearance
from firing_review.ui.ask import Questions
from firing_review.ui.home import home_folder
from firing_review.ui.in_sight import bring
from firing_review.ui.layouts import fill
from firing_review.ui.shelves_place.chamber import NARROW, WIDE, ChamberScene
from firing_review.ui.shelves_place.cone_rows import cells_of, headings, read_rows
from firing_review.ui.shelves_place.photo_bends import PHOTO_ERROR_DEG, PhotoBends
from firing_review.ui.shelves_place.shelf_order import added, moved, removed
from firing_review.ui.shelves_place.view import ShelvesView
from firing_review.ui.showing import Showing
from firing_review.ui.spot import Spot
from firing_review.ui.text_table.model import TextTableModel

GUIDE, FIRING, GUARD = -1, 0, 1
"""A pack: one cone cooler, the cone meant, one hotter, on the scale of whole numbers."""


class ShelvesPlace(QWidget):
    """Chamber and table of cones; both show the same cones.

    Signals
    -------
    conesEdited : all witness cones as they now stand.
    shelvesEdited : the kiln with its shelves, and the cones that are left.
    toleranceChosen : how far a shelf may be from the goal [cones].
    bendsTaken : cones with bends from a photo, and the pictures of the firing.
    refused : an error a person can act on.
    """

    conesEdited = Signal(object)
    shelvesEdited = Signal(object, object)
    bendsTaken = Signal(object, object)
    toleranceChosen = Signal(float)
    refused = Signal(object)

    def __init__(
        self,
        appearance: Appearance,
        showing: Showing,
        questions: Questions,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._appearance, self._showing, self._questions = appearance, showing, questions
        self.photo: PhotoBends | None = None
        self._review: Review | None = None
        self._cones: tuple[ShelfCone, ...] | None = None
        self.scene = ChamberScene(appearance)
        self.view = ShelvesView(appearance, self.scene, self)
        self.model = TextTableModel(headings(), self)
        self.view.table.setModel(self.model)
        self.view.dress()
        fill(self, self.view)
        self._connect()
        appearance.changed.connect(self._on_look)
        showing.changed.connect(self._on_look)

    def _connect(self) -> None:
        self.model.edited.connect(self._on_typed)
        self.view.table.pasted.connect(self._on_pasted)
        self.view.table.refused.connect(self.refused)
        self.view.table.selectionModel().currentRowChanged.connect(self._on_row)
        self.scene.bent.connect(self._on_bent)
        self.scene.chosen.connect(self._on_chosen)
        self.view.within.chosen.connect(self.toleranceChosen)
        self.view.pack.clicked.connect(self._on_pack)
        self.view.both.fitted.connect(self._on_fitted)
        self.view.remove.clicked.connect(self._on_remove)
        view = self.view
        view.add_shelf.clicked.connect(self._on_add_shelf)
        view.remove_shelf.clicked.connect(self._on_remove_shelf)
        view.shelf_up.clicked.connect(partial(self._move_shelf, 1))
        view.shelf_down.clicked.connect(partial(self._move_shelf, -1))
        view.photo.clicked.connect(self._on_photo)
        for bend, button in self.view.drawings.items():
            button.setProperty("bend", bend.value)
            button.clicked.connect(self._on_drawing)

    def show_review(self, review: Review) -> None:
        """Show the review's cones, unless they are the ones just typed here."""
        self._review = review
        self.view.within.show_tolerance(review.given.tolerance_cones)
        if review.given.cones != self._cones:
            self._cones = review.given.cones
            self.model.set_rows([cells_of(cone) for cone in review.given.cones])
            self.view.message.setText("")
        self._draw()

    def show_spot(self, spot: Spot) -> None:
        """Choose the first cone of a shelf, with the keyboard on it."""
        name = spot.name.casefold()
        rows = [n for n, c in enumerate(self._cones or ()) if c.shelf.casefold() == name]
        self._on_chosen(rows[0] if rows else 0)
        self.view.table.setFocus()
        bring(self.view.table)

    def _draw(self) -> None:
        self.view.show_hint(has_cones=bool(self._cones))
        self._on_row()
        if self._review is not None:
            self.scene.show_review(self._review, self._showing.show)
            self.view.chamber.fit()

    @Slot(bool)
    def _on_fitted(self, is_narrow: bool) -> None:
        room = NARROW if is_narrow else WIDE
        if room is not self.scene.room:
            self.scene.room = room
            self._draw()

    @Slot()
    def _on_look(self) -> None:
        self.view.dress()
        self._draw()

    @Slot()
    def _on_typed(self) -> None:
        if self._review is None:
            return
        read = read_rows(self.model.rows, self._review.given.kiln)
        self.model.set_wrong(read.wrong)
        self.view.message.setText(next(iter(read.wrong.values()), ""))
        if read.cones is not None:
            self._offer(read.cones)

    def _offer(self, cones: tuple[ShelfCone, ...]) -> None:
        if cones != self._cones:
            self._cones = cones
            self.conesEdited.emit(cones)

    @Slot(str)
    def _on_pasted(self, text: str) -> None:
        self.model.paste(self.view.table.currentIndex(), text)

    def _set(self, cones: tuple[ShelfCone, ...]) -> None:
        """Put other cones into table and review."""
        self.model.set_rows([cells_of(cone) for cone in cones])
        self._offer(cones)

    @Slot(int, float)
    def _on_bent(self, place: int, bend_deg: float) -> None:
        cones = list(self._cones or ())
        if place < len(cones):
            cones[place] = replace(cones[place], bend_deg=bend_deg)
            self._set(tuple(cones))
            self._on_chosen(place)

    @Slot(int)
    def _on_chosen(self, place: int) -> None:
        self.view.table.setCurrentIndex(self.model.index(place, 2))

    @Slot()
    def _on_row(self) -> None:
        usable = 0 <= self.view.table.currentIndex().row() < len(self._cones or ())
        for button in (*self.view.drawings.values(), self.view.remove):
            button.setEnabled(usable)

    @Slot()
    def _on_drawing(self) -> None:
        bend = Bend(self.sender().property("bend"))
        self._on_bent(self.view.table.currentIndex().row(), BEND_DEG[bend])

    @Slot()
    def _on_remove(self) -> None:
        self.model.remove_row(self.view.table.currentIndex().row())

    @Slot()
    def _on_pack(self) -> None:
        """Put guide, firing and guard cone on every shelf, unmoved."""
        if self._review is None:
            return
        goal = self._review.given.goal_cone or ConeNumber("6")
        names = shelf_names(self._review)
        have = {cone.shelf for cone in self._cones or ()}
        added = [
            ShelfCone(name, "", ConeNumber(number), ConeKind.SELF_SUPPORTING, 0.0)
            for name in names
            if name not in have
            for number in pack_of(goal)
        ]
        self._set((*(self._cones or ()), *added))
        text = (
            tr("Now bend each cone as it stands.")
            if added
            else tr("Every shelf has cones already.")
        )
        self.view.message.setText(text)

    # shelves

    def _shelf(self) -> str:
        """Return the shelf of the chosen row, else the topmost."""
        row = self.view.table.currentIndex().row()
        cones = self._cones or ()
        if 0 <= row < len(cones):
            return cones[row].shelf
        return shelf_names(self._review)[-1] if self._review is not None else ""

    @Slot()
    def _on_add_shelf(self) -> None:
        if self._review is not None:
            names = shelf_names(self._review)
            self.shelvesEdited.emit(added(self._review.given.kiln, names), self._cones or ())

    @Slot()
    def _on_remove_shelf(self) -> None:
        if self._review is None or len(shelf_names(self._review)) < 2:
            return
        name = self._shelf()
        kiln = removed(self._review.given.kiln, shelf_names(self._review), name)
        self.shelvesEdited.emit(kiln, tuple(c for c in self._cones or () if c.shelf != name))

    def _move_shelf(self, up: int, _checked: bool = False) -> None:
        if self._review is not None:
            names = shelf_names(self._review)
            kiln = moved(self._review.given.kiln, names, self._shelf(), up)
            self.shelvesEdited.emit(kiln, self._cones or ())

    # photo

    @Slot()
    def _on_photo(self) -> None:
        """Open a picture beside the window and take bends off it for the chosen shelf."""
        folder = home_folder()
        path = self._questions.file_to_open(self, tr("A picture of the cones"), folder)
        if path is None or self._review is None:
            return
        try:
            picture = Picture(path.name, path.read_bytes())
            self.photo = PhotoBends(self._appearance, picture, self)
        except (OSError, InputError) as error:
            self.refused.emit(_no_picture(path, error))
            return
        self.photo.taken.connect(self._on_bends)
        self.photo.show()

    @Slot(object, object)
    def _on_bends(self, picture: Picture, bends: list[float]) -> None:
        """Put bends, in order from the left, into the cones of the chosen shelf."""
        review, shelf = self._review, self._shelf()
        if review is None:
            return
        left = list(bends)
        cones = tuple(
            replace(c, bend_deg=left.pop(0), reading_error_deg=PHOTO_ERROR_DEG)
            if c.shelf == shelf and left
            else c
            for c in self._cones or ()
        )
        kept = tuple(p for p in review.given.pictures if p.name != picture.name)
        self.bendsTaken.emit(cones, (*kept, picture))


def _no_picture(path: Path, error: Exception) -> InputError:
    if isinstance(error, InputError):
        return error
    return InputError(str(path), tr("a picture"), str(error), tr("Choose another file."))


def pack_of(goal: ConeNumber) -> list[str]:
    """Return guide, firing and guard cone: whole numbers below and above the goal."""
    whole = [number for number in CONE_SCALE if not number.endswith(".5")]
    place = min(range(len(whole)), key=lambda i: abs(CONE_SCALE.index(whole[i]) - goal.rank))
    below, above = max(place + GUIDE, 0), min(place + GUARD, len(whole) - 1)
    return [whole[below], goal.text, whole[above]]
