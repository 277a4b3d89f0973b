"""The window: start page or workplace, with one strip for messages above them."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt, QTimer, Slot
from PySide6.QtGui import (
    QAction,
    QCloseEvent,
    QDragEnterEvent,
    QDragLeaveEvent,
    QDropEvent,
)
from PySide6.QtWidgets import QDialog, QMainWindow, QVBoxLayout

from firing_review.firing.errors import DoubtError, FiringReviewError
from firing_review.firing.units import TemperatureUnit
from firing_review.firing.wording import Language, language, listed, tr
from firing_review.io.languages import speak
from firing_review.ui.actions import Actions
from firing_review.ui.appearance import Appearance
from firing_review.ui.arrivals import Arrivals
from firing_review.ui.ask import Questions
from firing_review.ui.book_arrivals import BookArrivals
from firing_review.ui.busy_line.panel import BusyLine
from firing_review.ui.commands import commands
from firing_review.ui.guide.guide import Guide
from firing_review.ui.in_sight import KeyPage
from firing_review.ui.message_strip.panel import MessageStrip, Way
from firing_review.ui.open_book import OpenBook
from firing_review.ui.pages import Pages
from firing_review.ui.place_on_screen import place_on_screen
from firing_review.ui.places import Places
from firing_review.ui.preferences import Preferences
from firing_review.ui.qt_words import speak_with_qt
from firing_review.ui.saving import save_folder
from firing_review.ui.showing import Showing
from firing_review.ui.sitting import Sitting, Unfinished, unfinished_in
from firing_review.ui.spot import Spot
from firing_review.ui.start_page.demos import demo_firings
from firing_review.ui.start_page.panel import StartPage
from firing_review.ui.tab_order import go_to_part, set_tab_order
from firing_review.ui.tools import Tools
from firing_review.ui.top_bar.panel import TopBar
from firing_review.ui.top_bar.title import window_title
from firing_review.ui.typed_text import TypedText
from firing_review.ui.verdict_bar.panel import VerdictBar
from firing_review.ui.workplace.panel import Workplace

if TYPE_CHECKING:
    from firing_review.firing.log import FiringLog
    from firing_review.review.review import Review
    from firing_review.ui.causes_place.panel import CausesPlace
    from firing_review.ui.elements_place.panel import ElementsPlace
    from firing_review.ui.firing_place.panel import FiringPlace
    from firing_review.ui.next_place.panel import NextPlace
    from firing_review.ui.open_log.panel import OpenLogPage
    from firing_review.ui.paper_place.panel import PaperPlace
    from firing_review.ui.shelves_place.panel import ShelvesPlace


class MainWindow(QMainWindow):
    """Everything on the screen; state lives in ``home``, questions are handed in."""

    def __init__(
        self,
        home: Path,
        preferences: Preferences,
        appearance: Appearance,
        questions: Questions,
    ) -> None:
        super().__init__()
        self._recovery = home / "recovery"
        self.showing = Showing(preferences, self)
        self.sitting = Sitting(self._recovery, self)
        self.tools = Tools(
            home, preferences, appearance, questions, self.showing, self.sitting,
            OpenBook(self.sitting, preferences, self),
        )  # fmt: skip
        self.guide = Guide(self, preferences, self)
        self.tools.book.refused.connect(self.show_error)
        self.sitting.reviewChanged.connect(self._on_review)
        self.sitting.keptChanged.connect(self._on_edits)
        self.sitting.refused.connect(self.show_error)
        self._make_parts()
        place_on_screen(self, preferences.geometry)
        self.tools.book.open_last()
        self.go_to_start()

    def _make_parts(self) -> None:
        """Make everything that has words in it; done again in another language."""
        appearance = self.tools.appearance
        self.message = MessageStrip()
        self.start = StartPage(appearance)
        self.arrivals = Arrivals(self.tools, self)
        self.books = BookArrivals(self.tools, self.arrivals.background, self)
        sitting = self.sitting
        beside = (self.arrivals.background, sitting.background)
        working = (*beside, self.books.work, sitting.errands)
        self.busy = [BusyLine(background) for background in working]
        self.places = Places(self.tools, self)
        self.top_bar = TopBar(self.showing)
        self.verdict = VerdictBar(appearance, self.showing)
        self.work = Workplace(appearance, self.top_bar, self.verdict, self.places.all())
        self.work.put_below_bar(self.guide.new_strip())
        self.actions = Actions(self, commands(self))
        self.actions.add_languages(language(), self._on_language)
        self._lay_out()
        self._connect()
        self._on_edits()

    def _lay_out(self) -> None:
        self.setWindowTitle(tr("Firing Review"))
        self.setAcceptDrops(True)
        self.pages = Pages(self.start, self.work, self.places.by_itself)
        self.pages.left.connect(self.go_to_start)
        self.pages.currentChanged.connect(self._on_edits)
        page = KeyPage()
        layout = QVBoxLayout(page)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.message)
        layout.addWidget(self.pages, 1)
        for busy in self.busy:
            layout.addWidget(busy)
        self.setCentralWidget(page)

    def _connect(self) -> None:
        self._connect_arrivals()
        sitting, view = self.sitting, self.top_bar.view
        self.places.refused.connect(self.show_error)
        self.places.bookMade.connect(self.books.connect_place)
        self.places.earlierAsked.connect(self.arrivals.ask_earlier)
        self.books.opened.connect(self.go_to_book)
        self.books.arrived.connect(self._on_arrived)
        self.places.spotAsked.connect(self._on_spot)
        self.books.refused.connect(self.show_error)
        self.books.told.connect(lambda text: self.message.show_note(text, []))
        self.top_bar.goalChosen.connect(partial(self._edit, "set_goal_cone"))
        self.top_bar.titleEdited.connect(partial(self._edit, "set_title"))
        self.verdict.safetyAsked.connect(self._on_safety_asked)
        for button, step in ((view.undo, sitting.undo), (view.redo, sitting.redo)):
            button.clicked.connect(step)
        self.actions.open_from(view.menu, self.start.view.menu)
        set_tab_order([self.message, *self.work.heads])

    def _connect_arrivals(self) -> None:
        arrivals, start = self.arrivals, self.start
        start.pathChosen.connect(arrivals.open_path)
        start.fileAsked.connect(arrivals.ask_file)
        start.folderAsked.connect(arrivals.ask_folder)
        start.pickedUp.connect(arrivals.pick_up)
        start.letGo.connect(self.let_go)
        start.bookAsked.connect(self.books.ask_new)
        start.blankAsked.connect(self.go_to_blank_sheets)
        start.guideAsked.connect(self.guide.start)
        start.backAsked.connect(self.go_back)
        arrivals.bookNamed.connect(self.books.open)
        start.pasted.connect(arrivals.open_text)
        arrivals.arrived.connect(self._on_arrived)
        arrivals.tookBeside.connect(self.pages.show_work)
        arrivals.refused.connect(self.show_error)
        arrivals.pageMade.connect(self._on_page_made)

    @Slot(object)
    def _on_page_made(self, page: OpenLogPage) -> None:
        opener = self.arrivals.opener
        self.pages.addWidget(page)
        opener.readAnew.connect(self._on_read_anew)
        opener.asked.connect(self._on_how_asked)
        opener.unsure.connect(self._on_unsure)
        page.canceled.connect(self._on_how_canceled)

    # the places; each is made when it is first asked for

    @property
    def firing(self) -> FiringPlace:
        """The place "Firing"."""
        return self.work.panel("firing")

    @property
    def shelves(self) -> ShelvesPlace:
        """The place "Shelves"."""
        return self.work.panel("shelves")

    @property
    def elements(self) -> ElementsPlace:
        """The place "Elements"."""
        return self.work.panel("elements")

    @property
    def causes(self) -> CausesPlace:
        """The place "Causes"."""
        return self.work.panel("causes")

    @property
    def next(self) -> NextPlace:
        """The place "Next firing"."""
        return self.work.panel("next")

    @property
    def paper(self) -> PaperPlace:
        """The place "Paper"."""
        return self.work.panel("paper")

    @property
    def open_log(self) -> OpenLogPage:
        """The page that shows how a log is read."""
        return self.arrivals.page

    # coming and going

    def open_path(self, path: Path, unit: TemperatureUnit | None = None) -> None:
        """Open a log, a sheet or a folder; what was open stays open if that fails."""
        self.arrivals.open_path(path, unit)

    @Slot(object)
    def _on_arrived(self, review: Review) -> None:
        """Show the workplace, and beside the chart what is needed next."""
        self.message.dismiss()
        self.pages.show_work()
        self.firing.show_needed(review)
        self.firing.chart.view.lanes.setFocus()
        offer = self.books.offer(review)
        if offer is not None:
            self.message.show_note(*offer)
        self.guide.on_arrived(self.sitting.source)

    @Slot(object)
    def _on_read_anew(self, log: FiringLog) -> None:
        self.message.dismiss()
        self.pages.show_work()
        self._edit("set_log", log)

    def _edit(self, name: str, what: object) -> None:
        from firing_review.review import edits

        self.sitting.edit(getattr(edits, name)(what))

    @Slot()
    def _on_how_asked(self) -> None:
        self.message.dismiss()
        self.pages.interrupt(self.open_log)

    @Slot()
    def _on_how_canceled(self) -> None:
        self.message.dismiss()
        self.pages.go_back()
        if self.pages.is_at_start:
            self.go_to_start()

    @Slot(object)
    def let_go(self, unfinished: Unfinished) -> None:
        """Forget an unfinished sitting."""
        refusal = unfinished.remove()
        self.go_to_start()
        if refusal is not None:
            self.show_error(refusal)

    @Slot()
    def go_to_start(self) -> None:
        """Show the start page; what is open can be come back to with undo and all."""
        self.sitting.keep_now()
        self.message.dismiss()
        recent, unfinished = self.tools.preferences.recent, unfinished_in(self._recovery)
        self.start.show_open(is_open=self.sitting.review is not None)
        self.start.show_demos(demo_firings())
        self.start.show_recent(recent)
        self.start.show_unfinished(unfinished)
        self.start.show_steps(shown=not recent and not unfinished)
        self.start.show_guide(offered=self.guide.offered)
        self.pages.show_start()
        self.start.view.open_file.setFocus()

    @Slot()
    def go_back(self) -> None:
        """Show the firing that is open, as it was left."""
        self.pages.show_work()
        self.work.list.setFocus()

    @Slot()
    def go_to_book(self) -> None:
        """Show the kiln book: as a place of the open firing, or by itself if none is open."""
        self.message.dismiss()
        if self.sitting.review is not None:
            self.pages.show_work()
            self.work.go_to("book")
            return
        self.pages.show_alone("book")

    @Slot()
    def go_to_blank_sheets(self) -> None:
        """Show the sheets to write on by hand: for the open firing's kiln, or by themselves."""
        if self.sitting.review is not None:
            self.show_paper()
            self.paper.view.choice.setCurrentIndex(self.paper.view.choice.count() - 2)
        else:
            self.pages.show_alone("blank")

    @Slot()
    def show_paper(self) -> None:
        """Show what can be printed or handed on."""
        if self.sitting.review is not None:
            self.pages.show_work()
            self.work.go_to("paper")
            self.paper.view.choice.setFocus()

    @Slot()
    def edit_title(self) -> None:
        """Let the person write another title where the old one stands."""
        if self.sitting.review is not None:
            self.pages.show_work()
            self.top_bar.view.title.begin()

    @Slot()
    def save_as_folder(self) -> None:
        """Ask for a name and write everything as a firing folder."""
        save_folder(self, self.tools, self.show_error)

    # messages

    @Slot(object)
    def show_error(self, error: FiringReviewError, path: Path | None = None) -> None:
        """Show what cannot be done, with the next step."""
        self.message.show_error(error, self._ways(error, path))

    def _ways(self, error: FiringReviewError, path: Path | None) -> list[Way]:
        if path is None:
            return []
        ways = [Way(tr("Open another file…"), self.arrivals.ask_file)]
        if isinstance(error, DoubtError):
            ways = [
                Way(tr("Read as °C"), lambda: self.open_path(path, TemperatureUnit.CELSIUS)),
                Way(tr("Read as °F"), lambda: self.open_path(path, TemperatureUnit.FAHRENHEIT)),
                *ways,
            ]
        return ways

    @Slot(object)
    def _on_unsure(self, log: FiringLog) -> None:
        titles = [channel.title for channel in log.temperatures]
        rest = [tr("{count} more").format(count=len(titles[3:]))] if titles[3:] else []
        names = listed([*titles[:3], *rest])
        words = tr("Read as °{unit}; the temperature of the kiln is taken from {names}.")
        if not names:
            words = tr("Read as °{unit}; no column was taken for the temperature of the kiln.")
        text = words.format(unit=log.unit_read.value, names=names)
        self.message.show_note(text, [Way(tr("Change…"), self.arrivals.ask_how_read)])

    # edits

    @Slot(object)
    def _on_review(self, review: Review) -> None:
        if self.showing.finding is not None and self.showing.finding >= len(review.findings):
            self.showing.select_finding(None)
        self.setWindowTitle(window_title(review))
        self.work.show_review(review)
        self._on_edits()

    @Slot()
    def _on_edits(self) -> None:
        """Say what can be undone; what is not in sight is not undone with a key either."""
        sitting = self.sitting
        undo, redo = sitting.undo_label, sitting.redo_label
        self.top_bar.show_edits(undo, redo, sitting.kept_word)
        if not self.pages.is_at_work:
            undo = redo = None
        self.actions.show_edits(undo, redo, is_open=sitting.review is not None)

    @Slot(object)
    def _on_spot(self, spot: Spot) -> None:
        self.work.go_to(spot.place)
        self.work.show_place()
        self.work.panel(spot.place).show_spot(spot)

    @Slot()
    def _on_safety_asked(self) -> None:
        self.work.go_to("firing")
        self.firing.ask_safety()

    @Slot()
    def show_preferences(self) -> None:
        """Show the few choices a person makes once."""
        from firing_review.ui.preferences_dialog.panel import PreferencesDialog

        dialog = PreferencesDialog(self.tools, self)
        dialog.languageChosen.connect(self._on_language_preferred)
        self._show_dialog(dialog)

    @Slot()
    def show_keys(self) -> None:
        """Show what each key does."""
        from firing_review.ui.keys_dialog.panel import KeysDialog

        self._show_dialog(KeysDialog(self.actions.all, self))

    def _show_dialog(self, dialog: QDialog) -> None:
        self.dialog = dialog
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.open()

    @Slot()
    def next_part(self) -> None:
        """Put the keyboard on the next part of the window."""
        self._go_to_part(1)

    @Slot()
    def part_before(self) -> None:
        """Put the keyboard on the part of the window before this one."""
        self._go_to_part(-1)

    def _go_to_part(self, step: int) -> None:
        pages = self.pages
        parts = self.work.parts if pages.is_at_work else [pages.currentWidget()]
        go_to_part([self.message, *parts], step)

    @Slot(object)
    def _on_language_preferred(self, chosen: Language) -> None:
        self.dialog.accept()
        self.choose_language(chosen)
        self.show_preferences()
        self.dialog.language.setFocus()

    def _on_language(self, action: QAction) -> None:
        # the menu that was chosen from goes with everything else, so it has to close first
        QTimer.singleShot(0, partial(self.choose_language, Language(action.data())))

    def choose_language(self, chosen: Language) -> None:
        """Show everything in another language; what is open, undo and place stay."""
        self.tools.preferences.language = chosen
        # a place out of sight may still hold what has been undone since
        up_to_date = {key: self.work.panel(key) for key in self.work.gone_to}
        speak(chosen)
        speak_with_qt()
        place, at_start = self.work.list.key, self.pages.is_at_start
        alone = self.pages.alone_seen
        was_busy = self.arrivals.background.is_busy or self.books.work.is_busy
        carried, old = TypedText(up_to_date), self._give_up_parts()
        self._make_parts()
        review = self.sitting.review
        if review is not None:
            self._on_review(review)
            for key in carried.places():
                carried.put_into(key, self.work.panel(key))
            self.work.go_to(place)
        if alone is not None:
            self.pages.show_alone(alone)
        elif review is not None and not at_start:
            self.pages.show_work()
            self.work.list.setFocus()
        else:
            self.go_to_start()
        for part in old:
            part.deleteLater()
        if was_busy:
            self.message.show_note(tr("What was going on ended; what was done by then stays."), [])

    def _give_up_parts(self) -> list[QObject]:
        self.actions.remove(self)
        self.books.end_work()
        self.sitting.drop_errands()
        return [self.places, self.arrivals, self.books, self.takeCentralWidget()]

    # the window system

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take files."""
        if event.mimeData().hasUrls():
            event.acceptProposedAction()
            self.start.show_drop(over=True)

    def dragLeaveEvent(self, _event: QDragLeaveEvent) -> None:
        """Show that nothing is dropped."""
        self.start.show_drop(over=False)

    def dropEvent(self, event: QDropEvent) -> None:
        """Open what was dropped."""
        self.start.show_drop(over=False)
        names = [url.toLocalFile() for url in event.mimeData().urls() if url.isLocalFile()]
        if names:
            event.acceptProposedAction()
            self.arrivals.open_paths([Path(name) for name in names])

    def closeEvent(self, event: QCloseEvent) -> None:
        """Remember the window and end what is going on; edits are in the recovery file."""
        typing = self.focusWidget()
        if typing is not None:
            typing.clearFocus()  # what is half typed becomes an edit while it can still be kept
            QCoreApplication.sendPostedEvents(None, QEvent.Type.MetaCall.value)
        self.books.end_work()
        self.sitting.drop_errands()
        self.sitting.finish()
        self.tools.preferences.geometry = self.saveGeometry()
        self.tools.book.release()
        super().closeEvent(event)
