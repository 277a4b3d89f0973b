"""What stands on a page, before anybody draws it: the same for HTML, PDF and text."""

from dataclasses import dataclass
from enum import StrEnum

from firing_review.firing.results import Light


class Paper(StrEnum):
    """Sizes of paper."""

    A4 = "A4"
    LETTER = "Letter"


class Reader(StrEnum):
    """Who a page is for."""

    MAKER = "maker"
    OFFICE = "office"
    TECHNICIAN = "technician"
    CASE = "case"


@dataclass(frozen=True)
class Picture:
    """A drawing as SVG, with its size [points] and what it shows in words."""

    svg: str
    width: float
    height: float
    said: str


@dataclass(frozen=True)
class Heading:
    """The head of a part."""

    text: str


@dataclass(frozen=True)
class Words:
    """A paragraph; ``strong`` is the answer, ``quiet`` is small."""

    text: str
    strong: bool = False
    quiet: bool = False


@dataclass(frozen=True)
class Point:
    """One line of a list: its mark (a number, a sign, a box to tick), bold words, the rest."""

    mark: str
    text: str
    bold: str = ""


@dataclass(frozen=True)
class Points:
    """A list."""

    points: tuple[Point, ...]


@dataclass(frozen=True)
class Mark:
    """One of the three marks: its name, its shape, its words."""

    name: str
    light: Light
    text: str


@dataclass(frozen=True)
class Marks:
    """The marks side by side."""

    marks: tuple[Mark, ...]


@dataclass(frozen=True)
class Table:
    """A table; ``shares`` are the widths of the columns as shares of the whole.

    ``tall`` leaves room to write in by hand.
    """

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    shares: tuple[float, ...]
    tall: bool = False


@dataclass(frozen=True)
class Framed:
    """Words in a thick frame: danger and caution."""

    title: str
    text: str


Block = Heading | Words | Points | Marks | Table | Framed | Picture


@dataclass(frozen=True)
class Page:
    """A page: a word for its kind, its title, a line under it, what stands on it, its foot.

    Attributes
    ----------
    shorter : Page or None
        The same with less on it, for paper where the whole does not fit on one sheet.
    """

    kind: str
    title: str
    under: str
    blocks: tuple[Block, ...]
    foot: str
    shorter: "Page | None" = None
