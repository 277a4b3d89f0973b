"""The chamber from the side for paper: shelves, cones at their true bend, hotter or colder."""

from collections.abc import Sequence
from dataclasses import dataclass

from firing_review.firing.cones import ShelfCone
from firing_review.firing.results import ShelfHeat
from firing_review.firing.wording import tr
from firing_review.report.cone_outline import cone_outline
from firing_review.report.paper.page import Picture
from firing_review.report.paper.svg import (
    COLD,
    FAINT,
    HOT,
    INK,
    MUTED,
    PANEL,
    WHITE,
    Svg,
    width_of,
)
from firing_review.report.shelves import SIGNS, shelf_names
from firing_review.report.shown_text import shown
from firing_review.report.text import SHELF_WORDS
from firing_review.report.wording import (
    Show,
    cone_label,
    cone_temperature_c,
    difference,
    temperature,
)
from firing_review.review.review import Review

WIDTH = 520.0
NAMES, CHAMBER, WALL = 84.0, 236.0, 12.0
SHELVES = (60.0, 48.0)
"""Height of a shelf, at ease and where the page is short."""
WORDS_AT = NAMES + CHAMBER + 2 * WALL + 10.0
CONE_LENGTH = 28.0
MOST_ROOMY = 3
SIZE, SMALL = 10.0, 8.5
MOST_SHELVES = 9
"""With more shelves the map would not leave room for anything else; the rest is told in words."""
TINTS = {"hot": HOT, "cold": COLD}


@dataclass(frozen=True)
class _Band:
    """One shelf: its name, its top and the plate it stands on."""

    name: str
    top: float
    floor: float


def chamber_map(review: Review, show: Show, *, low: bool = False) -> Picture | None:
    """Return the chamber, less high if asked; None where no shelf has anything to show."""
    if not review.given.cones and not review.shelves:
        return None
    names = shelf_names(review)[:MOST_SHELVES]
    count, high = len(names), SHELVES[low and show is not Show.BOTH]
    bands = [
        _Band(name, WALL + (count - 1 - k) * high, WALL + (count - k) * high)
        for k, name in enumerate(names)
    ]
    svg = Svg(WIDTH, count * high + 2 * WALL + 18.0)
    heats = {heat.shelf: heat for heat in review.shelves}
    _walls(svg, bands, review)
    for band in bands:
        heat = heats.get(band.name)
        _shelf(svg, band, heat)
        cones = [cone for cone in review.given.cones if cone.shelf == band.name]
        _cones(svg, band, cones)
        _words(svg, band, heat, show)
    _legend(svg, review.given.cones, show)
    return Picture(svg.text(), svg.width, svg.height, _said(names, heats))


def _said(names: Sequence[str], heats: dict[str, ShelfHeat]) -> str:
    parts = [
        f"{shown(name)}: {tr(SHELF_WORDS[heats[name].word])}" for name in names if name in heats
    ]
    return tr("The chamber from the side. {shelves}.").format(shelves="; ".join(parts))


def _walls(svg: Svg, bands: Sequence[_Band], review: Review) -> None:
    left, right = NAMES + WALL, NAMES + WALL + CHAMBER
    bottom = bands[0].floor
    svg.box((NAMES, 0.0), (CHAMBER + 2 * WALL, bottom + WALL), PANEL, FAINT, 0.8)
    svg.box((left, WALL), (CHAMBER, bottom - WALL), WHITE, FAINT, 0.8)
    for band in bands:
        for x in (NAMES, right):
            for share in (0.33, 0.7):
                _coil(svg, x, band.top + (band.floor - band.top) * share)
    if review.firing is not None:
        several = len(review.given.log.temperatures) >= len(bands) > 1
        heights = [(b.top + b.floor) / 2 for b in bands] if several else [(WALL + bottom) / 2]
        for y in heights:
            svg.line((NAMES - 4, y - 12), (left + 13, y - 12), INK, 2.0)
        svg.words((NAMES - 8, heights[-1] - 15), tr("probe"), SMALL, MUTED, "end")


def _coil(svg: Svg, x: float, y: float) -> None:
    """Draw a heating element in its groove."""
    step = (WALL - 4) / 6
    svg.curve(
        [(x + 2 + k * step, y + (0 if k == 0 else 3 if k % 2 else -3)) for k in range(7)],
        MUTED,
        1.0,
    )


def _shelf(svg: Svg, band: _Band, heat: ShelfHeat | None) -> None:
    left = NAMES + WALL
    word = heat.word if heat else ""
    if word in TINTS:
        size = (CHAMBER - 4.0, band.floor - band.top - 8.0)
        svg.hatch((left + 2, band.top + 2), size, rising=word == "hot", color=TINTS[word])
    svg.box((left + 6, band.floor - 5), (CHAMBER - 12, 4.0), MUTED, INK, 0.6)
    svg.words((NAMES - 8, band.floor - 24), shown(band.name, 14), SIZE, INK, "end", bold=True)


def _cones(svg: Svg, band: _Band, cones: Sequence[ShelfCone]) -> None:
    """Draw the cones at their bend, their numbers on a plain ground."""
    step = min(66.0, (CHAMBER - 40.0) / max(len(cones), 1))
    for place, cone in enumerate(cones):
        x, y = NAMES + WALL + 34.0 + place * step, band.floor - 17.0
        svg.line((x, y), (x + CONE_LENGTH * 0.85, y), FAINT, 0.6, "3 2")
        outline = cone_outline(cone.bend_deg, CONE_LENGTH)
        svg.shape([(x + dx, y + dy) for dx, dy in outline], WHITE, INK, 1.3)
        text = cone.cone.text
        if len(cones) <= MOST_ROOMY:
            text += f" · {round(cone.bend_deg)}°"
        svg.box((x - 8, y + 2), (width_of(text, SMALL) + 4, 9.5), WHITE, WHITE, 0.0)
        svg.words((x - 6, y + 10), text, SMALL, INK, bold=True)


def _words(svg: Svg, band: _Band, heat: ShelfHeat | None, show: Show) -> None:
    y = band.top + 13.0
    if heat is None:
        svg.words((WORDS_AT, y + 12), tr("no cones"), SIZE, MUTED)
        return
    head = f"{SIGNS[heat.word]} {tr(SHELF_WORDS[heat.word])}"
    svg.words((WORDS_AT, y), head, SIZE, INK, bold=True)
    for place, line in enumerate(_lines(heat, show)):
        svg.words((WORDS_AT, y + 11 + 10.0 * place), line, SMALL + 0.5, INK)


def _lines(heat: ShelfHeat, show: Show) -> list[str]:
    """Return what is known of a shelf in a few short lines."""
    lines = []
    if heat.label:
        text = tr("got cone {cone}").format(cone=cone_label(heat.label, show))
        lines = text.replace(" (", "\n(").split("\n") if show is Show.BOTH else [text]
    if heat.offset_c is None or heat.low_c is None or heat.high_c is None:
        return [*lines, tr("only a bound: no cone stopped"), tr("in the middle of its bend")]
    word = tr("hotter than its log") if heat.offset_c >= 0 else tr("colder than its log")
    lines.append(f"{difference(abs(heat.offset_c), show)} {word}")
    units = (Show.CELSIUS, Show.FAHRENHEIT) if show is Show.BOTH else (show,)
    spans = [_span(heat.low_c, heat.high_c, unit) for unit in units]
    return [*lines, tr("(range {span})").format(span="; ".join(spans))]


def _span(low_c: float, high_c: float, unit: Show) -> str:
    """Return a range of differences with its signs, the unit once."""
    low, high = (_sign(value) + difference(abs(value), unit) for value in (low_c, high_c))
    return tr("{low} to {high}").format(low=low.rsplit(" ", 1)[0], high=high)


def _sign(value: float) -> str:
    return "+" if round(value) > 0 else "−" if round(value) < 0 else ""


def _legend(svg: Svg, cones: Sequence[ShelfCone], show: Show) -> None:
    """Write each cone number once with its temperature, so that 06 and 6 stay apart."""
    numbers = dict.fromkeys(cone.cone for cone in cones)
    parts = []
    for number in sorted(numbers):
        value_c = cone_temperature_c(number.text)
        if value_c is not None:
            parts.append(f"{number.text} = {temperature(value_c, show)}")
    if not parts:
        return
    text = tr("Cones at their bend, 90° is the end point; at 60 °C an hour: {cones}.")
    if show is Show.FAHRENHEIT:
        text = tr("Cones at their bend, 90° is the end point; at 108 °F an hour: {cones}.")
    line = text.format(cones=", ".join(parts))
    size = min(SMALL, WIDTH / max(width_of(line, 1.0), 1.0))
    svg.words((0.0, svg.height - 5.0), line, size, MUTED)
