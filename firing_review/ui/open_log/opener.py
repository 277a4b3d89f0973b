"""Opening a log in every way there is, with the page for what has to be asked."""

from dataclasses import dataclass, replace
from pathlib import Path

from PySide6.QtCore import QObject, Signal, Slot

from firing_review.firing.errors import DoubtError, FiringReviewError, InputError
from firing_review.firing.log import FiringLog, ReadingChoices, ReadingNote
from firing_review.firing.said import N_, Said
from firing_review.firing.sheet import Given
from firing_review.firing.units import TemperatureUnit
from firing_review.firing.wording import tr
from firing_review.io.firing_parts import parts_of
from firing_review.io.log_csv import SURE_ENOUGH, read_log_bytes
from firing_review.io.log_join import join_logs
from firing_review.io.log_journal import table_text
from firing_review.io.log_layout import find_layout
from firing_review.io.log_preview import preview_log
from firing_review.io.log_workbook import as_text
from firing_review.io.plain_text import read_file
from firing_review.ui.open_log.panel import OpenLogPage
from firing_review.ui.open_log.remembered import RememberedReadings
from firing_review.ui.opening import read_firing


@dataclass(frozen=True)
class Piece:
    """The bytes of one log, and the name it goes by."""

    raw: bytes
    source: str

    def read(self, choices: ReadingChoices | None) -> FiringLog:
        """Return the log in it."""
        return read_log_bytes(self.raw, self.source, choices=choices)


@dataclass(frozen=True)
class Wanted:
    """What is to be opened: a path or bare bytes, and logs that go on where it ends."""

    path: Path | None
    pieces: tuple[Piece, ...]
    unit: TemperatureUnit | None = None
    again: bool = False

    def given(self, choices: ReadingChoices | None) -> Given:
        """Read it all."""
        if self.path is not None:
            given = read_firing(self.path, self.unit, choices)
        else:
            given = Given(self.pieces[0].read(choices))
        for piece in self.pieces[1:]:
            log = join_logs(_as_text(given.log), _as_text(piece.read(choices)))
            given = replace(given, log=log)
        return given


class LogOpener(QObject):
    """Reads what a person opens; what cannot be settled alone goes to the page.

    Signals
    -------
    ready : what was given, and its path if it has one.
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
        self, page: OpenLogPage, remembered: RememberedReadings, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._page, self._remembered = page, remembered
        self._wanted: Wanted | None = None
        self._opened: tuple[bytes, tuple[Piece, ...]] = (b"", ())
        page.used.connect(self._on_used)

    def open(self, paths: list[Path], unit: TemperatureUnit | None = None) -> bool:
        """Open a log, a sheet or a folder, joined with the logs that follow it."""
        try:
            pieces = tuple(_piece(path) for path in paths)
        except FiringReviewError as error:
            self.refused.emit(error, paths[0])
            return False
        return self._open(Wanted(paths[0], pieces, unit))

    def open_text(self, text: str) -> bool:
        """Open a table that was copied from a spreadsheet or typed by hand."""
        source = tr("pasted table")
        if not text.strip():
            expected = tr("a table of times and temperatures")
            remedy = tr("Copy the rows in the spreadsheet, then paste again.")
            self.refused.emit(InputError(source, expected, tr("nothing"), remedy), None)
            return False
        return self._open(Wanted(None, (Piece(text.encode(), source),)))

    def ask_how(self, log: FiringLog) -> None:
        """Show how the log of the firing that is open was read."""
        raw, pieces = self._opened
        pieces = pieces if raw == log.raw else (Piece(log.raw, log.source),)
        self._ask(Wanted(None, pieces, again=True), pieces[0], _choices_of(log))

    def _open(self, wanted: Wanted) -> bool:
        choices = None if _settled(wanted.path) else self._known(wanted.pieces[0])
        try:
            given = wanted.given(choices)
        except DoubtError as doubt:
            self._on_doubt(wanted, choices, doubt)
            return False
        except FiringReviewError as error:
            self.refused.emit(error, wanted.path)
            return False
        self._finish(wanted, given if choices is None else _noted(given))
        if given.log.confidence < SURE_ENOUGH:
            self.unsure.emit(given.log)
        return True

    def _known(self, piece: Piece) -> ReadingChoices | None:
        """Return what is remembered for files like this one."""
        if not self._remembered:
            return None
        try:
            text = table_text(as_text(piece.raw, piece.source))
            layout = find_layout(text.head, text.tail, piece.source, None, None)
        except FiringReviewError:
            return None
        return self._remembered.choices(layout.key)

    def _on_doubt(self, wanted: Wanted, choices: ReadingChoices | None, doubt: DoubtError) -> None:
        for piece in wanted.pieces:
            if preview_log(piece.raw, piece.source, choices).doubts:
                self._ask(wanted, piece, choices or ReadingChoices())
                return
        self.refused.emit(doubt, wanted.path)

    def _ask(self, wanted: Wanted, piece: Piece, choices: ReadingChoices) -> None:
        try:
            self._page.show_file(piece.raw, piece.source, choices)
        except FiringReviewError as error:
            self.refused.emit(error, wanted.path)
            return
        self._wanted = wanted
        self.asked.emit()

    @Slot(object)
    def _on_used(self, choices: ReadingChoices) -> None:
        if self._wanted is None:
            return
        try:
            given = self._wanted.given(choices)
        except FiringReviewError as error:
            self.refused.emit(error, self._wanted.path)
            return
        self._finish(self._wanted, given)

    def _finish(self, wanted: Wanted, given: Given) -> None:
        self._wanted = None
        self._opened = (given.log.raw, wanted.pieces)
        if wanted.again:
            self.readAnew.emit(given.log)
        else:
            self.ready.emit(given, wanted.path)


def _as_text(log: FiringLog) -> FiringLog:
    """Return a log that can be put before another; workbooks cannot."""
    return replace(log, raw=as_text(log.raw, log.source))


def _piece(path: Path) -> Piece:
    log = parts_of(path).log
    return Piece(read_file(log, tr("the log of a firing")), log.name)


def _noted(given: Given) -> Given:
    note = ReadingNote("remembered", Said(N_("Read as you settled it for files like this.")))
    return replace(given, log=replace(given.log, notes=(*given.log.notes, note)))


def _settled(path: Path | None) -> bool:
    """Return whether a firing sheet says already how its log is to be read."""
    if path is None:
        return False
    return parts_of(path).choices not in (None, ReadingChoices())


def _choices_of(log: FiringLog) -> ReadingChoices:
    """Return the choices that read a log as it is now."""
    several = next((n for n in log.notes if n.kind == "several_runs"), None)
    run = int(several.said.figures["number"]) - 1 if several is not None else None
    roles = {c.name: c.role for c in log.channels}
    return ReadingChoices(unit=log.unit_read, roles=roles, run=run)
