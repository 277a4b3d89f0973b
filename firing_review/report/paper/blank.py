"""Blank sheets to write on by hand: cones by shelf, and readings of the heating elements."""

from enum import StrEnum

from firing_review.firing.cones import BEND_DEG
from firing_review.firing.kiln import Kiln, Section
from firing_review.firing.said import N_
from firing_review.firing.wording import tr
from firing_review.report.cone_outline import cone_outline
from firing_review.report.paper import parts
from firing_review.report.paper.page import (
    Block,
    Framed,
    Heading,
    Page,
    Picture,
    Point,
    Points,
    Table,
    Words,
)
from firing_review.report.paper.svg import FAINT, INK, MUTED, WHITE, Svg
from firing_review.report.paper.technician import SUPPLY_WORDS, rated_amps_text, with_unit
from firing_review.report.shelves import BEND_WORDS
from firing_review.report.shown_text import LONGEST_NAME, shown

USUAL_SHELVES = (N_("bottom"), N_("middle"), N_("top"))
CONES_A_SHELF, MOST_ROWS = 4, 18
READINGS_CAUTION = N_(
    "Local codes come first; where they say so, all of this is for a qualified person. "
    "Ohms: breaker off, plug out, kiln cold, proved dead, one end of the circuit off. "
    "Volts and amps under load: only a licensed electrician. Photograph the wires before one is "
    "taken off."
)


class BlankSheet(StrEnum):
    """The blank sheets there are."""

    CONES = "cones"
    READINGS = "readings"


def blank_page(sheet: BlankSheet, kiln: Kiln | None) -> Page:
    """Return a blank sheet, with the names of the kiln's shelves and sections if it is known."""
    return cones_sheet(kiln) if sheet is BlankSheet.CONES else readings_sheet(kiln)


def _page(kind: str, kiln: Kiln | None, blocks: tuple[Block, ...]) -> Page:
    name = shown(kiln.name, LONGEST_NAME) if kiln is not None and kiln.name else "____________"
    title = tr("Kiln {name}").format(name=name)
    return Page(kind, title, "", blocks, tr(parts.FOOT))


def _lines_to_fill(*names: str) -> Table:
    """Return one row of names with room to write beside each."""
    cells = tuple(part for name in names for part in (name, ""))
    shares = tuple(share for _ in names for share in (0.4 / len(names), 0.6 / len(names)))
    return Table(cells, (), shares, tall=True)


def cones_sheet(kiln: Kiln | None) -> Page:
    """Return the sheet for cones: where each stood, which it was, how far it is down."""
    names = kiln.shelf_names if kiln is not None else ()
    shelves = [shown(name, 24) for name in names] or [tr(name) for name in USUAL_SHELVES]
    count = max(1, min(CONES_A_SHELF, MOST_ROWS // len(shelves)))
    rows = tuple(
        (shelf if row == 0 else "", "", "", "", "")
        for shelf in reversed(shelves)
        for row in range(count)
    )
    head = (tr("Shelf"), tr("Place"), tr("Cone"), tr("Kind"), tr("How far down"))
    return _page(
        tr("Witness cones"),
        kiln,
        (
            _lines_to_fill(tr("Day"), tr("Cone meant"), tr("Clay, glaze")),
            seven_cones(),
            Table(head, rows, (0.22, 0.2, 0.16, 0.2, 0.22), tall=True),
            Points(
                (
                    Point("–", tr("Shelves from the top down, as they stood.")),
                    Point("–", tr("Write the zero: cone 06 is not cone 6.")),
                    Point("–", tr("Kind: self-supporting, large or small.")),
                    Point("–", tr("How far down: a word of the drawings, or degrees.")),
                )
            ),
        ),
    )


def seven_cones() -> Picture:
    """Return the seven drawings with their words and degrees."""
    svg, length = Svg(520.0, 74.0), 34.0
    step = svg.width / len(BEND_WORDS)
    for place, (bend, word) in enumerate(BEND_WORDS.items()):
        x, y = place * step + 18.0, 44.0
        svg.line((x - 8, y), (x + 40, y), FAINT, 0.7)
        outline = cone_outline(BEND_DEG[bend], length)
        svg.shape([(x + dx, y + dy) for dx, dy in outline], WHITE, INK, 1.3)
        middle = place * step + step / 2
        svg.words((middle, 57.0), tr(word), 8.5, INK, "middle")
        svg.words((middle, 68.0), f"{round(BEND_DEG[bend])}°", 8.5, MUTED, "middle")
    return Picture(svg.text(), svg.width, svg.height, tr("Seven cones from unmoved to melted."))


def readings_sheet(kiln: Kiln | None) -> Page:
    """Return the sheet for meter readings, with the listed values of a kiln that is known."""
    sections = list(kiln.sections) if kiln is not None else []
    sections = sections or [Section(tr(name)) for name in USUAL_SHELVES]
    rows = [
        (shown(s.name, 24), with_unit(s.rated_kw, "kW", 2) or "",
         with_unit(s.rated_cold_ohms, "Ω", 2) or "", "", "", "")
        for s in reversed(sections)
    ]  # fmt: skip
    head = (
        tr("Section"),
        tr("Listed power"),
        tr("Listed, cold"),
        tr("Ω read, cold"),
        tr("A at full power"),
        tr("Glows? Remarks"),
    )
    supply = (
        (tr("at rest"), "", ""),
        (tr("at full power"), "", ""),
    )
    return _page(
        tr("Readings of the heating elements"),
        kiln,
        (
            Framed(tr("Before a cover is opened"), tr(READINGS_CAUTION)),
            _lines_to_fill(tr("Day"), tr("Meter"), tr("Firings since new")),
            Heading(tr("Plate")),
            *_plate(kiln),
            Heading(tr("Supply")),
            Table(("", tr("Volts"), tr("Which lines; what else was on")), supply,
                  (0.25, 0.2, 0.55), tall=True),
            Heading(tr("Sections, from the top down")),
            Table(head, tuple(rows), (0.16, 0.17, 0.15, 0.15, 0.15, 0.22), tall=True),
            Heading(tr("What was changed, and what was seen")),
            Table(("",), (("",),) * 4, (1.0,), tall=True),
        ),
    )  # fmt: skip


def _plate(kiln: Kiln | None) -> tuple[Block, ...]:
    """Return the plate as known, else room to write it in."""
    if kiln is None or kiln.rated_volts is None:
        return (_lines_to_fill(tr("Volts"), tr("Phases"), tr("kW"), tr("A")),)
    known = (
        with_unit(kiln.rated_volts, "V"),
        tr(SUPPLY_WORDS[kiln.supply]) if kiln.supply else None,
        with_unit(kiln.rated_kw, "kW", 2),
        rated_amps_text(kiln),
    )
    return (Words(", ".join(part for part in known if part)),)
