"""Opening a log in every way there is, with the page for what has to be asked."""

from dataclasses import replace
from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject, Signal, Slot

from firing_review.firing.errors import FiringReviewError, InputError
from firing_review.firing.log import FiringLog, ReadingChoices
from firing_review.firing.units import TemperatureUnit
from firing_review.firing.wording import tr
from firing_review.io.log_csv import SURE_ENOUGH
from firing_review.ui.background import Background, Work
from firing_review.ui.long_work import log_ready
from firing_review.ui.open_log.panel import OpenLogPage
from firing_review.ui.open_log.remembered import RememberedReadings
from firing_review.ui.open_log.wanted import Opened, Piece, Wanted, open_wanted


class LogOpener(QObject):
    """Reads what a person opens; what cannot be settled alone goes to the page.

    Files are read beside the window; what was open stays until what they hold is there.

    Signals
    -------
    ready : the review of what was opened, and its path if it has one.
    readAnew : the log of the firing that is open, read in another way.
    asked : the page is to be shown.
    unsure : the log that was opened is read by guess; it wants a word.
    refused : an error a person can act on, and the path it came from or None.
    """

    ready = Signal(object, object)
    readAnew = Signal(object)
    asked = Signal()
    unsure = Signal(object)
    refused = Signal(object, object)

    def __init__(
        self,
        page: OpenLogPage,
        remembered: RememberedReadings,
        background: Background,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._page, self._remembered, self._background = page, remembered, background
        self._wanted: Wanted | None = None
        self._opened: tuple[bytes, tuple[Piece, ...]] = (b"", ())
        page.used.connect(self._on_used)

    def open(self, paths: list[Path], unit: TemperatureUnit | None = None) -> None:
        """Open a log, a sheet or a folder, joined with the logs that follow it."""
        self._wanted = None
        self._open(Wanted(tuple(paths), unit=unit))

    def open_text(self, text: str) -> None:
        """Open a table that was copied from a spreadsheet or typed by hand."""
        source = tr("pasted table")
        if not text.strip():
            expected = tr("a table of times and temperatures")
            remedy = tr("Copy the rows in the spreadsheet, then paste again.")
            self.refused.emit(InputError(source, expected, tr("nothing"), remedy), None)
            return
        self._wanted = None
        self._open(Wanted(pieces=(Piece(text.encode(), source),)))

    def ask_how(self, log: FiringLog) -> None:
        """Show how the log of the firing that is open was read."""
        raw, pieces = self._opened
        pieces = pieces if raw is log.raw else (Piece(log.raw, log.source),)
        self._ask(Wanted(pieces=pieces, again=True), pieces[0], _choices_of(log))

    def read_in(self, log: FiringLog, unit: TemperatureUnit) -> None:
        """Read the log of the firing that is open in another unit."""
        self._wanted = None
        choices = replace(log.choices, unit=unit)
        self._open(Wanted(pieces=(Piece(log.raw, log.source),), choices=choices, again=True))

    def _open(self, wanted: Wanted) -> None:
        words = tr("Opening {name}").format(name=wanted.name)
        asked, refused = (wanted, self._remembered), partial(self._refuse, wanted)
        work = Work(
            words, open_wanted, asked, self._on_opened, refused,
            prepare=_ready, is_long=wanted.is_long,
        )  # fmt: skip
        self._background.run(work)

    def _refuse(self, wanted: Wanted, error: FiringReviewError) -> None:
        self.refused.emit(error, wanted.path)

    def _on_opened(self, opened: Opened) -> None:
        wanted, log = opened.wanted, opened.log
        if log is None:
            if opened.asked is not None:
                self._ask(wanted, opened.asked, opened.choices or ReadingChoices())
            return
        self._wanted, self._opened = None, (log.raw, wanted.pieces)
        if opened.review is None:
            self.readAnew.emit(log)
            return
        self.ready.emit(opened.review, wanted.path)
        if wanted.choices is None and log.confidence < SURE_ENOUGH:
            self.unsure.emit(log)

    def _ask(self, wanted: Wanted, piece: Piece, choices: ReadingChoices) -> None:
        shown, refused = partial(self._on_asked, wanted), partial(self._refuse, wanted)
        self._page.show_file(piece.raw, piece.source, choices, shown, refused)

    def _on_asked(self, wanted: Wanted) -> None:
        self._wanted = wanted
        self.asked.emit()

    @Slot(object)
    def _on_used(self, choices: ReadingChoices) -> None:
        if self._wanted is not None:
            self._open(replace(self._wanted, choices=choices))


def _ready(opened: object) -> None:
    """Prepare what was opened for the window."""
    if isinstance(opened, Opened) and opened.log is not None:
        log_ready(opened.log, opened.review.firing if opened.review is not None else None)


def _choices_of(log: FiringLog) -> ReadingChoices:
    """Return the choices that read a log as it is now."""
    several = next((n for n in log.notes if n.kind == "several_runs"), None)
    run = int(several.said.figures["number"]) - 1 if several is not None else None
    roles = {c.name: c.role for c in log.channels}
    return replace(log.choices, unit=log.unit_read, roles=roles, run=run)
