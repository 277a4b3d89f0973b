"""What a kiln book holds beside its firings, as frozen values."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from enum import StrEnum

from firing_review.book.summary import Summary
from firing_review.firing.kiln import Kiln
from firing_review.firing.sheet import Readings


class ChangeKind(StrEnum):
    """What was changed at a kiln."""

    ELEMENTS = "elements"
    PROBE = "probe"
    RELAY = "relay"
    OTHER = "other"


@dataclass(frozen=True)
class KilnKept:
    """A kiln of the book with the number of its firings."""

    id: int
    kiln: Kiln
    firings: int = 0


@dataclass(frozen=True)
class FiringKept:
    """A firing as a list shows it, without its log.

    Attributes
    ----------
    kiln_id : int or None
        None is a firing without a kiln.
    fired_on : date or None
        The day a person gave it; it goes before the clock of the log.
    """

    id: int
    kiln_id: int | None
    summary: Summary
    fired_on: date | None
    added_at: datetime
    changed_at: datetime

    @property
    def when(self) -> datetime | None:
        """When it was fired; None if neither the log nor a person says."""
        begun = self.summary.started_at
        if self.fired_on is None:
            return None if begun is None else begun.replace(tzinfo=None)
        if begun is not None and begun.date() == self.fired_on:
            return begun.replace(tzinfo=None)
        return datetime.combine(self.fired_on, datetime.min.time())

    @property
    def title(self) -> str:
        """The person's title, else the name of the log."""
        return self.summary.title or self.summary.source


@dataclass(frozen=True)
class Added:
    """A firing put into the book; ``new`` is False if the same log was there already."""

    firing_id: int
    new: bool


@dataclass(frozen=True)
class KeptFiles:
    """The files of a firing by name, byte for byte, the path of their book, and the log's name."""

    book: str
    firing_id: int
    source: str
    files: Mapping[str, bytes]


@dataclass(frozen=True)
class Change:
    """A change at a kiln: what, when, in which sections (none named: the whole kiln).

    ``id`` is 0 before it is kept; ``readings`` are those taken at the change.
    """

    kind: ChangeKind
    on: date | None
    kiln_id: int | None = None
    sections: tuple[str, ...] = ()
    text: str = ""
    readings: Readings = field(default_factory=Readings)
    id: int = 0


@dataclass(frozen=True)
class Note:
    """A note on a kiln or a whole firing; those at a moment of a firing stand in its sheet.

    ``id`` is 0 before it is kept.
    """

    text: str
    firing_id: int | None = None
    kiln_id: int | None = None
    written_at: datetime | None = None
    id: int = 0


@dataclass(frozen=True)
class Attachment:
    """A file kept with a kiln or a firing, such as a photo of paper notes; without its bytes."""

    id: int
    name: str
    firing_id: int | None
    kiln_id: int | None
    added_at: datetime
