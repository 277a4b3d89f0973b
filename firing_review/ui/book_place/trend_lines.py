"""Trends of one kiln or of several, made ready to be drawn in one chart."""

from collections.abc import Mapping
from dataclasses import dataclass

from firing_review.book.nouns import ChangeKind, KilnKept
from firing_review.book.trends import TrendKind, TrendMark, TrendPoint, Trends, TrendSeries, since
from firing_review.firing.said import Said
from firing_review.firing.wording import tr
from firing_review.report.wording import NOT_KNOWN
from firing_review.ui.book_place.kilns_table import KilnRow
from firing_review.ui.book_place.trend_chart import TrendLine

LEAST_POINTS = 2


@dataclass(frozen=True)
class Figure:
    """One figure that can be followed, of one kiln or of several with their names."""

    kind: TrendKind
    name: Said
    series: tuple[TrendSeries, ...]
    kilns: tuple[str, ...]
    marks: tuple[TrendMark, ...]


def figures_of(trends: Mapping[int | None, Trends], names: Mapping[int, str]) -> list[Figure]:
    """Return the figures that a kiln has for two firings; changes are marked for one kiln only."""
    found: dict[tuple[TrendKind, str], list[tuple[TrendSeries, str]]] = {}
    for kiln_id, one in trends.items():
        for series in one.series:
            if len(series.points) >= LEAST_POINTS:
                found.setdefault((series.kind, series.of), []).append((series, names[kiln_id]))
    marks = next(iter(trends.values())).marks if len(trends) == 1 else ()
    return [
        Figure(
            kind,
            pairs[0][0].name,
            tuple(series for series, _ in pairs),
            tuple(name for _, name in pairs),
            marks,
        )
        for (kind, _), pairs in found.items()
    ]


def lines_of(figure: Figure) -> list[TrendLine]:
    """Return one line a kiln, or for one kiln one line a group of like firings."""
    if len(figure.series) > 1:
        pairs = zip(figure.kilns, figure.series, strict=True)
        return [TrendLine(name, series.points) for name, series in pairs]
    groups: dict[str, list[TrendPoint]] = {}
    for point in figure.series[0].points:
        groups.setdefault(point.group, []).append(point)
    return [TrendLine(_group_words(name), tuple(points)) for name, points in groups.items()]


def _group_words(group: str) -> str:
    if not group:
        return tr("no goal named")
    number = group.split(maxsplit=1)[0]
    is_cone = "°" not in group and number.isdigit()
    return tr("cone {number}").format(number=group) if is_cone else group


def kiln_row(kept: KilnKept, trends: Trends) -> KilnRow:
    """Return a kiln as a row: its firings, those since new heating elements, its last power."""
    first = since(trends.marks, (ChangeKind.ELEMENTS,))
    changed = any(mark.change.kind is ChangeKind.ELEMENTS for mark in trends.marks)
    power = trends.of(TrendKind.POWER)
    last = f"{round(100 * power.points[-1].value)} %" if power else NOT_KNOWN
    fresh = str(max(kept.firings - first + 1, 0)) if changed else NOT_KNOWN
    return KilnRow((kept.kiln.name, str(kept.firings), fresh, last))
