"""A drawing as SVG that any viewer and Qt's own renderer show alike.

Only lines, polygons and words: no script, no style sheet, no pattern fills and no clipping, so
that hatching is drawn as lines and curves are cut before they are drawn.
"""

import html
import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from firing_review.report.shown_text import shown

Spot = tuple[float, float]
INK, MUTED, FAINT, PANEL, WHITE = "#211d19", "#5c554c", "#8a8175", "#ece7df", "#ffffff"
HOT, COLD, SET_POINT = "#b34700", "#00629b", "#7a3e9d"
FONT = "Helvetica, Arial, 'DejaVu Sans', sans-serif"
LETTER_WIDTH = 0.56
"""Usual width of a letter as a share of the type size, to keep words apart."""


@dataclass
class Svg:
    """A drawing of some size [points]; parts are drawn in the order in which they are added."""

    width: float
    height: float
    parts: list[str] = field(default_factory=list)

    def line(self, a: Spot, b: Spot, color: str = INK, width: float = 1.0, dash: str = "") -> None:
        """Draw a straight line."""
        self.parts.append(
            f'<line x1="{n(a[0])}" y1="{n(a[1])}" x2="{n(b[0])}" y2="{n(b[1])}"'
            f"{_stroke(color, width, dash)}/>"
        )

    def curve(
        self, spots: Sequence[Spot], color: str = INK, width: float = 1.5, dash: str = ""
    ) -> None:
        """Draw a line through points."""
        if len(spots) > 1:
            self.parts.append(
                f'<polyline points="{_points(spots)}" fill="none" stroke-linejoin="round"'
                f"{_stroke(color, width, dash)}/>"
            )

    def shape(
        self, spots: Sequence[Spot], fill: str = "none", color: str = INK, width: float = 1.0
    ) -> None:
        """Draw a closed shape."""
        self.parts.append(
            f'<polygon points="{_points(spots)}" fill="{fill}"{_stroke(color, width, "")}/>'
        )

    def box(
        self, at: Spot, size: Spot, fill: str = "none", color: str = INK, width: float = 1.0
    ) -> None:
        """Draw a rectangle; a width of 0 draws no edge."""
        edge = _stroke(color, width, "") if width else ""
        self.parts.append(
            f'<rect x="{n(at[0])}" y="{n(at[1])}" width="{n(size[0])}" height="{n(size[1])}"'
            f' fill="{fill}"{edge}/>'
        )

    def round(self, at: Spot, radius: float, fill: str = "none", color: str = INK) -> None:
        """Draw a circle."""
        self.parts.append(
            f'<circle cx="{n(at[0])}" cy="{n(at[1])}" r="{n(radius)}" fill="{fill}"'
            f"{_stroke(color, 1.0, '')}/>"
        )

    def words(
        self,
        at: Spot,
        text: str,
        size: float = 9.0,
        color: str = INK,
        anchor: str = "start",
        *,
        bold: bool = False,
    ) -> None:
        """Write words; ``at`` is the middle, start or end of their base line."""
        weight = "bold" if bold else "normal"
        self.parts.append(
            f'<text x="{n(at[0])}" y="{n(at[1])}" font-size="{n(size)}" fill="{color}"'
            f' text-anchor="{anchor}" font-weight="{weight}">{html.escape(shown(text))}</text>'
        )

    def hatch(self, at: Spot, size: Spot, *, rising: bool, color: str, gap: float = 7.0) -> None:
        """Fill a rectangle with slanted lines, rising or falling to the right."""
        x, y = at
        wide, high = size
        for step in range(1, int((wide + high) / gap) + 1):
            along = step * gap
            a = (min(along, wide), max(along - wide, 0.0))
            b = (max(along - high, 0.0), min(along, high))
            if not rising:
                a, b = (wide - a[0], a[1]), (wide - b[0], b[1])
            self.line((x + a[0], y + a[1]), (x + b[0], y + b[1]), color, 0.7)

    def text(self) -> str:
        """Return the drawing as an SVG element."""
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {n(self.width)}'
            f' {n(self.height)}" font-family="{FONT}">{"".join(self.parts)}</svg>'
        )


def n(value: float) -> str:
    """Return a number with two digits at most."""
    return f"{value:.2f}".rstrip("0").rstrip(".")


def width_of(text: str, size: float) -> float:
    """Return about how wide words will be [points]."""
    return len(shown(text)) * size * LETTER_WIDTH


def cut(spots: Sequence[Spot], low: float, high: float) -> list[list[Spot]]:
    """Return the pieces of a line of points that lie between two heights; NaN is a gap."""
    pieces: list[list[Spot]] = [[]]
    for a, b in pairwise(spots):
        within = low <= a[1] <= high and low <= b[1] <= high
        inside = (a, b) if within else _inside(a, b, low, high)
        if inside is None:
            pieces.append([])
            continue
        if not pieces[-1] or pieces[-1][-1] != inside[0]:
            pieces.append([inside[0]])
        pieces[-1].append(inside[1])
    return [piece for piece in pieces if len(piece) > 1]


def _inside(a: Spot, b: Spot, low: float, high: float) -> tuple[Spot, Spot] | None:
    """Return the part of one straight stretch between two heights."""
    if not all(map(math.isfinite, (*a, *b))):
        return None
    if max(a[1], b[1]) < low or min(a[1], b[1]) > high:
        return None
    return _held(a, b, low, high), _held(b, a, low, high)


def _held(end: Spot, other: Spot, low: float, high: float) -> Spot:
    """Return an end, or where the stretch crosses the bound that the end lies beyond."""
    bound = min(max(end[1], low), high)
    if bound == end[1]:
        return end
    share = (bound - end[1]) / (other[1] - end[1])
    return end[0] + share * (other[0] - end[0]), bound


def _points(spots: Sequence[Spot]) -> str:
    """Return points to a tenth, which is finer than a printer's dot is seen."""
    return " ".join(f"{x:.1f},{y:.1f}" for x, y in spots)


def _stroke(color: str, width: float, dash: str) -> str:
    dashes = f' stroke-dasharray="{dash}"' if dash else ""
    return f' stroke="{color}" stroke-width="{n(width)}"{dashes}'
