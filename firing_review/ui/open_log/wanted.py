"""What a person wants opened, and opening it; no Qt, so that a process of its own can do it."""

from dataclasses import dataclass, replace
from pathlib import Path

from firing_review.firing.errors import DoubtError, FiringReviewError
from firing_review.firing.log import FiringLog, ReadingChoices, ReadingNote
from firing_review.firing.said import N_, Said
from firing_review.firing.sheet import Given
from firing_review.firing.units import TemperatureUnit
from firing_review.firing.wording import tr
from firing_review.io.firing_parts import parts_of
from firing_review.io.log_csv import read_log_bytes
from firing_review.io.log_join import join_logs
from firing_review.io.log_journal import table_text
from firing_review.io.log_layout import find_layout
from firing_review.io.log_preview import preview_log
from firing_review.io.log_workbook import as_text
from firing_review.io.plain_text import read_file
from firing_review.io.tables import load_tables
from firing_review.review.pipeline import review_firing
from firing_review.review.review import Review
from firing_review.ui.long_work import AFTER_READING
from firing_review.ui.open_log.remembered import RememberedReadings
from firing_review.ui.opening import read_firing
from firing_review.ui.side_process import Tell

LONG_BYTES = 1_000_000
"""Files larger than this together are read in a process of its own, which can be ended at once."""


def takes_long(size_bytes: int) -> bool:
    """Tell whether reading so many bytes takes so long that a person may think better of it."""
    return size_bytes > LONG_BYTES


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
    """What is to be opened: files, the first with logs that go on where it ends, or bare bytes.

    Attributes
    ----------
    choices : ReadingChoices, optional
        What the person has just settled.
    again : bool
        Whether only the log of the firing that is open is wanted, read in another way.
    """

    paths: tuple[Path, ...] = ()
    pieces: tuple[Piece, ...] = ()
    unit: TemperatureUnit | None = None
    choices: ReadingChoices | None = None
    again: bool = False

    @property
    def name(self) -> str:
        """What it is called while it is on its way."""
        if not self.paths:
            return self.pieces[0].source
        if self.paths[1:]:
            return tr("{count} files").format(count=len(self.paths))
        return self.paths[0].name

    @property
    def path(self) -> Path | None:
        """The file the firing is known by."""
        return self.paths[0] if self.paths else None

    @property
    def is_long(self) -> bool:
        """Tell whether reading it takes long."""
        if self.pieces:
            return takes_long(sum(len(piece.raw) for piece in self.pieces))
        return takes_long(sum(_size(path) for path in self.paths))

    def with_pieces(self) -> "Wanted":
        """Return the same with the bytes of its logs read."""
        return self if self.pieces else replace(self, pieces=tuple(map(_piece, self.paths)))

    def holding(self, log: FiringLog) -> "Wanted":
        """Return the same, its one piece and the log read from it holding the same bytes."""
        if self.pieces[1:] or self.pieces[0].raw != log.raw:
            return self
        return replace(self, pieces=(replace(self.pieces[0], raw=log.raw),))

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


@dataclass(frozen=True, eq=False)
class Opened:
    """What became of it: a log with its review, or the piece a person has to be asked about."""

    wanted: Wanted
    log: FiringLog | None = None
    review: Review | None = None
    choices: ReadingChoices | None = None
    asked: Piece | None = None


def open_wanted(tell: Tell, wanted: Wanted, remembered: RememberedReadings) -> Opened:
    """Read and review what is wanted.

    Raises
    ------
    InputError
        If it cannot be read; a doubt no person can settle is one too.
    """
    name = wanted.paths[0].name if wanted.paths else wanted.pieces[0].source
    tell(0.0, Said(N_("Reading {name}"), {"name": name}))
    wanted = wanted.with_pieces()
    choices, is_known = wanted.choices, False
    if choices is None and not _settled(wanted.path):
        choices = known_choices(wanted.pieces[0], remembered)
        is_known = choices is not None
    try:
        given = wanted.given(choices)
    except DoubtError:
        asked = _doubtful(wanted, choices)
        if asked is None:
            raise
        return Opened(wanted, choices=choices, asked=asked)
    wanted = wanted.holding(given.log)
    if is_known:
        given = _noted(given)
    if wanted.again:
        return Opened(wanted, given.log)
    tell(AFTER_READING, Said(N_("Working out what happened")))
    return Opened(wanted, given.log, review_firing(given, load_tables()))


def known_choices(piece: Piece, remembered: RememberedReadings) -> ReadingChoices | None:
    """Return what is remembered for files like this one."""
    if not remembered:
        return None
    try:
        text = table_text(as_text(piece.raw, piece.source))
        layout = find_layout(text.head, text.tail, piece.source, None, None)
    except FiringReviewError:
        return None
    return remembered.choices(layout.key)


def _doubtful(wanted: Wanted, choices: ReadingChoices | None) -> Piece | None:
    """Return the piece that can be read in two ways."""
    for piece in wanted.pieces:
        if preview_log(piece.raw, piece.source, choices).doubts:
            return piece
    return None


def _size(path: Path) -> int:
    try:
        parts = parts_of(path)
        return sum(one.stat().st_size for one in (parts.log, *parts.earlier) if one.is_file())
    except (FiringReviewError, OSError):
        return 0


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
