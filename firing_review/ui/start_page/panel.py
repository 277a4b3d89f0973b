"""The start page's behaviour."""

from pathlib import Path

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtGui import QGuiApplication, QKeySequence, QResizeEvent, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QWidget

from firing_review.firing.wording import moment, tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.carrier import Carrier
from firing_review.ui.home import home_folder
from firing_review.ui.layouts import fill
from firing_review.ui.sitting import Unfinished
from firing_review.ui.start_page.card import Card
from firing_review.ui.start_page.demos import Demo
from firing_review.ui.start_page.view import NARROW_PX, StartView


class StartPage(QWidget):
    """Everything one can begin with.

    Signals
    -------
    pathChosen : a file or folder to open.
    fileAsked, folderAsked : the person wants to look for one.
    bookAsked : the person wants to make a kiln book.
    blankAsked : the person wants sheets to write on by hand.
    guideAsked : the person wants to be led through a demo firing.
    pasted : the text of a table on the clipboard.
    backAsked : the person wants to go back to the firing that is open.
    pickedUp, letGo : an unfinished sitting to go on with, or to forget.
    """

    pathChosen = Signal(object)
    fileAsked = Signal()
    folderAsked = Signal()
    pickedUp = Signal(object)
    letGo = Signal(object)
    pasted = Signal(str)
    bookAsked = Signal()
    blankAsked = Signal()
    guideAsked = Signal()
    backAsked = Signal()

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._demos: list[Demo] = []
        self._appearance = appearance
        self.view = StartView(appearance)
        fill(self, self.view)
        self.view.open_file.clicked.connect(self.fileAsked)
        self.view.open_folder.clicked.connect(self.folderAsked)
        self.view.new_book.clicked.connect(self.bookAsked)
        self.view.blank.clicked.connect(self.blankAsked)
        self.view.guide.clicked.connect(self.guideAsked)
        self.view.back.clicked.connect(self.backAsked)
        paste = QShortcut(QKeySequence(QKeySequence.StandardKey.Paste), self)
        paste.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        paste.activated.connect(self.paste)

    @Slot()
    def paste(self) -> None:
        """Hand the clipboard's text over."""
        self.pasted.emit(QGuiApplication.clipboard().text())

    def show_demos(self, demos: list[Demo]) -> None:
        """Show the demo firings."""
        self._demos = demos
        for label in (self.view.demos_heading, self.view.demos_about):
            label.setVisible(bool(demos))
        self._lay_demos()

    def show_open(self, *, is_open: bool) -> None:
        """Offer the way back to the firing that is open, if one is."""
        self.view.back.setVisible(is_open)

    def show_steps(self, *, shown: bool) -> None:
        """Show how it goes, to someone who has nothing to go on with."""
        self.view.steps.setVisible(shown)

    def show_guide(self, *, offered: bool) -> None:
        """Offer the guide, or no longer."""
        self.view.guide.setVisible(offered)

    def show_recent(self, paths: tuple[Path, ...]) -> None:
        """Show what was opened lately."""
        self.view.recent_heading.setVisible(bool(paths))
        cards: list[QWidget] = []
        for path in paths[:4]:
            card = Card(path, _name(path), _short(path.parent))
            card.chosen.connect(self.pathChosen)
            cards.append(card)
        self.view.fill(self.view.recent, cards)

    def show_unfinished(self, unfinished: list[Unfinished]) -> None:
        """Offer the sittings that were never saved."""
        self.view.unfinished_heading.setVisible(bool(unfinished))
        self.view.fill(self.view.unfinished, [self._offer(one) for one in unfinished[:3]])

    def _offer(self, one: Unfinished) -> QWidget:
        row = QWidget()
        layout = QHBoxLayout(row)
        layout.setContentsMargins(0, 0, 0, 0)
        about = tr("Go on. Last changed {when}.").format(when=moment(one.written))
        card = Card(one, one.title, about)
        card.chosen.connect(self.pickedUp)
        forget = Carrier(one, tr("Remove"))
        forget.setProperty("part", "half")
        forget.setAccessibleName(
            tr("Remove the unfinished review of {title}").format(title=one.title)
        )
        forget.chosen.connect(self.letGo)
        layout.addWidget(card, 1)
        layout.addWidget(forget)
        return row

    def show_drop(self, *, over: bool) -> None:
        """Show that what is dragged may be dropped."""
        self.view.drop.setProperty("over", over)
        self.view.drop.style().unpolish(self.view.drop)
        self.view.drop.style().polish(self.view.drop)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Put the columns under each other when there is little width."""
        super().resizeEvent(event)
        was, now = event.oldSize().width(), event.size().width()
        if (was < self._narrow) != (now < self._narrow) or was < 0:
            self.view.show_narrow(narrow=now < self._narrow)
            self._lay_demos()

    @property
    def _narrow(self) -> int:
        return self._appearance.sizes.px(NARROW_PX)

    @Slot()
    def _lay_demos(self) -> None:
        cards = []
        for demo in self._demos:
            card = Card(demo.folder, tr(demo.title), tr(demo.story))
            card.chosen.connect(self.pathChosen)
            cards.append(card)
        self.view.fill_demos(cards, 1 if self.width() < self._narrow else 2)


def _name(path: Path) -> str:
    return path.parent.name if path.name == "firing.toml" else path.name


def _short(folder: Path) -> str:
    """Return a folder with the person's own folder as ``~``."""
    try:
        return str(Path("~") / folder.relative_to(home_folder()))
    except ValueError:
        return str(folder)
