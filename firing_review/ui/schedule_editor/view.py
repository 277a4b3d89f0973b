"""The schedule editor's layout."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from firing_review.firing.wording import tr
from firing_review.ui.appearance import Appearance
from firing_review.ui.chooser import Chooser
from firing_review.ui.text_table.view import TextTableView
from firing_review.ui.wrapped import Wrapped


class ScheduleView(QWidget):
    """Layout only: kept schedules, the table, its buttons, one line about what is wrong."""

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.kept = Chooser()
        self.kept.setAccessibleName(tr("Schedules you kept"))
        self.from_file = _button(tr("From a fi&le…"), tr("Take a schedule from a file"))
        self.hint = _text("muted")
        self.table = TextTableView(appearance)
        self.table.setAccessibleName(tr("Schedule: rate, target, hold"))
        self.table.setMinimumHeight(appearance.sizes.px(200))
        self.message = _text("wrong")
        self.quiet = _text("quiet")
        self.paste = _button(tr("&Paste"), tr("Paste rows from the clipboard"))
        self.insert = _button(tr("&Insert row"), tr("Insert a row above the current one"))
        self.remove = _button(tr("&Remove row"), tr("Remove the current row"))
        self.name = QLineEdit()
        self.name.setPlaceholderText(tr("name to keep it under"))
        self.name.setAccessibleName(tr("Name to keep this schedule under"))
        self.keep = _button(tr("K&eep"), tr("Keep this schedule under the name"))
        self._lay_out()

    def _lay_out(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 12, 12, 12)
        layout.setSpacing(8)
        layout.addLayout(_row(self.kept, self.from_file, stretch=0))
        layout.addWidget(self.hint)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.message)
        layout.addWidget(self.quiet)
        layout.addLayout(_row(self.paste, self.insert, self.remove))
        layout.addWidget(_line())
        layout.addLayout(_row(self.name, self.keep, stretch=0))


def _row(*widgets: QWidget, stretch: int | None = None) -> QHBoxLayout:
    row = QHBoxLayout()
    row.setSpacing(8)
    for widget in widgets:
        row.addWidget(widget)
    if stretch is not None:
        row.setStretch(stretch, 1)
    return row


def _button(text: str, spoken: str) -> QPushButton:
    button = QPushButton(text)
    button.setProperty("part", "half")
    button.setAccessibleName(spoken)
    button.setToolTip(spoken)
    return button


def _text(part: str) -> QLabel:
    label = Wrapped(part=part)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.NoTextInteraction)
    return label


def _line() -> QFrame:
    line = QFrame()
    line.setObjectName("line")
    line.setFixedHeight(1)
    return line
