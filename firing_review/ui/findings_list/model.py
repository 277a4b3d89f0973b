"""Findings as rows: number, sentence, and a line about how bad and when."""

from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QAbstractListModel, QModelIndex, QObject, QPersistentModelIndex, Qt

from firing_review.firing.findings import Finding, Severity
from firing_review.firing.wording import tr
from firing_review.report import wording
from firing_review.report.text import SEVERITY_WORDS
from firing_review.report.wording import Show

ROW_ROLE = Qt.ItemDataRole.UserRole
Index = QModelIndex | QPersistentModelIndex


@dataclass(frozen=True)
class FindingRow:
    """One finding as shown."""

    number: int
    severity: Severity
    sentence: str
    about: str

    @property
    def spoken(self) -> str:
        """Everything the row shows, as one line for a screen reader."""
        return f"{self.number}. {self.sentence} {self.about}"


def finding_rows(findings: tuple[Finding, ...], show: Show) -> list[FindingRow]:
    """Return findings as rows in the unit of the screen."""
    return [
        FindingRow(
            place + 1,
            finding.severity,
            wording.render(finding.summary, show),
            _about(finding),
        )
        for place, finding in enumerate(findings)
    ]


def _about(finding: Finding) -> str:
    word = tr(SEVERITY_WORDS[finding.severity])
    start, end = wording.hours(finding.start_h), wording.hours(finding.end_h)
    span = tr("at {start}") if start == end else tr("{start} to {end}")
    return f"{word} · {span.format(start=start, end=end)}"


class FindingsModel(QAbstractListModel):
    """Rows of findings for a list view."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._rows: list[FindingRow] = []

    def set_rows(self, rows: list[FindingRow]) -> None:
        """Show other rows; same number of rows keeps the selection."""
        if len(rows) == len(self._rows):
            self._rows = rows
            if rows:
                self.dataChanged.emit(self.index(0), self.index(len(rows) - 1))
            return
        self.beginResetModel()
        self._rows = rows
        self.endResetModel()

    def rowCount(self, parent: Index | None = None) -> int:
        """Return the number of findings."""
        return 0 if parent is not None and parent.isValid() else len(self._rows)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:  # noqa: ANN401
        """Return what a view asks for."""
        if not index.isValid() or index.row() >= len(self._rows):
            return None
        row = self._rows[index.row()]
        if role == Qt.ItemDataRole.DisplayRole:
            return row.sentence
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return row.spoken
        return row if role == ROW_ROLE else None
