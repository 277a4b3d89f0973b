"""Witness cones as rows of a small table: shelf, cone, bend, position, kind."""

from collections.abc import Sequence
from dataclasses import dataclass

from firing_review.firing.cones import ShelfCone
from firing_review.firing.errors import InputError
from firing_review.firing.kiln import Kiln
from firing_review.firing.said import N_
from firing_review.firing.wording import as_typed, tr
from firing_review.io.cones_file import parse_cones_text
from firing_review.ui.text_table.model import Cells

COLUMNS = ("shelf", "cone", "bend_deg", "position", "kind")
NEEDED = 3
WORDS = (
    N_("upright"),
    N_("starting"),
    N_("half"),
    N_("three quarters"),
    N_("end point"),
    N_("flat"),
    N_("melted"),
    N_("large"),
    N_("small"),
)
"""Words of bends and kinds; in a cell they may stand in the language of the screen."""
USUAL_KIND = "self_supporting"


@dataclass(frozen=True)
class ConesRead:
    """What the rows say: cones, or None with the cells that cannot be used."""

    cones: tuple[ShelfCone, ...] | None
    wrong: dict[tuple[int, int], str]


def headings() -> tuple[str, ...]:
    """Return the headings of the table."""
    return (tr("shelf"), tr("cone"), tr("bend"), tr("where"), tr("kind"))


def cells_of(cone: ShelfCone) -> Cells:
    """Return a cone as a row."""
    kind = "" if cone.kind.value == USUAL_KIND else tr(cone.kind.value)
    return (cone.shelf, cone.cone.text, as_typed(f"{cone.bend_deg:g}"), cone.position, kind)


def read_rows(rows: Sequence[Cells], kiln: Kiln | None) -> ConesRead:
    """Read every row that has shelf, cone and bend; unfinished rows wait."""
    cones: list[ShelfCone] = []
    wrong: dict[tuple[int, int], str] = {}
    for number, cells in enumerate(rows):
        if not all(cells[:NEEDED]):
            continue
        try:
            cones += _read_row(cells, kiln)
        except InputError as error:
            column = min(max((error.column or 1) - 1, 0), len(COLUMNS) - 1)
            wrong[number, column] = str(error)
    return ConesRead(None if wrong else tuple(cones), wrong)


def _read_row(cells: Cells, kiln: Kiln | None) -> tuple[ShelfCone, ...]:
    shelf, cone, bend, position = cells[:4]
    kind = _in_files(cells[4]) or USUAL_KIND
    text = ";".join(COLUMNS) + "\n" + ";".join((shelf, cone, _in_files(bend), position, kind))
    return parse_cones_text(text, tr("Cones"), kiln)


def _in_files(word: str) -> str:
    """Return a word of the screen as files have it; anything else as it is."""
    here = {tr(known).casefold(): known for known in WORDS}
    return here.get(word.strip().casefold(), word)
