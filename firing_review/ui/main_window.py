"""The window: start page or workplace, with one strip for messages above them."""

from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import QSize, Qt, Slot
from PySide6.QtGui import (
    QAction,
    QCloseEvent,
    QDragEnterEvent,
    QDragLeaveEvent,
    QDropEvent,
)
from PySide6.QtWidgets import QMainWindow, QStackedWidget, QVBoxLayout, QWidget

from firing_review.firing.errors import DoubtError, FiringReviewError, InputError
from firing_review.firing.log import FiringLog
from firing_review.firing.sheet import Given
from firing_review.firing.tables import Tables
from firing_review.firing.units import TemperatureUnit
from firing_review.firing.wording import tr
from firing_review.io.log_csv import read_log_bytes
from firing_review.report import wording
from firing_review.review import edits
from firing_review.review.review import Review
from firing_review.ui.actions import Actions
from firing_review.ui.appearance import Appearance
from firing_review.ui.ask import Questions
from firing_review.ui.causes_place.panel import CausesPlace
from firing_review.ui.commands import commands
from firing_review.ui.elements_place.panel import ElementsPlace
from firing_review.ui.firing_place.panel import Beside, FiringPlace
from firing_review.ui.message_strip.panel import MessageStrip, Way
from firing_review.ui.next_place.panel import NextPlace
from firing_review.ui.open_log.opener import LogOpener
from firing_review.ui.open_log.panel import OpenLogPage
from firing_review.ui.open_log.remembered import RememberedReadings
from firing_review.ui.opening import edit_from, sort_paths
from firing_review.ui.preferences import Brightness, Preferences, TimeShown
from firing_review.ui.schedule_editor.kept import KeptSchedules
from firing_review.ui.shelves_place.panel import ShelvesPlace
from firing_review.ui.showing import Showing
from firing_review.ui.sitting import Sitting, Unfinished, unfinished_in
from firing_review.ui.start_page.demos import demo_firings
from firing_review.ui.start_page.panel import StartPage
from firing_review.ui.tab_order import set_tab_order
from firing_review.ui.top_bar.panel import TopBar
from firing_review.ui.verdict_bar.panel import VerdictBar
from firing_review.ui.workplace.panel import Workplace
from firing_review.ui.workplace.places import Place

FIRST_SIZE = (1600, 960)
SMALL_SCREEN_PX = 1440
SCALES = (1.0, 1.15, 1.3, 1.5, 1.75, 2.0)


class MainWindow(QMainWindow):
    """Everything on the screen; state lives in ``home``, questions are handed in."""

    def __init__(
        self,
        home: Path,
        preferences: Preferences,
        appearance: Appearance,
        tables: Tables,
        questions: Questions,
    ) -> None:
        super().__init__()
        self._preferences, self._appearance = preferences, appearance
        self._questions, self._tables = questions, tables
        self._recovery = home / "recovery"
        self.showing = Showing(preferences, self)
        self.sitting = Sitting(self._recovery, tables, self)
        self.message = MessageStrip()
        self.start = StartPage(appearance)
        remembered = RememberedReadings(home / "log_readings.json")
        self.open_log = OpenLogPage(appearance, remembered)
        self.opener = LogOpener(self.open_log, remembered, self)
        self.firing = FiringPlace(
            appearance, self.showing, KeptSchedules(home / "schedules"), questions
        )
        self.top_bar = TopBar(self.showing)
        self.verdict = VerdictBar(appearance, self.showing)
        self.shelves = ShelvesPlace(appearance, self.showing, questions)
        self.elements = ElementsPlace(appearance, self.showing, questions)
        self.causes = CausesPlace(appearance, self.showing)
        self.next = NextPlace(appearance, self.showing, tables, questions)
        places = [
            Place("firing", tr("Firing"), self.firing),
            Place("shelves", tr("Shelves"), self.shelves),
            Place("elements", tr("Elements"), self.elements),
            Place("causes", tr("Causes"), self.causes),
            Place("next", tr("Next firing"), self.next),
        ]
        self.work = Workplace(appearance, self.top_bar, self.verdict, places)
        self.actions = Actions(self, commands(self))
        self.actions.add_brightness(preferences.brightness, self._on_brightness)
        self._lay_out()
        self._connect()
        self.go_to_start()

    def _lay_out(self) -> None:
        self.setWindowTitle(tr("Firing Review"))
        self.setAcceptDrops(True)
        self._stack = QStackedWidget()
        self._before: QWidget = self.start
        self._stack.addWidget(self.start)
        self._stack.addWidget(self.work)
        self._stack.addWidget(self.open_log)
        page = QWidget()
        page.setObjectName("page")
        layout = QVBoxLayout(page)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.message)
        layout.addWidget(self._stack, 1)
        self.setCentralWidget(page)
        self.resize(QSize(*FIRST_SIZE).boundedTo(self.screen().availableSize()))
        geometry = self._preferences.geometry
        if not geometry.isEmpty():
            self.restoreGeometry(geometry)
        elif self.screen().availableGeometry().width() <= SMALL_SCREEN_PX:
            self.setWindowState(Qt.WindowState.WindowMaximized)

    def _connect(self) -> None:
        self.start.pathChosen.connect(self.open_path)
        self.start.fileAsked.connect(self.ask_file)
        self.start.folderAsked.connect(self.ask_folder)
        self.start.pickedUp.connect(self.pick_up)
        self.start.letGo.connect(self.let_go)
        self._connect_opener()
        self.sitting.reviewChanged.connect(self._on_review)
        self.sitting.keptChanged.connect(self._on_edits)
        self.sitting.refused.connect(self.show_error)
        self.firing.refused.connect(self.show_error)
        self.firing.scheduleEdited.connect(self._on_schedule)
        self.firing.kilnEdited.connect(self._on_kiln)
        self.firing.safetyAnswered.connect(self._on_safety)
        self.shelves.conesEdited.connect(self._on_cones)
        self.shelves.shelvesEdited.connect(self._on_shelves)
        self.shelves.bendsTaken.connect(self._on_bends)
        self.shelves.refused.connect(self.show_error)
        self.causes.answersEdited.connect(self._on_answers)
        for place in (self.next, self.elements):
            place.refused.connect(self.show_error)
        self.elements.readingsEdited.connect(self._on_readings)
        self.top_bar.goalChosen.connect(self._on_goal)
        self.verdict.safetyAsked.connect(self._on_safety_asked)
        view = self.top_bar.view
        view.undo.clicked.connect(self.sitting.undo)
        view.redo.clicked.connect(self.sitting.redo)
        view.menu.setMenu(self.actions.menu)
        set_tab_order(
            [self.message, self.top_bar, self.verdict, self.work.list, *self.firing.parts]
        )

    def _connect_opener(self) -> None:
        self.start.pasted.connect(self.opener.open_text)
        self.opener.ready.connect(self._on_ready)
        self.opener.readAnew.connect(self._on_read_anew)
        self.opener.asked.connect(self._on_how_asked)
        self.opener.unsure.connect(self._on_unsure)
        self.opener.refused.connect(self.show_error)
        self.open_log.refused.connect(self.show_error)
        self.open_log.canceled.connect(self._on_how_canceled)

    # opening

    @Slot(object)
    def open_path(self, path: Path, unit: TemperatureUnit | None = None) -> bool:
        """Open a log, a sheet or a folder; what was open stays open if that fails."""
        return self.opener.open([path], unit)

    @Slot(object, object)
    def _on_ready(self, given: Given, path: Path | None) -> None:
        self.showing.follow_log(given.log.unit_read)
        self.showing.select_finding(None)
        review = self.sitting.open(given, path)
        if path is not None:
            self._preferences.remember(path)
        self._arrive(review)

    @Slot(object)
    def _on_read_anew(self, log: FiringLog) -> None:
        self.message.dismiss()
        self._stack.setCurrentWidget(self.work)
        self.sitting.edit(edits.set_log(log))

    @Slot()
    def ask_how_read(self) -> None:
        """Show how the log that is open was read, to be corrected."""
        review = self.sitting.review
        if review is not None:
            self.opener.ask_how(review.given.log)

    @Slot()
    def _on_how_asked(self) -> None:
        self.message.dismiss()
        if self._stack.currentWidget() is not self.open_log:
            self._before = self._stack.currentWidget()
        self._stack.setCurrentWidget(self.open_log)

    @Slot()
    def _on_how_canceled(self) -> None:
        self.message.dismiss()
        if self._before is self.start:
            self.go_to_start()
        else:
            self._stack.setCurrentWidget(self._before)

    @Slot(object)
    def _on_unsure(self, log: FiringLog) -> None:
        names = ", ".join(channel.title for channel in log.temperatures[:3]) or tr("no column")
        words = tr("Read as °{unit}; the temperature of the kiln is taken from {names}.")
        text = words.format(unit=log.unit_read.value, names=names)
        self.message.show_note(text, [Way(tr("Change…"), self.ask_how_read)])

    def _arrive(self, review: Review) -> None:
        """Show the workplace, and beside the chart what is needed next."""
        self.message.dismiss()
        self._stack.setCurrentWidget(self.work)
        bare = review.given.intended is None and not review.findings
        self.firing.show_beside(Beside.SCHEDULE if bare else Beside.FINDINGS)
        self.firing.chart.view.lanes.setFocus()
        title = review.given.title or review.given.log.source
        self.setWindowTitle(tr("{title} – Firing Review").format(title=title))

    def open_paths(self, paths: list[Path]) -> None:
        """Open what was dropped together; a lone schedule goes to the firing that is open."""
        found = sort_paths(paths)
        if found.firing is not None and not self.opener.open([found.firing, *found.more]):
            return
        if self.sitting.review is None and found.beside:
            self.show_error(_needs_log(found.beside[0]))
            return
        for path in found.beside:
            self._take_beside(path)

    def _take_beside(self, path: Path) -> None:
        review = self.sitting.review
        if review is None:
            return
        try:
            edit = edit_from(path, review.given)
        except FiringReviewError as error:
            self.show_error(error)
            return
        if edit is not None:
            self.sitting.edit(edit)

    @Slot()
    def ask_file(self) -> None:
        """Ask for a log or a sheet and open it."""
        title = tr("Open a log or a firing sheet")
        path = self._questions.file_to_open(self, title, self._preferences.last_folder)
        if path is not None:
            self.open_paths([path])

    @Slot()
    def ask_folder(self) -> None:
        """Ask for a firing folder and open it."""
        path = self._questions.folder_to_open(self, self._preferences.last_folder)
        if path is not None:
            self.open_path(path)

    @Slot(object)
    def pick_up(self, unfinished: Unfinished) -> None:
        """Go on with an unfinished sitting."""
        try:
            review = self.sitting.pick_up(unfinished)
        except FiringReviewError as error:
            self.show_error(error)
            return
        self.showing.follow_log(review.given.log.unit_read)
        self._arrive(review)

    @Slot(object)
    def let_go(self, unfinished: Unfinished) -> None:
        """Forget an unfinished sitting."""
        unfinished.path.unlink(missing_ok=True)
        self.go_to_start()

    @Slot()
    def go_to_start(self) -> None:
        """Show the start page; what is open can be come back to with undo and all."""
        recent, unfinished = self._preferences.recent, unfinished_in(self._recovery)
        self.start.show_demos(demo_firings())
        self.start.show_recent(recent)
        self.start.show_unfinished(unfinished)
        self.start.show_steps(shown=not recent and not unfinished)
        self._stack.setCurrentWidget(self.start)
        self.start.view.open_file.setFocus()

    @Slot()
    def save_as_folder(self) -> None:
        """Ask for a name and write everything as a firing folder."""
        review = self.sitting.review
        if review is None:
            return
        name = review.given.title or Path(review.given.log.source).stem
        suggested = self._preferences.last_folder / _file_name(name)
        folder = self._questions.folder_to_save(self, suggested)
        if folder is None:
            return
        try:
            self.sitting.save_as_folder(folder)
        except FiringReviewError as error:
            self.show_error(error)
            return
        self._preferences.remember(folder)

    # messages

    @Slot(object)
    def show_error(self, error: FiringReviewError, path: Path | None = None) -> None:
        """Show what cannot be done, with the next step."""
        self.message.show_error(error, self._ways(error, path))

    def _ways(self, error: FiringReviewError, path: Path | None) -> list[Way]:
        if path is None:
            return []
        ways = [Way(tr("Open another file…"), self.ask_file)]
        if isinstance(error, DoubtError):
            ways = [
                Way(tr("Read as °C"), lambda: self.open_path(path, TemperatureUnit.CELSIUS)),
                Way(tr("Read as °F"), lambda: self.open_path(path, TemperatureUnit.FAHRENHEIT)),
                *ways,
            ]
        return ways

    # edits

    @Slot(object)
    def _on_review(self, review: Review) -> None:
        source = self.sitting.source
        folder = source.parent if source is not None else self._preferences.last_folder
        if self.showing.finding is not None and self.showing.finding >= len(review.findings):
            self.showing.select_finding(None)
        self.top_bar.show_review(review)
        self.verdict.show_review(review)
        self.firing.show_review(review, folder)
        self.shelves.show_review(review)
        self.elements.show_review(review)
        self.causes.show_review(review)
        self.next.show_review(review)
        self._on_edits()

    @Slot()
    def _on_edits(self) -> None:
        sitting = self.sitting
        self.top_bar.show_edits(sitting.undo_label, sitting.redo_label, sitting.kept_word)
        for key, word, label in (
            ("undo", tr("Undo"), sitting.undo_label),
            ("redo", tr("Redo"), sitting.redo_label),
        ):
            action = self.actions[key]
            action.setEnabled(label is not None)
            action.setText(f"{word}: {wording.render(label)}" if label is not None else word)
        for key in ("save", "reread", "how_read"):
            self.actions[key].setEnabled(sitting.review is not None)

    @Slot(object)
    def _on_schedule(self, intended: object) -> None:
        self.sitting.edit(edits.set_schedule(intended))

    @Slot(object)
    def _on_kiln(self, kiln: object) -> None:
        self.sitting.edit(edits.set_kiln(kiln))

    @Slot(object, object)
    def _on_shelves(self, kiln: object, cones: object) -> None:
        self.sitting.edit(edits.set_shelves(kiln, cones))

    @Slot(object, object)
    def _on_bends(self, cones: object, pictures: object) -> None:
        self.sitting.edit(edits.set_bends(cones, pictures))

    @Slot(object)
    def _on_cones(self, cones: object) -> None:
        self.sitting.edit(edits.set_cones(cones))

    @Slot(object)
    def _on_answers(self, answers: object) -> None:
        self.sitting.edit(edits.set_answers(answers))

    @Slot(object)
    def _on_readings(self, readings: object) -> None:
        self.sitting.edit(edits.set_readings(readings))

    @Slot(object)
    def _on_goal(self, cone: object) -> None:
        self.sitting.edit(edits.set_goal_cone(cone))

    @Slot(object)
    def _on_safety(self, signs: tuple[str, ...] | None) -> None:
        review = self.sitting.review
        if review is not None:
            self.sitting.edit(edits.set_answers(replace(review.given.answers, safety=signs)))

    @Slot()
    def _on_safety_asked(self) -> None:
        self.work.go_to("firing")
        self.firing.ask_safety()

    # how it is shown

    @Slot()
    def switch_unit(self) -> None:
        """Change from °C to °F or back."""
        units = (TemperatureUnit.CELSIUS, TemperatureUnit.FAHRENHEIT)
        self.showing.choose_unit(units[self.showing.unit is units[0]])

    @Slot()
    def switch_time(self) -> None:
        """Change from hours to the clock or back."""
        times = (TimeShown.ELAPSED, TimeShown.CLOCK)
        self.showing.choose_time(times[self.showing.time_shown is times[0]])

    @Slot()
    def read_in_other_unit(self) -> None:
        """Read the log anew as °F instead of °C, or the other way round; undo brings it back."""
        review = self.sitting.review
        if review is None:
            return
        log = review.given.log
        units = (TemperatureUnit.CELSIUS, TemperatureUnit.FAHRENHEIT)
        other = units[log.unit_read is units[0]]
        try:
            self.sitting.edit(edits.set_log(read_log_bytes(log.raw, log.source, other)))
        except FiringReviewError as error:
            self.show_error(error)

    @Slot()
    def enlarge(self) -> None:
        """Make everything larger, up to twice."""
        self._rescale(1)

    @Slot()
    def reduce(self) -> None:
        """Make everything smaller again."""
        self._rescale(-1)

    def _rescale(self, step: int) -> None:
        now = min(SCALES, key=lambda scale: abs(scale - self._preferences.scale))
        place = min(max(SCALES.index(now) + step, 0), len(SCALES) - 1)
        self._appearance.rescale(SCALES[place])

    def _on_brightness(self, action: QAction) -> None:
        self._appearance.choose(Brightness(action.data()))

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
            self.open_paths([Path(name) for name in names])

    def closeEvent(self, event: QCloseEvent) -> None:
        """Remember the window; edits are in the recovery file already."""
        self._preferences.geometry = self.saveGeometry()
        super().closeEvent(event)


def _needs_log(path: Path) -> InputError:
    return InputError(
        str(path),
        tr("the log of a firing first"),
        tr("a file that belongs beside one"),
        tr("Drop the log, or drop both together."),
    )


def _file_name(title: str) -> str:
    """Return a title as a name any file system takes."""
    kept = "".join(sign if sign.isalnum() or sign in " -_." else "-" for sign in title)
    return kept.strip(" .") or "firing"
