"""Firings of a book as rows: date, name, kiln, goal, verdict, lights, hours."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QObject, QRegularExpression, QSortFilterProxyModel, Qt

from firing_review.book.nouns import FiringKept
from firing_review.firing.results import Light
from firing_review.firing.said import N_
from firing_review.firing.wording import day as day_words
from firing_review.firing.wording import tr
from firing_review.report import wording
from firing_review.report.wording import Show
from firing_review.ui.rows_model import RowsModel

DATE, FIRING, KILN, GOAL, LOAD, KILN_LIGHT, SAFETY, HOURS, VERDICT = range(9)
HEADINGS = (
    N_("Date"),
    N_("Firing"),
    N_("Kiln"),
    N_("Goal"),
    N_("Load"),
    N_("Kiln state"),
    N_("Safety"),
    N_("Heating"),
    N_("Verdict"),
)
LIGHT_COLUMNS = (LOAD, KILN_LIGHT, SAFETY)
LIGHT_WORDS = {
    Light.FINE: N_("fine"),
    Light.WATCH: N_("watch"),
    Light.STOP: N_("stop"),
    Light.UNKNOWN: N_("not known"),
    Light.NOT_ASKED: N_("not asked"),
}
_WORST_LAST = (Light.FINE, Light.UNKNOWN, Light.NOT_ASKED, Light.WATCH, Light.STOP)
ID_ROLE, SORT_ROLE, LIGHT_ROLE, FIND_ROLE = (Qt.ItemDataRole.UserRole + n for n in range(4))


@dataclass(frozen=True)
class FiringRow:
    """One firing as listed; ``find`` is what a search looks into.

    ``order`` sorts each column but the first, whose order is that of the firings themselves.
    """

    cells: tuple[str, ...]
    order: tuple[str | float, ...]
    lights: tuple[Light, Light, Light]
    find: str


def firing_row(kept: FiringKept, kilns: Mapping[int, str], show: Show) -> FiringRow:
    """Return a firing as a row in the unit of the screen."""
    summary, when = kept.summary, kept.when
    kiln = kilns.get(kept.kiln_id or 0, "")
    goal = summary.goal_cone or ""
    goal_text = wording.cone_label(goal, show) if goal else ""
    verdict = wording.render_all(summary.verdict, show)
    heating = "" if summary.heating_h is None else wording.hours(summary.heating_h)
    lights = (summary.lights.load, summary.lights.kiln, summary.lights.safety)
    words = tuple(tr(LIGHT_WORDS[light]) for light in lights)
    day = "" if when is None else day_words(when)
    cells = (day, kept.title, kiln, goal_text, *words, heating, verdict)
    order = (
        0.0,
        kept.title.casefold(),
        kiln.casefold(),
        (wording.cone_temperature_c(goal) or 0.0) if goal else 0.0,
        *(float(_WORST_LAST.index(light)) for light in lights),
        summary.heating_h or 0.0,
        verdict.casefold(),
    )
    return FiringRow(cells, order, lights, " ".join(cells).casefold())


class FiringsModel(RowsModel):
    """The firings that are listed; a row is worked out when it is first looked at."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__([tr(heading) for heading in HEADINGS], parent)
        self._kilns: Mapping[int, str] = {}
        self._show = Show.CELSIUS
        self._worked_out: dict[int, FiringRow] = {}

    def show_firings(
        self, firings: Sequence[FiringKept], kilns: Mapping[int, str], show: Show
    ) -> None:
        """List other firings, oldest first, or the same in another unit."""
        self._kilns, self._show = kilns, show
        self._worked_out = {}
        self.set_rows(firings)

    def _row(self, place: int) -> FiringRow:
        if place not in self._worked_out:
            self._worked_out[place] = firing_row(self._rows[place], self._kilns, self._show)
        return self._worked_out[place]

    def answer(self, row: int, column: int, role: int) -> object:
        """Return a cell, its light, or what sorting and searching go by."""
        if role == ID_ROLE:
            return self._rows[row].id
        if role == SORT_ROLE and column == DATE:
            return float(row)
        wanted = _ANSWERS.get(role)
        return None if wanted is None else wanted(self._row(row), column)


def _light(row: FiringRow, column: int) -> Light | None:
    return row.lights[LIGHT_COLUMNS.index(column)] if column in LIGHT_COLUMNS else None


def _spoken(row: FiringRow, column: int) -> str:
    return f"{tr(HEADINGS[column])}: {row.cells[column] or wording.NOT_KNOWN}"


_ANSWERS: dict[int, Callable[[FiringRow, int], object]] = {
    Qt.ItemDataRole.DisplayRole: lambda row, column: row.cells[column],
    Qt.ItemDataRole.ToolTipRole: lambda row, column: row.cells[column],
    Qt.ItemDataRole.AccessibleTextRole: _spoken,
    LIGHT_ROLE: _light,
    SORT_ROLE: lambda row, column: row.order[column],
    FIND_ROLE: lambda row, _column: row.find,
}


class FiringsFound(QSortFilterProxyModel):
    """The firings that fit what is looked for, in the order of a column."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.setSortRole(SORT_ROLE)
        self.setFilterRole(FIND_ROLE)

    def look_for(self, text: str) -> None:
        """Keep the firings that have every one of the words."""
        words = (QRegularExpression.escape(word) for word in text.casefold().split())
        every = "".join(f"(?=.*{word})" for word in words)
        self.setFilterRegularExpression(QRegularExpression(every))
