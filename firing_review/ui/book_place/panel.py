"""The place "Kiln book": what is in the open book, and what may be done with it."""

from dataclasses import replace

from PySide6.QtCore import QModelIndex, QSignalBlocker, Qt, QTimer, Signal, Slot
from PySide6.QtGui import QAction, QShowEvent
from PySide6.QtWidgets import QWidget

from firing_review.book.book import Book
from firing_review.book.nouns import Attachment, Change, Note
from firing_review.book.trends import TrendKind, Trends
from firing_review.firing.errors import InputError
from firing_review.firing.wording import tr, trn
from firing_review.report.wording import render
from firing_review.review.review import Review
from firing_review.ui.book_place.contents import Contents
from firing_review.ui.book_place.model import (
    HEADINGS,
    ID_ROLE,
    VERDICT,
    FiringsFound,
    FiringsModel,
)
from firing_review.ui.book_place.trend_chart import SHAPE_WORDS, SHAPES
from firing_review.ui.book_place.trend_lines import Figure, figures_of, kiln_row, lines_of
from firing_review.ui.book_place.view import BookView
from firing_review.ui.layouts import fill
from firing_review.ui.tools import Tools

ALL_KILNS = -1


class BookPlace(QWidget):
    """The firings of the open book with their trends; without one, how to begin.

    Signals
    -------
    firingChosen : number of a firing of the book, to be opened.
    newAsked, openAsked, closeAsked : the person wants to make, open or close a book.
    importAsked : firings are to be brought in; carries the kiln of those that name none, or None.
    addAsked : the firing on the screen is to be put in.
    exportAsked : everything is to be written out.
    attachAsked : a file is to be kept with the kiln of this number.
    fileSaveAsked : a file that is kept is to be written out.
    """

    firingChosen = Signal(int)
    newAsked = Signal()
    openAsked = Signal()
    closeAsked = Signal()
    importAsked = Signal(object)
    addAsked = Signal()
    exportAsked = Signal()
    attachAsked = Signal(int)
    fileSaveAsked = Signal(object)

    def __init__(self, tools: Tools, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._tools = tools
        self._stale = True
        self._contents: Contents
        self._figures: list[Figure] = []
        self._later = QTimer(self, singleShot=True, interval=0)
        self._later.timeout.connect(self._draw_trends)
        self.view = BookView(tools.appearance, self)
        self.model = FiringsModel(self)
        self.found = FiringsFound(self)
        self.found.setSourceModel(self.model)
        self.view.table.setModel(self.found)
        self.view.table.sortByColumn(0, Qt.SortOrder.DescendingOrder)
        self.view.table.dress()
        self._add_commands()
        self._on_row(QModelIndex())
        fill(self, self.view)
        self._connect()

    def _add_commands(self) -> None:
        menu = self.view.menu
        self.commands: dict[str, QAction] = {}
        for key, words, do in (
            ("open", tr("&Open another kiln book…"), self.openAsked.emit),
            ("new", tr("&New kiln book…"), self.newAsked.emit),
            ("import", tr("&Bring in a folder of firings…"), self._on_import),
            ("export", tr("&Write everything out as plain files…"), self.exportAsked.emit),
            ("remove", tr("&Take the chosen firing out"), self._on_remove),
            ("close", tr("&Close this book"), self.closeAsked.emit),
        ):
            self.commands[key] = menu.addAction(words)
            self.commands[key].triggered.connect(do)

    def _connect(self) -> None:
        view, tools = self.view, self._tools
        view.create.clicked.connect(self.newAsked)
        view.open.clicked.connect(self.openAsked)
        view.add.clicked.connect(self.addAsked)
        view.find.textChanged.connect(self.found.look_for)
        view.kiln.activated.connect(self._draw)
        view.figure.activated.connect(self._draw_figure)
        view.table.activated.connect(self._on_chosen)
        view.table.selectionModel().currentRowChanged.connect(self._on_row)
        view.table.fitted.connect(self._on_fitted)
        view.chart.chosen.connect(self._select)
        view.changes.kept.connect(self._on_change)
        view.changes.removed.connect(self._on_change_removed)
        view.notes.kept.connect(self._on_note)
        view.notes.removed.connect(self._on_note_removed)
        view.notes.attachAsked.connect(self._on_attach)
        view.notes.saveAsked.connect(self.fileSaveAsked)
        tools.book.changed.connect(self._on_changed)
        tools.showing.changed.connect(self._on_changed)
        tools.appearance.changed.connect(self._on_look)

    def show_review(self, _review: Review) -> None:
        """Another review is on the screen: whether it may be put in may have changed."""
        book = self._tools.book.book
        if book is not None and not self._stale:
            self._say(book)

    def showEvent(self, event: QShowEvent) -> None:
        """Come up to date when it comes into sight."""
        super().showEvent(event)
        if self._stale:
            self._refresh()

    @Slot()
    def _on_changed(self) -> None:
        self._stale = True
        if self.isVisible():
            self._refresh()

    @Slot()
    def _on_look(self) -> None:
        self.view.dress()
        self._on_changed()

    # what is shown

    @property
    def kiln_id(self) -> int | None:
        """The kiln that is chosen; ``ALL_KILNS`` for all, None for firings without one."""
        found = self.view.kiln.currentData(Qt.ItemDataRole.UserRole)
        return None if found is None else int(found)

    def _refresh(self) -> None:
        self._stale = False
        book = self._tools.book.book
        self.view.show_page(self.view.empty if book is None else self.view.filled)
        if book is None:
            return
        try:
            self._contents = Contents(book)
        except InputError as error:
            self._tools.book.refused.emit(error)
            return
        self.view.name.show_text(book.path.stem)
        self._say(book)
        self._fill_kilns()
        self._draw()

    def _say(self, book: Book) -> None:
        """Say what cannot be done with this book, or where it was copied to."""
        words = []
        if book.read_only is not None:
            words.append(render(book.read_only))
        if book.copied_to is not None:
            text = tr("This book was brought to a newer form; a copy of the old one is {copy}.")
            words.append(text.format(copy=book.copied_to.name))
        self.view.message.setText(" ".join(words))
        self.view.message.setVisible(bool(words))
        tools = self._tools
        can = tools.book.writable
        is_open = tools.sitting.review is not None
        self.view.add.setVisible(can and is_open and tools.book.firing_id is None)
        self.commands["import"].setEnabled(can)

    def _fill_kilns(self) -> None:
        chosen, chooser = self.kiln_id, self.view.kiln
        kilns = [(kept.kiln.name, kept.id) for kept in self._contents.kilns]
        several = len(kilns) != 1 or bool(self._contents.firings_of(None))
        with QSignalBlocker(chooser):
            chooser.clear()
            if several:
                chooser.addItem(tr("All kilns"), ALL_KILNS)
            for name, kiln_id in kilns:
                chooser.addItem(name, kiln_id)
            chooser.setCurrentIndex(max(chooser.findData(chosen), 0))
        chooser.setVisible(several and bool(kilns))
        self.view.head.fit()

    @Slot()
    def _draw(self) -> None:
        """List the firings now, and work out their trends once the list is seen."""
        inside, chosen = self._contents, self.kiln_id
        every = chosen == ALL_KILNS
        firings = inside.firings if every else inside.firings_of(chosen)
        self.model.show_firings(firings, inside.names, self._tools.showing.show)
        self.view.table.show_kiln(shown=every and len(inside.kilns) > 1)
        self._draw_written(None if every else chosen)
        self._later.start()

    def _draw_written(self, kiln_id: int | None) -> None:
        """Show what was changed and written down at one kiln; of all at once, or none, nothing."""
        view, inside, can = self.view, self._contents, self._tools.book.writable
        for part in (view.changes, view.notes):
            part.setVisible(kiln_id is not None)
        if kiln_id is not None:
            view.changes.show_changes(inside.changes_of(kiln_id), writable=can)
            view.notes.show_entries(inside.written_of(kiln_id), writable=can)

    @Slot()
    def _draw_trends(self) -> None:
        inside, chosen = self._contents, self.kiln_id
        every, several = chosen == ALL_KILNS, len(inside.kilns) > 1
        asked = [kept.id for kept in inside.kilns] if every else [chosen]
        trends = {kiln_id: inside.trends_of(kiln_id) for kiln_id in asked}
        if every and inside.firings_of(None):
            trends[ALL_KILNS] = inside.trends_of(None)
        self.view.kilns.setVisible(every and several)
        if every and several:
            self.view.kilns.show_kilns([kiln_row(k, trends[k.id]) for k in inside.kilns])
        show = self._tools.showing.show
        said = () if every else inside.life_of(chosen)
        self.view.life.setText("\n".join(render(one, show) for one in said))
        self.view.life.setVisible(bool(said))
        self._fill_figures(trends, {**inside.names, ALL_KILNS: tr("no kiln named")})

    def _fill_figures(self, trends: dict[int | None, Trends], names: dict[int, str]) -> None:
        self._figures = figures_of(trends, names)
        chooser, kept = self.view.figure, self.view.figure.currentText()
        with QSignalBlocker(chooser):
            chooser.clear()
            for figure in self._figures:
                chooser.addItem(render(figure.name, self._tools.showing.show))
            at = chooser.findText(kept)
            if at < 0:
                kinds = [figure.kind for figure in self._figures]
                at = kinds.index(TrendKind.TOP_RATE) if TrendKind.TOP_RATE in kinds else 0
            chooser.setCurrentIndex(at)
        self._draw_figure()

    @Slot()
    def _draw_figure(self) -> None:
        view, show = self.view, self._tools.showing.show
        at = view.figure.currentIndex()
        has = 0 <= at < len(self._figures)
        for part in (view.figure, view.chart, view.key):
            part.setVisible(has)
        if not has:
            view.said.setText(self._why_no_figures())
            return
        figure = self._figures[at]
        lines = lines_of(figure)
        view.chart.show_series(figure.series[0], lines, figure.marks, show)
        view.key.setVisible(len(lines) > 1)
        signs = [SHAPE_WORDS[shape] for shape in SHAPES]
        view.key.setText(
            "   ".join(f"{signs[n % len(signs)]} {line.name}" for n, line in enumerate(lines))
        )
        alone = len(figure.series) == 1
        view.said.setText(render(figure.series[0].said, show) if alone else "")

    def _why_no_figures(self) -> str:
        count = self.model.rowCount()
        if not count:
            return tr(
                "The book is empty. Open a log and put it in, or bring in a folder of firings."
            )
        text = trn(
            "{count} firing is in the book. Trends begin with the second.",
            "{count} firings are in the book; none of them gives a figure that can be followed.",
            count,
        )
        return text.format(count=count)

    # what is done

    def _select(self, firing_id: int) -> None:
        for row in range(self.found.rowCount()):
            index = self.found.index(row, 0)
            if index.data(ID_ROLE) == firing_id:
                self.view.table.setCurrentIndex(index)
                self.view.table.setFocus()

    @Slot(QModelIndex)
    def _on_row(self, index: QModelIndex) -> None:
        """Tell of the chosen firing what the list has no room for, and its verdict in full."""
        told = dict.fromkeys((*self.view.table.told_below, VERDICT)) if index.isValid() else ()
        cells = [(tr(HEADINGS[n]), index.siblingAtColumn(n).data()) for n in told]
        parts = [f"{name}: {value}" for name, value in cells[:-1] if value]
        verdict = cells[-1][1] if cells else ""
        text = "\n".join(line for line in (" · ".join(parts), verdict) if line)
        self.view.chosen.setText(text)
        self.view.chosen.setVisible(bool(text))
        self.commands["remove"].setEnabled(index.isValid() and self._tools.book.writable)

    @Slot()
    def _on_fitted(self) -> None:
        self._on_row(self.view.table.currentIndex())

    @Slot(QModelIndex)
    def _on_chosen(self, index: QModelIndex) -> None:
        self.firingChosen.emit(int(index.data(ID_ROLE)))

    @Slot()
    def _on_import(self) -> None:
        self.importAsked.emit(None if self.kiln_id == ALL_KILNS else self.kiln_id)

    @Slot()
    def _on_remove(self) -> None:
        index = self.view.table.currentIndex()
        if index.isValid():
            self._tools.book.remove(int(index.data(ID_ROLE)))

    @Slot(object)
    def _on_change(self, change: Change) -> None:
        kept = replace(change, kiln_id=self.kiln_id)
        self._tools.book.write(lambda book: book.keep_change(kept))

    @Slot(object)
    def _on_change_removed(self, change: Change) -> None:
        self._tools.book.write(lambda book: book.remove_change(change.id))

    @Slot(str)
    def _on_note(self, words: str) -> None:
        note = Note(words, kiln_id=self.kiln_id)
        self._tools.book.write(lambda book: book.keep_note(note))

    @Slot(object)
    def _on_note_removed(self, entry: Note | Attachment) -> None:
        if isinstance(entry, Note):
            self._tools.book.write(lambda book: book.remove_note(entry.id))
        else:
            self._tools.book.write(lambda book: book.detach(entry.id))

    @Slot()
    def _on_attach(self) -> None:
        self.attachAsked.emit(self.kiln_id)
