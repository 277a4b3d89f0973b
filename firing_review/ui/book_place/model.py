"""Firings of a book as rows: date, name, kiln, goal, verdict, lights, hours."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QRegularExpression,
    QSortFilterProxyModel,
    Qt,
)

from firing_review.book.nouns import FiringKept
from firing_review.firing.results import Light, Lights
from firing_review.firing.said import N_
from firing_review.firing.wording import day as day_words
from firing_review.firing.wording import tr
from firing_review.report import wording
from firing_review.report.wording import Show

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
Index = QModelIndex | QPersistentModelIndex
_NO_DAY = ""


@dataclass(frozen=True)
class FiringRow:
    """One firing as listed; ``order`` sorts each column, ``find`` is what a search looks into."""

    firing_id: int
    cells: tuple[str, ...]
    order: tuple[str | float, ...]
    lights: Lights
    find: str


def firing_rows(
    firings: Sequence[FiringKept], kilns: Mapping[int, str], show: Show
) -> list[FiringRow]:
    """Return firings as rows, newest first, in the unit of the screen."""
    return [_row(kept, kilns, show) for kept in reversed(firings)]


def _row(kept: FiringKept, kilns: Mapping[int, str], show: Show) -> FiringRow:
    summary, when = kept.summary, kept.when
    kiln = kilns.get(kept.kiln_id or 0, "")
    goal = "" if summary.goal_cone is None else summary.goal_cone
    goal_text = wording.cone_label(goal, show) if goal else ""
    verdict = wording.render_all(summary.verdict, show)
    heating = "" if summary.heating_h is None else wording.hours(summary.heating_h)
    day = _NO_DAY if when is None else day_words(when)
    lights = summary.lights
    marks = (lights.load, lights.kiln, lights.safety)
    words = tuple(tr(LIGHT_WORDS[light]) for light in marks)
    cells = (day, kept.title, kiln, goal_text, *words, heating, verdict)
    order = (
        "" if when is None else when.isoformat(),
        kept.title.casefold(),
        kiln.casefold(),
        wording.cone_temperature_c(goal) or 0.0 if goal else 0.0,
        *(float(_WORST_LAST.index(light)) for light in marks),
        summary.heating_h or 0.0,
        verdict.casefold(),
    )
    return FiringRow(kept.id, cells, order, lights, " ".join(cells).casefold())


class FiringsModel(QAbstractTableModel):
    """The firings that are listed."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._rows: list[FiringRow] = []

    def set_rows(self, rows: list[FiringRow]) -> None:
        """Show other rows."""
        if rows == self._rows:
            return
        self.beginResetModel()
        self._rows = rows
        self.endResetModel()

    def rowCount(self, parent: Index | None = None) -> int:
        """Return the number of firings."""
        return 0 if parent is not None and parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index | None = None) -> int:
        """Return the number of columns."""
        return 0 if parent is not None and parent.isValid() else len(HEADINGS)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:  # noqa: ANN401
        """Return what a view asks for."""
        if not index.isValid() or index.row() >= len(self._rows):
            return None
        row, column = self._rows[index.row()], index.column()
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole):
            return row.cells[column]
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{tr(HEADINGS[column])}: {row.cells[column] or wording.NOT_KNOWN}"
        if role == LIGHT_ROLE and column in LIGHT_COLUMNS:
            lights = row.lights
            return (lights.load, lights.kiln, lights.safety)[LIGHT_COLUMNS.index(column)]
        found = {ID_ROLE: row.firing_id, SORT_ROLE: row.order[column], FIND_ROLE: row.find}
        return found.get(role)

    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> Any:  # noqa: ANN401
        """Return the headings."""
        if role == Qt.ItemDataRole.DisplayRole and orientation is Qt.Orientation.Horizontal:
            return tr(HEADINGS[section])
        return None


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
