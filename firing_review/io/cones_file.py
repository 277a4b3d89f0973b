"""Witness cones as a small table: shelf, position, cone, kind, bend.

Shelves are named as in the kiln sheet or counted from the floor up; the bend is degrees from the
unmoved position or one of seven words.
"""

import csv
import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from firing_review.firing.cones import (
    BEND_DEG,
    CONE_SCALE,
    Bend,
    ConeKind,
    ConeNumber,
    ConeTable,
    ShelfCone,
    parse_cone,
)
from firing_review.firing.errors import InputError
from firing_review.firing.kiln import Kiln
from firing_review.firing.log import FiringLog, ReadingNote
from firing_review.firing.said import N_, Said
from firing_review.firing.sheet import Given
from firing_review.firing.wording import tr
from firing_review.io.csv_cells import guarded, unguarded
from firing_review.io.known_words import did_you_mean, plain
from firing_review.io.plain_text import Row, parse_number, read_small_text, table_rows

COLUMNS = ("shelf", "position", "cone", "kind", "bend_deg", "reading_error_deg")
_NEEDED = ("shelf", "cone", "kind", "bend_deg")
BEND_LIMIT_DEG = 180.0
READING_ERROR_DEG = 5.0
"""Usual error of a bend read by eye [°]; a file says otherwise in ``reading_error_deg``."""
NEAR_GOAL_RANKS = 3
"""Cones of one pack stand within about this many numbers of the goal."""
NEAR_PEAK_C = 60.0
"""A pack is chosen to bend near the peak [°C]: a hold or a slow climb moves it by about this."""
LOST_ZERO = "possible_lost_zero"

_EXPECTED = N_("witness cones as a table of text (CSV)")
_REMEDY = N_("Begin with the line shelf,position,cone,kind,bend_deg, then one line a cone.")


def read_cones(path: Path, kiln: Kiln | None) -> tuple[ShelfCone, ...]:
    """Read a cones file; with a kiln its shelves are checked.

    Raises
    ------
    InputError
        With line and column of the first cell that cannot be read.
    """
    text = read_small_text(
        path, tr(_EXPECTED), tr("Save the cones as CSV text.") + " " + tr(_REMEDY)
    )
    return parse_cones_text(text, str(path), kiln)


def parse_cones_text(text: str, where: str, kiln: Kiln | None) -> tuple[ShelfCone, ...]:
    """Read witness cones from text, as in a file or pasted."""
    rows = table_rows(text)
    if not rows:
        raise InputError(where, tr(_EXPECTED), tr("no rows"), tr(_REMEDY))
    columns = _columns(rows[0], where)
    reader = _ConeReader(where, columns, kiln.shelf_names if kiln else ())
    return tuple(reader.cone(row) for row in rows[1:])


def _columns(header: Row, where: str) -> Mapping[str, int]:
    found: dict[str, int] = {}
    for index, cell in enumerate(header.cells):
        name = "bend_deg" if plain(cell) == "bend" else plain(cell)
        if name and (name not in COLUMNS or name in found):
            expected = tr("columns {columns}").format(columns=", ".join(COLUMNS[:5]))
            remedy = did_you_mean(name, [c for c in COLUMNS if c not in found], tr(_REMEDY))
            raise InputError(where, expected, repr(cell), remedy, header.line, index + 1)
        if name:
            found[name] = index
    missing = [name for name in _NEEDED if name not in found]
    if missing:
        found_text = repr(",".join(header.cells))
        raise InputError(
            where,
            tr("a column {missing}").format(missing=missing[0]),
            found_text,
            tr(_REMEDY),
            header.line,
        )
    return found


@dataclass(frozen=True)
class _ConeReader:
    """What it takes to read one row: the file, its columns, the shelves there are."""

    where: str
    columns: Mapping[str, int]
    shelves: Sequence[str]

    def cone(self, row: Row) -> ShelfCone:
        number = self._text(row, "cone")
        try:
            parsed = parse_cone(number, self.where, row.line)
        except InputError as error:
            error.column = self.columns["cone"] + 1
            raise
        return ShelfCone(
            shelf=self._shelf(row),
            position=self._text(row, "position"),
            cone=parsed,
            kind=self._kind(row),
            bend_deg=self._bend(row),
            reading_error_deg=self._reading_error(row),
        )

    def _text(self, row: Row, name: str) -> str:
        return unguarded(row.cell(self.columns[name])) if name in self.columns else ""

    def _refuse(self, row: Row, name: str, expected: str, remedy: str) -> InputError:
        found = repr(self._text(row, name)) if self._text(row, name) else tr("nothing")
        column = self.columns[name] + 1
        return InputError(self.where, expected, found, remedy, row.line, column)

    def _shelf(self, row: Row) -> str:
        text = self._text(row, "shelf")
        if not text:
            raise self._refuse(row, "shelf", tr("the name of a shelf"), tr("Name the shelf."))
        if not self.shelves:
            return text
        named = next((shelf for shelf in self.shelves if plain(shelf) == plain(text)), None)
        if named is not None:
            return named
        if text.isdecimal() and 1 <= int(text) <= len(self.shelves):
            return self.shelves[int(text) - 1]
        listed = ", ".join(self.shelves)
        expected = tr("a shelf of the kiln, from the floor up {listed}").format(listed=listed)
        count = len(self.shelves)
        remedy = did_you_mean(
            text,
            self.shelves,
            tr("Write one of these, or a number 1 to {count}.").format(count=count),
        )
        raise self._refuse(row, "shelf", expected, remedy)

    def _kind(self, row: Row) -> ConeKind:
        text = plain(self._text(row, "kind"))
        words = [kind.value for kind in ConeKind]
        if text not in words:
            remedy = did_you_mean(text, words, tr("Write one of these words."))
            raise self._refuse(row, "kind", tr("self_supporting, large or small"), remedy)
        return ConeKind(text)

    def _bend(self, row: Row) -> float:
        text = self._text(row, "bend_deg")
        words = [bend.value for bend in Bend]
        if plain(text) in words:
            return BEND_DEG[Bend(plain(text))]
        degrees = parse_number(text.rstrip("°"))
        if degrees is None or not 0.0 <= degrees <= BEND_LIMIT_DEG:
            remedy = did_you_mean(
                text, words, tr("0 is unmoved, 90 the end point with the tip level with the base.")
            )
            expected = tr("degrees of bend from 0 to {bend_limit_deg:.0f}, or {words}").format(
                bend_limit_deg=BEND_LIMIT_DEG, words=", ".join(words)
            )
            raise self._refuse(row, "bend_deg", expected, remedy)
        return degrees

    def _reading_error(self, row: Row) -> float:
        text = self._text(row, "reading_error_deg")
        if not text:
            return READING_ERROR_DEG
        degrees = parse_number(text)
        if degrees is None or degrees <= 0.0:
            remedy = tr("Leave it empty for the usual 5 degrees.")
            raise self._refuse(row, "reading_error_deg", tr("degrees above 0"), remedy)
        return degrees


def cones_text(cones: Sequence[ShelfCone]) -> str:
    """Return the text of a cones file; ``cone 06`` keeps its zero in a spreadsheet."""
    told = any(cone.reading_error_deg != READING_ERROR_DEG for cone in cones)
    out = io.StringIO()
    hashed = any(cone.shelf.startswith("#") for cone in cones)  # else read as a comment
    writer = csv.writer(
        out, lineterminator="\n", quoting=csv.QUOTE_ALL if hashed else csv.QUOTE_MINIMAL
    )
    writer.writerow(COLUMNS if told else COLUMNS[:5])
    for cone in cones:
        position = " ".join(cone.position.split())
        row = [guarded(cone.shelf), guarded(position), f"cone {cone.cone}", cone.kind.value]
        row.append(_exact(cone.bend_deg))
        writer.writerow([*row, _exact(cone.reading_error_deg)] if told else row)
    return out.getvalue()


def _exact(number: float) -> str:
    return repr(float(number)).removesuffix(".0")


def possible_lost_zero(
    cone: ConeNumber, goal_cone: ConeNumber | None, peak_c: float | None, table: ConeTable
) -> ConeNumber | None:
    """Return the cone meant, if a bare 1 to 10 looks like one whose zero a spreadsheet dropped.

    It does when the number with a zero fits the goal (or, without a goal, the peak of the log)
    and the bare number does not.
    """
    zeroed = f"0{cone}"
    if zeroed not in CONE_SCALE:
        return None
    meant = ConeNumber(zeroed)
    if goal_cone is not None:
        fits = abs(meant.rank - goal_cone.rank) <= NEAR_GOAL_RANKS
        return meant if fits and abs(cone.rank - goal_cone.rank) > NEAR_GOAL_RANKS else None
    ends = {n: end for n in (cone, meant) if (end := _end_point_c(n, table)) is not None}
    if peak_c is None or len(ends) < 2:
        return None
    fits = abs(ends[meant] - peak_c) <= NEAR_PEAK_C
    return meant if fits and abs(ends[cone] - peak_c) > NEAR_PEAK_C else None


def _end_point_c(cone: ConeNumber, table: ConeTable) -> float | None:
    cells = [cell for cell in table.of_kind(ConeKind.SELF_SUPPORTING) if cell.cone == cone]
    return min(cells, key=lambda c: abs(c.rate_c_per_h - 60.0)).temperature_c if cells else None


def note_lost_zeros(given: Given, table: ConeTable) -> Given:
    """Return the same with every cone that may have lost its zero named among the log's notes."""
    kept = tuple(note for note in given.log.notes if note.kind != LOST_ZERO)
    peak_c = _peak_c(given.log)
    doubts: dict[ConeNumber, ConeNumber] = {}
    for witness in given.cones:
        meant = possible_lost_zero(witness.cone, given.goal_cone, peak_c, table)
        if meant is not None:
            doubts[witness.cone] = meant
    notes = tuple(
        ReadingNote(LOST_ZERO, _doubt(cone, meant, table), _count(given, cone))
        for cone, meant in doubts.items()
    )
    if kept + notes == given.log.notes:
        return given
    return replace(given, log=replace(given.log, notes=kept + notes))


def _count(given: Given, cone: ConeNumber) -> int:
    return sum(witness.cone == cone for witness in given.cones)


def _doubt(cone: ConeNumber, meant: ConeNumber, table: ConeTable) -> Said:
    return Said(
        N_(
            "The cones file says cone {cone} (about {end_point_c}); cone {meant_cone} (about "
            "{meant_c}) would fit this firing. A spreadsheet may have dropped the zero: "
            "write it as text, cone {meant_cone}"
        ),
        {
            "cone": cone.text,
            "end_point_c": _end_point_c(cone, table),
            "meant_cone": meant.text,
            "meant_c": _end_point_c(meant, table),
        },
    )


def _peak_c(log: FiringLog) -> float | None:
    tops = [float(np.nanmax(c.values)) for c in log.temperatures if np.isfinite(c.values).any()]
    return max(tops) if tops else None
